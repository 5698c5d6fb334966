"""What is chosen is saved and found again; until then nothing is."""

import asyncio
from datetime import UTC, datetime
from typing import Any

from memory_store import MemoryStore

from pondapp.models.preferences import Preferences, StopwatchAids
from pondapp.state.session import Session

NOW = datetime(2026, 5, 6, tzinfo=UTC)


def test_nothing_is_saved_before_something_is_chosen() -> None:
    async def use() -> None:
        store = MemoryStore()
        session = Session(store)
        await session.load()
        assert session.settings.first_start
        assert store.texts == {}
        await session.settings.save(session.preferences)
        assert not session.settings.first_start
        assert list(store.texts) == ["preferences/app"]

    asyncio.run(use())


def test_a_backup_is_noted_beside_what_is_chosen() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        await session.settings.save(Preferences(units="us"))
        await session.settings.note_backup(NOW, 3, 4)
        again = Session(session.store)
        await again.load()
        found = again.preferences
        assert (found.backed_up_at, found.backed_up_readings, found.backed_up_entries) == (
            NOW,
            3,
            4,
        )
        assert found.units == "us"

    asyncio.run(use())


def test_quick_choices_do_not_undo_each_other() -> None:
    async def use() -> None:
        session = Session(MemoryStore())

        def turn(name: str, on: bool) -> Any:
            return session.settings.change(
                lambda now: {"aids": now.aids.model_copy(update={name: on})}
            )

        await asyncio.gather(turn("sound", False), turn("keys", True), turn("countdown", True))
        again = Session(session.store)
        await again.load()
        assert again.preferences.aids == StopwatchAids(sound=False, keys=True, countdown=True)

    asyncio.run(use())


def test_what_was_chosen_before_there_were_aids_still_opens() -> None:
    old = {"schema_version": 1, "id": "app", "units": "us", "language": "de"}
    assert Preferences.model_validate(old).aids == StopwatchAids()
