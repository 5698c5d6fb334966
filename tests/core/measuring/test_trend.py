"""The line over the season: against a library's fit, by simulation, by limits."""

import random

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.trend import flow_at, leaving, trend

WEEK = 7 * 86400.0


@settings(max_examples=25)
@given(st.lists(st.tuples(st.floats(0.5, 2.0), st.floats(0.02, 0.3)), min_size=3, max_size=8))
def test_as_the_library_fits_it(readings: list[tuple[float, float]]) -> None:
    times = [float(week) for week in range(len(readings))]
    flows, parts = zip(*readings, strict=True)
    found = trend([t * WEEK for t in times], flows, parts, 0.95)
    (slope, _), covariance = np.polyfit(
        times, flows, 1, w=[1.0 / part for part in parts], cov="unscaled"
    )
    assert found.slope * WEEK == pytest.approx(slope, abs=1e-6)
    # Never less than what the readings own up to.
    assert found.slope_uncertainty * WEEK >= covariance[0, 0] ** 0.5 * (1 - 1e-5)


def test_an_exact_line_is_found_and_crosses_where_it_must() -> None:
    times = [week * WEEK for week in range(5)]
    flows = [1.0 - 0.05 * week for week in range(5)]
    found = trend(times, flows, [0.01] * 5, 0.95)
    assert found.slope * WEEK == pytest.approx(-0.05)
    assert flow_at(found, 10 * WEEK)[0] == pytest.approx(0.5)
    when = leaving(found, 0.5)
    assert when is not None
    assert when.likely == pytest.approx(10 * WEEK)
    assert when.earliest < when.likely < when.latest
    # At both ends the limit is as far off as the interval of the line reaches.
    for time in (when.earliest, when.latest):
        flow, part = flow_at(found, time)
        assert abs(flow - 0.5) == pytest.approx(found.factor * part)


def test_no_date_without_a_sure_slope() -> None:
    times = [week * WEEK for week in range(4)]
    assert leaving(trend(times, [1.0, 1.1, 0.9, 1.0], [0.05] * 4, 0.95), 0.5) is None


@pytest.mark.parametrize("scatter", [0.02, 0.06])
def test_slope_interval_holds_the_true_slope(scatter: float) -> None:
    rng = random.Random(str(scatter))
    trials, hits = 1500, 0
    times = [week * WEEK for week in range(6)]
    for _ in range(trials):
        flows = [1.0 - 0.03 * week + rng.gauss(0.0, scatter) for week in range(6)]
        found = trend(times, flows, [0.02] * 6, 0.95)
        hits += found.slope_low <= -0.03 / WEEK <= found.slope_high
    # Honest readings are stretched now and then without need, so a little more than 95 %.
    assert 0.93 <= hits / trials <= 0.99


def test_start_of_the_clock_does_not_matter() -> None:
    flows, parts = [1.0, 0.9, 0.85, 0.7], [0.02, 0.01, 0.02, 0.03]
    one = trend([week * WEEK for week in range(4)], flows, parts, 0.95)
    other = trend([1.7e9 + week * WEEK for week in range(4)], flows, parts, 0.95)
    assert other.slope == pytest.approx(one.slope, rel=1e-6)
    first, second = leaving(one, 0.5), leaving(other, 0.5)
    assert first is not None
    assert second is not None
    assert second.likely - 1.7e9 == pytest.approx(first.likely, abs=1.0)


def test_steps_hold_the_slope() -> None:
    found = trend([0.0, WEEK, 2 * WEEK], [1.0, 0.9, 0.8], [0.01] * 3, 0.95)
    assert [step.result.value for step in found.steps()][1] == found.slope


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        trend([0.0, WEEK], [1.0, 1.0], [0.1, 0.1], 0.95)
    with pytest.raises(OutOfRange, match="one time"):
        trend([WEEK] * 3, [1.0] * 3, [0.1] * 3, 0.95)
    with pytest.raises(OutOfRange):
        trend([0.0, WEEK, 2 * WEEK], [1.0, 1.0], [0.1] * 3, 0.95)
    with pytest.raises(OutOfRange):
        trend([0.0, WEEK, float("nan")], [1.0] * 3, [0.1] * 3, 0.95)
    with pytest.raises(OutOfRange):
        trend([0.0, WEEK, 2 * WEEK], [1.0] * 3, [0.1, 0.0, 0.1], 0.95)
    line = trend([0.0, WEEK, 2 * WEEK], [1.0, 0.9, 0.8], [0.01] * 3, 0.95)
    with pytest.raises(OutOfRange):
        leaving(line, -1.0)
    with pytest.raises(OutOfRange):
        flow_at(line, float("inf"))
