"""Values worked out with paper and pencil, so that a changed formula cannot agree by accident."""

from math import sqrt

import pytest

from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.working import ARITHMETIC, Term
from pondapp.core.measuring.estimate import Factor, flow_estimate
from pondapp.core.measuring.other_methods import (
    flow_by_filling,
    flow_by_level_drop,
    flow_over_lip,
    weighed_volume,
)
from pondapp.core.measuring.outliers import likely_outlier
from pondapp.core.measuring.pooling import pooled
from pondapp.core.measuring.runs_needed import more_runs_to_decide
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.trend import trend
from pondapp.core.measuring.verdict import Certainty


def test_one_per_cent_of_a_factor_is_one_per_cent_of_the_flow_and_two_if_squared() -> None:
    half = Term("x", "anything", 2.0, "m")
    plain = flow_estimate(0.002, [Factor(half, 1.0, 0.02)], 0.95, "Q = x", ARITHMETIC)
    squared = flow_estimate(0.002, [Factor(half, 2.0, 0.02)], 0.95, "Q = x²", ARITHMETIC)
    assert plain.standard_uncertainty == pytest.approx(2e-5)
    assert plain.high - plain.flow == pytest.approx(1.95996e-2 * 0.002, rel=1e-4)
    assert plain.flow - plain.low == pytest.approx(1.95996e-2 * 0.002, rel=1e-4)
    assert squared.standard_uncertainty == pytest.approx(4e-5)


def test_flows_that_disagree_stretch_their_uncertainty() -> None:
    # 1.00, 1.03 and 1.06 L/s, each good to 0.01: 3 uncertainties off on both sides of the mean,
    # which makes the root of 18 over the root of 2, so three times what was thought.
    found = pooled([1.00e-3, 1.03e-3, 1.06e-3], [1e-5] * 3, 0.95)
    assert found.flow == pytest.approx(1.03e-3)
    assert found.stretch == pytest.approx(3.0)
    assert found.standard_uncertainty == pytest.approx(3e-5 / sqrt(3.0))
    assert found.high - found.flow == pytest.approx(1.95996 * 3e-5 / sqrt(3.0), rel=1e-4)
    assert found.flow - found.low == pytest.approx(1.95996 * 3e-5 / sqrt(3.0), rel=1e-4)
    assert [str(term.symbol) for term in found.steps()[0].inputs] == [
        "Q1", "u1", "Q2", "u2", "Q3", "u3"
    ]  # fmt: skip
    alone = pooled([1e-3], [1e-5], 0.95)
    assert (alone.stretch, alone.standard_uncertainty) == (1.0, pytest.approx(1e-5))


@pytest.mark.parametrize(
    ("times", "edge", "more"),
    [
        # One-sided 95 % is t s / (n^1/2 mean). 0.5 s is expected, worth 4 fills; three fills of
        # 9.5, 10.5 and 10 s scatter by just that, so 0.5 s is estimated, with n + 3 degrees.
        # n = 3: 1.9432 x 0.028868 = 5.61 %; n = 5: 1.8595 x 0.022361 = 4.16 %;
        # n = 6: 1.8331 x 0.020412 = 3.74 %.
        ([9.5, 10.5, 10.0], 0.0400, 3),
        ([9.5, 10.5, 10.0], 0.0420, 2),
        # A single fill is estimated at 0.5 s with 4 degrees; n = 4: 1.8946 x 0.025 = 4.74 %.
        ([10.0], 0.0480, 3),
    ],
)
def test_fills_to_come_by_the_table_of_student_s_t(
    times: list[float], edge: float, more: int
) -> None:
    expected = ExpectedScatter(0.5, 0.0, 4, 0.01)
    now = timed_flow(times, 0.01, 0.0, expected, 0.95)
    rule = Certainty(0.95, 0.5, 0.95)
    for low, high in (((1.0 - edge) * 1e-3, None), (0.0, (1.0 + edge) * 1e-3)):
        most = len(times) + more
        assert more_runs_to_decide(now, low, high, rule, 60) == more
        assert more_runs_to_decide(now, low, high, rule, most) == more
        assert more_runs_to_decide(now, low, high, rule, most - 1) is None


def test_the_chance_of_a_slip_by_the_table_of_student_s_t() -> None:
    # Three fills that agree, with 0.1 s expected that is worth 5: (5 x 0.01 + 0) / 7, which is
    # 0.084515 s with 7 degrees. One more lies within that times (1 + 1/3)^1/2; 5.4079 of it
    # leaves 0.001, and any of four might.
    expected = ExpectedScatter(0.1, 0.0, 5, 0.01)
    late = 10.0 + 5.4079 * 0.084515 * sqrt(4.0 / 3.0)
    found = likely_outlier([10.0, 10.0, 10.0, late], expected, 0.01)
    assert found is not None
    assert found.index == 3
    assert found.chance == pytest.approx(0.004, rel=1e-3)
    # A clock without any scatter: any difference is a slip, if only one differs.
    nothing = ExpectedScatter(0.0, 0.0, 5, 0.01)
    exact = likely_outlier([10.0, 10.0, 10.0, 10.5], nothing, 0.01)
    assert exact is not None
    assert (exact.index, exact.chance) == (3, pytest.approx(0.0, abs=1e-6))


def test_a_line_through_three_readings() -> None:
    # A litre an hour less each day, each good to 0.01 L/s: the middle is good to 0.01 / 3^1/2,
    # the slope to 0.01 over the root of 2 days squared.
    day = 86400.0
    found = trend([0.0, day, 2 * day], [1.2e-3, 1.1e-3, 1.0e-3], [1e-5] * 3, 0.95)
    assert found.slope == pytest.approx(-1e-4 / day)
    assert found.centre == pytest.approx(day)
    assert found.centre_flow == pytest.approx(1.1e-3)
    assert found.centre_uncertainty == pytest.approx(1e-5 / sqrt(3.0))
    assert found.slope_uncertainty == pytest.approx(1e-5 / (sqrt(2.0) * day))


@pytest.mark.parametrize(("apart", "enough"), [(1.2, False), (1.3, True)])
def test_readings_of_one_moment_are_no_trend(apart: float, enough: bool) -> None:
    # Three readings so far apart spread by (2/3)^1/2 of it: 0.98 s and 1.06 s.
    times = [0.0, apart, 2.0 * apart]
    if enough:
        assert trend(times, [1e-3] * 3, [1e-5] * 3, 0.95).count == 3
    else:
        with pytest.raises(OutOfRange, match="all readings were taken at one time"):
            trend(times, [1e-3] * 3, [1e-5] * 3, 0.95)


def test_a_scale_as_rough_as_the_water_is_heavy_is_refused() -> None:
    # It is read twice, so its half width counts by the root of 2: 0.36 kg become 0.51 of 0.5 kg.
    with pytest.raises(OutOfRange, match="too rough"):
        weighed_volume(1.0, 0.5, 0.36, 1000.0)
    assert weighed_volume(1.0, 0.5, 0.35, 1000.0).volume == pytest.approx(5e-4)
    found = weighed_volume(10.5, 0.5, 0.05, 1000.0)
    assert (found.volume, found.half_width) == pytest.approx((0.010, 5e-5 * sqrt(2.0)))
    (step,) = found.steps()
    assert [term.value for term in step.inputs] == [10.5, 0.5, 1000.0]


def test_each_method_says_by_which_formula_and_from_where() -> None:
    drop = flow_by_level_drop(2.0, 0.0, 0.1, 0.001, 100.0, 0.1, 0.95)
    filling = flow_by_filling(0.1, 0.001, 0.4, 0.01, 100.0, 0.1, 0.95)
    lip = flow_over_lip(0.03, 0.001, 0.3, 0.002, 0.3, 0.02, 0.05, 0.95)
    assert [found.steps()[0].formula for found in (drop, filling)] == ["Q = A d / t", "Q = ε V / t"]
    assert drop.steps()[0].source == ARITHMETIC == filling.steps()[0].source
    assert "Rehbock" in lip.steps()[0].source.text
    assert lip.steps()[0].formula.startswith("Q = ")


def test_timing_and_container_add_as_squares() -> None:
    # Four fills of 20 s, 0.1 s each as is known beforehand: 0.0025. 0.2 L of 10 L as a rectangle:
    # 0.011547. Together 0.0118145 of half a litre a second.
    exact = ExpectedScatter(0.1, 0.0, 1000, 0.01)
    found = timed_flow([20.0] * 4, 0.010, 0.0002, exact, 0.95)
    assert found.flow == pytest.approx(5e-4)
    assert found.standard_uncertainty == pytest.approx(0.0118145 * 5e-4, rel=1e-4)
