"""What only the folder has: files, and what can go wrong with them."""

import asyncio
import os
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.store.folder_store import FolderStore, _key, _name
from pondapp.store.key_value_store import KEY, StoreError


@given(st.from_regex(KEY, fullmatch=True))
@settings(max_examples=100)
def test_every_key_has_a_file_name_of_its_own(key: str) -> None:
    name = _name(key)
    assert _key(name) == key
    assert name == name.lower()
    assert not set(name) & set('/\\:*?"<>|')


def test_the_longest_document_key_fits_in_a_file_name() -> None:
    assert len(_name(f"quarantine/preferences/{'A' * 64}/999")) <= 255


def test_another_box_on_the_folder_reads_what_was_put(tmp_path: Path) -> None:
    asyncio.run(FolderStore(tmp_path).put("pond/a", "kept"))
    assert asyncio.run(FolderStore(tmp_path).get("pond/a")) == "kept"
    assert [path.name for path in tmp_path.iterdir()] == ["pond.a.json"]


def test_foreign_and_half_written_files_are_no_documents(tmp_path: Path) -> None:
    for name in (".DS_Store", "notes.txt", ".x1.part", "pond.A.json", "pond.json", "pond.%61.json"):
        (tmp_path / name).write_text("x")
    assert asyncio.run(FolderStore(tmp_path).keys()) == []


def test_damaged_bytes_come_through_unchanged(tmp_path: Path) -> None:
    damaged = b'{"name": "\xff\xfe\x80"}'
    (tmp_path / "pond.a.json").write_bytes(damaged)
    store = FolderStore(tmp_path)
    text = asyncio.run(store.get("pond/a"))
    assert text is not None
    asyncio.run(store.put("quarantine/pond/a/1", text))
    assert (tmp_path / "quarantine.pond.a.1.json").read_bytes() == damaged


def test_a_failed_write_leaves_the_old_text_and_no_rest(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    store = FolderStore(tmp_path)
    asyncio.run(store.put("pond/a", "old"))

    def full(_handle: int) -> None:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(os, "fsync", full)
    with pytest.raises(StoreError, match="No space left on device"):
        asyncio.run(store.put("pond/a", "new"))
    assert asyncio.run(store.get("pond/a")) == "old"
    assert [path.name for path in tmp_path.iterdir()] == ["pond.a.json"]


def test_the_text_is_durable_before_it_gets_its_name(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    order: list[str] = []
    fsync, replace = os.fsync, Path.replace

    def watched_fsync(handle: int) -> None:
        kind = "folder" if os.path.isdir(f"/proc/self/fd/{handle}") else "file"  # noqa: PTH112
        order.append(kind)
        fsync(handle)

    def watched_replace(self: Path, target: Path) -> Path:
        order.append("rename")
        return replace(self, target)

    monkeypatch.setattr(os, "fsync", watched_fsync)
    monkeypatch.setattr(Path, "replace", watched_replace)
    asyncio.run(FolderStore(tmp_path).put("pond/a", "x"))
    assert order == ["file", "rename", "folder"]


def test_a_folder_that_cannot_be_one_is_reported(tmp_path: Path) -> None:
    (tmp_path / "home").write_text("a file")
    store = FolderStore(tmp_path / "home")
    with pytest.raises(StoreError, match="could not be written"):
        asyncio.run(store.put("pond/a", "x"))
    with pytest.raises(StoreError, match="could not be read"):
        asyncio.run(store.keys())
