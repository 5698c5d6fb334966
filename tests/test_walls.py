"""What the contracts of import-linter cannot say: they know what is named to them only."""

import ast
import sys
from collections.abc import Iterator
from pathlib import Path

import pondapp.core

CORE = Path(pondapp.core.__path__[0])


def imported(path: Path) -> Iterator[str]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            yield from (name.name for name in node.names)
        elif isinstance(node, ast.ImportFrom):
            yield node.module or ""


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
