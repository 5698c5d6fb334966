"""The screen of evaporation and leaks: an answer at once, and what is missing asked for."""

import asyncio

import pytest
from drawn import Screen

from pondapp.models.circuit import Stream
from pondapp.models.preferences import Draft
from pondapp.models.water import TypedVolume
from pondapp.ui.keeping.evaporation import EvaporationPage

ID = "invented-example"


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def shown(screen: Screen, **texts: str) -> str:
    screen.session.drafts.hold(Draft(id=f"evaporation-{ID}", texts=texts))
    screen.open(EvaporationPage, pond_id=ID)
    return screen.text()


def test_a_drawn_pond_has_its_answer_before_anything_is_typed(screen: Screen) -> None:
    screen.open(EvaporationPage, pond_id=ID)
    text = screen.text()
    assert "In a week" in text
    assert "The wind is not known" in text
    assert "50 to 70 % is assumed" in text
    assert "splash" in text
    assert "With what the falls wet" in text


def test_a_pond_of_known_volume_is_asked_for_its_surface(screen: Screen) -> None:
    pond = screen.session.ponds[ID].model_copy(update={"water": TypedVolume(volume_m3=5)})
    asyncio.run(screen.session.ponds.save(pond))
    screen.open(EvaporationPage, pond_id=ID)
    assert "the area of open water give the answer" in screen.text()
    assert "In a week" in shown(screen, area="8")


def test_two_falls_and_the_time_say_whether_it_leaks(screen: Screen) -> None:
    assert "Both falls and the time give the answer" in shown(screen, what="leak")
    assert "It leaks" in shown(screen, what="leak", drop="30", bucket="3", hours="10")
    assert "Not decided yet" in shown(screen, what="leak", drop="3", bucket="3", hours="10")
    assert "No leak" in shown(screen, what="leak", drop="12", bucket="12", hours="96")
    wrong = shown(screen, what="leak", drop="12", bucket="12", hours="0.1")
    assert "Correct what is marked" in wrong


def test_a_test_spoiled_by_added_water_has_no_tick_and_a_burst_is_told_in_hours(
    screen: Screen,
) -> None:
    spoiled = shown(screen, what="leak", drop="0", bucket="100", hours="12")
    assert "that cannot be, unless water was added" in spoiled
    assert "No leak" not in spoiled
    burst = shown(screen, what="leak", drop="400", bucket="0", hours="1")
    assert "Danger" in burst
    assert "The pond is empty in about" in burst
    assert "L a day" not in burst


def test_a_bad_area_of_the_week_does_not_stand_in_the_way_of_a_leak(screen: Screen) -> None:
    texts = {"area": "nonsense", "drop": "30", "bucket": "3", "hours": "10"}
    assert "Correct what is marked" in shown(screen, **texts)
    assert "It leaks" in shown(screen, what="leak", **texts)


def test_dew_and_humidity_that_cannot_be(screen: Screen) -> None:
    damp = {"water_warmth": "10", "air": "30", "humidity": "95"}
    text = shown(screen, **damp)
    assert "nothing evaporates" in text
    assert "0 L" not in text
    assert "at least 5 %" in shown(screen, humidity="0.6")


def test_a_stream_is_in_the_open_water_and_its_share_is_said(screen: Screen) -> None:
    brook = Stream(id="brook", name="Brook", length_m=6.0, width_m=0.5, fall_m=0.5, bed="gravel")
    pond = screen.session.ponds[ID]
    asyncio.run(screen.session.ponds.save(pond.model_copy(update={"fed": (brook,), "lines": ()})))
    screen.open(EvaporationPage, pond_id=ID)
    assert "With the stream's 3 m²" in screen.text()
