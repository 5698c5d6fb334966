"""The screen of a pump that stands still: what to do comes first."""

import asyncio
from datetime import UTC, datetime

import pytest
from drawn import Screen

from pondapp.models.preferences import Draft
from pondapp.models.reading import NothingComes, Reading
from pondapp.ui.features.at_place import AtPlacePage
from pondapp.ui.keeping.pump_off import PumpOffPage

ID = "invented-example"


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def test_what_to_do_stands_first_and_the_answer_needs_nothing_typed(screen: Screen) -> None:
    screen.open(PumpOffPage, pond_id=ID)
    text = screen.text()
    assert "Bring in air" in text
    assert text.index("Bring in air") < text.index("Danger for the fish")
    assert "Mains and water kill" in text
    assert "Oxygen is not measured" in text
    assert "The pond's usual temperature" in text


def test_fish_that_nobody_entered_are_never_said_to_be_safe(screen: Screen) -> None:
    pond = screen.session.ponds[ID].model_copy(update={"fish": ()})
    asyncio.run(screen.session.ponds.save(pond))
    screen.session.drafts.hold(Draft(id=f"pump_off-{ID}", texts={"warmth": "6", "oxygen": "11"}))
    screen.open(PumpOffPage, pond_id=ID)
    text = screen.text()
    assert "not known without the fish: bring in air" in text
    assert "not at all" not in text
    assert "Danger for the fish" not in text
    assert "Enter the fish" in text


def test_a_place_without_water_leads_there(screen: Screen) -> None:
    place = screen.session.ponds[ID].fed[0].id
    screen.open(AtPlacePage, pond_id=ID, place_id=place)
    assert not [name for name in screen.buttons() if "what first" in name]
    dry = Reading(id="dry", pond_id=ID, place_id=place, place_name="Bog", band=None,
                  taken_at=datetime.now(UTC), method=NothingComes())  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(dry))
    screen.open(AtPlacePage, pond_id=ID, place_id=place)
    screen.press("what first")
    assert screen.went[-1] == f"/pond/{ID}/log/pump-off"
