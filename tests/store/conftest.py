"""The boxes that every contract test runs on."""

import importlib.util
from pathlib import Path

import pytest

from pondapp.store.box import Box
from pondapp.store.folder_box import FolderBox

# Loaded by its path: with importlib imports a test folder is no package.
_spec = importlib.util.spec_from_file_location(
    "memory_box", Path(__file__).parent / "memory_box.py"
)
assert _spec is not None
assert _spec.loader is not None
_memory = importlib.util.module_from_spec(_spec)
_spec.loader.exec_module(_memory)


@pytest.fixture(params=["folder", "memory"])
def box(request: pytest.FixtureRequest, tmp_path: Path) -> Box:
    if request.param == "folder":
        return FolderBox(tmp_path / "deep" / "home")
    made: Box = _memory.MemoryBox()
    return made
