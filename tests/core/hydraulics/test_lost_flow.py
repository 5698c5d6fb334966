"""A hidden fault put into the circuit is told from the flows alone, where flows can tell it."""

import random
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.hydraulics.lost_flow import lost_flow
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve, at_speed
from pondapp.core.hydraulics.run import Run
from pondapp.core.measuring.spread import Spread, spread_of_half_width
from pondapp.core.measuring.verdict import Certainty

NU = 1.0e-6
HOUR = 1.0 / 3600.0
CURVE = LabelCurve(3.5, 5.0 * HOUR)
HOSE = Run(3.0, 0.025, 1e-4, 3.0)
SET = PipeNetwork(
    Run(2.0, 0.032, 1e-4, 1.5),
    (Outlet("bog", HOSE, 0.3, valve=150.0), Outlet("fall", HOSE, 1.0)),
)
DOUBT = 0.02
RULE = Certainty(sure=0.95, widest=0.10, coverage=0.95)


def now(circuit: PipeNetwork, curve: PumpCurve = CURVE, doubt: float = DOUBT) -> dict[str, Spread]:
    found = operating_point(curve, circuit, NU)
    return {
        b.key: spread_of_half_width(b.flow, doubt * b.flow, RULE.coverage)
        for b in found.branches
        if b.flow
    }


def blocked(name: str, more: float) -> PipeNetwork:
    return PipeNetwork(
        SET.main,
        tuple(replace(o, valve=o.valve + more) if o.key == name else o for o in SET.branches),
    )


def test_nothing_changed() -> None:
    found = lost_flow(CURVE, SET, now(SET), NU, RULE)
    assert found.where == "nowhere"
    assert found.speed_left == pytest.approx(1.0, abs=1e-6)


@given(st.floats(0.7, 0.92))
@settings(max_examples=30)
def test_a_tired_pump_is_told(speed: float) -> None:
    found = lost_flow(CURVE, SET, now(SET, at_speed(CURVE, speed)), NU, RULE)
    assert found.where == "pump side"
    assert found.blocked == ()
    assert found.speed_left == pytest.approx(speed, rel=1e-5)
    assert [step.result.symbol for step in found.steps()] == ["H_t", "n"]


def test_a_kink_in_the_main_run_looks_like_a_tired_pump() -> None:
    assert SET.main is not None
    kinked = PipeNetwork(replace(SET.main, fittings=30.0), SET.branches)
    assert lost_flow(CURVE, SET, now(kinked), NU, RULE).where == "pump side"


@given(st.sampled_from(["bog", "fall"]), st.floats(100.0, 1000.0))
@settings(max_examples=30)
def test_a_blocked_branch_is_told_by_name(name: str, more: float) -> None:
    found = lost_flow(CURVE, SET, now(blocked(name, more)), NU, RULE)
    assert found.where == "branch"
    assert found.blocked == (name,)


def test_both_at_once() -> None:
    found = lost_flow(CURVE, SET, now(blocked("bog", 400.0), at_speed(CURVE, 0.85)), NU, RULE)
    assert found.where == "both"
    assert found.blocked == ("bog",)
    assert found.speed_left == pytest.approx(0.85, rel=1e-5)


def test_a_lone_branch_cannot_tell() -> None:
    alone = PipeNetwork(SET.main, SET.branches[1:])
    assert lost_flow(CURVE, alone, now(alone, at_speed(CURVE, 0.8)), NU, RULE).where == "either"
    assert lost_flow(CURVE, alone, now(alone), NU, RULE).where == "nowhere"


def least_told(fault: Callable[[float], dict[str, Spread]]) -> float:
    """The smallest fault that is told, by bisection."""
    low, high = 0.0, 1.0
    for _ in range(25):
        middle = 0.5 * (low + high)
        if lost_flow(CURVE, SET, fault(middle), NU, RULE).where == "nowhere":
            low = middle
        else:
            high = middle
    return high


def test_what_is_lost_is_told_from_a_chance_of_95_in_100() -> None:
    """By drawing true flows from what is known of them: at the edge, 95 of 100 have lost head."""
    dice = random.Random(4)

    def blocking(share: float) -> dict[str, Spread]:
        return now(blocked("bog", 150.0 * share))

    def drawn(known: dict[str, Spread]) -> dict[str, Spread]:
        return {key: Spread(dice.gauss(one.centre, one.scale)) for key, one in known.items()}

    at_edge = blocking(least_told(blocking))
    draws = [lost_flow(CURVE, SET, drawn(at_edge), NU, RULE) for _ in range(2000)]
    lower = [dict(one.heads)["bog"] < dict(one.heads)["fall"] for one in draws]
    assert sum(lower) / len(lower) == pytest.approx(0.95, abs=0.015)

    def tired(share: float) -> dict[str, Spread]:
        return now(SET, at_speed(CURVE, 1.0 - 0.3 * share))

    at_edge = tired(least_told(tired))
    speeds = []
    for _ in range(2000):
        found = lost_flow(CURVE, SET, drawn(at_edge), NU, RULE)
        speeds.append(found.speed_left < 1.0)
    # The head is that of the highest branch, which is a little too high where both are drawn.
    assert 0.90 < sum(speeds) / len(speeds) < 0.97


def test_a_flow_that_is_hardly_known_tells_nothing_lost() -> None:
    """However much less it is: the rule asks for flows known to 10 %."""
    known = lost_flow(CURVE, SET, now(blocked("bog", 1000.0)), NU, RULE)
    assert known.blocked == ("bog",)
    rough = lost_flow(CURVE, SET, now(blocked("bog", 1000.0), doubt=0.15), NU, RULE)
    assert rough.where == "nowhere"
    tired = now(SET, at_speed(CURVE, 0.7), doubt=0.2)
    assert lost_flow(CURVE, SET, tired, NU, RULE).where == "nowhere"


def test_wrong_questions_are_refused() -> None:
    with pytest.raises(OutOfRange, match="fall was not measured"):
        lost_flow(CURVE, SET, {"bog": Spread(1e-4, 1e-6)}, NU, RULE)
    with pytest.raises(NoSolution, match="do not fit this pump"):
        lost_flow(CURVE, SET, {"bog": Spread(9e-3, 1e-6), "fall": Spread(9e-3, 1e-6)}, NU, RULE)


def test_a_branch_that_is_not_there_is_refused_by_name() -> None:
    now = dict.fromkeys(("bog", "fall", "brook"), Spread(1e-4, 1e-6))
    with pytest.raises(OutOfRange, match="brook was not measured, or is not there"):
        lost_flow(CURVE, SET, now, NU, RULE)
    shut = PipeNetwork(SET.main, tuple(replace(o, closed=True) for o in SET.branches))
    with pytest.raises(NoSolution, match="every valve is closed"):
        lost_flow(CURVE, shut, {}, NU, RULE)
