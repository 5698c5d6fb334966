"""Tuning against a simulated pond: the core's own circuit with a truth that the app does not know.

The hose of the truth is rougher and its pump weaker than what is entered.
"""

import random
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import HOSE, LINE, LPH
from ponds import TWO_BRANCHES as POND

from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.features.targets import with_aim
from pondapp.answers.measuring.flow import measured
from pondapp.answers.plumbing.network import network_of
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.tuning.evidence import Evidence
from pondapp.answers.tuning.flow_sets import (
    branch_places,
    flow_set,
    newest_at,
    set_of,
    with_tuned,
)
from pondapp.answers.tuning.tune import (
    all_in,
    changes_since,
    deviation,
    order,
    standing,
    state_of,
    states,
    valve_effect,
)
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Message
from pondapp.core.hydraulics.network import PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, at_speed
from pondapp.core.hydraulics.tuning import turned
from pondapp.models.circuit import Branch, Lip
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Fill, MeterReading, Reading

NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
BUCKET = Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.00005)
RULES = MeasuringAssumptions()
CURVE = LabelCurve(3.0, 4000 * LPH)
STRONG = POND.pumps[0].model_copy(update={"max_flow_m3_s": 12_000 * LPH})


def reading(place_id: str, flow: float, at: datetime, number: int = 0) -> Reading:
    seconds = 0.009 / flow
    place = next(p for p in branch_places(WorkedPond(POND), LINE) if p.place_id == place_id)
    return Reading(
        id=f"{place_id}{number}", pond_id="p", place_id=place_id, place_name=place.place_name,
        taken_at=at,
        method=Bucket(
            container=BUCKET, fills=tuple(Fill(seconds=seconds + d) for d in (0.0, 0.1, -0.1))
        ),
        band=Band(
            low_m3_s=place.band.low, target_m3_s=place.band.target, high_m3_s=place.band.high
        ),
    )  # fmt: skip


def meter(place_id: str, flow: float) -> Reading:
    return Reading(
        id=f"m{place_id}", pond_id="p", place_id=place_id, place_name=place_id, taken_at=NOW,
        method=MeterReading(flow_m3_s=flow, tolerance=0.01), band=None,
    )  # fmt: skip


def truth(rougher: float) -> PipeNetwork:
    """The pond as it really is."""
    circuit = network_of(POND, LINE, WorkedPond(POND).planned.flows).circuit
    assert circuit.main is not None
    return PipeNetwork(
        circuit.main,
        tuple(
            replace(o, run=replace(o.run, fittings=o.run.fittings + rougher))
            for o in circuit.branches
        ),
    )


def test_each_branch_is_caught_at_its_end_and_aims_at_the_plan() -> None:
    places = branch_places(WorkedPond(POND), LINE)
    assert [(p.place_id, p.name) for p in places] == [("bog", "To bog"), ("lip", "To lip")]
    flows = WorkedPond(POND).planned.flows
    for place in places:
        # As much above the plan's least as it takes to tell by three fills that it is there.
        assert flows[place.branch.id] <= place.band.target <= 1.10 * flows[place.branch.id]
        assert place.band.low < place.band.target


def test_things_in_a_row_share_a_band_and_a_bypass_opens_it_upwards() -> None:
    content = with_aim(POND, "least")  # the lip's good flow would be more than the bog can take
    row = Branch(id="a", name="Row", feeds=("bog", "lip"))
    in_row = branch_places(WorkedPond(content.model_copy(update={
        "lines": (LINE.model_copy(update={"branches": (row,)}),)})), LINE.model_copy(
            update={"branches": (row,)}))  # fmt: skip
    assert in_row[0].place_id == "lip"
    assert in_row[0].band.high == pytest.approx(1200 * LPH)  # the bog's
    past = row.model_copy(update={"bypass": ("bog",)})
    line = LINE.model_copy(update={"branches": (past,)})
    around = branch_places(WorkedPond(content.model_copy(update={"lines": (line,)})), line)
    assert around[0].place_id == "lip"
    assert around[0].band.high is not None
    assert around[0].band.high > 1200 * LPH


def test_an_aim_lies_so_far_inside_that_fills_can_tell_it_is_right() -> None:
    place = branch_places(WorkedPond(POND), LINE)[0]
    assert place.sure
    assert place.band.target > 1.02 * place.band.low
    for factor, state in ((1.0, "in"), (1.5, "in"), (0.9, "off"), (4.0, "off"), (0.945, "open")):
        seconds = 0.009 / (factor * place.band.target)
        fills = [Fill(seconds=seconds + d) for d in (0.0, 0.2, -0.2)]
        found = measured(BUCKET, fills, place.band)
        assert found is not None
        off = deviation(found, place)
        assert off.state == state
        if state == "open":
            assert str(off.sentence).startswith("Not decided yet")
            assert "a container of" in str(off.turn) or "right at a limit" in str(off.turn)
        if factor == 0.9:
            assert str(off.sentence).startswith("10 % less than the aim")
            assert "towards the line of the hose" in str(off.turn)
        if factor == 4.0:
            assert str(off.sentence).startswith("4 times the aim")
            assert "away from the line" in str(off.turn)


def test_the_greedy_bog_comes_first_and_why_is_said_in_numbers() -> None:
    found = order(WorkedPond(POND), LINE)
    assert [place.branch.id for place, _ in found.turns] == ["a", "b"]
    assert "Begin with To bog" in str(found.why[0])


def test_without_a_pump_the_order_is_not_guessed() -> None:
    line = LINE.model_copy(update={"pump_id": None})
    with pytest.raises(NoSolution, match="choose a pump"):
        order(WorkedPond(POND.model_copy(update={"lines": (line,)})), line)


@given(st.floats(0.0, 6.0), st.floats(0.85, 1.0), st.floats(0.3, 0.9))
@settings(max_examples=25)
def test_the_range_foretold_for_the_others_holds_though_pump_and_hose_are_not_as_entered(
    rougher: float, speed: float, share: float
) -> None:
    real, curve = truth(rougher), at_speed(CURVE, speed)
    nu = network_of(POND, LINE, WorkedPond(POND).planned.flows).viscosity
    before = {b.branch.name: b.flow for b in operating_point(curve, real, nu).branches}
    if before["To lip"] < 100 * LPH:
        return  # next to dry, a hair's breadth of head is all the difference
    aim = next(p for p in branch_places(WorkedPond(POND), LINE) if p.branch.id == "a").band.target
    flow = before["To bog"]
    if not aim < share * flow:
        return
    log = [reading("lip", before["To lip"], NOW)]
    after = turned(curve, real, "a", aim, nu)
    found = valve_effect(WorkedPond(POND), LINE, log, "a", flow, NOW)
    (lip,) = found.others
    assert lip.name == "To lip"
    assert lip.before == pytest.approx(before["To lip"], rel=0.01)
    assert lip.before < 1.01 * lip.low
    assert 0.98 * lip.low <= after.flows["b"] <= 1.02 * lip.high
    assert found.assumed_open == ()
    assert str(found.opening)


def test_an_old_reading_does_not_say_how_a_valve_stands_today() -> None:
    log = [reading("lip", 1000 * LPH, NOW - timedelta(days=30))]
    found = valve_effect(WorkedPond(POND), LINE, log, "a", 900 * LPH, NOW)
    assert found.assumed_open == ("To lip",)


def test_two_branches_come_in_one_after_the_other() -> None:
    aims = {p.place_id: p.band.target for p in branch_places(WorkedPond(POND), LINE)}
    assert [s.state for s in states(WorkedPond(POND), LINE, [], {}, NOW)] == ["to do", "to do"]
    log = [reading("bog", 4.0 * aims["bog"], NOW)]
    assert states(WorkedPond(POND), LINE, log, {}, NOW)[0].state == "off"
    later = NOW + timedelta(minutes=10)
    turned_at = {"a": NOW + timedelta(minutes=1)}
    log.append(reading("bog", aims["bog"], NOW + timedelta(minutes=3), 1))
    assert states(WorkedPond(POND), LINE, log, turned_at, later)[0].state == "in"
    turned_at["b"] = NOW + timedelta(minutes=4)
    log.append(reading("lip", 1.2 * aims["lip"], NOW + timedelta(minutes=5)))
    found = states(WorkedPond(POND), LINE, log, turned_at, later)
    assert [s.state for s in found] == ["again", "in"]
    assert not all_in(found)
    log.append(reading("bog", 1.02 * aims["bog"], NOW + timedelta(minutes=6), 2))
    assert all_in(states(WorkedPond(POND), LINE, log, turned_at, later))


@pytest.mark.parametrize(("days", "state"), [(0, "in"), (1, "in"), (200, "old"), (-1, "to do")])
def test_a_reading_too_old_or_dated_ahead_makes_no_branch_right(days: int, state: str) -> None:
    taken_at = NOW - timedelta(days=days)
    log = [
        reading(p.place_id, p.band.target, taken_at) for p in branch_places(WorkedPond(POND), LINE)
    ]
    found = states(WorkedPond(POND), LINE, log, {}, NOW)
    assert [one.state for one in found] == [state, state]
    assert all_in(found) == (state == "in")
    # The pond's own screen says the same of the same readings.
    flows = [m.sentence.template for m in open_matters(WorkedPond(POND), log, NOW).matters]
    assert ("Every flow is as wanted." in flows) == (state == "in")
    assert ("Measured too long ago: {names}." in flows) == (state == "old")


def test_a_set_is_kept_and_new_readings_are_held_against_it() -> None:
    log = [reading("bog", 500 * LPH, NOW), reading("lip", 1100 * LPH, NOW)]
    seen = [s for s in (newest_at(log, ("bog",), RULES), newest_at(log, ("lip",), RULES)) if s]
    pond = with_tuned(POND, flow_set(LINE, seen, NOW))
    pond = with_tuned(pond, flow_set(LINE, seen, NOW))
    assert Pond.model_validate_json(pond.model_dump_json()) == pond
    kept = set_of(pond.tuned, LINE)
    assert kept is not None
    assert len(pond.tuned) == 1
    assert changes_since(kept, Evidence(WorkedPond(pond), log, NOW)) == ()
    later = NOW + timedelta(days=9)
    log.append(reading("bog", 400 * LPH, later, 1))
    assert changes_since(kept, Evidence(WorkedPond(pond), log, NOW)) == (), "dated ahead"
    (change,) = changes_since(kept, Evidence(WorkedPond(pond), log, later))
    assert change.share == pytest.approx(0.8, rel=0.01)
    assert change.told
    assert change.low < 0.8 < change.high


def test_while_the_path_is_only_assumed_a_valve_may_be_there() -> None:
    pond = POND.model_copy(update={"lines": ()})
    (line,) = lines_of(pond)
    place = branch_places(WorkedPond(pond), line)[0]
    assert place.valve == "unknown"
    fills = [Fill(seconds=20.0 + d) for d in (0.0, 0.1, -0.1)]
    found = measured(BUCKET, fills, place.band)
    assert found is not None
    assert str(deviation(found, place).turn) == "Close this branch's valve further, or put one in."


def test_inside_the_band_but_over_the_aim_is_right_and_may_be_closed_a_little() -> None:
    place = branch_places(WorkedPond(POND), LINE)[0]
    fills = [Fill(seconds=0.009 / (2.0 * place.band.target) + d) for d in (0.0, 0.1, -0.1)]
    found = measured(BUCKET, fills, place.band)
    assert found is not None
    off = deviation(found, place)
    assert off.state == "in"
    assert "is enough here" in str(off.turn)


def test_verdicts_near_a_limit_are_wrong_no_oftener_than_their_interval_says() -> None:
    dice = random.Random(7)
    place = branch_places(WorkedPond(POND), LINE)[0]
    low, high = place.band.low, place.band.high
    assert high is not None
    wrong = turned_wrongly = 0
    rounds = 600
    for _ in range(rounds):
        flow = dice.choice((low, high)) * dice.uniform(0.97, 1.03)
        volume = BUCKET.volume_m3 + dice.uniform(-1, 1) * BUCKET.tolerance_m3
        fills = [Fill(seconds=volume / flow + dice.gauss(0.0, 0.1)) for _ in range(3)]
        found = measured(BUCKET, fills, place.band)
        assert found is not None
        truth = "below" if flow < low else "above" if flow > high else "within"
        wrong += found.kind not in ("undecided", truth)
        off = deviation(found, place)
        if off.state == "off":
            turned_wrongly += ("less" in str(off.sentence)) != (flow < place.band.target)
    assert wrong <= 0.05 * rounds
    assert turned_wrongly <= 0.05 * rounds


def test_a_reading_at_anything_that_takes_the_whole_branch_is_one_of_the_branch() -> None:
    pond = example_pond()
    (line,) = lines_of(pond)
    found = states(WorkedPond(pond), line, example_readings(NOW), {}, NOW)
    assert [state.seen.reading.place_id for state in found if state.seen] == ["bog", "box"]


def test_a_reading_by_any_method_tells_how_a_valve_stands_until_one_is_turned() -> None:
    pond = POND.model_copy(update={"pumps": (STRONG,)})
    worked = WorkedPond(pond)
    place = branch_places(worked, LINE)[0]
    meter = MeterReading(flow_m3_s=4.0 * place.band.target, tolerance=0.02)
    log = [reading("bog", place.band.target, NOW).model_copy(update={"method": meter})]
    soon = NOW + timedelta(minutes=5)
    seen = standing(pond, state_of(Evidence(worked, log, soon), place, {}), soon)
    assert seen is not None
    assert str(deviation(seen.found, place).sentence).startswith("4 times the aim")
    assert standing(pond, state_of(Evidence(worked, log, soon), place, {"b": soon}), soon) is None
    in_days = NOW + timedelta(days=3)
    assert standing(pond, state_of(Evidence(worked, log, in_days), place, {}), in_days) is None
    assert standing(pond, state_of(Evidence(worked, [], soon), place, {}), soon) is None


def test_where_there_is_no_valve_no_opening_is_told() -> None:
    a, b = LINE.branches
    line = LINE.model_copy(update={"branches": (a.model_copy(update={"valve": "none"}), b)})
    log = [reading("lip", 1000 * LPH, NOW)]
    found = valve_effect(
        WorkedPond(POND.model_copy(update={"lines": (line,)})), line, log, "a", 900 * LPH, NOW
    )
    assert found.opening == Message("")
    assert [moved.name for moved in found.others] == ["To lip"]


def test_a_valve_that_must_take_nearly_all_is_said_to_be_nearly_closed() -> None:
    huge = POND.pumps[0].model_copy(update={"max_flow_m3_s": 40_000 * LPH, "max_head_m": 30.0})
    pond = POND.model_copy(update={"pumps": (huge,)})
    found = valve_effect(WorkedPond(pond), LINE, [], "a", 5000 * LPH, NOW)
    assert "nearly closed" in str(found.opening)


def test_more_than_the_pump_can_give_is_named_and_its_branch_moves_by_the_same_share() -> None:
    found = valve_effect(
        WorkedPond(POND), LINE, [reading("lip", 9000 * LPH, NOW)], "a", 1500 * LPH, NOW
    )
    assert any("More than this pump" in str(note) and "To lip" in str(note) for note in found.notes)
    (lip,) = found.others
    assert lip.before == pytest.approx(9000 * LPH, rel=0.01)


def test_what_is_over_the_aim_but_short_of_twice_is_told_as_a_share() -> None:
    place = branch_places(WorkedPond(POND), LINE)[1]
    seconds = 0.009 / (1.4 * place.band.target)
    fills = [Fill(seconds=seconds + d) for d in (0.0, 0.02, -0.02)]
    # A band whose upper end lies below: only then is 40 % more too much.
    tight = replace(place, band=replace(place.band, high=1.1 * place.band.target))
    found = measured(BUCKET, fills, tight.band)
    assert found is not None
    assert str(deviation(found, tight).sentence).startswith("40 % more than the aim of ")


def test_a_branch_that_feeds_nothing_is_caught_at_its_own_end() -> None:
    a, b = LINE.branches
    bare = LINE.model_copy(update={"branches": (a, b, Branch(id="c", name="Back", pipe=HOSE))})
    pond = POND.model_copy(
        update={"lines": (bare,), "assumptions": {"filters.turnover_whole": 4.0 / 3600.0}}
    )
    places = branch_places(WorkedPond(pond), bare)
    assert [(place.place_id, place.place_name) for place in places if place.branch.id == "c"] == [
        ("c", "Back")
    ]


def test_where_the_demands_of_a_branch_conflict_no_flow_is_right() -> None:
    # 0.1 m3 of bog stand 1200 L/h at most, 0.6 m of lip want 4000 L/h at least.
    row = Branch(id="a", name="Row", pipe=HOSE, feeds=("bog", "lip"))
    line = LINE.model_copy(update={"branches": (row,)})
    wide = Lip(id="lip", name="Lip", width_m=0.6)
    parts = {"lines": (line,), "fed": (POND.fed[0], wide), "pumps": (STRONG,)}
    pond = POND.model_copy(update=parts)
    (place,) = branch_places(WorkedPond(pond), line)
    assert place.place_id == "lip"
    assert place.band.low >= 4000 * LPH
    assert place.conflict is not None
    assert place.conflict == WorkedPond(pond).planned.conflict
    for lph in (1000, 4200, 8000):
        (state,) = states(WorkedPond(pond), line, [meter("lip", lph * LPH)], {}, NOW)
        assert state.state == "conflict"
        assert state.seen is not None
        off = deviation(state.seen.found, place)
        assert "flow plan" in str(off.turn)
        assert "enough" not in str(off.turn)
        assert not all_in([state])


def test_a_hose_that_is_only_assumed_is_said_to_be() -> None:
    a, b = LINE.branches
    line = LINE.model_copy(update={"branches": (a.model_copy(update={"pipe": None}), b)})
    pond = POND.model_copy(update={"lines": (line,)})
    found = valve_effect(
        WorkedPond(pond), line, [reading("lip", 1000 * LPH, NOW)], "a", 900 * LPH, NOW
    )
    assert "No hose is entered for To bog: one is assumed." in [str(note) for note in found.notes]


def test_a_branch_is_not_said_to_get_less_than_was_measured_there() -> None:
    # Nothing is plumbed, so a thin hose is assumed for the bog's 400 L/h; its aim is a little more.
    weaker = POND.pumps[0].model_copy(update={"max_head_m": 2.5})
    pond = POND.model_copy(update={"lines": (), "pumps": (weaker,)})
    (line,) = lines_of(pond)
    branch = next(one for one in line.branches if "bog" in one.feeds)
    with pytest.raises(NoSolution, match="More than this pump and these hoses could give"):
        valve_effect(WorkedPond(pond), line, [], branch.id, 1620 * LPH, NOW)
    with pytest.raises(NoSolution, match="even with its valve wide open"):
        valve_effect(WorkedPond(pond), line, [], branch.id, 200 * LPH, NOW)
