"""Flow from timed fills: limits, properties, refusals, and whether the interval keeps its word."""

import random
from math import exp, log, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.timed_flow import believed_scatter, timed_flow

REACTION = 0.10
TRIALS = 2000  # the share of hits then has a standard error below 0.5 %


def coverage_of_simulation(fills: int, scatter: float | None, tolerance: float) -> float:
    """Share of trials whose interval holds the true flow, a new container error in each.

    Without a scatter, each trial draws one: from the reaction alone to three times it.
    """
    rng = random.Random(f"{fills} {scatter} {tolerance}")
    nominal, true_flow = 0.010, 0.001
    hits = 0
    for _ in range(TRIALS):
        volume = nominal * (1 + rng.uniform(-tolerance, tolerance))
        sd = scatter if scatter is not None else REACTION * exp(rng.uniform(0.0, log(3.0)))
        times = [rng.gauss(volume / true_flow, sd) for _ in range(fills)]
        found = timed_flow(times, nominal, nominal * tolerance, REACTION, 0.95)
        hits += found.low <= true_flow <= found.high
    return hits / TRIALS


@pytest.mark.parametrize("fills", range(2, 11))
def test_interval_holds_the_true_flow_as_often_as_it_says(fills: int) -> None:
    assert 0.93 <= coverage_of_simulation(fills, None, 0.02) <= 0.98


@pytest.mark.parametrize("scatter", [0.2, 0.3])
@pytest.mark.parametrize("fills", [2, 3, 5, 10])
def test_so_it_does_for_each_scatter(fills: int, scatter: float) -> None:
    assert 0.93 <= coverage_of_simulation(fills, scatter, 0.02) <= 0.98


@pytest.mark.parametrize("fills", [3, 5, 10])
def test_a_poor_container_widens_it_no_more_than_it_must(fills: int) -> None:
    assert 0.93 <= coverage_of_simulation(fills, 0.2, 0.10) <= 0.98


TIMES = st.lists(st.floats(1.0, 300.0), min_size=1, max_size=10)


@settings(max_examples=60)
@given(TIMES, st.floats(1e-3, 1.0), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_interval_holds_the_flow_and_is_never_negative(
    times: list[float], volume: float, tolerance: float, reaction: float
) -> None:
    found = timed_flow(times, volume, tolerance * volume, reaction, 0.95)
    assert 0.0 <= found.low <= found.flow <= found.high
    assert found.flow == pytest.approx(volume * len(times) / sum(times))
    assert found.high - found.flow == pytest.approx(found.expanded, abs=1e-15)


@settings(max_examples=40)
@given(TIMES, st.floats(0.0, 0.1), st.floats(0.1, 10.0))
def test_twice_the_container_in_twice_the_time_is_the_same_flow(
    times: list[float], tolerance: float, factor: float
) -> None:
    one = timed_flow(times, 0.01, 0.01 * tolerance, 0.1, 0.95)
    other = timed_flow(
        [factor * t for t in times], factor * 0.01, factor * 0.01 * tolerance, factor * 0.1, 0.95
    )
    assert other.flow == pytest.approx(one.flow)
    assert other.expanded == pytest.approx(one.expanded, rel=1e-6)


def test_one_fill_has_the_reaction_and_the_container_only() -> None:
    found = timed_flow([10.0], 0.01, 0.0, 0.1, 0.95)
    assert found.standard_uncertainty == pytest.approx(0.001 * 0.1 / 10.0)
    assert found.high / found.flow == pytest.approx(1 + 1.96 * 0.01, rel=1e-4)


def test_fills_that_agree_by_chance_claim_no_more_than_the_reaction() -> None:
    found = timed_flow([10.0, 10.0], 0.01, 0.0, 0.1, 0.95)
    assert found.standard_uncertainty == pytest.approx(0.001 * 0.1 / sqrt(2) / 10.0)
    assert found.degrees_of_freedom == 3
    assert believed_scatter([9.0, 11.0], 0.1) == (pytest.approx(sqrt(2.0)), 1)


def test_a_better_container_or_more_fills_narrow_it() -> None:
    def width(times: list[float], half_width: float) -> float:
        return timed_flow(times, 0.01, half_width, 0.1, 0.95).expanded

    assert width([10.0, 10.2], 1e-4) < width([10.0, 10.2], 3e-4)
    assert width([10.0, 10.2] * 4, 1e-4) < width([10.0, 10.2], 1e-4)


def test_steps_lead_to_the_answer() -> None:
    found = timed_flow([12.4, 12.1, 12.7], 0.01, 1e-4, 0.1, 0.95)
    results = {step.result.symbol: step.result.value for step in found.steps()}
    assert results["t"] == pytest.approx(12.4)
    assert results["Q"] == pytest.approx(0.01 / 12.4)
    assert results["U"] == found.expanded
    assert len(found.steps()[0].inputs) == 4


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        timed_flow([], 0.01, 0.0, 0.1, 0.95)
    for times, volume, half_width in (
        ([0.0], 0.01, 1e-4),
        ([float("nan")], 0.01, 1e-4),
        ([10.0], 0.0, 0.0),
        ([10.0], 0.01, 0.02),
    ):
        with pytest.raises(OutOfRange):
            timed_flow(times, volume, half_width, 0.1, 0.95)
    with pytest.raises(OutOfRange):
        timed_flow([10.0], 0.01, 0.0, -0.1, 0.95)
    with pytest.raises(OutOfRange):
        timed_flow([10.0], 0.01, 0.0, 0.1, 1.0)
