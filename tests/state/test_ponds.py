"""A pond that is saved can be undone step by step, and a pond that is to be deleted comes back."""

import asyncio

import pytest
from memory_store import MemoryStore

from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.sharing.example import example_pond
from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume
from pondapp.state.session import Session
from pondapp.store.key_value_store import Changed
from pondapp.store.merging import mark


def pond(name: str, pond_id: str = "p") -> Pond:
    return Pond(id=pond_id, name=name, water=TypedVolume(volume_m3=1))


def saved(store: MemoryStore) -> str:
    return Pond.model_validate_json(store.texts["pond/p"]).name


def test_each_undo_goes_one_step_back_on_the_screen_and_on_the_device() -> None:
    async def use() -> None:
        store, drawn = MemoryStore(), []
        session = Session(store)
        session.device.on_change = lambda: drawn.append(1)
        for name in ("first", "second", "second", "third"):  # saved as it was: no step
            await session.ponds.save(pond(name))
        for name in ("second", "first"):
            await session.ponds.undo("p")
            assert (session.ponds["p"].name, saved(store)) == (name, name)
        await session.ponds.undo("p")  # nothing is left to undo
        await session.ponds.undo("nobody")
        assert (session.ponds["p"].name, saved(store)) == ("first", "first")
        assert len(drawn) == 6

    asyncio.run(use())


def test_an_undo_overwrites_nothing_that_another_tab_saved() -> None:
    async def use() -> None:
        store = MemoryStore()
        session, other = Session(store), Session(MemoryStore(beside=store))
        await session.ponds.save(pond("first"))
        await session.ponds.save(pond("second"))
        await other.load()
        await other.ponds.save(pond("theirs"))  # not heard of here
        with pytest.raises(Changed, match="then save again"):
            await session.ponds.undo("p")
        assert (session.ponds["p"].name, saved(store)) == ("theirs", "theirs")
        assert session.ponds.undo_stack == {}

    asyncio.run(use())


def test_saving_a_pond_that_is_to_be_deleted_keeps_it() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        await session.ponds.save(pond("first"))
        marked = session.deletion.mark_deleted("p")
        assert marked is not None
        assert session.deletion.is_pending(marked)
        await session.ponds.save(pond("second"))
        assert not session.deletion.is_pending(marked)
        await session.deletion.delete(marked)
        session.deletion.restore(marked)
        assert session.ponds["p"].name == "second"

    asyncio.run(use())


def test_only_the_owner_changes_what_is_held() -> None:
    session = Session(MemoryStore())
    with pytest.raises(TypeError):
        session.ponds["p"] = pond("x")  # type: ignore[index]
    assert session.ponds == {}


def test_saving_another_pump_notes_the_old_one_and_undoing_takes_it_back() -> None:
    session = Session(MemoryStore())
    example = example_pond()
    asyncio.run(session.ponds.save(example))
    found = asyncio.run(session.ponds.save(with_line(example, "line", pump_id="large")))
    assert [one.pump_id for one in found.lines[0].pumps_before] == ["middle"]
    assert session.ponds[example.id] == found
    asyncio.run(session.ponds.undo(example.id))
    assert mark(session.ponds[example.id]) == mark(example)
    assert session.ponds[example.id].past == (mark(example), mark(found))
