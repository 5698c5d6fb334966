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
from pondapp.models.reading import Band, FillSet, MeterReading, Reading
from pondapp.models.tuned import FlowAt, FlowSet
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


BEHIND = "less than the 7,000 L/h that was measured behind it"


@pytest.mark.parametrize("page", [PondPage, TunePage, LearnedPage, WaterfallPage])
def test_branches_that_carry_more_than_their_pump_was_read_to_give_are_right_nowhere(
    screen: Screen, page: object
) -> None:
    read(screen, 2 / 24, box=5500, bog=1500)
    read(screen, 1 / 24, line=4000)
    told = said(screen, page)
    assert BEHIND in told
    assert "at bog, box. Nothing in the log explains it" in told
    assert "Right: " not in told
    assert "Every branch is right" not in told


def test_too_little_from_a_pump_stays_too_little_and_an_older_one_is_open(screen: Screen) -> None:
    read(screen, 2 / 24, box=5500, bog=1500)
    read(screen, 1 / 24, line=4000)
    assert "Too little: 4,000 L/h" in said(screen, PondPage)
    read(screen, 0, box=5500, bog=1500)
    told = said(screen, PondPage)
    assert "Two readings differ: 7,000 L/h" in told
    assert "Right: " not in told


def test_all_of_them_timed_once_more_settles_it(screen: Screen) -> None:
    read(screen, 3 / 24, box=5500, bog=1500)
    read(screen, 2 / 24, line=4000)
    read(screen, 1 / 24, line=6900)
    read(screen, 0, line=6900)
    told = said(screen, PondPage)
    assert BEHIND not in told
    assert "Right: 6,900" in told
    assert "Right: 5,500" in told


@pytest.mark.parametrize("lph", [6500, 7000, 9000])
def test_a_pump_that_gives_as_much_as_its_branches_or_more_contradicts_nothing(
    screen: Screen, lph: float
) -> None:
    read(screen, 2 / 24, box=5500, bog=1500)
    read(screen, 1 / 24, line=lph)
    told = said(screen, TunePage)
    assert "Every branch is right" in told
    assert "measured behind it" not in told


def test_a_valve_that_was_turned_between_them_explains_it(screen: Screen) -> None:
    read(screen, 3 / 24, line=2000)
    at = datetime.now(UTC) - timedelta(hours=2)
    turned = FillSet(fills=(), until=at)
    for place, lph in (("box", 5500), ("bog", 1500)):
        one = Reading(
            id=place, pond_id=EXAMPLE, place_id=place, place_name=place, band=None,
            taken_at=at + timedelta(hours=1), before_turn=(turned,),
            method=MeterReading(flow_m3_s=lph * LPH, tolerance=0.03),
        )  # fmt: skip
        asyncio.run(screen.session.logs.save_reading(one))
    assert "measured behind it" not in said(screen, PondPage)


def test_readings_at_two_places_of_one_water_are_told_with_both_places(screen: Screen) -> None:
    read(screen, 2 / 24, box=5500)
    read(screen, 1 / 24, lip=2750)
    assert "box, lip: 5,500 L/h on" in said(screen, TunePage)


def test_a_pump_that_gives_more_than_its_label_can_is_not_called_free_of_wear(
    screen: Screen,
) -> None:
    pond = screen.session.ponds[EXAMPLE]
    pumps = tuple(one.model_copy(update={"max_head_m": 0.5}) for one in pond.pumps)
    asyncio.run(screen.session.ponds.save(pond.model_copy(update={"pumps": pumps})))
    read(screen, 1, box=5500, bog=1500)
    for page in (PondPage, HealthPage):
        told = said(screen, page)
        assert "More than it should give here, by what is entered: " in told
        assert "no wear" not in told


def save_as_tuned(screen: Screen) -> None:
    """Keep a set of 20 days ago; there were 5,500 and 1,500 L/h."""
    read(screen, 21, box=5500, bog=1500)
    flows = tuple(
        FlowAt(place_id=place, place_name=place, reading_id=f"{place}504",
               flow_m3_s=lph * LPH, half_width_m3_s=30 * LPH)
        for place, lph in (("box", 5500), ("bog", 1500))
    )  # fmt: skip
    tuned = FlowSet(line_id="line", at=datetime.now(UTC) - timedelta(days=20), places=flows)
    pond = screen.session.ponds[EXAMPLE].model_copy(update={"tuned": (tuned,)})
    asyncio.run(screen.session.ponds.save(pond))


def test_a_flow_of_now_is_held_against_what_was_tuned(screen: Screen) -> None:
    save_as_tuned(screen)
    assert "5,500 L/h then" not in said(screen, TunePage)
    read(screen, 5, box=4000)
    assert "5,500 L/h then, 4,000 L/h now: 73 % of it" in said(screen, TunePage)


@pytest.mark.parametrize(
    ("days", "box", "what"),
    [
        (-30, 4000, None),  # dated ahead
        (5, 25_000, None),  # more than the pump can give
        (5, 4000, Cleaning(part="pump")),
        (5, 4000, PumpChange(what="another")),
    ],
)
def test_what_does_not_tell_how_it_is_now_is_not_held_against_what_was_tuned(
    screen: Screen, days: float, box: float, what: What | None
) -> None:
    save_as_tuned(screen)
    read(screen, days, box=box)
    if what:
        at = datetime.now(UTC) - timedelta(hours=3)
        asyncio.run(screen.session.logs.save_entry(
            Entry(id="done", pond_id=EXAMPLE, when=at, what=what)
        ))  # fmt: skip
    told = said(screen, TunePage)
    assert "As tuned on" in told
    assert "5,500 L/h give or take 30 L/h" in told
    assert " now: " not in told


@pytest.mark.parametrize("what", [None, Cleaning(part="pump")])
def test_the_newest_reading_of_a_pond_carries_no_verdict_of_then(
    screen: Screen, what: What | None
) -> None:
    """It was right by what was wanted then; by now more is, or the pump was cleaned."""
    then = Band(low_m3_s=500 * LPH, target_m3_s=900 * LPH, high_m3_s=1500 * LPH)
    one = Reading(
        id="then", pond_id=EXAMPLE, place_id="box", place_name="box", band=then,
        taken_at=datetime.now(UTC) - timedelta(days=1),
        method=MeterReading(flow_m3_s=1000 * LPH, tolerance=0.03),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(one))
    if what:
        at = datetime.now(UTC) - timedelta(hours=3)
        entry = Entry(id="done", pond_id=EXAMPLE, when=at, what=what)
        asyncio.run(screen.session.logs.save_entry(entry))
    told = said(screen, PondPage)
    assert ("Too little: 1,000 L/h" in told) is (what is None)
    assert "1,000 L/h" in told.partition("Newest reading")[2]
    assert "Right: within what is wanted here" not in told
