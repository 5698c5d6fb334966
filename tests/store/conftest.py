"""The boxes that every contract test runs on."""

from pathlib import Path

import pytest
from memory_box import MemoryBox

from pondapp.store.box import Box
from pondapp.store.folder_box import FolderBox


@pytest.fixture(params=["folder", "memory"])
def box(request: pytest.FixtureRequest, tmp_path: Path) -> Box:
    return FolderBox(tmp_path / "deep" / "home") if request.param == "folder" else MemoryBox()
