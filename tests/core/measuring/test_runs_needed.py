"""More fills settle what more fills can settle, a larger container what that can."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.measuring.runs_needed import (
    more_runs_to_decide,
    volume_to_decide,
)
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.timed_flow import TimedFlow, timed_flow
from pondapp.core.measuring.verdict import Certainty, decide

EXPECTED = ExpectedScatter(0.10, 0.016, 4, 0.01)
RULE = Certainty(0.95, 0.10, 0.95)


def flow(times: list[float], half_width: float = 1e-5) -> TimedFlow:
    return timed_flow(times, 0.01, half_width, EXPECTED, 0.95)


def more(found: TimedFlow, low: float, high: float | None = None, most: float = 20) -> int | None:
    return more_runs_to_decide(found, low, high, RULE, most)


def test_none_when_decided() -> None:
    assert more(flow([10.0, 10.1, 9.9], 1e-4), 5e-4, 2e-3) == 0


def test_so_many_more_do_decide() -> None:
    times = [9.6, 10.4, 10.0]
    found = flow(times)
    wanted = more(found, 9.75e-4)
    assert wanted is not None
    assert wanted > 1
    # Fills with the estimated scatter stand for the ones to come.
    away = found.timing.std
    rest = [10.0 - away, 10.0 + away] * ((wanted + 1) // 2)
    assert decide(flow(times + rest).spread, 9.75e-4, None, RULE).kind == "within"


@settings(max_examples=40)
@given(st.floats(0.8e-3, 1.2e-3), st.floats(0.0, 0.3))
def test_never_negative_and_zero_only_when_decided(edge: float, spread: float) -> None:
    found = flow([10.0 - spread, 10.0, 10.0 + spread], 1e-4)
    decided = decide(found.spread, edge, None, RULE).kind != "undecided"
    wanted = more(found, edge)
    assert (wanted == 0) is decided
    assert wanted is None or wanted >= 0


def test_no_number_settles_what_the_container_or_the_limit_decides() -> None:
    assert more(flow([10.0] * 3, 1e-3), 9.8e-4) is None
    assert more(flow([10.0, 10.1]), 9.97e-4) is None
    assert more(flow([9.6, 10.4, 10.0]), 9.75e-4, most=3) is None


def test_a_larger_container_settles_what_the_hand_left_open() -> None:
    # Fills of 1.2 s: the hand alone is 8 % of them.
    quick = timed_flow([1.2, 1.2, 1.2], 0.001, 1e-5, EXPECTED, 0.95)
    low = 0.95 * quick.flow
    volumes = (0.0005, 0.002, 0.005, 0.01, 0.02)
    volume = volume_to_decide(quick, low, None, RULE, 3, volumes)
    assert volume in (0.005, 0.01, 0.02)
    times = [1.2 * volume / 0.001] * 3
    later = timed_flow(times, volume, 0.01 * volume, EXPECTED, 0.95)
    assert decide(later.spread, low, None, RULE).kind == "within"
    smaller = [one for one in volumes if one < volume]
    assert volume_to_decide(quick, low, None, RULE, 3, smaller) is None
    # Right at the limit none does.
    assert volume_to_decide(quick, quick.flow, None, RULE, 3, volumes) is None


def test_refuses() -> None:
    with pytest.raises(OutOfRange):
        more(flow([10.0]), 1e-3, most=0)
    with pytest.raises(OutOfRange):
        volume_to_decide(flow([10.0]), 1e-3, None, RULE, 0, (0.02,))
    with pytest.raises(OutOfRange):
        volume_to_decide(flow([10.0]), 1e-3, None, RULE, 3, (20.0,))
