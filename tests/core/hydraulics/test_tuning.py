"""Valves set one after the other against the circuit solved as a whole."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, at_speed
from pondapp.core.hydraulics.run import Run
from pondapp.core.hydraulics.tuning import as_found, least_speed, order_of_setting, turned

NU = 1.0e-6
HOUR = 1.0 / 3600.0
CURVE = LabelCurve(3.5, 5.0 * HOUR)
HOSE = Run(3.0, 0.025, 1e-4, 3.0)
CIRCUIT = PipeNetwork(
    Run(2.0, 0.032, 1e-4, 1.5),
    (Outlet("bog", HOSE, 0.3), Outlet("fall", HOSE, 0.6), Outlet("jet", HOSE, 0.2)),
)
VALVES = st.floats(0.0, 500.0)


def with_valves(*valves: float) -> PipeNetwork:
    outlets = (replace(o, valve=v) for o, v in zip(CIRCUIT.branches, valves, strict=True))
    return PipeNetwork(CIRCUIT.main, tuple(outlets))


def flows(circuit: PipeNetwork) -> dict[str, float]:
    return {b.key: b.flow for b in operating_point(CURVE, circuit, NU).branches}


@given(VALVES, VALVES, VALVES)
@settings(max_examples=40)
def test_valves_are_found_from_the_flows_behind_them(a: float, b: float, c: float) -> None:
    real = with_valves(a, b, c)
    found = as_found(CURVE, CIRCUIT, flows(real), NU)
    assert found.flows == pytest.approx(flows(real), rel=1e-5, abs=1e-9)
    for was, now in zip(real.branches, found.circuit.branches, strict=True):
        assert now.valve == pytest.approx(was.valve, rel=1e-3, abs=1e-2)


@given(VALVES, VALVES)
@settings(max_examples=30)
def test_a_branch_that_was_not_measured_counts_as_it_stands(a: float, b: float) -> None:
    real = with_valves(a, b, 0.0)
    measured = {name: flow for name, flow in flows(real).items() if name != "jet"}
    found = as_found(CURVE, CIRCUIT, measured, NU)
    assert found.flows["jet"] == pytest.approx(flows(real)["jet"], rel=1e-5)


@given(VALVES, VALVES, st.floats(0.2, 0.95))
@settings(max_examples=40)
def test_turning_one_valve_is_the_circuit_solved_anew(a: float, b: float, share: float) -> None:
    start = with_valves(a, b, 0.0)
    before = flows(start)
    found = turned(CURVE, start, "jet", share * before["jet"], NU)
    after = flows(found.circuit)
    assert after == pytest.approx(dict(found.flows), rel=1e-5, abs=1e-9)
    assert after["bog"] >= before["bog"]
    assert after["fall"] >= before["fall"]
    assert {step.result.symbol for step in found.steps()} == {"Q_b"}


def test_more_than_wide_open_is_refused_with_what_there_is() -> None:
    most = flows(with_valves(9.0, 9.0, 0.0))["jet"]
    with pytest.raises(NoSolution, match="wide open jet gets only"):
        turned(CURVE, with_valves(9.0, 9.0, 5.0), "jet", 1.2 * most, NU)


def test_more_than_the_model_gives_is_named() -> None:
    measured = {name: 1.3 * flow for name, flow in flows(CIRCUIT).items()}
    assert "jet" in as_found(CURVE, CIRCUIT, measured, NU).beyond


@given(st.floats(0.8, 1.0), VALVES)
@settings(max_examples=30)
def test_the_slowest_pump_that_fits_has_a_valve_wide_open(speed: float, valve: float) -> None:
    real = with_valves(valve, 0.0, 0.0)
    found = operating_point(at_speed(CURVE, speed), real, NU)
    measured = {b.key: b.flow for b in found.branches if b.flow}
    least = least_speed(CURVE, CIRCUIT, measured, NU)
    assert least == pytest.approx(speed, rel=1e-4) or measured.keys() != {"bog", "fall", "jet"}
    stand = as_found(at_speed(CURVE, least), CIRCUIT, measured, NU)
    assert min(o.valve for o in stand.circuit.branches if not o.closed) == pytest.approx(0, abs=1)


def test_the_greediest_comes_first_and_the_first_drift_up() -> None:
    wanted = {"bog": 0.4 * HOUR, "fall": 1.0 * HOUR, "jet": 0.2 * HOUR}
    turns = order_of_setting(CURVE, CIRCUIT, wanted, NU)
    assert [turn.key for turn in turns] == ["jet", "bog", "fall"]
    excess = [turn.before / turn.wanted for turn in turns]
    assert excess[0] == max(excess)
    assert all(turn.after >= min(turn.before, turn.wanted) * (1 - 1e-6) for turn in turns)
    assert turns[-1].after == pytest.approx(turns[-1].wanted, rel=1e-5)


def test_what_wants_nothing_is_shut_and_what_is_short_stays_open() -> None:
    turns = order_of_setting(CURVE, CIRCUIT, {"bog": 0.0, "fall": 4.5 * HOUR}, NU)
    assert [turn.key for turn in turns] == ["fall"]
    assert not turns[0].throttles
    assert turns[0].after == pytest.approx(turns[0].before)


def test_wrong_questions_are_refused() -> None:
    with pytest.raises(OutOfRange, match="no end called"):
        as_found(CURVE, CIRCUIT, {"moat": 1e-4}, NU)
    with pytest.raises(NoSolution, match="no flow was measured"):
        least_speed(CURVE, CIRCUIT, {"jet": 0.0}, NU)


def test_a_branch_that_was_measured_dry_counts_as_shut() -> None:
    real = with_valves(5.0, 5.0, 5.0)
    shut = PipeNetwork(
        real.main, tuple(replace(o, closed=o.key == "jet") for o in real.branches)
    )  # fmt: skip
    found = as_found(CURVE, CIRCUIT, flows(shut), NU)
    assert flows(shut)["jet"] == 0.0
    assert found.circuit.branches[2].closed
    assert found.flows == pytest.approx(flows(shut), rel=1e-5, abs=1e-9)
