"""What is read ahead for the snapshot of Python's memory is there to be read."""

import ast

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
