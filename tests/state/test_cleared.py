"""What is deleted under a running app can be saved again, and nothing newer is written over."""

import asyncio
from datetime import UTC, datetime

from memory_store import MemoryStore

from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill, MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.state.cleared import in_memory, save_again
from pondapp.state.session import Session


def pond(pond_id: str) -> Pond:
    return Pond(id=pond_id, name="Mine", water=TypedVolume(volume_m3=1))


def test_everything_in_hand_is_on_the_device_again() -> None:
    async def run() -> None:
        store = MemoryStore()
        session = Session(store)
        await session.load()
        assert in_memory(session) == {}  # the settings that nobody chose are not kept
        await session.settings.save(session.preferences)
        await session.ponds.save(pond("here"))
        await session.ponds.save(pond("leaving"))
        await session.drafts.save(Draft(id="d", texts={"n": "half done"}))
        method = MeterReading(flow_m3_s=1e-3, tolerance=0.05)
        await session.logs.save_reading(
            Reading(
                id="r", pond_id="here", place_id="lip", place_name="Lip", band=None,
                taken_at=datetime.now(UTC), method=method,
            )
        )  # fmt: skip
        session.deletion.mark_deleted("leaving")  # deleted, and can still be had back
        before = dict(store.texts)
        store.texts.clear()
        store.texts["draft/d"] = newer = Draft(id="d", texts={"n": "typed since"}).model_dump_json()
        assert await save_again(session) == len(before) - 1
        assert store.texts == {**before, "draft/d": newer}
        assert await save_again(session) == 0

    asyncio.run(run())


def test_what_was_not_saved_before_is_known_to_be_saved_then() -> None:
    async def run() -> None:
        store = MemoryStore()
        here, there = Session(store), Session(MemoryStore(beside=store))
        fill = Fill(seconds=209.595)
        here.drafts.hold(Draft(id="d", fills=(fill,)))  # there was no room for it
        assert await save_again(here) == 1
        await there.load()
        await there.drafts.save(there.drafts["d"].model_copy(update={"texts": {"note": "windy"}}))
        await here.drafts.save(here.drafts["d"].model_copy(update={"started_at": 5.0}))
        assert here.drafts["d"].fills == (fill,)

    asyncio.run(run())
