"""What is chosen is saved and found again; until then nothing is."""

import asyncio
from datetime import UTC, datetime
from typing import Any

from memory_store import MemoryStore

from pondapp.models.preferences import Draft, Preferences, StopwatchAids
from pondapp.models.reading import Container, Fill
from pondapp.state.session import Session
from pondapp.state.settings import first_preferences
from pondapp.words import current_currency

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


OWN = Container(id="own", name="Mortar tub", volume_m3=0.065, tolerance_m3=0.001)


def _names(session: Session) -> list[str]:
    return [one.name for one in session.preferences.containers]


def test_the_containers_that_one_begins_with_are_in_the_units_and_language_of_the_reader() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        began = first_preferences()
        own = began.model_copy(update={"containers": (*began.containers, OWN)})
        await session.settings.save(own)
        await session.settings.change(lambda _: {"units": "us"})
        assert _names(session)[0] == "Five-gallon bucket, 5 gal mark"
        assert round(session.preferences.containers[0].volume_m3 / 231 / 0.0254**3, 9) == 5.0
        await session.settings.change(lambda _: {"units": "imperial"})
        assert _names(session)[1] == "Builder's bucket, 3 gal mark"
        await session.settings.change(lambda _: {"units": "metric", "language": "de"})
        assert _names(session) == ["Eimer, Marke bei 9 L", "Eimer, Marke bei 10 L", "Wanne, 40 L",
                                   "Mortar tub"]  # fmt: skip

    asyncio.run(use())


def test_a_container_that_is_being_filled_stays_when_the_units_change() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        await session.settings.save(first_preferences())
        await session.drafts.save(Draft(id="measure", fills=(Fill(seconds=12.0),)))
        await session.settings.change(lambda _: {"units": "us"})
        assert _names(session)[0] == "Bucket, 9 L mark"

    asyncio.run(use())


def test_the_currency_is_in_use_at_once_and_again_at_the_next_start() -> None:
    async def use() -> None:
        session = Session(MemoryStore())
        await session.settings.save(Preferences())
        await session.settings.change(lambda _: {"currency": "CHF"})
        assert current_currency() == "CHF"
        await session.settings.change(lambda _: {"currency": ""})
        assert current_currency() == ""
        await session.settings.change(lambda _: {"currency": "€"})
        again = Session(session.store)
        assert current_currency() == "€"
        await again.load()
        assert again.preferences.currency == current_currency() == "€"

    asyncio.run(use())
