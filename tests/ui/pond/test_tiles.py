"""Tiles of a pond: water, last test, pump against new, a month; none says more than is known."""

import asyncio
from datetime import UTC, datetime, timedelta
from typing import Any

from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.water import MeasuredVolume
from pondapp.ui.pond.pond import PondPage

NOW = datetime.now(UTC)


def a_test(entry_id: str, days_ago: int) -> Entry:
    when = NOW - timedelta(days=days_ago, minutes=5)
    return Entry(id=entry_id, pond_id=EXAMPLE, when=when, what=WaterTest(ph=7.5))


def text_of(screen: Screen, **changes: Any) -> str:
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update=changes)))
    screen.open(PondPage, pond_id=EXAMPLE)
    return screen.text()


def test_its_water_is_told_with_how_it_is_known(screen: Screen) -> None:
    assert "from its drawing" in text_of(screen).partition("The pond holds")[2]
    measured = MeasuredVolume(volume_m3=3.0, how="meter")
    assert "3,000 L, measured" in text_of(screen, measured_volume=measured)
    screen.press("The pond holds")
    assert screen.went == [f"/pond/{EXAMPLE}/water"]


def test_the_last_water_test_is_told_with_its_age_and_opens(screen: Screen) -> None:
    for entry in (a_test("old", 9), a_test("new", 3), a_test("ahead", -2)):
        asyncio.run(screen.session.logs.save_entry(entry))
    text = text_of(screen)
    assert "3 days old" in text.partition("Last water test")[2]
    screen.press("Last water test")
    assert screen.went == [f"/pond/{EXAMPLE}/log/new"]


def test_a_pond_that_was_never_tested_leads_to_a_test(screen: Screen) -> None:
    assert "Never tested" in text_of(screen)
    screen.press("Last water test")
    assert screen.went == [f"/pond/{EXAMPLE}/log/new-water_test"]


def test_the_pump_is_as_its_own_screen_says(screen: Screen) -> None:
    assert "Not measured yet" in text_of(screen).partition("Pump compared with new")[2]
    for reading in example_readings(NOW):
        asyncio.run(screen.session.logs.save_reading(reading))
    told = text_of(screen).partition("Pump compared with new")[2]
    assert not told.strip().startswith("Not measured yet")
    screen.press("Pump compared with new")
    assert screen.went == [f"/pond/{EXAMPLE}/health"]


def test_old_flows_say_nothing_of_the_pump_of_today(screen: Screen) -> None:
    for reading in example_readings(NOW - timedelta(days=900)):
        asyncio.run(screen.session.logs.save_reading(reading))
    told = text_of(screen).partition("Pump compared with new")[2]
    assert told.strip().startswith("Measured too long ago")


def test_a_month_costs_nothing_known_without_pump_or_watts(screen: Screen) -> None:
    title = "Electricity a month"
    assert text_of(screen).partition(title)[2].strip()[0].isdigit()
    (line,) = example_pond().lines
    bare = (line.model_copy(update={"pump_id": None}),)
    assert "Choose a pump first" in text_of(screen, lines=bare).partition(title)[2][:60]
    pumps = tuple(one.model_copy(update={"power_w": None}) for one in example_pond().pumps)
    told = text_of(screen, pumps=pumps).partition(title)[2][:60]
    assert "its watts are not entered" in told
    screen.press(title)
    assert screen.went == [f"/pond/{EXAMPLE}/pumps"]


def test_nothing_is_said_while_the_log_is_read(screen: Screen, monkeypatch: Any) -> None:
    monkeypatch.setattr(screen.session.logs, "is_read", lambda _: False)
    screen.open(PondPage, pond_id=EXAMPLE)
    assert "Last water test" not in screen.text()
