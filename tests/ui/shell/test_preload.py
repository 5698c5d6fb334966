"""What is read ahead for the snapshot of Python's memory is there to be read."""

import ast
import sys

import flet as ft

from pondapp.models.base import Document
from pondapp.models.pond import Pond
from pondapp.ui.shell import preload
from pondapp.web import bundle, places


def test_the_framework_has_every_part_that_is_asked_for() -> None:
    (call,) = (
        node
        for node in ast.walk(ast.parse(bundle.app_files(places.PACKAGE)["ahead.py"]))
        if isinstance(node, ast.Call)
    )
    names = ast.literal_eval(call.args[0])
    assert {"Text", "FilledButton", "run", "use_state"} <= set(names)
    assert [name for name in names if not hasattr(ft, name)] == []


def test_every_kind_of_document_is_made_ready() -> None:
    kinds = list(preload._and_kinds_of(Document))
    assert Pond in kinds
    for kind in kinds:
        kind.model_rebuild()
        assert kind.__pydantic_complete__, kind


def test_packages_that_are_read_on_first_use_are_read_ahead() -> None:
    """Else a touch after a start from a snapshot waits for the files of all modules."""
    late = set()
    for path in places.PACKAGE.rglob("*.py"):
        if path.is_relative_to(places.PACKAGE / "web"):
            continue  # builds the site, and is not in it
        for function in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(function, ast.FunctionDef | ast.AsyncFunctionDef):
                for node in ast.walk(function):
                    if isinstance(node, ast.Import):
                        late |= {alias.name.partition(".")[0] for alias in node.names}
                    elif isinstance(node, ast.ImportFrom) and node.module:
                        late.add(node.module.partition(".")[0])
    elsewhere = {"pondapp", "flet_js", "js", "pyodide", "platformdirs"}  # no snapshot lacks them
    by_units = {"pint"}  # units.get_ready
    assert late - sys.stdlib_module_names - elsewhere - by_units == set(preload.OF_PACKAGES)
