"""Logs are read pond by pond, on the first look, and follow what is saved and deleted."""

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest
from memory_store import MemoryStore

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.entry import Entry, WaterChange
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.state.ids import NO_POND
from pondapp.state.session import Session
from pondapp.store.documents import save
from pondapp.store.folder_store import FolderStore
from pondapp.store.key_value_store import Changed, StoreError


def reading(name: str, day: int, pond: str = "p") -> Reading:
    return Reading(
        id=name, pond_id=pond, place_id="lip", place_name="Lip",
        taken_at=datetime(2025, 6, day, tzinfo=UTC),
        method=MeterReading(flow_m3_s=3e-4, tolerance=0.05), band=None,
    )  # fmt: skip


def entry(name: str, day: int) -> Entry:
    return Entry(
        id=name, pond_id="p", when=datetime(2025, 6, day, tzinfo=UTC),
        what=WaterChange(volume_m3=0.2),
    )  # fmt: skip


async def settle(session: Session, pond_id: str) -> None:
    session.logs.items_of(pond_id)
    while not session.logs.is_read(pond_id):
        await asyncio.sleep(0.001)


def test_a_log_is_read_on_the_first_look(tmp_path: Path) -> None:
    async def use() -> None:
        store = FolderStore(tmp_path)
        for item in (reading("a", 1), reading("b", 3), reading("x", 2, "other")):
            await save(store, "reading", item)
        await save(store, "entry", entry("c", 2))
        session, redrawn = Session(store), []
        session.device.on_change = lambda: redrawn.append(1)
        await session.load()
        assert session.logs.items_of("p") == []
        await settle(session, "p")
        assert [item.id for item in session.logs.items_of("p")] == ["b", "c", "a"]
        assert [item.id for item in session.logs.readings_of("p")] == ["b", "a"]
        assert redrawn == [1]
        assert not session.logs.is_read("other")

    asyncio.run(use())


def test_a_log_follows_saving_deleting_and_taking_back(tmp_path: Path) -> None:
    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        await session.logs.save_entry(entry("c", 2))  # before the log was read
        await settle(session, "p")
        await session.logs.save_reading(reading("a", 1))
        assert [item.id for item in session.logs.items_of("p")] == ["c", "a"]
        (gone, _) = session.logs.items_of("p")
        await session.logs.delete(gone)
        assert [item.id for item in session.logs.items_of("p")] == ["a"]
        assert isinstance(gone, Entry)
        await session.logs.save_entry(gone)
        again = Session(FolderStore(tmp_path))
        await settle(again, "p")
        assert [item.id for item in again.logs.items_of("p")] == ["c", "a"]

    asyncio.run(use())


class RefusingStore(FolderStore):
    """A browser that keeps nothing."""

    refuses = True

    async def keys(self, prefix: str = "") -> list[str]:
        if self.refuses:
            raise StoreError("no")
        return await super().keys(prefix)

    async def get(self, key: str) -> str | None:
        if self.refuses:
            raise StoreError("no")
        return await super().get(key)


def test_refused_storage_is_told_once_and_what_is_typed_stays_in_hand(tmp_path: Path) -> None:
    async def use() -> None:
        store = RefusingStore(tmp_path)
        session = Session(store)
        with pytest.raises(StoreError):
            await session.load()
        assert session.device.refused is not None
        await session.drafts.save(Draft(id="d", texts={"a": "1"}))  # said already
        assert session.drafts["d"].texts == {"a": "1"}
        with pytest.raises(StoreError):
            await session.logs.save_reading(reading("a", 1))  # answered each time
        await settle(session, "p")
        assert session.device.load_errors == []

        store.refuses = False
        await session.drafts.save(Draft(id="d", texts={"a": "2"}))
        store.refuses = True
        with pytest.raises(StoreError):
            await session.drafts.save(Draft(id="d", texts={"a": "3"}))
        await session.drafts.save(Draft(id="d", texts={"a": "4"}))
        assert session.drafts["d"].texts == {"a": "4"}
        store.refuses = False
        await session.load()
        assert session.device.refused is None

    asyncio.run(use())


def test_what_cannot_be_read_is_reported_once(tmp_path: Path) -> None:
    async def use() -> None:
        store = FolderStore(tmp_path)
        await store.put("entry/p/e1", "cut o")
        await store.put("reading/r0", "cut o")
        session = Session(store)
        await session.load()
        await settle(session, "p")
        await session.logs.read_all()
        keys = sorted(error.key for error in session.device.load_errors)
        assert keys == ["entry/p/e1", "reading/r0"]

    asyncio.run(use())


def test_what_is_left_of_a_pond_that_is_gone_is_shown_with_what_never_had_one() -> None:
    async def use() -> None:
        store = MemoryStore()
        await save(store, "reading", reading("a", 1, "gone"))
        await save(store, "reading", reading("b", 2, NO_POND))
        session = Session(store)
        await session.load()
        await session.logs.read_all()
        assert [item.id for item in session.logs.items_of(NO_POND)] == ["b", "a"]

    asyncio.run(use())


def test_an_item_moves_in_one_step_and_both_logs_follow() -> None:
    async def use() -> None:
        store = MemoryStore()
        session = Session(store)
        await session.logs.save_reading(reading("a", 1))
        for pond_id in ("p", "q"):
            await settle(session, pond_id)
        there = reading("a", 1, "q")
        await session.logs.move(there, reading("a", 1))
        assert (session.logs.items_of("p"), session.logs.items_of("q")) == ([], [there])
        assert await store.keys() == ["reading/q/a"]
        with pytest.raises(Changed, match="nothing was saved here"):
            await session.logs.move(reading("a", 1, "r"), reading("a", 1))  # it lies there no more

    asyncio.run(use())


def test_what_a_reload_overtakes_is_not_shown() -> None:
    async def use() -> None:
        store = MemoryStore()
        await save(store, "reading", reading("a", 1))
        session = Session(store)
        await session.load()
        reading_log = session.logs.read("p")
        await asyncio.sleep(0)
        await store.delete("reading/p/a")
        await session.reload()
        await reading_log
        assert session.logs.readings == {}

    asyncio.run(use())


def test_the_example_is_at_no_moment_told_as_measured_without_a_pond() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        await session.load()
        await session.logs.read_all()
        seen: list[int] = []
        session.device.on_change = lambda: seen.append(len(session.logs.readings_of(NO_POND)))
        for _ in range(2):
            await session.ponds.save(example_pond())
            for reading in example_readings(datetime.now(UTC)):
                await session.logs.save_reading(reading)
            pond = session.deletion.mark_deleted(EXAMPLE)
            assert pond is not None
            await session.deletion.delete(pond)
        assert seen
        assert set(seen) == {0}

    asyncio.run(use())
