"""Two screens that speak of one flow give one number for it, and say where each is from."""

import asyncio
import re
from datetime import UTC, datetime, timedelta

import flet as ft
import pytest
from drawn import Screen, words_of
from ponds import LPH, invented

from pondapp import units
from pondapp.answers.measuring.aims import aimed, fill_aim
from pondapp.answers.measuring.flow import FlowBand
from pondapp.answers.picture.picture import picture
from pondapp.answers.picture.states import states_of
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.answers.tuning.flow_sets import ToFill, branch_places
from pondapp.core.assumptions import Assumptions
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip, Pump
from pondapp.models.reading import Container, MeterReading, Reading
from pondapp.models.water import Basin, Circle, Drawn
from pondapp.ui.features.features import FeaturePage
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.pond.tiles import tiles
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.tuning.tune import TunePage
from pondapp.ui.water.water import WaterPage
from pondapp.ui.waterfall.waterfall import WaterfallPage

BUCKET = Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.0002)


def vast() -> WorkedPond:
    """A round pond of 300 ft, an inch deep, with a lip of 400 in and a bog: it asks far more."""
    basin = Basin(id="b", name="B", outline=Circle(diameter_m=91.44), depth_m=0.0254)
    bog, lip = BogFilter(id="bog", name="Bog", bed_volume_m3=0.0003785), Lip(
        id="lip", name="Lip", width_m=10.16
    )  # fmt: skip
    return WorkedPond(invented(bog, lip, water=Drawn(basins=(basin,))))


@pytest.mark.parametrize("volume", [None, 0.001, 0.009, 0.04, 0.2])
def test_the_aims_are_those_of_the_plan_whatever_is_filled(volume: float | None) -> None:
    worked = vast()
    plan = worked.plan
    assert isinstance(plan, PondPlan)
    tub = volume and BUCKET.model_copy(update={"volume_m3": volume, "tolerance_m3": 0.02 * volume})
    for place in branch_places(worked, worked.lines[0], lambda _: ToFill(tub or None)):
        planned = plan.branches[place.branch.id]
        # The bog gets all that it can take, so its aim lies as far inside as fills can tell.
        assert place.band.target == pytest.approx(planned, rel=0.08)
        if place.place_id == "lip":
            assert units.show(place.band.target, "flow", "us") == "44,100 gal/h"


def test_a_container_that_can_tell_nothing_moves_no_aim() -> None:
    """44,100 gal/h fill a bucket in a fifth of a second."""
    rules = Assumptions().measuring
    band = FlowBand(68_000 * LPH, 167_000 * LPH, 271_000 * LPH)
    by_usual, by_bucket = aimed(band, None, rules), aimed(band, BUCKET, rules)
    assert by_bucket.flow == by_usual.flow == pytest.approx(167_000 * LPH)
    assert not by_bucket.sure
    assert fill_aim(BUCKET, band, rules).aim == pytest.approx(0.009 / by_usual.flow)


def test_tuning_says_what_the_plan_gives_where_an_aim_is_not_that(screen: Screen) -> None:
    screen.open(TunePage, pond_id=EXAMPLE)
    said = screen.text()
    assert "Aim: 1,060 L/h. Fine: 1,000 to 3,000 L/h." in said
    assert "The plan gives: To the bog 1,000 L/h, To the waterfall 5,330 L/h." in said


def measured(screen: Screen, flow: float) -> None:
    reading = Reading(
        id="r", pond_id=EXAMPLE, place_id="box", place_name="Box",
        taken_at=datetime.now(UTC) - timedelta(hours=1), band=None,
        method=MeterReading(flow_m3_s=flow * LPH, tolerance=0.01),
    )  # fmt: skip
    asyncio.run(screen.session.logs.save_reading(reading))


def test_the_waterfall_has_the_band_and_the_aim_of_its_branch(screen: Screen) -> None:
    """The box before the lip asks for 5,153 L/h, the lip alone for 2,667."""
    screen.open(WaterfallPage)
    said = screen.text()
    assert "Least 5,150 L/h, good 5,330 L/h, most 10,300 L/h." in said
    assert "The lip alone: least 2,670 L/h, good 5,330 L/h, most 10,700 L/h." in said
    screen.open(TunePage, pond_id=EXAMPLE)
    tuned = screen.text()
    assert "Aim: 5,510 L/h. Fine: 5,150 to 10,300 L/h." in tuned
    assert "To bring 5,510 L/h over Slate lip" in said
    assert "what the plan gives, so far inside what is fine that a few fills can tell" in said


@pytest.mark.parametrize(
    ("flow", "told", "alone"),
    [
        (2000.0, "Too little by 3,150 L/h.", "Too thin: 667 L/h more closes the sheet"),
        (4000.0, "Too little by 1,150 L/h.", "A closed sheet. 1,330 L/h more makes it full."),
        (5490.0, "Right: within what is wanted here.", "A full sheet."),
        (10_500.0, "Too much by 194 L/h.", "A full sheet."),
    ],
)
def test_the_waterfall_is_judged_by_all_that_its_water_passes(
    screen: Screen, flow: float, told: str, alone: str
) -> None:
    measured(screen, flow)
    screen.open(WaterfallPage)
    said = screen.text()
    assert told in said
    assert alone in said
    assert "By all that its water passes." in said


def test_a_lip_alone_on_its_water_is_judged_by_its_own_band(screen: Screen) -> None:
    pond = example_pond()
    fed = tuple(one for one in pond.fed if one.id != "box")
    line = pond.lines[0]
    branches = tuple(
        one.model_copy(update={"feeds": tuple(f for f in one.feeds if f != "box")})
        for one in line.branches
    )
    lone = pond.model_copy(
        update={"fed": fed, "lines": (line.model_copy(update={"branches": branches}),)}
    )
    asyncio.run(screen.session.ponds.save(lone))
    screen.open(WaterfallPage)
    said = screen.text()
    assert "Least 2,670 L/h, good 5,330 L/h, most 10,700 L/h." in said
    assert "By the usual flow per width of lip." in said
    assert "The lip alone" not in said


def test_the_plan_says_why_a_place_gets_more_than_was_asked_for(screen: Screen) -> None:
    """A bog on one branch, a box and a lip on another; then a pond that asks for more than all."""
    bog = BogFilter(id="bog", name="Bog", bed_volume_m3=0.3)
    lip = Lip(id="lip", name="Lip", width_m=0.3)
    box = HighFlowFilter(id="box", name="Box")
    to_bog = Branch(id="a", name="A", lift_m=0.3, feeds=("bog",))
    to_lip = Branch(id="b", name="B", lift_m=0.3, feeds=("box", "lip"))

    def said(volume: float, *branches: Branch) -> str:
        line = Line(id="line", name="Pump", branches=branches)
        of = invented(bog, box, lip, volume=volume, lines=(line,))
        asyncio.run(screen.session.ponds.save(of))
        screen.open(PlanPage, pond_id=of.id)
        return screen.text()

    small = said(1.0, to_bog, to_lip)
    assert "Bog: least 1,200 L/h, good 1,800 L/h, most 3,600 L/h; it gets its least flow" in small
    assert "its least flow was asked for, and Lip on the same water asks for more" in small
    assert "Lip: least 2,000 L/h, good 4,000 L/h, most 8,000 L/h; it gets its good flow" in small
    # Nothing but the bog: its branch carries what the whole pond asks for.
    large = said(2.0, to_bog)
    assert "its least flow was asked for, and the whole pond asks for more" in large
    assert "it gets its least" not in large
    screen.open(FeaturePage, pond_id="p", thing_id="bog")
    assert "the plan gives its least flow or more" in screen.text()


def test_what_no_garden_pond_can_be_has_a_plain_remark_beside_it(screen: Screen) -> None:
    """The vast pond: a typical small pump would draw 19,000 to 68,000 W."""
    worked = vast()
    line = worked.lines[0].model_copy(update={"pump_id": "big"})
    pump = Pump(id="big", name="Big", max_flow_m3_s=0.2, max_head_m=20.0, power_w=19_000.0)
    of = worked.pond.model_copy(update={"lines": (line,), "pumps": (pump,)})
    asyncio.run(screen.session.ponds.save(of))
    power = "Hardly a pump for a garden pond draws more than 2,000 W"
    for page in (PumpsPage, PlanPage):
        screen.open(page, pond_id="p")
        assert power in screen.text(), page
    told = words_of(ft.Column(tiles(of, "metric")))
    assert power in told
    assert "Hardly a garden pond holds more than" not in told
    deep = invented(volume=400.0)
    asyncio.run(screen.session.ponds.save(deep))
    volume = "Hardly a garden pond holds more than 300,000 L"
    assert volume in words_of(ft.Column(tiles(deep, "metric")))
    for page in (PlanPage, WaterPage):
        screen.open(page, pond_id="p")
        assert volume in screen.text(), page


def test_the_example_has_no_such_remark(screen: Screen) -> None:
    for page in (PumpsPage, PlanPage, WaterPage):
        screen.open(page, pond_id=EXAMPLE)
        assert "Hardly" not in screen.text()


def test_the_picture_groups_how_many_times_a_depth_is_drawn() -> None:
    outline = Circle(diameter_m=500.0)
    basin = Basin(id="b", name="B", outline=outline, depth_m=0.0254)
    worked = WorkedPond(invented(water=Drawn(basins=(basin,))))
    found = picture(worked, states_of(worked, [], datetime.now(UTC)), 358.0)
    (told,) = [units.tell(note, "us") for note in found.notes if "times as large" in str(note)]
    assert re.search(r"its depth \d,\d{3} times as large", told)
