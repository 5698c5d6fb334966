"""The stores that every contract test runs on."""

from pathlib import Path

import pytest
from memory_store import MemoryStore

from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import KeyValueStore


@pytest.fixture(params=["folder", "memory"])
def store(request: pytest.FixtureRequest, tmp_path: Path) -> KeyValueStore:
    return FolderStore(tmp_path / "deep" / "home") if request.param == "folder" else MemoryStore()
