"""Each wall between the packages holds, and would be seen to fall."""

import ast
import sys
from collections.abc import Iterator
from copy import deepcopy
from pathlib import Path
from typing import Any

import grimp
import pytest
from importlinter import api
from importlinter.contracts.forbidden import ForbiddenContract
from importlinter.contracts.layers import LayersContract
from importlinter.contracts.protected import ProtectedContract

import pondapp.core

CORE = Path(pondapp.core.__path__[0])


def imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


TYPES = {"layers": LayersContract, "forbidden": ForbiddenContract, "protected": ProtectedContract}


@pytest.fixture(scope="module")
def graph() -> Any:
    return grimp.build_graph("pondapp", include_external_packages=True, cache_dir=None)


def fallen(graph: Any) -> set[str]:
    """The contracts that are broken, by the first words of their names."""
    options = api.read_configuration(str(CORE.parent.parent / "pyproject.toml"))
    broken = set()
    for one in options["contracts_options"]:
        contract = TYPES[one["type"]](one["name"], options["session_options"], one)
        if not contract.check(deepcopy(graph), verbose=False).kept:
            broken.add(one["name"])
    return broken


@pytest.mark.parametrize(
    ("importer", "imported", "said"),
    [
        ("store.json_text", "pondapp.answers.log.log", ["layers"]),
        ("answers.log.log", "pondapp.store.key_value_store", ["answers know no", "layers"]),
        ("state.ids", "pondapp.ui.shell.navigate", ["layers", "what runs"]),
        ("ui.parts.names", "pondapp.core.hydraulics.solve", ["the core is asked"]),
        ("models.base", "pondapp.core.volume.outline", ["the core is asked"]),
        ("core.base.errors", "pydantic", ["the core needs nothing"]),
        ("ui.parts.names", "pint", ["pint is met"]),
        ("store.link", "js", ["the browser is met"]),
        ("ui.parts.names", "pyodide", ["the browser is met"]),
        ("state.ids", "flet", ["the framework is met", "what runs"]),
        ("web.places", "flet", ["the framework is met"]),
        ("answers.log.log", "js", ["answers know no", "the browser is met"]),
    ],
)
def test_an_import_that_breaks_a_wall_is_seen(
    graph: Any, importer: str, imported: str, said: list[str]
) -> None:
    module = f"pondapp.{importer}"
    graph.add_import(importer=module, imported=imported, line_number=1, line_contents="import")
    try:
        found = fallen(graph)
    finally:
        graph.remove_import(importer=module, imported=imported)
    assert len(found) == len(said), found
    assert all(any(name.startswith(words) for name in found) for words in said), found


def test_all_walls_stand_and_a_package_of_no_layer_is_seen(graph: Any) -> None:
    assert fallen(graph) == set()
    graph.add_module("pondapp.extra")
    try:
        (found,) = fallen(graph)
    finally:
        graph.remove_module("pondapp.extra")
    assert found.startswith("layers")


def test_the_core_needs_nothing_but_the_standard_library() -> None:
    modules = list(CORE.rglob("*.py"))
    assert len(modules) > 50
    allowed = {*sys.stdlib_module_names, "pondapp"}
    strangers = {
        f"{path.relative_to(CORE)}: {name}"
        for path in modules
        for name in imported(path)
        if name.partition(".")[0] not in allowed
        or (name.startswith("pondapp") and not name.startswith("pondapp.core"))
    }
    assert strangers == set()
