"""What is typed while something is being saved, deleted or joined all counts."""

import asyncio

from memory_store import MemoryStore

from pondapp.models.preferences import Draft
from pondapp.state.session import Session


def test_a_draft_that_was_dropped_does_not_come_back() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        session.drafts.hold(Draft(id="d", texts={"a": "last key"}))
        await session.drafts.delete("d")
        await session.drafts.save_held("d")  # was on its way
        assert session.drafts == {}
        assert await session.store.keys("draft/") == []

    asyncio.run(use())


def test_a_key_while_two_tabs_are_joined_is_kept() -> None:
    async def use() -> None:
        store = MemoryStore()
        session, other = Session(store), Session(MemoryStore(beside=store))
        await other.drafts.save(Draft(id="d", texts={"b": "theirs"}))
        session.drafts.hold(Draft(id="d", texts={"a": "1"}))
        saving = asyncio.ensure_future(session.drafts.save_held("d"))
        typed = 1
        while not saving.done():
            await asyncio.sleep(0)
            typed += 1
            held = session.drafts["d"]
            session.drafts.hold(held.model_copy(update={"texts": {**held.texts, "a": str(typed)}}))
        await session.drafts.save_held("d")
        assert session.drafts["d"].texts == {"a": str(typed), "b": "theirs"}
        assert await store.get("draft/d") == session.drafts["d"].model_dump_json()

    asyncio.run(use())
