"""Bogs, high-flow filters, skimmers, turnover: sizes, times and their working."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.filters import FilterAssumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.filters.bog import bog_flow, bog_size
from pondapp.core.filters.high_flow import high_flow, least_turnover
from pondapp.core.filters.skimmer import skimmer_flow
from pondapp.core.filters.turnover import whole_pond_flow

RULES = FilterAssumptions()
pond = st.floats(0.05, 1e4)


@settings(max_examples=40)
@given(pond, st.floats(0.02, 1.0), st.floats(0.1, 2.0))
def test_bog_holds_its_share(volume: float, share: float, depth: float) -> None:
    bog = bog_size(volume, share, depth)
    assert bog.volume == pytest.approx(share * volume)
    assert bog.area * depth == pytest.approx(bog.volume)
    assert [step.result.value for step in bog.steps()] == [bog.volume, bog.area]


@settings(max_examples=40)
@given(st.floats(0.01, 100.0))
def test_the_times_of_the_bog_band_are_those_of_the_rule(volume: float) -> None:
    times = (RULES.bog_retention_min, RULES.bog_retention_target, RULES.bog_retention_max)
    bog = bog_flow(volume, *times)
    assert bog.band.high is not None
    found = [volume / q for q in (bog.band.high, bog.band.target, bog.band.low)]
    assert found == pytest.approx(list(times))
    flows = [step.result.value for step in bog.steps()]
    assert flows == [bog.band.low, bog.band.target, bog.band.high]


@settings(max_examples=40)
@given(pond)
def test_a_high_flow_filter_turns_the_pond_over_as_often_as_the_rule_says(volume: float) -> None:
    rates = (RULES.high_flow_turnover_min, RULES.high_flow_turnover_target)
    wanted = high_flow(volume, *rates)
    assert wanted.band.low / volume == pytest.approx(rates[0])
    flows = [step.result.value for step in wanted.steps()]
    assert flows == pytest.approx([wanted.band.low, wanted.band.target])


@settings(max_examples=60)
@given(pond, pond)
def test_a_larger_pond_never_asks_less_of_its_filter_and_nowhere_jumps(
    one: float, other: float
) -> None:
    rules = (RULES.high_flow_turnover_min, RULES.high_flow_turnover_large, RULES.large_pond)
    small, large = sorted((one, other))
    flows = [volume * least_turnover(volume, *rules) for volume in (small, large)]
    assert flows[0] <= flows[1] * (1 + 1e-12)
    wider = large * 1.001
    assert wider * least_turnover(wider, *rules) == pytest.approx(flows[1], rel=0.0011)


def test_twice_an_hour_on_small_ponds_and_once_on_large_ones() -> None:
    rules = (RULES.high_flow_turnover_min, RULES.high_flow_turnover_large, RULES.large_pond)
    an_hour = [3600 * least_turnover(volume, *rules) for volume in (1.0, 20.0, 30.0, 40.0, 60.0)]
    assert an_hour == pytest.approx([2.0, 2.0, 4.0 / 3.0, 1.0, 1.0])
    with pytest.raises(OutOfRange):
        least_turnover(0.0, *rules)


@settings(max_examples=40)
@given(st.floats(0.05, 2.0))
def test_a_skimmer_wants_flow_by_its_width(width: float) -> None:
    rules = (RULES.skimmer_flow_min, RULES.skimmer_flow_target, RULES.skimmer_flow_max)
    found = skimmer_flow(width, *rules)
    assert found.band.high is not None
    assert found.band.low < found.band.target < found.band.high
    assert found.band.target == pytest.approx(width * rules[1])
    assert len(found.steps()) == 3


@settings(max_examples=40)
@given(pond)
def test_turnover_is_flow_over_volume(volume: float) -> None:
    band = whole_pond_flow(volume, 1e-3)
    assert band.band.target == pytest.approx(1e-3 * volume)
    assert band.steps()[0].result.value == band.band.target


Call = Callable[[float], object]
CALLS: dict[str, Call] = {
    "bog_size pond": lambda x: bog_size(x, 0.1, 0.5),
    "bog_size share": lambda x: bog_size(1.0, x, 0.5),
    "bog_size depth": lambda x: bog_size(1.0, 0.1, x),
    "bog_flow": lambda x: bog_flow(x, 300.0, 600.0, 900.0),
    "bog_flow time": lambda x: bog_flow(0.1, x, 600.0, 900.0),
    "high_flow": lambda x: high_flow(x, 1e-4, 1e-3),
    "skimmer width": lambda x: skimmer_flow(x, 0.01, 0.02, 0.03),
    "skimmer rate": lambda x: skimmer_flow(0.2, x, 0.02, 0.03),
    "whole pond": lambda x: whole_pond_flow(x, 1e-3),
}


@pytest.mark.parametrize("bad", [0.0, -1.0, math.nan, math.inf, 1e9])
@pytest.mark.parametrize("name", CALLS)
def test_numbers_out_of_range_are_refused(name: str, bad: float) -> None:
    with pytest.raises(OutOfRange):
        CALLS[name](bad)


def test_skimmer_rules_must_be_in_order() -> None:
    with pytest.raises(OutOfRange, match="out of order"):
        skimmer_flow(0.2, 0.02, 0.01, 0.03)
