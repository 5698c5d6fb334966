import asyncio
import sys
from pathlib import Path

import platformdirs
import pytest

from pondapp.store.folder_store import FolderStore
from pondapp.store.places import home_folder, this_device


def test_the_variable_names_the_folder(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("PONDAPP_HOME", str(tmp_path / "mine"))
    store = asyncio.run(this_device())
    assert isinstance(store, FolderStore)
    assert store.folder == tmp_path / "mine"
    assert not store.folder.exists()  # nothing is made before something is saved


@pytest.mark.parametrize("empty", [None, ""])
def test_otherwise_the_system_does(monkeypatch: pytest.MonkeyPatch, empty: str | None) -> None:
    if empty is None:
        monkeypatch.delenv("PONDAPP_HOME", raising=False)
    else:
        monkeypatch.setenv("PONDAPP_HOME", empty)
    assert home_folder() == platformdirs.user_data_path("pondapp", appauthor=False)


def test_a_desktop_needs_no_browser_and_the_store_no_screen() -> None:
    import subprocess

    code = (
        "import sys, pondapp.store.places, pondapp.store.documents\n"
        "sys.exit(any(name in sys.modules for name in ('flet', 'js', 'pyodide')))"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0
