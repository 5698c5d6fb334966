"""The plan of a pond by id, its conflicts, and resolutions that really resolve them."""

from itertools import count

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LPH
from ponds import invented as pond

from pondapp import units, words
from pondapp.answers.planning.plan import (
    PondConflict,
    PondPlan,
)
from pondapp.answers.planning.resolve import TURNOVER_RULE, apply
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_at_lift
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Jet, Line, Lip, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import Band

BOG = BogFilter(id="bog", name="Bog", bed_volume_m3=0.1)
BOX = HighFlowFilter(id="box", name="Box")
LIP = Lip(id="lip", name="Lip", width_m=0.30, aim="least")


def one_branch(*feeds: str, **line: object) -> tuple[Line, ...]:
    branch = Branch(id="b", name="Branch", feeds=feeds)
    return (Line.model_validate({"id": "pump", "name": "Pump", "branches": (branch,), **line}),)


def planned(of: Pond) -> PondPlan:
    found = WorkedPond(of).plan
    assert isinstance(found, PondPlan)
    return found


def conflict(of: Pond) -> PondConflict:
    found = WorkedPond(of).plan
    assert isinstance(found, PondConflict)
    return found


def ids() -> object:
    numbers = count(1)
    return lambda: f"new{next(numbers)}"


def test_least_flows_of_branches_add_up_where_they_exceed_the_turnover() -> None:
    found = planned(pond(BOG, BOX, LIP))
    assert found.branches["to-bog"] == pytest.approx(400 * LPH)
    assert found.branches["to-box"] == pytest.approx(2000 * LPH)
    assert found.through["lip"] == pytest.approx(2000 * LPH)
    assert found.lines["pump"] == found.total == pytest.approx(2400 * LPH)
    assert found.at("lip") == found.through["lip"]
    assert found.at("nothing") is None
    assert found.steps()


def test_the_turnover_lifts_the_bog_to_the_whole_pond() -> None:
    found = WorkedPond(pond(BOG)).wanted
    bog, pump = found.places
    assert bog.band.target == pytest.approx(1000 * LPH)
    assert (bog.band.low, bog.band.high) == pytest.approx((400 * LPH, 1200 * LPH))
    assert pump.band.low == pytest.approx(1000 * LPH)
    assert pump.place_id == "pump"


def test_two_things_of_one_name_keep_their_own_flows() -> None:
    small = BogFilter(id="small", name="Bog", bed_volume_m3=0.06)
    found = planned(pond(BOG, small))
    assert 600 * LPH < found.through["bog"] < 1200 * LPH
    assert 360 * LPH < found.through["small"] < 720 * LPH
    assert found.total == pytest.approx(1000 * LPH)


def test_bog_before_a_lip_conflicts_and_every_resolution_resolves_it() -> None:
    wide = pond(BOG, LIP, lines=one_branch("bog", "lip"))
    found = conflict(wide)
    assert "Lip needs at least" in found.conflicts[0].template.format_map(
        {"branch": "", "thirsty": "Lip", "low": "", "tight": "", "high": ""}
    )
    assert len(found.resolutions) >= 4
    for way in found.resolutions:
        after = Pond.model_validate(apply(WorkedPond(wide), way, ids()).model_dump())
        again = planned(after)
        assert again.total == pytest.approx(way.plan.total)
        assert again.daily_mean == pytest.approx(way.plan.daily_mean)


def test_a_bypass_is_the_first_resolution_and_leads_the_rest_over_the_top() -> None:
    wide = pond(BOG, LIP, lines=one_branch("bog", "lip"))
    way = next(w for w in conflict(wide).resolutions if w.circuit.pumps[0].branches[0].bypass)
    after = apply(WorkedPond(wide), way, ids())
    assert after.lines[0].branches[0].bypass == ("bog",)
    found = planned(after)
    assert found.past["bog"] == pytest.approx((2000 - 600) * LPH)
    assert found.through["bog"] == pytest.approx(600 * LPH)


def test_a_narrower_lip_keeps_its_id_and_its_rule() -> None:
    wide = pond(BOG, LIP, lines=one_branch("bog", "lip"))
    widths = [
        apply(WorkedPond(wide), way, ids()).fed[1].width_m for way in conflict(wide).resolutions
    ]  # type: ignore[union-attr]
    assert min(widths) == pytest.approx(0.30 * 1200 / 2000)


def test_a_band_of_ones_own_is_no_size_to_change() -> None:
    band = Band(low_m3_s=2000 * LPH, target_m3_s=3000 * LPH, high_m3_s=None)
    own = LIP.model_copy(update={"band": band})
    before = pond(BOG, own, lines=one_branch("bog", "lip"))
    assert all(
        apply(WorkedPond(before), way, ids()).fed[1] == own for way in conflict(before).resolutions
    )


def test_a_weak_pump_conflicts_and_a_stronger_one_is_left_to_choose() -> None:
    pump = Pump(id="weak", name="Weak", max_flow_m3_s=1500 * LPH, max_head_m=2.0)
    before = pond(BOG, BOX, pumps=(pump,))
    found = conflict(before)
    stronger = [apply(WorkedPond(before), way, ids()) for way in found.resolutions]
    assert any(after.lines[0].pump_id is None for after in stronger)
    assert lines_of(before)[0].pump_id == "weak"


def test_a_pump_that_cannot_lift_so_high_is_said_beside_the_plan() -> None:
    pump = Pump(id="weak", name="Weak", max_flow_m3_s=3000 * LPH, max_head_m=2.0)
    branch = Branch(id="b", name="Branch", feeds=("bog",), lift_m=2.5)
    line = Line(id="pump", name="Pump", pump_id="weak", branches=(branch,))
    assert "cannot lift" in planned(pond(BOG, pumps=(pump,), lines=(line,))).notes[0].template


def test_most_at_lift_runs_down_the_curve() -> None:
    pump = Pump(id="a", name="A", max_flow_m3_s=0.001, max_head_m=2.0)
    assert most_at_lift(pump, 0.0) == pytest.approx(0.001)
    assert most_at_lift(pump, 1.5) == pytest.approx(0.001 * 0.25 ** (1 / 1.5))
    assert most_at_lift(pump, 2.0) == 0.0
    assert most_at_lift(Pump(id="a", name="A", max_flow_m3_s=0.001), 1.0) == 0.001
    assert most_at_lift(Pump(id="a", name="A"), 1.0) is None
    printed = pump.model_copy(update={"points": ((0.0, 2.0), (0.0005, 1.5), (0.001, 0.0))})
    assert most_at_lift(printed, 1.5) == pytest.approx(0.0005)


def test_a_bed_on_a_timer_conflicts() -> None:
    night = pond(BOG, lines=one_branch("bog", hours_per_day=12.0))
    ways = [apply(WorkedPond(night), way, ids()) for way in conflict(night).resolutions]
    assert any(after.lines[0].hours_per_day == 24.0 for after in ways)


def test_less_turnover_is_written_as_a_rule_of_this_pond() -> None:
    tiny = pond(BogFilter(id="bog", name="Bog", bed_volume_m3=0.02))
    ways = [apply(WorkedPond(tiny), way, ids()) for way in conflict(tiny).resolutions]
    less = [after for after in ways if TURNOVER_RULE in after.assumptions]
    assert less
    assert less[0].assumptions[TURNOVER_RULE] == pytest.approx(240 * LPH)
    assert any(branch.id.startswith("new") for after in ways for branch in after.lines[0].branches)


@pytest.mark.parametrize(
    ("there", "told", "made"),
    [
        ("Pumpe", "zweite Pumpe", "Zweite Pumpe"),
        ("Second pump", "zweite Pumpe 2", "Zweite Pumpe 2"),  # named before the language was chosen
        ("Zweite Pumpe", "zweite Pumpe", "Zweite Pumpe 2"),
    ],
)
def test_a_second_pump_has_a_name_in_the_readers_language_that_no_other_has(
    there: str, told: str, made: str
) -> None:
    tight = pond(BOG, LIP, lines=one_branch("bog", "lip", name=there))
    words.set_language("de")
    way = next(way for way in conflict(tight).resolutions if len(way.circuit.pumps) == 2)
    said = " ".join(units.tell(change, "metric") for change in way.changes)
    names = [line.name for line in apply(WorkedPond(tight), way, ids()).lines]
    assert told in said
    assert "second pump" not in said
    assert names == [there, made]


def test_too_many_pumps_are_refused() -> None:
    small = tuple(BogFilter(id=f"g{n}", name=f"Bog {n}", bed_volume_m3=0.02) for n in range(6))
    lines = tuple(
        Line(
            id=f"l{n}",
            name=f"Pump {n}",
            branches=(Branch(id=f"b{n}", name=f"Branch {n}", feeds=(f"g{n}",)),),
        )
        for n in range(6)
    )
    full = pond(*small, lines=lines, volume=5.0)
    seventh = [way for way in conflict(full).resolutions if len(way.circuit.pumps) == 7]
    assert seventh
    with pytest.raises(PondError):
        apply(WorkedPond(full), seventh[0], ids())


@settings(max_examples=40)
@given(
    volume=st.floats(0.3, 30.0),
    bed=st.floats(0.02, 5.0),
    width=st.floats(0.05, 2.0),
    jet=st.floats(100.0, 3000.0),
    together=st.booleans(),
)
def test_flows_add_up_and_resolutions_resolve(
    volume: float, bed: float, width: float, jet: float, together: bool
) -> None:
    things = (
        BogFilter(id="bog", name="Bog", bed_volume_m3=bed),
        Lip(id="lip", name="Lip", width_m=width),
        Jet(id="jet", name="Jet", flow_m3_s=jet * LPH),
    )
    lines = one_branch("bog", "lip", "jet") if together else ()
    before = pond(*things, volume=volume, lines=lines)
    found = WorkedPond(before).plan
    if isinstance(found, PondConflict):
        found = planned(apply(WorkedPond(before), found.resolutions[0], ids()))
    assert sum(found.branches.values()) == pytest.approx(found.total)
    assert sum(found.lines.values()) == pytest.approx(found.total)


def test_while_demands_conflict_each_place_keeps_its_best_flow() -> None:
    found = WorkedPond(pond(BOG, LIP, lines=one_branch("bog", "lip"))).wanted
    assert [place.place_id for place in found.places] == ["bog", "lip", "pump"]
    assert found.places[0].band.target == pytest.approx(600 * LPH)


def test_each_of_several_pumps_keeps_a_place_while_demands_conflict() -> None:
    first = one_branch("bog", "lip")[0]
    second = Line(id="two", name="Two", branches=(Branch(id="c", name="Other", feeds=("box",)),))
    at_odds = pond(BOG, LIP, BOX, lines=(first, second))
    conflict(at_odds)
    found = WorkedPond(at_odds).wanted
    for line_id in ("pump", "two"):
        place = found.place(line_id)
        assert place is not None
        assert place.band.low == pytest.approx(2000 * LPH)
        assert place.steps()[-1].result.value == place.band.low
