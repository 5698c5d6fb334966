"""What version 0.1.0 saved still opens: every kind of document it had, its backup, its link.

`version_0_1_0` was written by that version, with an invented pond.
"""

import asyncio
import json
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from memory_store import MemoryStore
from used import use_pond

from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.pond import WorkedPond
from pondapp.models.backup import KINDS
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Bucket, Reading
from pondapp.store import backup, link
from pondapp.store.documents import list_all

NOW = datetime(2026, 11, 27, tzinfo=UTC)
FOLDER = Path(__file__).parent / "version_0_1_0"
FILE = (FOLDER / "backup.json").read_bytes()
LINK = (FOLDER / "link.txt").read_text(encoding="utf-8").strip()


def stored() -> Iterator[tuple[str, str]]:
    """The documents under the keys where that version had them."""
    for kind, documents in json.loads(FILE)["documents"].items():
        for one in documents:
            place = f"{one['pond_id']}/{one['id']}" if kind in ("reading", "entry") else one["id"]
            yield f"{kind}/{place}", json.dumps(one)


def on_the_device() -> MemoryStore:
    store = MemoryStore()
    store.texts.update(stored())
    return store


def restored() -> MemoryStore:
    store = MemoryStore()
    preview = asyncio.run(backup.preview(store, FILE))
    assert not preview.problems
    asyncio.run(backup.restore(store, preview, "replace", NOW))
    return store


@pytest.fixture(params=[on_the_device, restored])
def store(request: pytest.FixtureRequest) -> MemoryStore:
    found: MemoryStore = request.param()
    return found


def test_every_kind_of_document_is_in_it() -> None:
    assert {key.partition("/")[0] for key, _ in stored()} == set(KINDS)


def test_every_document_opens(store: MemoryStore) -> None:
    for kind, model in KINDS.items():
        listed = asyncio.run(list_all(store, kind, model))
        assert not listed.errors
        if kind != "preferences":  # a restore leaves those of the device
            there = sum(key.startswith(f"{kind}/") for key, _ in stored())
            assert len(listed.documents) == there


def test_what_was_entered_is_as_it_was(store: MemoryStore) -> None:
    (pond,) = asyncio.run(list_all(store, "pond", Pond)).documents
    assert [one.kind for one in pond.fed] == ["bog", "high_flow", "lip", "jet", "skimmer"]
    lifts = {branch.id: branch.lift_m for branch in pond.lines[0].branches}
    assert lifts == {"to-bog": 0.4, "to-fall": 0.9, "to-jet": None}  # nobody was asked for the last
    worked = WorkedPond(pond)
    assert worked.rules.value("plumbing.assumed_lift") == 1.2
    assert worked.rules.value("filters.bog_share") == 0.2

    readings = asyncio.run(list_all(store, "reading", Reading)).documents
    bucket = next(one for one in readings if one.id == "r0").method
    assert isinstance(bucket, Bucket)
    assert [fill.excluded for fill in bucket.fills] == [False, False, True]
    drafts = asyncio.run(list_all(store, "draft", Draft)).documents
    texts = {draft.id: draft.texts for draft in drafts}
    assert texts["new"] == {"volume": "1000", "name": "Half"}
    assert texts["measure-oldpond-lip"] == {"scale_tolerance": "0.1", "lip_width": "0.4"}


def test_everything_is_used_as_the_screens_use_it(store: MemoryStore) -> None:
    (pond,) = asyncio.run(list_all(store, "pond", Pond)).documents
    readings = asyncio.run(list_all(store, "reading", Reading)).documents
    entries = asyncio.run(list_all(store, "entry", Entry)).documents
    use_pond(pond, sorted([*readings, *entries], key=lambda one: one.id))
    assert all(measured_reading(one, WorkedPond(pond).rules.measuring) for one in readings)


def test_its_link_opens() -> None:
    plan = link.unpacked(LINK.rpartition("/")[2])
    assert plan.name == "Elder Bank (invented)"
    assert [one.kind for one in plan.fed] == ["bog", "high_flow", "lip", "jet", "skimmer"]


def test_its_preferences_count_on_the_device() -> None:
    (found,) = asyncio.run(list_all(on_the_device(), "preferences", Preferences)).documents
    assert (found.units, found.language, found.backed_up_readings) == ("us", "de", 3)
