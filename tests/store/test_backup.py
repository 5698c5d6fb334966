"""A backup holds everything, a restore loses nothing."""

import asyncio
import json
import time
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

import pytest
from memory_store import MemoryStore

from pondapp.models.backup import FORMAT, FORMAT_VERSION, KINDS, schema
from pondapp.models.entry import Entry, FreeNote, Photo
from pondapp.models.limits import DEEPEST, MOST_PHOTOS
from pondapp.models.migrate import TooNew
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Bucket, Container, Fill, Reading
from pondapp.models.water import TypedVolume
from pondapp.store import backup, backup_file
from pondapp.store.backup_file import pieces_of, plan_file, whole
from pondapp.store.documents import list_all, save
from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import Changed, KeyValueStore, StoreError

NOW = datetime(2026, 5, 6, 7, 8, tzinfo=UTC)
TUB = Container(id="tub", name="Tub", volume_m3=0.04, tolerance_m3=0.001)
NEWER = '{"schema_version": 99, "id": "far", "depth": 1}'


def pond(name: str, pond_id: str = "p") -> Pond:
    return Pond(id=pond_id, name=name, water=TypedVolume(volume_m3=1))


def reading(reading_id: str, pond_id: str = "p") -> Reading:
    return Reading(
        id=reading_id, pond_id=pond_id, place_id="lip", place_name="Lip", taken_at=NOW,
        method=Bucket(container=TUB, fills=(Fill(seconds=7.25),)), band=None,
    )  # fmt: skip


def fill(store: KeyValueStore) -> None:
    asyncio.run(save(store, "pond", pond("Old")))
    asyncio.run(save(store, "pond", pond("Other", "q")))
    asyncio.run(save(store, "reading", reading("r1")))
    asyncio.run(save(store, "reading", reading("r2", "q")))
    asyncio.run(save(store, "draft", Draft(id="new", texts={"name": "Half"}, units="us")))
    asyncio.run(save(store, "preferences", Preferences(units="us", containers=(TUB,))))
    asyncio.run(store.put("pond/far", NEWER))
    asyncio.run(store.put("reading/bad", '{"schema_version": 1, "id": "ba'))


def file_of(store: KeyValueStore, pond_id: str | None = None) -> bytes:
    return asyncio.run(whole(backup.everything(store, NOW, pond_id=pond_id)))


def look_at(store: KeyValueStore, data: bytes) -> backup.Preview:
    return asyncio.run(backup.preview(store, data))


def texts(store: KeyValueStore) -> dict[str, str]:
    return {key: text for key, text in asyncio.run(store.items()) if not key.startswith("before/")}


def first_format(**parts: Any) -> bytes:
    """A file as the first versions of the app wrote it."""
    begin = {"format": FORMAT, "format_version": 1, "holds": "pond", "documents": {}}
    return json.dumps({**begin, "saved_at": NOW.isoformat(), **parts}, indent=1).encode()


def plain(document: Any) -> Any:
    return json.loads(document.model_dump_json())


def lines_of(*lines: Any, holds: str = "everything") -> bytes:
    """A file of these lines, with the head and no end."""
    head = {"format": FORMAT, "format_version": 2, "holds": holds, "saved_at": NOW.isoformat()}
    return b"".join(json.dumps(line).encode() + b"\n" for line in (head, *lines))


def test_everything_comes_back_on_an_empty_device(store: KeyValueStore, tmp_path: Path) -> None:
    fill(store)
    other = FolderStore(tmp_path / "other")
    look = look_at(other, file_of(store))
    assert (look.count("new"), look.count("newer"), look.count("unreadable")) == (6, 1, 1)
    assert (look.complete, look.touched) == (True, False)
    assert texts(other) == {}  # looking writes nothing
    asyncio.run(backup.restore(other, look, "merge", NOW))
    assert texts(other) == texts(store)


def test_a_file_is_one_document_a_line_and_photos_come_last(store: KeyValueStore) -> None:
    fill(store)
    for number in range(3):
        asyncio.run(save(store, "entry", photo(number)))
        asyncio.run(save(store, "entry", note(f"n{number}")))
    lines = [json.loads(line) for line in file_of(store).decode().splitlines()]
    assert lines[0]["format_version"] == FORMAT_VERSION
    kinds = [line.get("document", {}).get("what", {}).get("kind") for line in lines]
    assert kinds[-4:] == ["photo", "photo", "photo", None]
    assert kinds.count("note") == 3
    assert lines[-1]["end"] == {"pond": 3, "reading": 3, "entry": 6, "draft": 1, "preferences": 1}
    assert sum(lines[-1]["end"].values()) == len(lines) - 2


def test_the_schema_names_every_kind() -> None:
    described = schema()
    assert described["$id"] == f"urn:{FORMAT}:{FORMAT_VERSION}"
    named = described["$defs"]["DocumentLine"]["properties"]["document"]["anyOf"]
    assert [one["$ref"].rpartition("/")[2] for one in named] == [
        model.__name__ for model in KINDS.values()
    ]


def in_file(look: backup.Preview) -> int:
    """How many documents of the file can be read."""
    return sum(look.count(state) for state in ("new", "changed", "same"))


def test_a_preview_tells_new_changed_and_same_apart(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    asyncio.run(save(store, "pond", pond("Later", "z")))
    asyncio.run(store.delete("reading/q/r2"))
    look = look_at(store, data)
    assert [look.count(state, "pond") for state in ("changed", "same", "only here")] == [1, 2, 1]
    assert look.ponds == ["Old", "Other"]
    assert look.count("new", "reading") == 1
    assert in_file(look) == 7  # what a newer app wrote is the same too


def test_merging_removes_nothing_and_replacing_makes_it_as_in_the_file(
    store: KeyValueStore,
) -> None:
    fill(store)
    before = texts(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    asyncio.run(save(store, "pond", pond("Later", "z")))
    asyncio.run(backup.restore(store, look_at(store, data), "merge", NOW))
    ponds = {one.name for one in asyncio.run(list_all(store, "pond", Pond)).documents}
    assert ponds - {"Old", "Renamed", "Old (2)", "Renamed (2)"} == {"Other", "Later"}
    assert len(ponds) == 4  # nobody knows which of two follows from the other
    asyncio.run(backup.restore(store, look_at(store, data), "replace", NOW))
    after = {key: text for key, text in texts(store).items() if not key.startswith("quarantine/")}
    assert after == before


def test_a_restore_can_be_taken_back_and_that_too(store: KeyValueStore) -> None:
    assert asyncio.run(backup.can_undo_restore(store)) is None
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    asyncio.run(save(store, "pond", pond("Only here", "z")))
    asyncio.run(store.delete("reading/q/r2"))
    before = texts(store)
    asyncio.run(backup.restore(store, look_at(store, data), "replace", NOW))
    restored = texts(store)
    assert restored != before
    assert asyncio.run(backup.can_undo_restore(store)) == NOW
    asyncio.run(backup.undo_restore(store, NOW))
    assert texts(store) == before
    asyncio.run(save(store, "pond", pond("Since", "since")))
    asyncio.run(backup.undo_restore(store, NOW))
    after = texts(store)
    assert after.pop("pond/since")  # what was done since stays
    assert after == restored


def test_a_second_restore_is_what_is_taken_back(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    asyncio.run(backup.restore(store, look_at(store, data), "merge", NOW))
    asyncio.run(save(store, "reading", reading("r1").model_copy(update={"note": "mine"})))
    before = texts(store)
    asyncio.run(backup.restore(store, look_at(store, data), "merge", NOW))
    asyncio.run(backup.undo_restore(store, NOW))
    assert texts(store) == before
    kept = asyncio.run(store.keys("before/"))
    assert len(kept) == 2  # that of the restore before is gone


def test_the_same_file_twice_leaves_what_can_be_taken_back(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    before = texts(store)
    assert asyncio.run(backup.restore(store, look_at(store, data), "replace", NOW))
    later = NOW + timedelta(hours=1)
    for how in ("merge", "replace"):
        assert not asyncio.run(backup.restore(store, look_at(store, data), how, later))
    assert asyncio.run(backup.can_undo_restore(store)) == NOW
    asyncio.run(backup.undo_restore(store, later))
    assert texts(store) == before


def test_without_room_for_a_copy_the_restore_goes_without_and_offers_nothing(
    store: KeyValueStore,
) -> None:
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    look = look_at(store, data)
    writes, keeps = look.needs("merge")
    assert (writes, keeps) == (len(texts(store)["pond/q"]) - 2, len(texts(store)["pond/p"]))
    asyncio.run(backup.restore(store, look, "merge", NOW, keep_copy=False))
    assert asyncio.run(backup.can_undo_restore(store)) is None
    assert json.loads(texts(store)["pond/p"])["name"] == "Old"


def test_a_copy_that_an_early_version_kept_is_taken_back_too(store: KeyValueStore) -> None:
    old = first_format(holds="everything", documents={"pond": [plain(pond("As it was"))]})
    asyncio.run(save(store, "pond", pond("Restored")))
    asyncio.run(save(store, "pond", pond("Restored too", "z")))
    asyncio.run(store.put(backup.COPY, old.decode()))
    assert asyncio.run(backup.can_undo_restore(store)) == NOW
    asyncio.run(backup.undo_restore(store, NOW))
    assert [one.name for one in asyncio.run(list_all(store, "pond", Pond)).documents] == [
        "As it was"
    ]
    asyncio.run(backup.undo_restore(store, NOW))
    assert len(asyncio.run(list_all(store, "pond", Pond)).documents) == 2


def test_merging_keeps_own_units_and_what_is_half_typed(store: KeyValueStore) -> None:
    mine = Container(id="mine", name="Mine", volume_m3=0.01, tolerance_m3=0.001)
    asyncio.run(save(store, "preferences", Preferences(units="metric", containers=(mine,))))
    asyncio.run(save(store, "draft", Draft(id="new", texts={"name": "Now"})))
    theirs = lines_of(
        {"key": "draft/new", "document": plain(Draft(id="new", texts={"name": "Then"}))},
        {"key": "preferences/app", "document": plain(Preferences(units="us", containers=(TUB,)))},
    )
    asyncio.run(backup.restore(store, look_at(store, theirs), "merge", NOW))
    merged = asyncio.run(list_all(store, "preferences", Preferences)).documents[0]
    assert (merged.units, merged.containers) == ("metric", (mine, TUB))
    assert asyncio.run(list_all(store, "draft", Draft)).documents[0].texts == {"name": "Now"}


def test_one_pond_leaves_the_others_alone(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store, "p")
    look = look_at(store, data)
    assert (look.holds, look.ponds, look.count("same", "reading")) == ("pond", ["Old"], 1)
    asyncio.run(save(store, "reading", reading("r9")))
    asyncio.run(backup.restore(store, look_at(store, data), "replace", NOW))
    kept = {one.id for one in asyncio.run(list_all(store, "reading", Reading)).documents}
    assert kept == {"r1", "r2"}  # r9 was of this pond, r2 is of the other
    plan = plan_file(pond("Plan"), NOW)
    asyncio.run(backup.restore(store, look_at(store, plan), "replace", NOW))
    assert len(asyncio.run(list_all(store, "reading", Reading)).documents) == 2
    with pytest.raises(StoreError, match="not on this device"):
        file_of(store, "none")


class Failing(FolderStore):
    """A disk that fails at a given write."""

    left = 0

    async def put(self, key: str, text: str) -> None:
        if self.left == 0:
            raise StoreError("no room")
        self.left -= 1
        await super().put(key, text)


@pytest.mark.parametrize("writes", range(12))
def test_an_interrupted_restore_loses_nothing(tmp_path: Path, writes: int) -> None:
    source = FolderStore(tmp_path / "source")
    fill(source)
    data = file_of(source)
    store = Failing(tmp_path / "home")
    store.left = -1
    asyncio.run(save(store, "pond", pond("Mine", "mine")))
    asyncio.run(save(store, "pond", pond("My version")))
    before = texts(store)
    look = look_at(store, data)
    store.left = writes
    with pytest.raises(StoreError, match="no room"):
        asyncio.run(backup.restore(store, look, "replace", NOW))
    store.left = -1
    assert texts(store).keys() >= before.keys()  # nothing is removed before all is written
    if writes:
        asyncio.run(backup.undo_restore(store, NOW))
    assert texts(store).items() >= before.items()


def test_a_change_in_another_tab_stops_a_restore(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Mine")))
    look = look_at(store, data)
    asyncio.run(store.put("pond/p", pond("Theirs").model_dump_json()))
    with pytest.raises(Changed):
        asyncio.run(backup.restore(store, look, "replace", NOW))
    assert "Theirs" in texts(store)["pond/p"]
    assert asyncio.run(backup.can_undo_restore(store)) is None


def test_newer_documents_are_kept_as_they_are(store: KeyValueStore) -> None:
    data = first_format(
        documents={"pond": [json.loads(NEWER)], "something": [{"id": "s", "of": "later"}]},
    )
    look = look_at(store, data)
    assert [one.state for one in look.problems] == ["newer", "newer"]
    asyncio.run(backup.restore(store, look, "replace", NOW))
    kept = {"pond/far": json.loads(NEWER), "something/s": {"id": "s", "of": "later"}}
    assert {key: json.loads(text) for key, text in texts(store).items()} == kept
    again = look_at(MemoryStore(), file_of(store))
    assert again.as_stored.keys() == kept.keys()
    mine = lines_of({"key": "pond/far", "document": plain(pond("Mine", "far"))})
    look = look_at(store, mine)
    assert "newer version of the app saved it here" in look.problems[0].reason
    asyncio.run(backup.restore(store, look, "merge", NOW))
    assert json.loads(texts(store)["pond/far"]) == json.loads(NEWER)


def test_what_is_damaged_here_is_mended_by_the_file_and_can_be_had_back(
    store: KeyValueStore,
) -> None:
    asyncio.run(save(store, "pond", pond("Whole")))
    data = file_of(store)
    asyncio.run(store.put("pond/p", '{"schema_version": 1, "id": "p", "na'))
    asyncio.run(backup.restore(store, look_at(store, data), "merge", NOW))
    assert [one.name for one in asyncio.run(list_all(store, "pond", Pond)).documents] == ["Whole"]
    asyncio.run(backup.undo_restore(store, NOW))
    assert texts(store)["pond/p"].endswith('"na')


@pytest.mark.parametrize(
    "data",
    [
        b"", b"{", b"[]", b"null", b"\xff\xfe", b'{"format": "other"}', b"[" * 100_000,
        b'{"format": "pondapp-backup"}', b"9" * 10_000, b"\n" * 20_000, b'{"a":' * 100_000,
        b'{"format": "pondapp-backup", "format_version": true}',
        b'{"format": "pondapp-backup", "format_version": 1}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {"pond": 1}}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {}}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {}, "as_stored": 5}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {}, "saved_at": "now"}',
        b'{"format": "pondapp-backup", "format_version": 2}',
        b'{"format": "pondapp-backup", "format_version": 2, "holds": "pond", "saved_at": "now"}',
        b'{"format": "pondapp-backup", "format_version": 2, "holds": "pond", '
        b'"saved_at": "9999-12-31T23:59:59-12:00"}',
        first_format(documents={"pond": [[[]], json.loads("[" * 70 + "]" * 70)]}),
    ],
)  # fmt: skip
def test_what_is_no_backup_is_refused(store: KeyValueStore, data: bytes) -> None:
    with pytest.raises(StoreError):
        look_at(store, data)


def test_a_file_of_the_first_format_beyond_the_limit_is_refused(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup_file, "LARGEST_FIRST_FORMAT", 2_000_000)
    with pytest.raises(StoreError, match="damaged, or no backup"):
        look_at(store, b" " * 2_100_000)


@pytest.mark.parametrize("data", [first_format(format_version=3), lines_of()])
def test_a_newer_format_is_refused_whole(store: KeyValueStore, data: bytes) -> None:
    data = data.replace(b'"format_version": 2', b'"format_version": 3')
    with pytest.raises(TooNew, match="update the app first"):
        look_at(store, data)


def test_bad_entries_of_the_first_format_hide_no_good_ones(store: KeyValueStore) -> None:
    good = plain(pond("Good"))
    data = first_format(
        documents={
            "pond": [good, good, 5, {"id": "../x"}, {"id": "y"}, {**good, "id": "z", "fed": 1}],
            "aside": [{"id": "x"}],
            "quarantine": [{"id": "x"}],
            "before": [{"id": "restore"}],
        },
        as_stored={"before/restore": "x", "pond/../x": "y", "pond/w": 5, "reading/k": "cut o"},
    )
    look = look_at(store, data)
    assert look.count("new") == 1
    assert look.count("unreadable") == 12
    asyncio.run(backup.restore(store, look, "merge", NOW))
    assert texts(store).keys() == {"pond/p", "pond/y", "pond/z", "reading/k"}


def test_bad_lines_hide_no_good_ones_and_then_nothing_is_removed(store: KeyValueStore) -> None:
    asyncio.run(save(store, "pond", pond("Only here", "z")))
    deep = b'{"key": "pond/deep", "document": ' + b"[" * 9000 + b"]" * 9000 + b"}\n"
    large = b'{"key": "reading/large", "text": "' + b"x" * 20_000_000 + b'"}\n'
    data = b"".join(
        [
            lines_of({"key": "pond/p", "document": plain(pond("Good"))}),
            b"\xff\xfe nonsense\n[]\n{}\n", deep, large, b'{"end":' + b"[" * 9000 + b"\n",
            b'{"key": "pond/deeper","document":{"a":' + b"[" * 9000 + b"]" * 9000 + b"}}\n",
            b'{"key":"pond/raw","document":{"a":' + b"[" * 9000 + b"]" * 9000 + b"}}\n",
            b'{"key": "../x", "text": ""}\n{"key": "before/restore", "text": "x"}\n',
            b'{"key": "pond/q", "document": ' + pond("Good too", "q").model_dump_json().encode(),
            b"}",
        ]
    )  # fmt: skip
    begun = time.perf_counter()
    look = look_at(store, data)
    assert time.perf_counter() - begun < 20
    assert look.ponds == ["Good", "Good too"]
    assert not look.complete
    assert look.only_here == {}
    with pytest.raises(StoreError, match="not complete"):
        asyncio.run(backup.restore(store, look, "replace", NOW))
    asyncio.run(backup.restore(store, look, "merge", NOW))
    kept = texts(store)
    assert {"pond/p", "pond/q", "pond/z", "reading/large", "pond/raw"} <= kept.keys()
    assert kept["reading/large"] == "x" * 20_000_000  # set aside, as it is
    assert asyncio.run(list_all(store, "pond", Pond)).errors[0].key == "pond/raw"
    again = look_at(MemoryStore(), file_of(store))  # what was written can be read
    assert (again.complete, again.count("new", "pond")) == (True, 3)
    assert again.as_stored["reading/large"] == "x" * 20_000_000


def test_a_file_that_is_cut_off_anywhere_is_known_for_it(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store)
    lines = data.splitlines(keepends=True)
    for cut in (len(data) - 2, len(data) - len(lines[-1]), len(lines[0]) + 5, data.index(b"Other")):
        look = look_at(MemoryStore(), data[:cut])
        assert not look.complete
    missing = look_at(MemoryStore(), b"".join(lines[:2] + lines[3:]))
    assert (missing.complete, missing.touched) == (False, True)
    edited = look_at(MemoryStore(), data.replace(b"Other", b"Outer"))
    assert (edited.complete, edited.touched) == (True, True)
    assert "Outer" in edited.ponds


@pytest.mark.parametrize("size", [1, 7, 100, 3000])
def test_a_file_may_come_in_pieces_of_any_size(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch, size: int
) -> None:
    fill(store)
    data = file_of(store)
    monkeypatch.setattr(backup_file, "PIECE", size)
    look = asyncio.run(backup.preview(MemoryStore(), pieces_of(data)))
    assert (look.complete, look.touched, in_file(look)) == (True, False, 6)
    assert in_file(look_at(MemoryStore(), file_of(store))) == 6


def test_a_file_of_more_than_anyone_has_is_refused(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch
) -> None:
    fill(store)
    data = file_of(store)
    monkeypatch.setattr(backup, "MOST_DOCUMENTS", 1)
    with pytest.raises(StoreError, match="more documents than a backup can"):
        look_at(store, data)
    monkeypatch.setattr(backup_file, "LARGEST_LINE", 50)
    look = look_at(store, data[: data.index(b"\n") + 1] + b"x" * 200 + b"\n")
    assert look.problems[0].reason == "a line of the file is too long to be read"


@pytest.mark.parametrize(("limit", "most"), [("MOST_DOCUMENTS", 7), ("LARGEST_FILE", 1500)])
def test_what_no_file_could_bring_back_is_told_before_it_is_written(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch, limit: str, most: int
) -> None:
    fill(store)
    assert len(file_of(store)) > 1500
    for name, value in (("MOST_HEAD", 100), (limit, most)):
        monkeypatch.setattr(backup_file, name, value)
    with pytest.raises(StoreError, match="more here than one file can hold"):
        file_of(store)
    assert file_of(store, "q")  # each pond by itself


@pytest.mark.parametrize("letter", ["x", "ü", "\x00", "\n", "水", '"', "\udc80"])
@pytest.mark.parametrize("count", [900, 160, 440])
def test_what_is_written_is_read_however_many_bytes_its_letters_take(
    monkeypatch: pytest.MonkeyPatch, letter: str, count: int
) -> None:
    store = MemoryStore()
    asyncio.run(store.put("pond/large", letter * count))
    asyncio.run(save(store, "pond", pond("Small")))
    for module in (backup_file, backup):
        monkeypatch.setattr(module, "LARGEST_LINE", 1000, raising=False)
    tally = backup_file.Written()
    data = asyncio.run(whole(backup.everything(store, NOW, tally)))
    look = look_at(MemoryStore(), data)
    assert (look.complete, look.touched) == (True, False)
    assert [one for one in look.problems if not one.name] == []  # no line is too long
    fits = "pond/large" not in tally.too_large
    assert look.as_stored == ({"pond/large": backup_file._whole(letter * count)} if fits else {})
    assert fits or count > 160


@pytest.mark.parametrize("most", [300, 900, 1700])
def test_more_than_fits_at_once_is_taken_in_part_by_part(
    store: KeyValueStore, monkeypatch: pytest.MonkeyPatch, most: int
) -> None:
    fill(store)
    data = file_of(store)
    other = MemoryStore()
    asyncio.run(save(other, "pond", pond("Only here", "z")))
    monkeypatch.setattr(backup, "MOST_TAKEN_IN", most)
    waiting = [9]
    while waiting[-1]:
        before = texts(other)
        look = look_at(other, data)
        assert look.later < waiting[-1]  # each time brings some more
        waiting.append(look.later)
        assert not (look.later and look.only_here)
        if look.later:
            with pytest.raises(StoreError):
                asyncio.run(backup.restore(other, look, "replace", NOW))
            assert texts(other) == before
        asyncio.run(backup.restore(other, look, "merge", NOW))
        assert texts(other).items() >= before.items()
    assert len(waiting) > 3 or most > 300
    asyncio.run(backup.restore(other, look_at(other, data), "replace", NOW))
    assert texts(other) == texts(store)


def test_how_far_a_restore_is_can_be_told(store: KeyValueStore) -> None:
    fill(store)
    data = file_of(store)
    asyncio.run(save(store, "pond", pond("Renamed")))
    far: list[int] = []
    asyncio.run(backup.restore(store, look_at(store, data), "replace", NOW, done=far.append))
    asyncio.run(backup.undo_restore(store, NOW, done=far.append))
    assert far
    assert all(0 <= share <= 100 for share in far)


def photo(number: int, pond_id: str = "p") -> Entry:
    return Entry(
        id=f"photo{number}", pond_id=pond_id, when=NOW + timedelta(minutes=number),
        what=Photo(jpeg="/9j/" + "A" * 400),
    )  # fmt: skip


def note(note_id: str) -> Entry:
    return Entry(id=note_id, pond_id="p", when=NOW, what=FreeNote(), note="windy")


def test_merging_keeps_to_the_limit_of_photos_and_says_so_before(store: KeyValueStore) -> None:
    other = MemoryStore()
    for number in range(MOST_PHOTOS):
        asyncio.run(save(other, "entry", photo(number, "q")))
    for number in range(40):
        asyncio.run(save(store, "entry", photo(500 + number)))
    data = file_of(other)
    look = look_at(store, data)
    left_out = look.too_many_photos("merge")
    assert left_out == [f"entry/q/photo{number}" for number in range(39, -1, -1)]  # the oldest
    assert look.too_many_photos("replace") == []
    asyncio.run(backup.restore(store, look, "merge", NOW))
    assert len(asyncio.run(store.keys("entry/"))) == MOST_PHOTOS
    asyncio.run(backup.restore(store, look_at(store, data), "replace", NOW))
    assert asyncio.run(store.keys("entry/p/")) == []
    assert len(asyncio.run(store.keys("entry/q/"))) == MOST_PHOTOS
    asyncio.run(backup.undo_restore(store, NOW))
    assert len(asyncio.run(store.keys("entry/p/"))) == 40


@pytest.mark.parametrize("word", ["none", "outlet", "new"])
def test_a_word_of_the_app_as_an_id_is_made_new(store: KeyValueStore, word: str) -> None:
    loose = reading("loose", "none")
    asyncio.run(save(store, "reading", loose))
    data = lines_of(
        {"key": f"pond/{word}", "document": plain(pond("Foreign", word))},
        {"key": f"reading/{word}/r5", "document": plain(reading("r5", word))},
        {"key": "entry/p/new-note", "document": plain(note("new-note"))},
    )
    asyncio.run(backup.restore(store, look_at(store, data), "merge", NOW))
    kept = set(texts(store))
    assert {f"pond/own-{word}", "entry/p/own-new-note", "reading/none/loose"} <= kept
    assert f"pond/{word}" not in kept
    assert (f"reading/own-{word}/r5" in kept) == (word != "none")
    assert not asyncio.run(list_all(store, "reading", Reading)).errors
    assert look_at(store, data).count("new") == 0  # found again under its new id
    old = first_format(documents={"pond": [plain(pond("Foreign", word))]})
    assert look_at(MemoryStore(), old).incoming.keys() == {f"pond/own-{word}"}
    text = pond("Foreign", word).model_dump_json()
    for data in (
        first_format(as_stored={f"pond/{word}": text}),
        lines_of({"key": f"pond/{word}", "text": text}),
    ):
        assert look_at(MemoryStore(), data).incoming.keys() == {f"pond/own-{word}"}


def test_a_copy_that_cannot_be_read_is_not_offered(store: KeyValueStore) -> None:
    assert asyncio.run(backup.can_undo_restore(store)) is None
    with pytest.raises(StoreError, match="no restore to take back"):
        asyncio.run(backup.undo_restore(store, NOW))
    for damaged in ("{", '{"format": 5}', '{"kept": "x", "saved_at": 1}', "[" * 9000):
        asyncio.run(store.put(backup.COPY, damaged))
        assert asyncio.run(backup.can_undo_restore(store)) is None


def test_a_file_lists_what_of_each_pond_is_in_it(store: KeyValueStore) -> None:
    fill(store)
    tally = backup_file.Written()
    asyncio.run(whole(backup.everything(store, NOW, tally)))
    assert (tally.of_pond["reading", "p"], tally.of_pond["reading", "q"]) == (1, 1)


def test_deep_brackets_below_the_limit_are_no_reason_to_refuse(store: KeyValueStore) -> None:
    deep = "[" * (DEEPEST - 2) + "]" * (DEEPEST - 2)
    asyncio.run(store.put("later/kind", f'{{"id":"kind","of":{deep}}}'))
    other = MemoryStore()
    asyncio.run(backup.restore(other, look_at(other, file_of(store)), "merge", NOW))
    assert texts(other) == texts(store)


def test_texts_that_nobody_looked_at_are_documents_if_they_can_be_read(
    store: KeyValueStore,
) -> None:
    """As a page writes them that goes without Python."""
    fill(store)
    held = texts(store)
    lines = [{"key": key, "text": text} for key, text in held.items()]
    counts: dict[str, int] = {}
    for key in held:
        counts[key.partition("/")[0]] = counts.get(key.partition("/")[0], 0) + 1
    new = lines_of(*lines, {"end": counts})
    for data in (first_format(holds="everything", as_stored=held), new):
        other = MemoryStore()
        look = look_at(other, data)
        assert (look.complete, look.touched, look.count("new")) == (True, False, 6)
        asyncio.run(backup.restore(other, look, "replace", NOW))
        assert texts(other) == held
