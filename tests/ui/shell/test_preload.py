"""What is read ahead for the snapshot of Python's memory is there to be read."""

import ast

import flet as ft

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
