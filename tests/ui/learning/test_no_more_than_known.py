"""What the readings tell, drawn: it says no more than is known, and calls things by their names."""

import asyncio
import re
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_entries, example_readings
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.learning.learned import LearnedPage
from pondapp.ui.pond.picture import PondPicture
from pondapp.ui.tuning.tune import TunePage

NOW = datetime.now(UTC)
LPH = 1.0 / 3.6e6
NAMES = {"bog": "Bog filter", "box": "Filter box"}


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def read(screen: Screen, place: str, lph: float, days: float) -> None:
    reading = Reading(
        id=f"{place}-{days}", pond_id=EXAMPLE, place_id=place, place_name=NAMES[place],
        taken_at=NOW - timedelta(days=days, hours=1), band=None,
        method=MeterReading(flow_m3_s=lph * LPH, tolerance=0.03),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(reading))


def told(screen: Screen) -> list[str]:
    screen.open(LearnedPage, pond_id=EXAMPLE)
    return screen.text().split("\n")


def test_another_pump_is_called_by_its_own_name(screen: Screen) -> None:
    read(screen, "box", 5500, 3)
    read(screen, "bog", 1500, 3)
    told(screen)
    screen.press("With Small pump instead")
    lines = screen.text().split("\n")
    there = lines[lines.index("With Small pump instead") :]
    assert "Small pump" in there
    assert "Mid-size pump" not in there


def test_what_is_known_no_closer_than_twice_or_half_is_not_told_as_learned(screen: Screen) -> None:
    read(screen, "box", 5500, 400)
    read(screen, "box", 5600, 1)
    lines = told(screen)
    assert not any("times the head" in line for line in lines)
    assert any(
        line.startswith("These readings tell too little of: Mid-size pump") for line in lines
    )  # fmt: skip


def test_flows_of_one_day_have_one_date(screen: Screen) -> None:
    read(screen, "box", 5500, 3)
    read(screen, "bog", 1500, 3)
    day = (NOW - timedelta(days=3, hours=1)).strftime("%Y-%m-%d")
    assert f"From 2 flows, {day}." in told(screen)


def test_how_fast_a_pump_loses_has_ends_and_needs_what_a_trend_needs(screen: Screen) -> None:
    for number in range(6):
        read(screen, "box", 6500 - 160 * number, 60 - 10 * number)
        read(screen, "bog", 1700 - 30 * number, 60 - 10 * number)
    (losing,) = [line for line in told(screen) if "of its speed a month" in line]
    assert re.match(r"The pump loses [\d.]+ to [\d.]+ % of its speed a month", losing)
    assert "clean it about" in losing


def test_a_flow_of_now_says_how_it_stands_and_what_wear_left_open_is_read_again(
    screen: Screen,
) -> None:
    for reading in example_readings(NOW):
        asyncio.run(screen.session.logs.save_reading(reading))
    for entry in example_entries(NOW):
        asyncio.run(screen.session.logs.save_entry(entry))
    now = "\n".join(told(screen)).split("Once the pump is cleaned")[0]
    right = r"Right, as measured: [\d,]+ L/h on [\d-]+\. "
    assert re.search(right + r"Wanted 1,000 to 3,000 L/h\.", now)
    left_open = r"By now that may have changed: read it again\. Wanted 5,150 to 10,300 L/h\."
    assert re.search(right + left_open, now)
    # The picture has the same verdict, by the same readings.
    screen.open(lambda: PondPicture(screen.session.ponds[EXAMPLE]))
    lines = screen.text().split("\n")
    for name in NAMES.values():
        assert lines[lines.index(name) + 1].startswith("Right: ")


def test_what_the_newest_reading_leaves_open_no_fit_calls_right(screen: Screen) -> None:
    for days in range(1, 8):  # within 3,000 L/h by all of them, not by one of 3 % alone
        read(screen, "bog", 2925, days)
        read(screen, "box", 5500, days)
    now = "\n".join(told(screen)).split("Once the pump is cleaned")[0]
    assert "Not decided by now: read it again. Wanted 1,000 to 3,000 L/h." in now
    screen.open(lambda: PondPicture(screen.session.ponds[EXAMPLE]))
    lines = screen.text().split("\n")
    assert lines[lines.index("Bog filter") + 1].startswith("Not decided yet: ")


def test_what_was_read_too_long_ago_is_never_called_right(screen: Screen) -> None:
    read(screen, "box", 7700, 100)
    assert "Right" not in "\n".join(told(screen))


def test_what_nobody_read_is_not_told_as_if_it_was(screen: Screen) -> None:
    read(screen, "box", 5500, 1)
    lines = told(screen)
    assert "Not read yet: Bog filter." in lines
    assert "Bog filter" not in lines
    assert "Filter box" in lines


def test_a_valve_is_told_by_the_aim_of_tuning(screen: Screen) -> None:
    read(screen, "box", 5500, 3)
    read(screen, "bog", 3900, 3)
    (turn,) = [line for line in told(screen) if re.match(r"With .* set to", line)]
    screen.open(TunePage, pond_id=EXAMPLE)
    aim = turn.removeprefix("With Bog filter set to ")
    assert f"Aim: {aim}. Fine: 1,000 to 3,000 L/h." in screen.text()


def test_an_aim_that_the_pump_cannot_reach_is_not_told_as_set(screen: Screen) -> None:
    read(screen, "box", 3000, 1)
    read(screen, "bog", 800, 1)
    assert not any(" set to " in line for line in told(screen))
