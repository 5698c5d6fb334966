"""A hidden fault put into the circuit is told from the flows alone, where flows can tell it."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.hydraulics.lost_flow import lost_flow
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve, at_speed
from pondapp.core.hydraulics.run import Run

NU = 1.0e-6
HOUR = 1.0 / 3600.0
CURVE = LabelCurve(3.5, 5.0 * HOUR)
HOSE = Run(3.0, 0.025, 1e-4, 3.0)
SET = PipeNetwork(
    Run(2.0, 0.032, 1e-4, 1.5),
    (Outlet("bog", HOSE, 0.3, valve=150.0), Outlet("fall", HOSE, 1.0)),
)
DOUBT = 0.02


def now(circuit: PipeNetwork, curve: PumpCurve = CURVE) -> dict[str, tuple[float, float]]:
    found = operating_point(curve, circuit, NU)
    return {b.key: (b.flow, DOUBT * b.flow) for b in found.branches if b.flow}


def blocked(name: str, more: float) -> PipeNetwork:
    return PipeNetwork(
        SET.main,
        tuple(replace(o, valve=o.valve + more) if o.key == name else o for o in SET.branches),
    )


def test_nothing_changed() -> None:
    found = lost_flow(CURVE, SET, now(SET), NU)
    assert found.where == "nowhere"
    assert found.speed_left == pytest.approx(1.0, abs=1e-6)


@given(st.floats(0.7, 0.92))
@settings(max_examples=30)
def test_a_tired_pump_is_told(speed: float) -> None:
    found = lost_flow(CURVE, SET, now(SET, at_speed(CURVE, speed)), NU)
    assert found.where == "pump side"
    assert found.blocked == ()
    assert found.speed_left == pytest.approx(speed, rel=1e-5)
    assert [step.result.symbol for step in found.steps()] == ["H_t", "n"]


def test_a_kink_in_the_main_run_looks_like_a_tired_pump() -> None:
    assert SET.main is not None
    kinked = PipeNetwork(replace(SET.main, fittings=30.0), SET.branches)
    assert lost_flow(CURVE, SET, now(kinked), NU).where == "pump side"


@given(st.sampled_from(["bog", "fall"]), st.floats(100.0, 1000.0))
@settings(max_examples=30)
def test_a_blocked_branch_is_told_by_name(name: str, more: float) -> None:
    found = lost_flow(CURVE, SET, now(blocked(name, more)), NU)
    assert found.where == "branch"
    assert found.blocked == (name,)


def test_both_at_once() -> None:
    found = lost_flow(CURVE, SET, now(blocked("bog", 400.0), at_speed(CURVE, 0.85)), NU)
    assert found.where == "both"
    assert found.blocked == ("bog",)
    assert found.speed_left == pytest.approx(0.85, rel=1e-5)


def test_a_lone_branch_cannot_tell() -> None:
    alone = PipeNetwork(SET.main, SET.branches[1:])
    assert lost_flow(CURVE, alone, now(alone, at_speed(CURVE, 0.8)), NU).where == "either"
    assert lost_flow(CURVE, alone, now(alone), NU).where == "nowhere"


def test_wrong_questions_are_refused() -> None:
    with pytest.raises(OutOfRange, match="fall was not measured"):
        lost_flow(CURVE, SET, {"bog": (1e-4, 1e-6)}, NU)
    with pytest.raises(NoSolution, match="do not fit this pump"):
        lost_flow(CURVE, SET, {"bog": (9e-3, 1e-6), "fall": (9e-3, 1e-6)}, NU)


def test_a_branch_that_is_not_there_is_refused_by_name() -> None:
    now = {"bog": (1e-4, 1e-6), "fall": (1e-4, 1e-6), "brook": (1e-4, 1e-6)}
    with pytest.raises(OutOfRange, match="brook was not measured, or is not there"):
        lost_flow(CURVE, SET, now, NU)
    shut = PipeNetwork(SET.main, tuple(replace(o, closed=True) for o in SET.branches))
    with pytest.raises(NoSolution, match="every valve is closed"):
        lost_flow(CURVE, shut, {}, NU)
