"""A pump that rests a part of the day is told alike everywhere, and no filter on it is right."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen
from ponds import LPH

from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.learning.learned import LearnedPage
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.tuning.tune import TunePage
from pondapp.ui.what_if.what_if import WhatIfPage

CLASH = "needs water round the clock, and"


@pytest.fixture
def half_a_day(screen: Screen) -> Screen:
    """The example with its pump on a timer, every flow measured as wanted while it runs."""
    asyncio.run(screen.session.ponds.save(with_line(example_pond(), "line", hours_per_day=12.0)))
    for place, lph in (("box", 5500), ("bog", 1500)):
        one = Reading(
            id=place, pond_id=EXAMPLE, place_id=place, place_name=place, band=None,
            taken_at=datetime.now(UTC) - timedelta(hours=3),
            method=MeterReading(flow_m3_s=lph * LPH, tolerance=0.03),
        )  # fmt: skip
        asyncio.run(screen.session.logs.save_reading(one))
    return screen


def said(screen: Screen, page: object) -> str:
    screen.open(page, pond_id=EXAMPLE)
    return screen.text()


def test_the_pump_must_give_the_same_on_every_screen(half_a_day: Screen) -> None:
    assert "The pump must give\n6,330 L/h" in said(half_a_day, PumpsPage)
    assert "Wanted 6,330 L/h or more" in said(half_a_day, PondPage)
    assert "Wanted 6,330 L/h or more" in said(half_a_day, WhatIfPage)
    assert "with 6,330 L/h" in said(half_a_day, PlanPage)


@pytest.mark.parametrize("page", [PondPage, TunePage])
def test_no_filter_is_right_whose_pump_rests(half_a_day: Screen, page: object) -> None:
    told = said(half_a_day, page)
    assert f"Bog filter {CLASH}" in told
    assert "Right: 1,500" not in told
    assert "Every branch is right" not in told
    assert "is enough, as measured" not in told


def test_what_the_readings_tell_calls_none_right_either(half_a_day: Screen) -> None:
    told = said(half_a_day, LearnedPage)
    assert "Right. Wanted 1,000 to 3,000" not in told


@pytest.mark.parametrize("page", [FishPage, WhatIfPage])
def test_what_rests_brings_no_oxygen_and_cleans_nothing_which_is_told(
    half_a_day: Screen, page: object
) -> None:
    told = said(half_a_day, page)
    for name in ("Bog filter", "Filter box", "Slate lip"):
        assert f"{name}: its pump does not run day and night" in told
    assert "Not counted, because not known or not always running:" in told
