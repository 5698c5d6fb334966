"""Public functions of the core say their units, their errors and their source."""

import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator

import pint
import pytest

import pondapp.core

# Data and plumbing of the core itself: these hold no formula.
WITHOUT_FORMULA = ("base", "assumptions")


def public_functions() -> Iterator[tuple[str, object]]:
    for module in pkgutil.walk_packages(pondapp.core.__path__, "pondapp.core."):
        if module.name.split(".")[2] in WITHOUT_FORMULA:
            continue
        loaded = importlib.import_module(module.name)
        for name, thing in vars(loaded).items():
            if (
                inspect.isfunction(thing)
                and thing.__module__ == module.name
                and not name.startswith("_")
            ):
                yield f"{module.name}.{name}", thing


FUNCTIONS = dict(public_functions())
UNITS = pint.UnitRegistry(cache_folder=None)


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstring_gives_units_and_source(name: str) -> None:
    doc = inspect.getdoc(FUNCTIONS[name]) or ""
    assert "Returns:" in doc, "say what comes back"
    assert "Source:" in doc, "say where the formula is from"
    units = re.findall(r"\[([^\]]+)\]", doc)
    assert units, "give each quantity its unit in brackets, [-] for none"
    for unit in units:
        if unit not in ("-", "any"):
            UNITS.parse_units(re.sub(r"([a-z])([23])\b", r"\1**\2", unit))


@pytest.mark.parametrize("name", FUNCTIONS)
def test_docstring_names_what_it_raises(name: str) -> None:
    function = FUNCTIONS[name]
    if re.search(r"\braise \w|\brequire_(within|above)\(", inspect.getsource(function)):
        assert "Raises:" in (inspect.getdoc(function) or "")
