"""Pump health against ponds with a hidden fault: it is found, or said to be beyond finding."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime, timedelta

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LINE, LPH
from ponds import TWO_BRANCHES as POND

from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.plumbing.network import network_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import Health, Valves, has_valves, health
from pondapp.answers.pumps.health_words import EACH_BRANCH, MORE_FILLS, judged
from pondapp.answers.pumps.lost_since import Since, baseline, missing_places
from pondapp.answers.tuning.flow_sets import (
    FlowAt,
    FlowSet,
    change_of,
    flow_set,
    newest_at,
    with_clean,
    with_tuned,
)
from pondapp.answers.tuning.line_flow import line_flow
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.hydraulics.network import PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve, at_speed
from pondapp.core.hydraulics.tuning import turned
from pondapp.models.circuit import Branch, Line, Pipe, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Bucket,
    Container,
    Fill,
    MeterReading,
    NothingComes,
    Reading,
)

RULES = MeasuringAssumptions()
NOW = datetime(2026, 5, 1, 12, tzinfo=UTC)
LATER = NOW + timedelta(days=60)
TUB = Container(id="t", name="Tub", volume_m3=0.040, tolerance_m3=0.0002)
CURVE = LabelCurve(3.0, 4000 * LPH)
FALL = LINE.branches[1]
PLACES = {"To bog": "bog", "To lip": "lip"}


def readings(flows: Mapping[str, float], at: datetime) -> list[Reading]:
    """A quick set of fills at each branch."""
    return [
        Reading(
            id=f"{PLACES.get(name, name)}{at:%j%H}", pond_id="p",
            place_id=PLACES.get(name, name), place_name=name, taken_at=at, band=None,
            method=Bucket(
                container=TUB,
                fills=tuple(Fill(seconds=0.04 / flow + d) for d in (0.0, 0.1, -0.1)),
            ),
        )
        for name, flow in flows.items()
    ]  # fmt: skip


def circuit(pond: Pond = POND, line: Line = LINE) -> tuple[PipeNetwork, float]:
    network = network_of(pond, line, WorkedPond(pond).planned.flows)
    return network.circuit, network.viscosity


CIRCUIT, NU = circuit()


def flows(curve: PumpCurve, real: PipeNetwork) -> dict[str, float]:
    return {b.branch.name: b.flow for b in operating_point(curve, real, NU).branches if b.flow}


def tuned(curve: PumpCurve) -> PipeNetwork:
    """The pond's valves turned to the plan."""
    real = CIRCUIT
    for key, wanted in (("a", 500), ("b", 1100), ("a", 500)):
        real = turned(curve, real, key, wanted * LPH, NU).circuit
    return real


def blocked(real: PipeNetwork, name: str, more: float) -> PipeNetwork:
    ends = real.branches
    return PipeNetwork(
        real.main,
        tuple(replace(o, valve=o.valve + more) if o.name == name else o for o in ends),
    )


def kept(log: list[Reading]) -> FlowSet:
    seen = [newest_at(log, (place,), RULES) for place in ("bog", "lip")]
    return flow_set(LINE, [one for one in seen if one], NOW + timedelta(minutes=1))


def asked(pond: Pond, log: list[Reading], valves: Valves, line: Line = LINE) -> Health:
    found = health(WorkedPond(pond), line, log, valves)
    assert found is not None
    return found


def after_tuning(
    was: PipeNetwork, is_now: PipeNetwork, curve: PumpCurve, curve_now: PumpCurve
) -> Health:
    log = readings(flows(curve, was), NOW)
    pond = with_tuned(POND, kept(log))
    return asked(pond, log + readings(flows(curve_now, is_now), LATER), "kept")


def test_with_no_reading_it_asks_for_the_branches_by_name() -> None:
    assert health(WorkedPond(POND), LINE, [], "open") is None
    assert [p.name for p in missing_places(WorkedPond(POND), LINE, [])] == ["To bog", "To lip"]


def test_the_sum_over_the_branches_is_the_pump_s_flow_if_they_were_timed_together() -> None:
    log = readings({"To bog": 500 * LPH, "To lip": 1000 * LPH}, NOW)
    found = line_flow(WorkedPond(POND), LINE, log)
    assert found is not None
    assert found.summed
    assert found.flow == pytest.approx(1500 * LPH, rel=0.01)
    apart = [log[0], log[1].model_copy(update={"taken_at": LATER})]
    assert line_flow(WorkedPond(POND), LINE, apart) is None
    whole = readings({"line": 1400 * LPH}, LATER)
    newer = line_flow(WorkedPond(POND), LINE, log + whole)
    assert newer is not None
    assert not newer.summed


@pytest.mark.parametrize(("speed", "state"), [(1.0, "good"), (1.25, "look")])
def test_with_valves_open_the_pump_is_held_against_its_curve(speed: float, state: str) -> None:
    found = asked(POND, readings(flows(at_speed(CURVE, speed), CIRCUIT), NOW), "open")
    assert found.verdict.state == state
    assert found.condition is not None
    assert found.condition.curve_left == pytest.approx(speed, rel=0.01)


def test_a_flow_that_no_such_pump_gives_as_new_says_clean_it() -> None:
    new = sum(flows(CURVE, CIRCUIT).values())
    found = asked(POND, readings({"line": 0.7 * new}, NOW), "open")
    assert found.verdict.state == "clean it"
    assert any("3 m" in str(tell) for tell in found.tells)  # where a sound pump stops
    assert any("cleaning changes nothing" in str(tell) for tell in found.tells)


def test_a_pump_with_a_knob_is_held_against_its_full_speed_and_that_is_said() -> None:
    pumps = (POND.pumps[0].model_copy(update={"adjustable": True}),)
    pond = POND.model_copy(update={"pumps": pumps})
    found = asked(pond, readings(flows(CURVE, CIRCUIT), NOW), "open")
    assert found.verdict.state == "good"
    assert any("full speed" in str(note) for note in found.notes)


def test_a_pump_that_was_turned_down_is_not_called_dirty() -> None:
    """16000 L/h and 6 m, turned to 0.515 where 4000 L/h are wanted: that is its knob, not dirt."""
    hose = Pipe(series="hose, mm", size="40 mm", length_m=4.0)
    branch = Branch(id="b", name="To lip", pipe=hose, lift_m=0.8, feeds=("lip",))
    line = LINE.model_copy(update={"branches": (branch,), "main": None})
    knob = Pump(id="pump", name="Knob", max_flow_m3_s=16000 * LPH, max_head_m=6.0, adjustable=True)
    pond = POND.model_copy(update={"lines": (line,), "pumps": (knob,)})
    log = readings({"line": 4000 * LPH}, NOW)
    found = asked(pond, log, "other", line)
    assert found.verdict.state == "cannot be told"
    assert "at full speed" in str(found.verdict.sentence)
    assert str(found.tells[0]).startswith("Turn the pump to full speed first")
    assert has_valves(pond, line)  # so its owner is asked, though there is no valve
    # At full speed, as its owner says, so little is dirt or a blockage.
    assert asked(pond, log, "open", line).verdict.state == "clean it"


def test_a_new_pump_with_a_straight_curve_is_not_called_dirty() -> None:
    """12000 L/h and 4 m at 2 m of lift, by its label: straight, not a parabola."""
    hose = Pipe(series="hose, mm", size="63 mm", length_m=2.0)
    branch = Branch(id="b", name="To lip", pipe=hose, lift_m=2.0, feeds=("lip",))
    line = LINE.model_copy(update={"branches": (branch,), "main": None})
    label = Pump(id="pump", name="Straight", max_flow_m3_s=12000 * LPH, max_head_m=4.0)
    pond = POND.model_copy(update={"lines": (line,), "pumps": (label,)})
    network = network_of(pond, line, WorkedPond(pond).planned.flows)
    real = operating_point(
        LabelCurve(4.0, 12000 * LPH, 1.0), network.circuit, network.viscosity
    ).flow
    found = asked(pond, readings({"line": real}, NOW), "open", line)
    assert found.verdict.state == "not decided"
    assert "points of its printed curve tell more" in str(found.verdict.why)
    assert "save that as the clean pump" in str(found.tells[0])
    lost = asked(pond, readings({"line": 0.5 * real}, NOW), "open", line)
    assert lost.verdict.state == "clean it"


def test_half_shut_valves_say_nothing_of_the_pump() -> None:
    log = readings(flows(CURVE, tuned(CURVE)), NOW)
    found = asked(POND, log, "other")
    assert found.verdict.state == "cannot be told"
    assert "Open every valve" in str(found.tells[0])
    full = asked(POND, readings(flows(CURVE, CIRCUIT), NOW), "other")
    assert full.verdict.state == "good"  # nothing was missing, so no valve took it


@given(st.floats(0.85, 1.0), st.floats(0.75, 0.9))
@settings(max_examples=20, deadline=None)
def test_a_pump_that_tired_since_tuning_is_found_whatever_it_was_worth_then(
    worth: float, left: float
) -> None:
    then = at_speed(CURVE, worth)
    real = tuned(then)
    found = after_tuning(real, real, then, at_speed(CURVE, worth * left))
    assert found.since is not None
    assert found.since.where == "pump side"
    assert found.verdict.state == "clean it"


@given(st.floats(0.85, 1.0), st.sampled_from(["To bog", "To lip"]), st.floats(2.0, 6.0))
@settings(max_examples=20, deadline=None)
def test_a_blockage_is_found_by_name_and_the_pump_is_not_blamed(
    worth: float, name: str, worse: float
) -> None:
    then = at_speed(CURVE, worth)
    real = tuned(then)
    end = next(o for o in real.branches if o.name == name)
    more = worse * (end.valve + end.run.fittings + 5.0)
    found = after_tuning(real, blocked(real, name, more), then, then)
    assert found.since is not None
    assert found.since.where == "branch"
    assert found.since.blocked == name
    assert found.verdict.state == "look"
    assert name in str(found.verdict.sentence)


def test_nothing_lost_is_said_to_be_nothing() -> None:
    real = tuned(CURVE)
    found = after_tuning(real, real, CURVE, CURVE)
    assert found.verdict.state == "good"
    assert found.since is not None
    assert found.since.where == "nowhere"


def test_a_lone_branch_or_a_whole_flow_cannot_tell_and_says_what_would() -> None:
    line = LINE.model_copy(update={"branches": (FALL,)})
    pond = POND.model_copy(update={"lines": (line,), "fed": POND.fed[1:]})
    real, _ = circuit(pond, line)
    log = readings(flows(CURVE, real), NOW)
    seen = newest_at(log, ("lip",), RULES)
    assert seen is not None
    pond = with_clean(pond, flow_set(line, [seen], NOW + timedelta(minutes=1)))
    log += readings(flows(at_speed(CURVE, 0.8), real), LATER)
    found = asked(pond, log, "kept", line)
    assert found.since is not None
    assert found.since.clean
    assert found.since.where == "either"
    assert "does not tell" in str(found.verdict.why)
    assert any("raise the end" in str(tell) for tell in found.tells)


def test_the_newer_of_clean_and_tuned_is_the_baseline() -> None:
    log = readings(flows(CURVE, CIRCUIT), NOW)
    early = kept(log)
    late = early.model_copy(update={"at": LATER})
    assert baseline(POND, LINE) is None
    assert baseline(with_clean(with_tuned(POND, late), early), LINE) == (late, False)
    assert baseline(with_clean(with_tuned(POND, early), late), LINE) == (late, True)


def test_without_a_pump_the_share_since_tuning_is_still_told() -> None:
    line = LINE.model_copy(update={"pump_id": None})
    pond = POND.model_copy(update={"lines": (line,)})
    log = readings(flows(CURVE, tuned(CURVE)), NOW)
    pond = with_tuned(pond, kept(log))
    assert asked(pond, log, "kept", line).verdict.state == "cannot be told"
    then = sum(flows(CURVE, tuned(CURVE)).values())
    log += readings({"To bog": 350 * LPH, "To lip": 700 * LPH}, LATER)
    found = asked(pond, log, "kept", line)
    assert found.since is not None
    assert found.since.change.share == pytest.approx(1050 * LPH / then, rel=0.01)
    assert found.verdict.state == "clean it"


def test_a_little_low_is_good_for_now_and_a_rough_flow_decides_nothing() -> None:
    new = sum(flows(CURVE, CIRCUIT).values())
    sure = {
        "pumps.flow_tolerance": 0.01, "pumps.head_tolerance": 0.01, "pumps.lift_doubt": 0.0,
        "pumps.loss_doubt": 1.0, "pumps.bend_low": 1.5, "pumps.bend_high": 1.5,
    }  # fmt: skip
    known = POND.model_copy(update={"assumptions": sure})
    low = asked(known, readings({"line": 0.93 * new}, NOW), "open")
    assert low.verdict.state == "good"
    assert str(low.verdict.sentence) == "A little low: 93 % of what it should give here."
    assert low.tells == ()
    rough = Reading(
        id="rough", pond_id="p", place_id="line", place_name="Pump", taken_at=NOW, band=None,
        method=MeterReading(flow_m3_s=0.9 * new, tolerance=0.3),
    )  # fmt: skip
    unsure = asked(POND, [rough], "open")
    assert unsure.verdict.state == "not decided"
    assert str(unsure.verdict.sentence) == (
        "Not decided yet: about 90 % of what it should give here."
    )
    assert [str(tell) for tell in unsure.tells] == [str(MORE_FILLS)]


def test_what_was_just_tuned_is_said_to_be_what_later_flows_are_held_against() -> None:
    log = readings(flows(CURVE, tuned(CURVE)), NOW)
    found = asked(with_tuned(POND, kept(log)), log, "kept")
    assert found.since is None
    assert found.verdict.state == "cannot be told"
    assert str(found.verdict.why).startswith("This is what later flows are compared with")


def test_a_whole_flow_cannot_tell_where_and_asks_for_the_branches() -> None:
    then = flows(CURVE, tuned(CURVE))
    pond = with_tuned(POND, kept(readings(then, NOW)))
    found = asked(pond, readings({"line": 0.7 * sum(then.values())}, LATER), "kept")
    assert found.since is not None
    assert found.since.where is None
    assert found.verdict.state == "clean it"
    assert str(EACH_BRANCH) in [str(tell) for tell in found.tells]


@pytest.mark.parametrize(("bog", "lip"), [(1.2, 1.2), (1.1, 1.3), (1.6, 1.0)])
def test_more_than_when_tuned_is_no_wear_and_no_branch_is_blamed(bog: float, lip: float) -> None:
    then = flows(CURVE, tuned(CURVE))
    pond = with_tuned(POND, kept(readings(then, NOW)))
    more = {"To bog": bog * then["To bog"], "To lip": lip * then["To lip"]}
    found = asked(pond, readings(more, LATER), "kept")
    assert found.since is not None
    assert found.since.blocked == ""
    assert found.verdict.state == "look"
    assert str(found.verdict.why) == "A valve was opened since, or the pump was cleaned."


def test_pump_and_branch_at_once_are_both_named() -> None:
    real = tuned(CURVE)
    found = after_tuning(real, blocked(real, "To bog", 4000.0), CURVE, at_speed(CURVE, 0.8))
    assert found.since is not None
    assert found.since.where == "both"
    assert found.since.blocked == "To bog"
    assert "something is in the way at To bog too" in str(found.verdict.why)


def test_a_flow_that_is_no_wear_but_nonsense_is_told_as_a_note() -> None:
    found = asked(POND, readings({"line": 12_000 * LPH}, NOW), "open")
    assert found.condition is None
    assert any("that is no wear" in str(note) for note in found.notes)
    assert found.verdict.state == "cannot be told"


def test_no_change_is_good_only_where_it_is_sure_that_enough_is_left() -> None:
    rule = certainty(RULES)
    close = change_of("", 1000 * LPH, 20 * LPH, 980 * LPH, 25 * LPH, rule)
    rough = change_of("", 1000 * LPH, 62 * LPH, 925 * LPH, 70 * LPH, rule)
    wide = change_of("", 1000 * LPH, 200 * LPH, 500 * LPH, 200 * LPH, rule)
    assert (close.told, close.at_least(0.85)) == (False, True)
    assert (rough.told, rough.at_least(0.85)) == (False, False)
    assert (wide.told, wide.at_least(0.1)) == (False, False)  # too wide for any verdict
    for change, state in ((close, "good"), (rough, "not decided"), (wide, "not decided")):
        then = FlowAt(
            place_id="lip", place_name="Lip", reading_id="r", flow_m3_s=change.then,
            half_width_m3_s=1 * LPH,
        )  # fmt: skip
        kept = FlowSet(line_id="line", at=NOW, places=(then,))
        since = Since(kept, True, change, None, (), ())
        assert judged(False, False, None, since, 0.85, slow=False).state == state


def test_a_pump_is_healthy_only_by_what_was_entered() -> None:
    log = readings(flows(CURVE, circuit()[0]), NOW)
    known = asked(POND, log, "open")
    assert (known.verdict.state, known.severity) == ("good", "right")
    guessed = LINE.model_copy(
        update={"branches": tuple(b.model_copy(update={"lift_m": None}) for b in LINE.branches)}
    )
    pond = POND.model_copy(update={"lines": (guessed,)})
    real, _ = circuit(pond, guessed)
    found = asked(pond, readings(flows(CURVE, real), NOW), "open", guessed)
    assert found.severity == "unknown"
    assert str(found.verdict.sentence).endswith("if lift and hose are as assumed.")


def test_a_pump_that_brought_no_water_is_not_dry_once_some_comes() -> None:
    seen = Reading(
        id="none", pond_id="p", place_id=LINE.id, place_name="Pump", taken_at=NOW, band=None,
        method=NothingComes(seen="outlet"),
    )  # fmt: skip
    dry = line_flow(WorkedPond(POND), LINE, [seen])
    assert dry is not None
    assert dry.dry
    later = readings({"To lip": 1500 * LPH}, NOW + timedelta(minutes=7))
    assert line_flow(WorkedPond(POND), LINE, [*later, seen]) is None
