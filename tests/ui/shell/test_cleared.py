"""What is deleted under a running app can be saved again, and nothing newer is written over."""

import asyncio
from datetime import UTC, datetime

from memory_box import MemoryBox

from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.ui.shell.cleared import save_again, texts_in_hand
from pondapp.ui.shell.session import Session


def pond(pond_id: str) -> Pond:
    return Pond(id=pond_id, name="Mine", water=TypedVolume(volume_m3=1))


def test_everything_in_hand_is_on_the_device_again() -> None:
    async def run() -> None:
        box = MemoryBox()
        session = Session(box)
        await session.load()
        assert texts_in_hand(session) == {}  # the settings that nobody chose are not kept
        await session.keep_preferences(session.preferences)
        await session.keep_pond(pond("here"))
        await session.keep_pond(pond("leaving"))
        await session.keep_draft(Draft(id="d", texts={"n": "half done"}))
        method = MeterReading(flow_m3_s=1e-3, tolerance=0.05)
        await session.keep_reading(
            Reading(
                id="r", pond_id="here", place_id="lip", place_name="Lip", band=None,
                taken_at=datetime.now(UTC), method=method,
            )
        )  # fmt: skip
        session.set_aside("leaving")  # deleted, and can still be had back
        before = dict(box.texts)
        box.texts.clear()
        box.texts["draft/d"] = newer = Draft(id="d", texts={"n": "typed since"}).model_dump_json()
        assert await save_again(session) == len(before) - 1
        assert box.texts == {**before, "draft/d": newer}
        assert await save_again(session) == 0

    asyncio.run(run())
