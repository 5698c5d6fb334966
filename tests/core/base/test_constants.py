"""Hours, days and 0 °C stand once: whoever wants one imports it."""

import ast
from pathlib import Path

import pytest

import pondapp
from pondapp.core.base import constants

PACKAGE = Path(pondapp.__file__).parent
ONCE = {constants.HOUR: "HOUR", constants.DAY: "DAY", constants.ZERO_CELSIUS: "ZERO_CELSIUS"}
MODULES = [path for area in ("core", "answers") for path in sorted((PACKAGE / area).rglob("*.py"))]


@pytest.mark.parametrize("path", MODULES, ids=lambda path: str(path.relative_to(PACKAGE)))
def test_no_module_has_an_hour_a_day_or_a_zero_of_its_own(path: Path) -> None:
    if path.name == "constants.py":
        return
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
            assert node.value not in ONCE, f"line {node.lineno}: write {ONCE[node.value]}"
