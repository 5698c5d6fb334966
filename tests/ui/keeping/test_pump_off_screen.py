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


def shown(screen: Screen, **texts: str) -> str:
    screen.session.drafts.hold(Draft(id=f"pump_off-{ID}", texts=texts))
    screen.open(PumpOffPage, pond_id=ID)
    return screen.text()


def test_percent_typed_for_oxygen_never_calms(screen: Screen) -> None:
    text = shown(screen, warmth="20", oxygen="95")
    assert "95 mg/L of oxygen cannot be" in text
    assert "9.09 mg/L" in text
    assert "lasts the night" not in text
    assert "cannot be" not in shown(screen, warmth="20", oxygen="12")  # algae in the sun


def test_ice_is_no_open_water(screen: Screen) -> None:
    assert "No air comes through ice" in shown(screen, warmth="1")
    assert "ice" not in shown(screen, warmth="12").split()


def test_what_is_so_already_is_told_as_now(screen: Screen) -> None:
    text = shown(screen, warmth="35", oxygen="0")
    assert "Danger for the fish\nNow\n" in text
    text = shown(screen, warmth="35")
    assert "now to 10 h, likely now" in text
    assert "0 s" not in text
