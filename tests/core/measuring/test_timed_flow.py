"""Flow from timed fills: limits, properties, refusals, and whether the interval keeps its word."""

from math import sqrt

import pytest
from coverage_table import cell, population
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.timed_flow import timed_flow

EXPECTED = ExpectedScatter(0.10, 0.016, 4, 0.01)
KNOWN = ExpectedScatter(0.10, 0.0, 1000, 0.01)


@pytest.mark.parametrize("seconds", [4.0, 12.0, 60.0])
@pytest.mark.parametrize("fills", [1, 2, 3, 5, 10])
def test_interval_holds_the_true_flow_as_often_as_it_says(fills: int, seconds: float) -> None:
    """Over flows that vary by 0 to 3 % and reactions of 0.05 to 0.2 s, as bench/coverage.py."""
    assert 0.93 <= population(fills, seconds, 2500) <= 0.98


@pytest.mark.parametrize("fills", [5, 10])
@pytest.mark.parametrize(("variation", "reaction"), [(0.0, 0.05), (0.03, 0.2), (0.02, 0.1)])
def test_many_fills_hold_it_for_each_scatter(fills: int, variation: float, reaction: float) -> None:
    # A fill that scatters less than is expected is held more often; none is held too seldom.
    assert cell(fills, 12.0, variation, reaction, 2500) >= 0.93


TIMES = st.lists(st.floats(1.0, 300.0), min_size=1, max_size=10)


@settings(max_examples=60)
@given(TIMES, st.floats(1e-3, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_interval_holds_the_flow_and_is_never_negative(
    times: list[float], volume: float, tolerance: float, reaction: float
) -> None:
    expected = ExpectedScatter(reaction, 0.01, 4, 0.01)
    found = timed_flow(times, volume, tolerance * volume, expected, 0.95)
    assert 0.0 <= found.low <= found.flow <= found.high
    assert found.flow == pytest.approx(volume * len(times) / sum(times))
    assert found.high - found.flow == pytest.approx(found.expanded, abs=1e-15)
    assert found.spread.interval(0.95) == pytest.approx((found.low, found.high))


@settings(max_examples=40)
@given(TIMES, st.floats(0.0, 0.1), st.floats(0.1, 10.0))
def test_twice_the_container_in_twice_the_time_is_the_same_flow(
    times: list[float], tolerance: float, factor: float
) -> None:
    slower = ExpectedScatter(0.1 * factor, 0.016, 4, 0.01)
    one = timed_flow(times, 0.01, 0.01 * tolerance, EXPECTED, 0.95)
    other = timed_flow(
        [factor * t for t in times], factor * 0.01, factor * 0.01 * tolerance, slower, 0.95
    )
    assert other.flow == pytest.approx(one.flow)
    assert other.expanded == pytest.approx(one.expanded, rel=1e-6)


def test_one_fill_of_a_scatter_that_is_known_has_that_and_the_container_only() -> None:
    found = timed_flow([10.0], 0.01, 0.0, KNOWN, 0.95)
    assert found.standard_uncertainty == pytest.approx(0.001 * 0.1 / 10.0)
    assert found.high / found.flow == pytest.approx(1 + 1.96 * 0.01, rel=1e-4)


def test_one_fill_carries_what_others_would_show() -> None:
    # 0.1 s by hand and 1.6 % of 10 s are 0.18868 s; by Student's t of 4 degrees, 2.7764 times it.
    found = timed_flow([10.0], 0.01, 0.0, EXPECTED, 0.95)
    assert found.standard_uncertainty == pytest.approx(0.001 * 0.018868, rel=1e-4)
    assert found.high / found.flow == pytest.approx(1 + 2.7764 * 0.018868, rel=1e-4)


def test_two_fills_that_differ_by_far_count_as_good_as_alone() -> None:
    # 9.52 and 7.27 s: their own scatter is 1.591 s, 90.3 times 0.16745 s in squares. Of the four
    # that count for the latter 0.0443 are left: (0.0443 x 0.02804 + 2.5312) / 1.0443 = 2.4250.
    found = timed_flow([9.52, 7.27], 0.009, 0.0, EXPECTED, 0.95)
    assert found.timing.beyond
    assert (found.timing.std, found.timing.freedom) == (pytest.approx(1.5573, rel=1e-4), 1)
    assert found.expanded / found.flow == pytest.approx(12.7062 * 1.5573 / sqrt(2) / 8.395, 1e-4)
    assert found.low == 0.0


def test_a_better_container_or_more_fills_narrow_it() -> None:
    def width(times: list[float], half_width: float) -> float:
        return timed_flow(times, 0.01, half_width, EXPECTED, 0.95).expanded

    assert width([10.0, 10.2], 1e-4) < width([10.0, 10.2], 3e-4)
    assert width([10.0, 10.2] * 4, 1e-4) < width([10.0, 10.2], 1e-4)


def test_steps_lead_to_the_answer() -> None:
    found = timed_flow([12.4, 12.1, 12.7], 0.01, 1e-4, EXPECTED, 0.95)
    results = {step.result.symbol: step.result.value for step in found.steps()}
    assert results["t"] == pytest.approx(12.4)
    assert results["Q"] == pytest.approx(0.01 / 12.4)
    assert results["s0"] == pytest.approx(EXPECTED.of(12.4))
    assert results["s"] == found.timing.std
    assert results["U"] == found.expanded
    assert len(found.steps()[0].inputs) == 4


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        timed_flow([], 0.01, 0.0, EXPECTED, 0.95)
    for times, volume, half_width in (
        ([0.0], 0.01, 1e-4),
        ([float("nan")], 0.01, 1e-4),
        ([10.0], 0.0, 0.0),
        ([10.0], 0.01, 0.02),
    ):
        with pytest.raises(OutOfRange):
            timed_flow(times, volume, half_width, EXPECTED, 0.95)
    with pytest.raises(OutOfRange):
        timed_flow([10.0], 0.01, 0.0, ExpectedScatter(-0.1, 0.016, 4, 0.01), 0.95)
    with pytest.raises(OutOfRange):
        timed_flow([10.0], 0.01, 0.0, EXPECTED, 1.0)
