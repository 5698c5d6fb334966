"""The browser is asked to keep everything when there is first something of one's own to lose."""

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest

from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.models.entry import Entry, FreeNote
from pondapp.state import session as asked_in
from pondapp.state.ids import NO_POND
from pondapp.state.session import Session
from pondapp.store.folder_store import FolderStore

NOW = datetime(2026, 5, 6, tzinfo=UTC)
READING = example_readings(NOW)[0]


@pytest.mark.parametrize("own", ["pond", "reading", "entry"])
def test_asked_once_and_not_for_the_example(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, own: str
) -> None:
    asked: list[int] = []

    async def ask_to_stay() -> bool:
        asked.append(1)
        return True

    monkeypatch.setattr(asked_in, "ask_to_stay", ask_to_stay)

    async def use() -> None:
        session = Session(FolderStore(tmp_path))
        await session.load()
        await session.ponds.save(example_pond())
        await session.logs.save_reading(READING)
        await asyncio.sleep(0.01)
        assert asked == []
        for number in range(2):
            if own == "pond":
                await session.ponds.save(example_pond().model_copy(update={"id": f"p{number}"}))
            elif own == "reading":
                mine = {"id": f"r{number}", "pond_id": NO_POND}
                await session.logs.save_reading(READING.model_copy(update=mine))
            else:
                await session.logs.save_entry(
                    Entry(id=f"e{number}", pond_id="p", when=NOW, what=FreeNote(), note="windy")
                )
            await asyncio.sleep(0.01)
            assert asked == [1]
        again = Session(FolderStore(tmp_path))
        await again.load()
        await again.logs.read_all()
        if own == "reading":
            await again.logs.save_reading(
                READING.model_copy(update={"id": "r9", "pond_id": NO_POND})
            )
            await asyncio.sleep(0.01)
            assert asked == [1]  # there was something before

    asyncio.run(use())
