"""What no snapshot holds is brought once, and one that did not come is asked for again."""

import importlib
import sys
from collections.abc import Iterator
from pathlib import Path
from types import SimpleNamespace

import pytest

from pondapp.ui.shell import late_modules


@pytest.fixture
def page(monkeypatch: pytest.MonkeyPatch) -> Iterator[SimpleNamespace]:
    """Stands for the page, and may bring files."""
    before = list(sys.meta_path)
    made = SimpleNamespace(bringModules=lambda: True)
    monkeypatch.setitem(sys.modules, "flet_js", made)
    late_modules.bring_when_asked()
    yield made
    sys.meta_path[:] = before


def waiting() -> int:
    return sum(isinstance(one, late_modules.LateModules) for one in sys.meta_path)


def test_files_that_do_not_come_are_a_missing_module_and_asked_for_again(
    page: SimpleNamespace, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    page.bringModules = lambda: False
    for _ in range(2):
        with pytest.raises(ImportError, match="do not come") as told:
            importlib.import_module("brought_late_by_a_test")
        assert told.value.name == "brought_late_by_a_test"
        assert waiting() == 1

    monkeypatch.syspath_prepend(tmp_path)
    file = tmp_path / "brought_late_by_a_test.py"
    page.bringModules = lambda: file.write_text("HERE = 1\n") > 0
    assert importlib.import_module("brought_late_by_a_test").HERE == 1
    del sys.modules["brought_late_by_a_test"]
    assert waiting() == 0


def test_what_nobody_has_is_asked_for_once(page: SimpleNamespace) -> None:
    asked: list[int] = []

    def bring() -> bool:
        asked.append(1)
        return True

    page.bringModules = bring
    for _ in range(2):
        with pytest.raises(ModuleNotFoundError):
            importlib.import_module("no_such_module_of_a_test")
    assert asked == [1]
