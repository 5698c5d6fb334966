"""Two fills of 9.52 and 7.27 s on every screen, drawn and pressed: none of them says right."""

import asyncio
from datetime import UTC, datetime, timedelta

import flet as ft
from drawn import Screen, words_of

from pondapp import words
from pondapp.answers.log.dates import day_text
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.reading import MeterReading, Reading
from pondapp.ui.log.entry import water_report
from pondapp.ui.log.log import LogPage
from pondapp.ui.measuring.measure import MeasurePage
from pondapp.ui.pumps.health import HealthPage
from pondapp.ui.tuning.tune import TunePage
from pondapp.ui.tuning.tune_branch import TuneBranchPage

DIFFER = "These two differ by 27 %: time one more"


def fill(screen: Screen, tick: list[float], *seconds: float) -> None:
    for time in seconds:
        tick[0] += 2.0
        screen.press("Start")
        tick[0] += time
        screen.press("Stop")
    tick[0] += 2.0


def test_two_fills_far_apart_are_right_on_no_screen(screen: Screen, tick: list[float]) -> None:
    pond = example_pond()
    place = next(
        p for p in branch_places(WorkedPond(pond), lines_of(pond)[0]) if "waterfall" in p.name
    )
    screen.open(MeasurePage, pond_id=EXAMPLE, place_id=place.place_id)
    fill(screen, tick, 9.52, 7.27)
    said = screen.text()
    assert DIFFER in said
    assert "Not decided yet: the fills differ by more than they should" in said
    assert "Right:" not in said

    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=place.branch.id)
    said = screen.text()
    assert DIFFER in said
    assert "Right" not in said
    assert "Not known yet. Not decided yet" in said
    assert "(95 % interval)" in said
    screen.press("Keep it as it is")

    screen.open(TunePage, pond_id=EXAMPLE)
    said = screen.text()
    assert "Not decided yet" in said
    assert "Every branch is right" not in said
    assert screen.buttons()["Save as tuned"].disabled

    screen.open(LogPage, pond_id=EXAMPLE)
    said = screen.text()
    assert "not decided" in said
    assert "as wanted" not in said
    (reading,) = screen.session.logs.readings.values()
    assert [one.seconds for one in getattr(reading.method, "fills", ())] == [9.52, 7.27]


def test_a_flow_that_is_hardly_known_is_told_as_about_so_much(
    screen: Screen, tick: list[float]
) -> None:
    screen.open(MeasurePage, pond_id="none", place_id="outlet")
    fill(screen, tick, 9.52, 7.27)
    assert "about 3,900 L/h" in screen.text()
    screen.press("Save in the log")
    screen.open(LogPage)
    assert "Outlet: about 3,900 L/h" in screen.text()
    words.set_language("de")
    assert "etwa 3.900 L/h" in screen.text()


def test_a_flow_kept_while_tuning_can_be_taken_back(screen: Screen, tick: list[float]) -> None:
    pond = example_pond()
    place = next(
        p for p in branch_places(WorkedPond(pond), lines_of(pond)[0]) if "waterfall" in p.name
    )
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=place.branch.id)
    fill(screen, tick, 9.52, 7.27)
    screen.press("Keep it as it is")
    assert len(screen.session.logs.readings) == 1
    screen.undo()
    assert not screen.session.logs.readings
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=place.branch.id)
    assert "7.27 s" in screen.text()
    assert "Timed before, not counted: 9.52 s" in screen.text()


def test_flows_of_long_ago_are_no_tuned_pond(screen: Screen) -> None:
    places = branch_places(WorkedPond(example_pond()), lines_of(example_pond())[0])
    now = datetime.now(UTC)

    def read(days: float) -> str:
        for place in places:
            reading = Reading(
                id=place.branch.id, pond_id=EXAMPLE, place_id=place.place_id,
                place_name=place.place_name, taken_at=now - timedelta(days=days),
                method=MeterReading(flow_m3_s=place.band.target, tolerance=0.01), band=None,
            )  # fmt: skip
            asyncio.run(screen.session.logs.save_reading(reading))
        screen.open(TunePage, pond_id=EXAMPLE)
        return screen.text()

    assert "Every branch is right. Save this as tuned" in read(0.1)
    assert not screen.buttons()["Save as tuned"].disabled
    said = read(400)
    assert "Time it again: measured too long ago" in said
    assert day_text(now - timedelta(days=400)) in said
    assert "Every branch is right" not in said
    assert screen.buttons()["Save as tuned"].disabled
    screen.open(HealthPage, pond_id=EXAMPLE)
    assert "Measured too long ago to say how the pump is today" in screen.text()
    assert "Not known yet" in screen.text()


def test_a_fill_at_the_aim_is_right_and_the_aim_lies_inside(
    screen: Screen, tick: list[float]
) -> None:
    pond = example_pond()
    place = branch_places(WorkedPond(pond), lines_of(pond)[0])[0]
    screen.open(TuneBranchPage, pond_id=EXAMPLE, branch_id=place.branch.id)
    said = screen.text()
    # 1000 to 3000 L/h in a bucket of 9 L: 32.4 s is the limit itself, and never the aim.
    assert "Aim for 30.6 s in" in said
    assert "Anything from 11.1 to 31.5 s is fine" in said
    fill(screen, tick, 30.6, 30.9, 30.4)
    assert "At the aim" in screen.text()


def test_a_water_test_says_how_bad_it_is_while_it_is_typed_and_nothing_it_cannot_know(
    screen: Screen,
) -> None:
    pond = screen.session.ponds[EXAMPLE]

    def said(**values: float) -> str:
        entry = Entry(id="e", pond_id=pond.id, when=datetime(2026, 6, 1, tzinfo=UTC),
                      what=WaterTest.model_validate(values))  # fmt: skip
        return words_of(ft.Column(water_report(entry, pond, "metric")))

    poison = said(total_ammonia_kg_m3=2e-3, ph=8.6, temperature_c=25.0)
    assert poison.startswith("Danger\nToxic ammonia is 0.368 mg/L")
    assert "Right" not in poison
    assert said(temperature_c=25.0) == ""
