"""A backup holds everything, a restore loses nothing."""

import asyncio
import json
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from pondapp.models.backup import FORMAT, FORMAT_VERSION, KINDS, Backup, Documents, schema
from pondapp.models.migrate import TooNew
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Bucket, Container, Fill, Reading
from pondapp.models.water import TypedVolume
from pondapp.store import backup
from pondapp.store.box import Box, Changed, StoreError
from pondapp.store.documents import list_all, save
from pondapp.store.folder_box import FolderBox

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


def fill(box: Box) -> None:
    asyncio.run(save(box, "pond", pond("Old")))
    asyncio.run(save(box, "pond", pond("Other", "q")))
    asyncio.run(save(box, "reading", reading("r1")))
    asyncio.run(save(box, "reading", reading("r2", "q")))
    asyncio.run(save(box, "draft", Draft(id="new", texts={"name": "Half"}, units="us")))
    asyncio.run(save(box, "preferences", Preferences(units="us", containers=(TUB,))))
    asyncio.run(box.put("pond/far", NEWER))
    asyncio.run(box.put("reading/bad", '{"schema_version": 1, "id": "ba'))


def file_of(box: Box) -> bytes:
    return backup.to_bytes(asyncio.run(backup.everything(box, NOW)))


def texts(box: Box) -> dict[str, str]:
    return {key: text for key, text in asyncio.run(box.items()) if key != backup.BEFORE}


def changed_file(data: bytes, **changes: Any) -> bytes:
    return json.dumps({**json.loads(data), **changes}).encode()


def test_everything_comes_back_on_an_empty_device(box: Box, tmp_path: Path) -> None:
    fill(box)
    other = FolderBox(tmp_path / "other")
    look = asyncio.run(backup.preview(other, file_of(box)))
    assert (look.count("new"), look.count("newer"), look.count("unreadable")) == (6, 1, 1)
    assert texts(other) == {}  # looking writes nothing
    asyncio.run(backup.restore(other, look.backup, "merge", NOW))
    assert texts(other) == texts(box)


def test_the_schema_names_every_kind() -> None:
    described = schema()
    assert described["$id"] == f"urn:{FORMAT}:{FORMAT_VERSION}"
    assert list(described["$defs"]["Documents"]["properties"]) == list(KINDS)
    assert set(described["required"]) == {"holds", "saved_at", "documents"}


def test_a_preview_tells_new_changed_and_same_apart(box: Box) -> None:
    fill(box)
    data = file_of(box)
    asyncio.run(save(box, "pond", pond("Renamed")))
    asyncio.run(save(box, "pond", pond("Later", "z")))
    asyncio.run(box.delete("reading/q/r2"))
    look = asyncio.run(backup.preview(box, data))
    states = {(one.kind, one.name): one.state for one in look.found}
    assert states["pond", "Old"] == "changed"
    assert states["pond", "Other"] == "same"
    assert states["pond", "Later"] == "only here"
    assert look.count("new", "reading") == 1
    assert look.in_file == 6


def test_merging_removes_nothing_and_replacing_makes_it_as_in_the_file(box: Box) -> None:
    fill(box)
    before = texts(box)
    look = asyncio.run(backup.preview(box, file_of(box)))
    asyncio.run(save(box, "pond", pond("Renamed")))
    asyncio.run(save(box, "pond", pond("Later", "z")))
    asyncio.run(backup.restore(box, look.backup, "merge", NOW))
    ponds = {one.name for one in asyncio.run(list_all(box, "pond", Pond)).documents}
    assert ponds == {"Old", "Other", "Later"}
    asyncio.run(backup.restore(box, look.backup, "replace", NOW))
    assert texts(box) == before


def test_a_restore_can_be_taken_back(box: Box) -> None:
    assert asyncio.run(backup.can_take_back(box)) is None
    fill(box)
    look = asyncio.run(backup.preview(box, file_of(box)))
    asyncio.run(save(box, "pond", pond("Renamed")))
    asyncio.run(box.delete("reading/q/r2"))
    before = texts(box)
    asyncio.run(backup.restore(box, look.backup, "replace", NOW))
    assert texts(box) != before
    assert asyncio.run(backup.can_take_back(box)) == NOW
    asyncio.run(backup.take_back(box, NOW))
    assert texts(box) == before


def test_merging_keeps_own_units_and_what_is_half_typed(box: Box) -> None:
    mine = Container(id="mine", name="Mine", volume_m3=0.01, tolerance_m3=0.001)
    asyncio.run(save(box, "preferences", Preferences(units="metric", containers=(mine,))))
    asyncio.run(save(box, "draft", Draft(id="new", texts={"name": "Now"})))
    theirs = Documents(
        draft=(Draft(id="new", texts={"name": "Then"}),),
        preferences=(Preferences(units="us", containers=(TUB,)),),
    )
    taken = Backup(holds="everything", saved_at=NOW, documents=theirs)
    asyncio.run(backup.restore(box, taken, "merge", NOW))
    merged = asyncio.run(list_all(box, "preferences", Preferences)).documents[0]
    assert (merged.units, merged.containers) == ("metric", (mine, TUB))
    assert asyncio.run(list_all(box, "draft", Draft)).documents[0].texts == {"name": "Now"}


def test_one_pond_leaves_the_others_alone(box: Box) -> None:
    fill(box)
    taken = asyncio.run(backup.one_pond(box, "p", NOW))
    assert [one.id for one in taken.documents.reading] == ["r1"]
    asyncio.run(save(box, "reading", reading("r9")))
    asyncio.run(backup.restore(box, taken, "replace", NOW))
    kept = {one.id for one in asyncio.run(list_all(box, "reading", Reading)).documents}
    assert kept == {"r1", "r2"}  # r9 was of this pond, r2 is of the other
    plan = backup.plan_of(pond("Plan"), NOW)
    asyncio.run(backup.restore(box, plan, "replace", NOW))
    assert len(asyncio.run(list_all(box, "reading", Reading)).documents) == 2
    with pytest.raises(StoreError, match="not on this device"):
        asyncio.run(backup.one_pond(box, "none", NOW))


class Failing(FolderBox):
    """A disk that fails at a given write."""

    left = 0

    async def put(self, key: str, text: str) -> None:
        if self.left == 0:
            raise StoreError("no room")
        self.left -= 1
        await super().put(key, text)


@pytest.mark.parametrize("writes", range(7))
def test_an_interrupted_restore_loses_nothing(tmp_path: Path, writes: int) -> None:
    source = FolderBox(tmp_path / "source")
    fill(source)
    taken = asyncio.run(backup.everything(source, NOW))
    box = Failing(tmp_path / "home")
    box.left = -1
    asyncio.run(save(box, "pond", pond("Mine", "mine")))
    asyncio.run(save(box, "pond", pond("My version")))
    before = texts(box)
    box.left = writes
    with pytest.raises(StoreError, match="no room"):
        asyncio.run(backup.restore(box, taken, "replace", NOW))
    box.left = -1
    assert texts(box).keys() >= before.keys()  # nothing is removed before all is written
    if writes:
        asyncio.run(backup.take_back(box, NOW))
    assert texts(box).items() >= before.items()


def test_a_change_in_another_tab_stops_a_restore(box: Box, monkeypatch: pytest.MonkeyPatch) -> None:
    fill(box)
    taken = asyncio.run(backup.everything(box, NOW))
    asyncio.run(save(box, "pond", pond("Mine")))
    apply = box.apply

    async def late(changes: Mapping[str, str | None], expected: Mapping[str, str | None]) -> None:
        await box.put("pond/p", pond("Theirs").model_dump_json())
        await apply(changes, expected)

    monkeypatch.setattr(box, "apply", late)
    with pytest.raises(Changed):
        asyncio.run(backup.restore(box, taken, "replace", NOW))
    assert "Theirs" in texts(box)["pond/p"]


def test_newer_documents_are_kept_as_they_are(box: Box) -> None:
    data = changed_file(
        backup.to_bytes(backup.plan_of(pond("P"), NOW)),
        documents={"pond": [json.loads(NEWER)], "something": [{"id": "s", "of": "later"}]},
    )
    look = asyncio.run(backup.preview(box, data))
    assert [one.state for one in look.found] == ["newer", "newer"]
    asyncio.run(backup.restore(box, look.backup, "replace", NOW))
    assert {key: json.loads(text) for key, text in texts(box).items()} == {
        "pond/far": json.loads(NEWER), "something/s": {"id": "s", "of": "later"},
    }  # fmt: skip
    again = asyncio.run(backup.everything(box, NOW))
    assert again.as_stored.keys() == {"pond/far", "something/s"}


@pytest.mark.parametrize(
    "data",
    [
        b"", b"{", b"[]", b"null", b"\xff\xfe", b'{"format": "other"}', b"[" * 100_000,
        b'{"format": "pondapp-backup"}', b"9" * 10_000,
        b'{"format": "pondapp-backup", "format_version": true}',
        b'{"format": "pondapp-backup", "format_version": 1}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {"pond": 1}}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {}}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {}, "as_stored": 5}',
        b'{"format": "pondapp-backup", "format_version": 1, "documents": {}, "saved_at": "now"}',
        b" " * (backup.LARGEST + 1),
    ],
)  # fmt: skip
def test_what_is_no_backup_is_refused(box: Box, data: bytes) -> None:
    with pytest.raises(StoreError):
        asyncio.run(backup.preview(box, data))


def test_a_newer_format_is_refused_whole(box: Box) -> None:
    data = changed_file(backup.to_bytes(backup.plan_of(pond("P"), NOW)), format_version=2)
    with pytest.raises(TooNew, match="update the app first"):
        asyncio.run(backup.preview(box, data))


def test_bad_entries_hide_no_good_ones(box: Box) -> None:
    good = json.loads(pond("Good").model_dump_json())
    data = changed_file(
        backup.to_bytes(backup.plan_of(pond("P"), NOW)),
        documents={
            "pond": [good, good, 5, {"id": "../x"}, {"id": "y"}, {**good, "id": "z", "fed": 1}],
            "aside": [{"id": "x"}],
            "before": [{"id": "restore"}],
        },
        as_stored={"before/restore": "x", "pond/../x": "y", "pond/w": 5, "reading/k": "cut o"},
    )
    look = asyncio.run(backup.preview(box, data))
    assert look.count("new") == 1
    assert look.count("unreadable") == 11
    asyncio.run(backup.restore(box, look.backup, "merge", NOW))
    assert texts(box).keys() == {"pond/p", "pond/y", "pond/z", "reading/k"}


def test_a_file_of_more_documents_than_anyone_has_is_refused(
    box: Box, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(backup, "MOST_DOCUMENTS", 1)
    fill(box)
    with pytest.raises(StoreError, match="more documents than a backup can"):
        asyncio.run(backup.preview(box, file_of(box)))


def test_a_copy_that_cannot_be_read_is_not_offered(box: Box) -> None:
    assert asyncio.run(backup.can_take_back(box)) is None
    with pytest.raises(StoreError, match="no restore to take back"):
        asyncio.run(backup.take_back(box, NOW))
    asyncio.run(box.put(backup.BEFORE, "{"))
    assert asyncio.run(backup.can_take_back(box)) is None
