"""The slopes that solvers use are those of the values, and the root they lead to is bracketed."""

import math
from collections.abc import Callable

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution
from pondapp.core.hydraulics.friction import factor_and_slope, friction_factor
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve, at_speed, curve_through
from pondapp.core.hydraulics.run import Run, flow_and_slope, loss_and_slope
from pondapp.core.hydraulics.solve import rising_root

NU = 1.0034e-6
HOUR = 1.0 / 3600.0  # m3/s in m3/h
PRINTED = curve_through([(0.0, 5.0), (4 * HOUR, 4.5), (8 * HOUR, 2.9), (12 * HOUR, 0.0)])
runs = st.builds(
    Run,
    st.sampled_from([0.0, 0.5, 20.0, 300.0]),
    st.floats(0.01, 0.3),
    st.floats(0.0, 0.05),
    st.floats(0.1, 500.0),
)
# All regimes, and both sides of where they meet.
reynolds = st.one_of(st.floats(1.0, 1e6), st.floats(1900.0, 4100.0))


def by_differences(function: Callable[[float], float], at: float) -> float:
    step = 1e-5 * at
    return (function(at + step) - function(at - step)) / (2.0 * step)


@given(reynolds, st.floats(0.0, 0.05))
@settings(max_examples=150)
def test_slope_of_the_friction_factor(re: float, rough: float) -> None:
    f, slope = factor_and_slope(re, rough)
    assert f == pytest.approx(friction_factor(re, rough), rel=1e-14)
    # Where the regimes meet the slope is continuous but bends.
    slack = 1e-4 if min(abs(re - 2000.0), abs(re - 4000.0)) < 1e-4 * re else 1e-6
    found = by_differences(lambda r: friction_factor(r, rough), re) * re / f
    assert found == pytest.approx(slope, rel=1e-5, abs=slack)


@given(runs, reynolds, st.sampled_from([0.0, 3.0, 1e6]))
@example(Run(20.0, 0.0404, 0.0, 0.1), 2000.0, 0.0)
@settings(max_examples=200)
def test_loss_and_flow_undo_each_other_slopes_and_all(run: Run, re: float, valve: float) -> None:
    flow = re * NU * math.pi * run.bore / 4.0
    loss, steepness = loss_and_slope(run, flow, NU, valve)
    assert loss == pytest.approx(run.loss(flow, NU, valve), rel=1e-13)
    assert by_differences(lambda q: run.loss(q, NU, valve), flow) == pytest.approx(
        steepness, rel=1e-4
    )
    again, rise = flow_and_slope(run, loss, NU, valve)
    assert again == pytest.approx(flow, rel=1e-9)
    assert rise * steepness == pytest.approx(1.0, rel=1e-5)


@pytest.mark.parametrize("function", [loss_and_slope, flow_and_slope])
@pytest.mark.parametrize("value", [0.0, -1.0])
def test_still_water_has_no_slope(
    function: Callable[[Run, float, float], tuple[float, float]], value: float
) -> None:
    assert function(Run(2.0, 0.04, 0.0), value, NU) == (0.0, 0.0)


@given(
    st.sampled_from([PRINTED, LabelCurve(4.0, 10 * HOUR), at_speed(PRINTED, 0.7)]),
    st.floats(0.01, 1.3),
)
@settings(max_examples=100)
def test_slope_of_a_pump_curve(curve: PumpCurve, share: float) -> None:
    flow = share * curve.most_flow
    assert curve.slope(flow) <= 0.0
    # Between its pieces a printed curve bends, and beyond its end it goes on at another slope.
    ends = [part * curve.most_flow for part in (1 / 3, 2 / 3, 1.0)]
    if min(abs(flow - end) for end in ends) > 1e-3 * flow:
        assert by_differences(curve.head_at, flow) == pytest.approx(curve.slope(flow), rel=1e-6)


def test_before_its_first_point_a_printed_curve_goes_on_straight() -> None:
    part = curve_through([(2 * HOUR, 4.8), (3 * HOUR, 4.7), (4 * HOUR, 4.5)])
    assert part.slope(HOUR) == pytest.approx(-0.1 / HOUR)


@given(st.floats(-2.0, 2.0), st.sampled_from([1.0, 3.0, 0.2]), st.floats(0.01, 0.99))
@settings(max_examples=150)
def test_a_rising_root_is_found_from_anywhere(at: float, power: float, share: float) -> None:
    def function(x: float) -> tuple[float, float]:
        away = abs(x - at)
        slope = power * away ** (power - 1.0) if away else math.inf
        return math.copysign(away**power, x - at), slope

    start = -3.0 + 6.0 * share
    assert rising_root(function, -3.0, 3.0, start, 0.0, 1e-13) == pytest.approx(at, abs=1e-12)


def test_a_step_function_ends_at_its_step() -> None:
    found = rising_root(lambda x: (math.copysign(1.0, x - 0.3), 0.0), 0.0, 1.0, 0.5, 0.0, 0.0)
    assert found == pytest.approx(0.3, abs=1e-15)


def test_what_is_no_number_has_no_root() -> None:
    with pytest.raises(NoSolution):
        rising_root(lambda _: (math.nan, 1.0), 0.0, 1.0, 0.5, 0.0, 0.0)
