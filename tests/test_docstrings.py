"""Public functions of the core say their units, their errors and their source, and show a use.

The examples run: a number in a docstring is what the formula gives.
"""

import doctest
import importlib
import inspect
import pkgutil
import re
from collections.abc import Callable, Iterator
from types import ModuleType

import pint
import pytest

import pondapp.core
from pondapp import units

# Data and plumbing of the core itself: these hold no formula.
WITHOUT_FORMULA = ("base", "assumptions")
# Tools for numbers of any unit, which the result then has too.
IN_ANY_UNIT = ("hydraulics.solve", "measuring.uncertainty", "stock.span", "stock.balance.fit")


def core_modules() -> Iterator[ModuleType]:
    for module in pkgutil.walk_packages(pondapp.core.__path__, "pondapp.core."):
        yield importlib.import_module(module.name)


def public_functions() -> Iterator[tuple[str, Callable[..., object]]]:
    for module in core_modules():
        if module.__name__.split(".")[2] in WITHOUT_FORMULA:
            continue
        for name, thing in vars(module).items():
            # A function that remembers its results wraps the one that was written.
            thing = inspect.unwrap(thing) if callable(thing) else thing
            if (
                inspect.isfunction(thing)
                and thing.__module__ == module.__name__
                and not name.startswith("_")
            ):
                yield f"{module.__name__}.{name}".removeprefix("pondapp.core."), thing


FUNCTIONS = dict(public_functions())
UNITS = pint.UnitRegistry(cache_folder=None)


def units_in(text: str) -> list[str]:
    return re.findall(r"\[([^\]]+)\]", text)


def returned(doc: str) -> str:
    """What a docstring says of the result."""
    return re.split(r"\n\w+:\n", doc.partition("Returns:")[2])[0]


def has_amounts(name: str) -> bool:
    """Whether a number goes in or comes out."""
    signature = inspect.signature(FUNCTIONS[name])
    kinds = [part.annotation for part in signature.parameters.values()]
    return any("float" in str(kind) for kind in (*kinds, signature.return_annotation))


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstring_gives_units_and_source(name: str) -> None:
    doc = inspect.getdoc(FUNCTIONS[name]) or ""
    assert "Returns:" in doc, "say what comes back"
    for unit in units_in(doc.partition("Example:")[0]):
        if unit != "-":
            UNITS.parse_units(re.sub(r"([a-z])([23])\b", r"\1**\2", unit))
    if has_amounts(name) and not name.startswith(IN_ANY_UNIT):
        assert units_in(doc), "give each quantity its unit in brackets, [-] for none"
        assert "Source:" in doc, "say where the formula is from"


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstring_names_what_it_raises(name: str) -> None:
    function = FUNCTIONS[name]
    if re.search(r"\braise \w|\brequire_(within|above)\(", inspect.getsource(function)):
        assert "Raises:" in (inspect.getdoc(function) or "")


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstring_of_a_formula_has_an_example(name: str) -> None:
    doc = inspect.getdoc(FUNCTIONS[name]) or ""
    if units_in(returned(doc)):
        assert re.search(r"\n +>>> .+\n +[^>\s]", doc.partition("Example:")[2]), "show a use"


@pytest.mark.parametrize("module", [*core_modules(), units], ids=lambda module: module.__name__)
def test_the_examples_give_what_they_say(module: ModuleType) -> None:
    assert doctest.testmod(module).failed == 0
