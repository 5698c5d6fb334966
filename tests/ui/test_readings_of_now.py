"""A reading that is old, of the old pump or dated ahead is told as that, and never as of now."""

import asyncio
import re
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen
from ponds import LPH

from pondapp.answers.log.dates import day_text
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.circuit import PumpBefore
from pondapp.models.entry import Cleaning, Entry, PumpChange, What
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.learning.learned import LearnedPage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pumps.health import HealthPage
from pondapp.ui.tuning.tune import TunePage
from pondapp.ui.waterfall.waterfall import WaterfallPage

CLEAN = "Save as the clean pump"


def read(screen: Screen, days: float, **flows: float) -> str:
    """Keep flows [L/h] of some days ago; the day as the reader sees it."""
    at = datetime.now(UTC) - timedelta(days=days)
    for place, lph in flows.items():
        one = Reading(
            id=f"{place}{round(24 * days)}", pond_id=EXAMPLE, place_id=place, place_name=place,
            band=None, taken_at=at, method=MeterReading(flow_m3_s=lph * LPH, tolerance=0.03),
        )  # fmt: skip
        asyncio.run(screen.session.logs.save_reading(one))
    return day_text(at)


def change_pump(screen: Screen, days: float) -> None:
    pond = screen.session.ponds[EXAMPLE]
    before = PumpBefore(pump_id="middle", until=datetime.now(UTC) - timedelta(days=days))
    line = pond.lines[0].model_copy(update={"pump_id": "large", "pumps_before": (before,)})
    asyncio.run(screen.session.ponds.save(pond.model_copy(update={"lines": (line,)})))


def said(screen: Screen, page: object) -> str:
    screen.open(page, pond_id=EXAMPLE)
    return screen.text()


def test_a_fall_of_now_is_right_with_its_date(screen: Screen) -> None:
    day = read(screen, 1, box=5500)
    told = said(screen, WaterfallPage)
    assert "Right: within what is wanted here" in told
    assert f"(95 % interval), {day}" in told


def test_an_old_fall_is_not_right(screen: Screen) -> None:
    day = read(screen, 400, box=5500)
    told = said(screen, WaterfallPage)
    assert f"Too long ago, {day}" in told
    assert "Right" not in told
    assert "A full sheet." not in told


def test_a_fall_dated_ahead_is_none(screen: Screen) -> None:
    read(screen, -30, box=5500)
    told = said(screen, WaterfallPage)
    assert "Right" not in told
    assert "Measured:" not in told


def test_a_fall_of_the_old_pump_is_not_right(screen: Screen) -> None:
    day = read(screen, 5, box=5500)
    change_pump(screen, 2)
    told = said(screen, WaterfallPage)
    assert f"Measured with the old pump, {day}" in told
    assert "Right" not in told


def differ(screen: Screen) -> tuple[str, str]:
    """Two readings of the fall, an hour apart, of which one is half of the other."""
    read(screen, 2 / 24, box=5500, bog=1500)
    read(screen, 1 / 24, box=2750)
    return "5,500 L/h on", "2,750 L/h on"


@pytest.mark.parametrize("page", [PondPage, WaterfallPage, HealthPage, TunePage, LearnedPage])
def test_two_readings_that_differ_by_half_are_told_with_when_and_what_decides(
    screen: Screen, page: object
) -> None:
    first, second = differ(screen)
    told = said(screen, page)
    assert re.search(
        rf"{first} [\d-]+ [\d:]+, {second} [\d-]+ [\d:]+, and nothing in the log explains it. "
        "Nobody can tell which holds: time it once more", told,
    )  # fmt: skip
    assert "Right: 2,750" not in told
    assert CLEAN not in screen.buttons()


@pytest.mark.parametrize("page", [WaterfallPage])
@pytest.mark.parametrize(
    ("box", "what", "word"),
    [
        (25_000, None, "More than the pump can give"),
        (5500, Cleaning(part="pump"), "Measured before the cleaning"),
        (5500, PumpChange(what="another"), "Measured with the old pump"),
    ],
)
def test_the_waterfall_tells_each_reason(
    screen: Screen, page: object, box: float, what: What | None, word: str
) -> None:
    day = read(screen, 1, box=box)
    if what:
        at = datetime.now(UTC) - timedelta(hours=3)
        entry = Entry(id="done", pond_id=EXAMPLE, when=at, what=what)
        asyncio.run(screen.session.logs.save_entry(entry))
    told = said(screen, page)
    assert f"{word}, {day}" in told
    assert "Right" not in told


@pytest.mark.parametrize(
    ("days", "box", "offered"), [(1, 5500, True), (400, 5500, False), (1, 25000, False)]
)
def test_only_flows_of_now_that_can_be_are_a_clean_pump(
    screen: Screen, days: float, box: float, offered: bool
) -> None:
    read(screen, days, box=box, bog=1500)
    said(screen, HealthPage)
    assert (CLEAN in screen.buttons()) is offered


def test_flows_dated_ahead_say_nothing_of_a_pump(screen: Screen) -> None:
    read(screen, -30, box=5500, bog=1500)
    told = said(screen, HealthPage)
    assert CLEAN not in screen.buttons()
    assert "too long ago" not in told
    assert "Time a fill at each of" in told


def test_flows_of_the_old_pump_are_not_held_against_the_new_one(screen: Screen) -> None:
    read(screen, 5, box=5500, bog=1500)
    change_pump(screen, 2)
    told = said(screen, HealthPage)
    assert "Measured with the old pump: time it again." in told
    assert "of what it gives" not in told
    assert "It should give" not in told
    assert CLEAN not in screen.buttons()


def test_the_newest_reading_of_a_pond_is_none_dated_ahead(screen: Screen) -> None:
    ahead = read(screen, -30, box=5500)
    told = said(screen, PondPage)
    assert ahead not in told
    assert "No readings yet." in told
    day = read(screen, 2, box=5400)
    told = said(screen, PondPage).partition("Newest reading")[2]
    assert day in told
    assert ahead not in told
