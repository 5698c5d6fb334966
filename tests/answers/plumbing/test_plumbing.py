"""A pond's plumbing against the core called directly, and what a wider hose saves."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import BOG, LPH, NARROW_LIP, invented, two_branches

from pondapp.answers.features.targets import targets
from pondapp.answers.plumbing.network import ALL_SERIES, network_of, size_names
from pondapp.answers.plumbing.plumbing import (
    ALL_FITTINGS,
    FITTING_GROUPS,
    FITTING_NAMES,
    RunAnswer,
    line_answer,
    line_of,
    put_pipe,
)
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.hydraulics.fittings import FITTINGS
from pondapp.core.hydraulics.run import Run
from pondapp.core.hydraulics.water import density, kinematic_viscosity
from pondapp.models.circuit import Branch, Line, Lip, Pipe, Pump
from pondapp.ui.plumbing.run_answer import wider_text

HOSE = Pipe(series="hose, mm", size="25 mm", length_m=4.0, fittings={"elbow_90": 2})
MAIN = Pipe(series="PVC pressure pipe, mm outside", size="40 mm", length_m=6.0)
LINE = two_branches({"pipe": HOSE, "lift_m": 0.5, "valve": "ball"}, {"lift_m": 1.2}, main=MAIN)
POND = invented(BOG, NARROW_LIP, lines=(LINE,))


def with_pipe(key: str, pipe: Pipe) -> Line:
    changed = line_of(put_pipe(POND, "line", key, pipe), "line")
    assert changed is not None
    return changed


FLOWS = {"a": 600 * LPH, "b": 2000 * LPH}


def test_a_branch_is_counted_part_by_part() -> None:
    """By hand: every part's K on the speed in the hose, T-piece and outlet added by themselves."""
    answer = line_answer(WorkedPond(POND), LINE, FLOWS)
    run = answer.run("a")
    assert run is not None
    ks = [FITTINGS[key].loss for key in ("elbow_90", "elbow_90", "ball_valve", "tee_branch")]
    k = sum(ks) + FITTINGS["outlet"].loss
    nu = kinematic_viscosity(273.15 + POND.water_temperature_c)
    wall_and_all = Run(4.0, 0.025, 1.5e-6 / 0.025, k).loss(600 * LPH, nu)
    assert run.head == pytest.approx(0.5 + wall_and_all, rel=1e-12)
    speed = 600 * LPH / (pi * 0.025**2 / 4)
    shares = {part.kind: part for part in run.parts}
    assert shares["valve"].head == pytest.approx(0.05 * speed**2 / (2 * GRAVITY), rel=1e-12)
    assert sum(part.head for part in run.parts) == pytest.approx(run.head, rel=1e-12)
    assert sum(part.share for part in run.parts) == pytest.approx(1.0)


def test_the_neediest_branch_and_the_main_run_set_the_head() -> None:
    answer = line_answer(WorkedPond(POND), LINE, FLOWS)
    main, bog, lip = answer.runs
    assert answer.head == pytest.approx(main.loss.total + max(bog.head, lip.head))
    assert (bog.neediest, lip.neediest) == (False, True)
    assert answer.flow == pytest.approx(2600 * LPH)
    assert answer.steps()[-1].result.value == pytest.approx(answer.head)


def test_a_missing_pipe_is_assumed_and_said_so() -> None:
    counted = network_of(POND, LINE, FLOWS).branches[1]
    assert counted.assumed
    assert counted.run.length == 3.0
    speed = counted.flow / (pi * counted.run.bore**2 / 4)
    assert speed <= 1.524


def test_ribbed_hose_takes_more_than_smooth() -> None:
    ribbed = with_pipe("a", HOSE.model_copy(update={"series": "ribbed hose, mm"}))
    rough, smooth = (line_answer(WorkedPond(POND), line, FLOWS).run("a") for line in (ribbed, LINE))
    assert rough
    assert smooth
    assert rough.loss.wall > 1.5 * smooth.loss.wall


def test_a_wider_hose_saves_money_only_where_it_eases_the_pump() -> None:
    _, bog, lip = line_answer(WorkedPond(POND), LINE, FLOWS).runs
    assert bog.wider
    assert bog.wider.size == "32 mm"
    assert bog.wider.run_head > 0.0
    assert bog.wider.pump_head == bog.wider.money_high == 0.0
    assert lip.wider
    assert lip.wider.pump_head == pytest.approx(lip.wider.run_head)
    # rho g Q h over an efficiency of 10 %, for a year at 0.30 a kilowatt-hour
    rho = density(273.15 + POND.water_temperature_c)
    watts = rho * GRAVITY * 2600 * LPH * lip.wider.pump_head / 0.10
    assert lip.wider.money_high == pytest.approx(watts * 8760 / 1000 * 0.30)
    assert lip.wider.money_low == pytest.approx(lip.wider.money_high * 0.10 / 0.35)


def test_half_a_day_halves_what_it_saves() -> None:
    half = LINE.model_copy(update={"hours_per_day": 12.0})
    all_day, half_day = (
        line_answer(WorkedPond(POND), line, FLOWS).runs[0].wider for line in (LINE, half)
    )
    assert all_day
    assert half_day
    assert half_day.money_high == pytest.approx(all_day.money_high / 2)


def test_the_widest_size_has_no_next() -> None:
    widest = with_pipe("a", HOSE.model_copy(update={"size": size_names("hose, mm")[-1]}))
    run = line_answer(WorkedPond(POND), widest, FLOWS).run("a")
    assert run
    assert run.wider is None


def test_refusals() -> None:
    with pytest.raises(NoSolution, match="no flow is planned"):
        network_of(POND, LINE, {"a": 0.0, "b": 0.0})
    odd = with_pipe("a", HOSE.model_copy(update={"size": "26 mm"}))
    with pytest.raises(OutOfRange, match="no size"):
        network_of(POND, odd, FLOWS)
    with pytest.raises(OutOfRange, match="no series"):
        size_names("straw")


def test_a_resting_branch_does_not_set_the_head() -> None:
    answer = line_answer(WorkedPond(POND), LINE, {"a": 600 * LPH, "b": 0.0})
    assert answer.network.needs.neediest.name == "To bog"
    assert answer.runs[2].loss.total == 0.0


def test_a_change_draws_in_the_assumed_lines() -> None:
    bare = POND.model_copy(update={"lines": ()})
    changed = put_pipe(bare, "pump", "to-bog", HOSE)
    assert [branch.pipe for branch in changed.lines[0].branches] == [HOSE, None]
    assert put_pipe(changed, "pump", "main", MAIN).lines[0].main == MAIN
    assert line_of(changed, "elsewhere") is None


def test_two_branches_of_one_name_are_told_apart() -> None:
    twins = LINE.model_copy(
        update={
            "branches": (
                LINE.branches[0],
                LINE.branches[1].model_copy(update={"name": "To bog"}),
            )
        }
    )
    assert line_answer(WorkedPond(POND), twins, FLOWS).flow == pytest.approx(2600 * LPH)


def test_every_series_has_sizes_and_every_fitting_a_name() -> None:
    assert all(size_names(series) for series in ALL_SERIES)
    assert set(ALL_FITTINGS) <= set(FITTING_NAMES)
    assert len(ALL_FITTINGS) == len(set(ALL_FITTINGS))


def test_planned_flows_come_from_the_plan_whatever_the_pump() -> None:
    planned = WorkedPond(POND).planned
    assert planned.conflict is None
    assert planned.flows["a"] >= 400 * LPH
    assert sum(planned.flows.values()) >= 1000 * LPH * (1 - 1e-12)
    toy = Pump(id="toy", name="Toy", max_flow_m3_s=100 * LPH, max_head_m=2.0)
    line = LINE.model_copy(update={"pump_id": "toy"})
    weak = POND.model_copy(update={"pumps": (toy,), "lines": (line,)})
    without = WorkedPond(weak).planned
    assert without.flows == planned.flows
    assert without.conflict is None
    assert "by its label it delivers about" in str(without.weak)


def test_while_demands_conflict_each_branch_has_its_neediest_thing() -> None:
    at_odds = Line(id="l", name="P", branches=(Branch(id="a", name="A", feeds=("bog", "lip")),))
    wide = POND.model_copy(
        update={
            "lines": (at_odds,),
            "fed": (POND.fed[0], Lip(id="lip", name="Lip", width_m=0.6)),
        }
    )
    planned = WorkedPond(wide).planned
    assert planned.conflict is not None
    asked = next(place.asked for place in targets(wide).places if place.place_id == "lip")
    assert planned.flows["a"] == pytest.approx(asked)


@settings(max_examples=25)
@given(
    lph=st.floats(50, 8000),
    length=st.floats(0.1, 60),
    size=st.sampled_from(size_names("hose, mm")[2:-1]),
    lift=st.floats(0, 3),
)
def test_wider_never_takes_more(lph: float, length: float, size: str, lift: float) -> None:
    pipe = Pipe(series="hose, mm", size=size, length_m=length)
    line = Line(id="l", name="P", branches=(Branch(id="a", name="A", pipe=pipe, lift_m=lift),))
    run = line_answer(WorkedPond(POND), line, {"a": lph * LPH}).runs[0]
    assert run.wider
    assert 0.0 <= run.wider.pump_head <= run.loss.total
    assert run.wider.velocity < run.loss.velocity
    assert run.wider.money_low <= run.wider.money_high


def test_parts_of_every_shelf_can_be_entered_and_count() -> None:
    assert sorted(key for group in FITTING_GROUPS.values() for key in group) == sorted(ALL_FITTINGS)
    wanted = {"foot_valve", "wye_branch", "globe_valve", "strainer", "hose_tail", "reducer"}
    assert wanted <= set(ALL_FITTINGS)
    pipe = Pipe(series="hose, mm", size="40 mm", length_m=5.0, fittings={"elbow_90": 1})
    for key in ALL_FITTINGS:
        more = pipe.model_copy(update={"fittings": {**pipe.fittings, key: 3}})
        heads = [
            line_answer(WorkedPond(POND), with_pipe("main", one), FLOWS).head
            for one in (pipe, more)
        ]
        assert heads[1] > heads[0], key


def test_a_wye_on_a_branch_is_its_t_piece() -> None:
    wye = Pipe(series="hose, mm", size="40 mm", length_m=5.0, fittings={"wye_branch": 1})
    run = line_answer(WorkedPond(POND), with_pipe("a", wye), FLOWS).run("a")
    assert run is not None
    assert "tee_branch" not in run.counted.added


def fall(pump: Pump | None, size: str = "19 mm", lph: float = 5000) -> RunAnswer:
    """5000 L/h through 5 m of thin hose, up half a metre."""
    pipe = Pipe(series="hose, mm", size=size, length_m=5.0)
    branch = Branch(id="a", name="A", pipe=pipe, lift_m=0.5)
    line = Line(id="l", name="P", pump_id=pump and pump.id, branches=(branch,))
    pond = POND.model_copy(update={"lines": (line,), "pumps": (pump,) if pump else ()})
    return line_answer(WorkedPond(pond), line, {"a": lph * LPH}).runs[0]


def test_a_wider_hose_never_saves_more_than_the_pump_costs() -> None:
    """A pump of 90 W costs 237 a year at 0.30 a kilowatt-hour, all year round."""
    pump = Pump(id="p", name="P", max_flow_m3_s=8000 * LPH, max_head_m=6.0, power_w=90)
    wider = fall(pump).wider
    assert wider
    assert wider.money_low <= wider.money_high <= 0.090 * 8760 * 0.30
    loose = fall(None).wider
    assert loose
    assert loose.money_high > 0.090 * 8760 * 0.30
    assert "A smaller pump would then" in wider_text(wider, wider.size, "A", "metric")
    knob = fall(pump.model_copy(update={"adjustable": True})).wider
    assert knob
    assert "Turned down" in wider_text(knob, "40 mm", "A", "metric")
    assert "A pump chosen to match" in wider_text(loose, "40 mm", "A", "metric")


def test_the_size_that_fits_is_offered_and_not_just_the_next() -> None:
    run = fall(None, "13 mm")
    assert run.wider
    assert run.wider.size == "38 mm"  # 1.5 m/s at most: 34 mm of bore or more
    assert run.wider.velocity <= 1.524
    easy = fall(None, "50 mm")
    assert easy.wider
    assert easy.wider.size == size_names("hose, mm")[size_names("hose, mm").index("50 mm") + 1]
