"""Deleting a pond: nothing is gone before the undo has passed, and everything after it."""

import asyncio
from datetime import UTC, datetime
from pathlib import Path

import pytest

from pondapp.models.preferences import Draft
from pondapp.sizing.example import EXAMPLE, example_pond, example_readings
from pondapp.store.folder_box import FolderBox
from pondapp.ui.session import Session

READINGS = example_readings(datetime(2025, 6, 1, tzinfo=UTC))


@pytest.fixture
def session(tmp_path: Path) -> Session:
    made = Session(FolderBox(tmp_path))
    asyncio.run(_fill(made))
    return made


async def _fill(session: Session) -> None:
    other = READINGS[0].model_copy(update={"id": "other", "pond_id": "none"})
    for reading in (*READINGS, other):
        await session.keep_reading(reading)
    await session.keep_draft(Draft(id=f"fills-{EXAMPLE}-box"))
    await session.keep_pond(example_pond())


def kept(session: Session) -> list[str]:
    return asyncio.run(session.box.keys())


def test_a_pond_set_aside_is_off_the_screens_and_still_on_the_device(session: Session) -> None:
    before = kept(session)
    pond = session.set_aside(EXAMPLE)
    assert pond is not None
    assert session.ponds == {}
    assert kept(session) == before
    session.bring_back(pond)
    assert session.ponds == {EXAMPLE: pond}
    asyncio.run(session.forget(pond))  # the time runs out after the undo
    assert kept(session) == before


def test_what_is_forgotten_is_gone_with_its_readings_and_nothing_else(session: Session) -> None:
    pond = session.set_aside(EXAMPLE)
    assert pond is not None
    asyncio.run(session.forget(pond))
    assert kept(session) == ["reading/none/other"]
    assert set(session.readings) == {"other"}
    session.bring_back(pond)  # too late
    assert session.ponds == {}


def test_a_pond_loaded_anew_is_not_forgotten_by_an_older_wish(session: Session) -> None:
    pond = session.set_aside(EXAMPLE)
    assert pond is not None
    asyncio.run(session.keep_pond(example_pond()))
    asyncio.run(session.forget(pond))
    assert EXAMPLE in session.ponds
    assert f"pond/{EXAMPLE}" in kept(session)


def test_an_unknown_pond_is_no_matter(session: Session) -> None:
    assert session.set_aside("nobody") is None
