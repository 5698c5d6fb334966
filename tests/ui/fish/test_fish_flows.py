"""Which measured flows the fish count on, as the reader sees it: none that does not hold now."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen
from ponds import LPH

from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.circuit import PumpBefore
from pondapp.models.fish import FishGroup
from pondapp.models.reading import MeterReading, Method, NothingComes, Reading
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.what_if.what_if import WhatIfPage

MANY = FishGroup(id="g", name="Goldfish", count=90, length_m=0.18)
PLANNED = "Slate lip: falls 50 cm with the planned 5,330 L/h; measure what it gets."


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    screen = Screen(monkeypatch)
    pond = example_pond().model_copy(update={"fish": (MANY,)})
    asyncio.run(screen.session.ponds.save(pond))
    return screen


def read(screen: Screen, place: str, lph: float | None, days: float = 1.0) -> None:
    flow = None if lph is None else lph * LPH
    method: Method = (
        NothingComes() if flow is None else MeterReading(flow_m3_s=flow, tolerance=0.03)
    )
    one = Reading(
        id=f"{place}{days:g}", pond_id=EXAMPLE, place_id=place, place_name=place, band=None,
        taken_at=datetime.now(UTC) - timedelta(days=days), method=method,
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(one))


def fish_page(screen: Screen) -> str:
    screen.open(FishPage, pond_id=EXAMPLE)
    return screen.text()


def test_a_branch_without_water_has_no_fall_wherever_it_was_seen(screen: Screen) -> None:
    assert PLANNED in fish_page(screen)
    read(screen, "box", None)
    said = fish_page(screen)
    assert "Slate lip: no water came when it was measured last" in said
    assert "Filter box: no water came when it was measured last" in said
    assert "Slate lip: falls" not in said
    assert "Oxygen at night: too little" in said
    read(screen, "bog", 1500)
    screen.open(WhatIfPage, pond_id=EXAMPLE)
    assert "ikely enough" not in screen.text()


def test_a_pump_that_brings_nothing_has_no_fall_either(screen: Screen) -> None:
    read(screen, "box", 5500, days=2)
    read(screen, example_pond().lines[0].id, None)
    said = fish_page(screen)
    assert "Slate lip: no water came when it was measured last" in said
    assert "Oxygen at night: too little" in said


def test_a_branch_with_little_water_counts_with_that(screen: Screen) -> None:
    read(screen, "box", 500)
    said = fish_page(screen)
    assert "Slate lip: falls 50 cm with 500 L/h, as measured last" in said
    assert "Oxygen at night: too little" in said


@pytest.mark.parametrize(
    ("place", "lph", "days"), [("lip", 9000, 400), ("lip", 9000, -30), ("box", 26000, 1)]
)
def test_a_flow_that_is_old_ahead_or_impossible_is_not_measured(
    screen: Screen, place: str, lph: float, days: float
) -> None:
    read(screen, place, lph, days)
    said = fish_page(screen)
    assert PLANNED in said
    assert "as measured last" not in said


def test_flows_that_together_are_more_than_the_pump_gives_are_not_measured(
    screen: Screen,
) -> None:
    read(screen, "box", 9000)
    read(screen, "bog", 9000)
    assert PLANNED in fish_page(screen)


def test_a_flow_of_the_old_pump_is_not_measured(screen: Screen) -> None:
    read(screen, "box", 9000, days=5)
    assert "as measured last" in fish_page(screen)
    pond = screen.session.ponds[EXAMPLE]
    until = datetime.now(UTC) - timedelta(days=2)
    changed = pond.lines[0].model_copy(
        update={"pump_id": "small", "pumps_before": (PumpBefore(pump_id="middle", until=until),)}
    )
    asyncio.run(screen.session.ponds.save(pond.model_copy(update={"lines": (changed,)})))
    said = fish_page(screen)
    assert "as measured last" not in said
    assert "less than planned: its pump brings no more" in said


def test_what_rests_on_a_planned_flow_or_an_assumed_warmth_has_no_tick(screen: Screen) -> None:
    few = example_pond().model_copy(update={"fish": (MANY.model_copy(update={"count": 1}),)})
    asyncio.run(screen.session.ponds.save(few))
    planned = fish_page(screen)
    assert "Filter: likely enough" in planned
    assert "Oxygen at night: likely enough" in planned
    read(screen, "box", 5500)
    read(screen, "bog", 1500)
    assert "Filter: likely enough" in fish_page(screen)  # the warmest week is assumed
    warm = few.model_copy(update={"warmest_temperature_c": 24.0})
    asyncio.run(screen.session.ponds.save(warm))
    known = fish_page(screen)
    assert "Filter: enough" in known
    assert "Oxygen at night: enough" in known


def test_too_many_fish_are_given_less_than_the_chart_says(screen: Screen) -> None:
    less = "Filter or oxygen may not carry these fish: give less until they do."
    crowd = MANY.model_copy(update={"count": 900})
    many = example_pond().model_copy(update={"fish": (crowd,)})
    asyncio.run(screen.session.ponds.save(many))
    assert less in fish_page(screen)
    cold = many.model_copy(update={"water_temperature_c": 4.0})
    asyncio.run(screen.session.ponds.save(cold))
    assert less not in fish_page(screen)  # they are not fed at all
    few = example_pond().model_copy(update={"fish": (MANY.model_copy(update={"count": 1}),)})
    asyncio.run(screen.session.ponds.save(few))
    assert less not in fish_page(screen)
