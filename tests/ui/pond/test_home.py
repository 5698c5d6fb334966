"""The first screen leads to the three uses by the shortest way."""

import asyncio
from datetime import UTC, datetime
from pathlib import Path

from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.state.ids import NO_POND
from pondapp.state.session import Session
from pondapp.store.folder_store import FolderStore
from pondapp.ui.pond.home import where_to_measure


def test_with_nothing_to_choose_from_one_measures_at_once(tmp_path: Path) -> None:
    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        assert where_to_measure(session) == "/measure/none/outlet"
        reading = example_readings(datetime.now(UTC))[0]
        await session.logs.save_reading(reading.model_copy(update={"pond_id": NO_POND}))
        assert where_to_measure(session) == "/measure/none/outlet"  # that screen leads to it

    asyncio.run(use())


def test_a_pond_has_places_to_choose_from(tmp_path: Path) -> None:
    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        await session.ponds.save(example_pond())
        assert where_to_measure(session) == "/measure"

    asyncio.run(use())
