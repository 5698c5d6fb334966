"""More fills settle what more fills can settle."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.errors import NoSolution, NotEnoughReadings, OutOfRange
from pondapp.core.measuring.runs_needed import fill_time_for, more_runs_to_decide, runs_for
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.verdict import judge

RULES = {"reaction_sd": 0.1, "coverage": 0.95, "most_runs": 20}


def test_none_when_decided() -> None:
    assert more_runs_to_decide([10.0, 10.1, 9.9], 0.01, 1e-4, band_low=5e-4, band_high=2e-3,
                               **RULES) == 0  # fmt: skip


def test_so_many_more_do_decide() -> None:
    times = [9.5, 10.5, 10.0]
    band = (9.5e-4, None)
    more = more_runs_to_decide(times, 0.01, 1e-5, band_low=band[0], band_high=None, **RULES)
    assert more > 1
    # Six fills of the same mean and scatter stand for the ones to come.
    spread = 0.5 * (1 - 1 / (3 + more)) ** 0.5
    rest = [10.0 - spread, 10.0 + spread] * ((3 + more) // 2) + [10.0] * ((3 + more) % 2)
    later = timed_flow(rest, 0.01, 1e-5, 0.1, 0.95)
    assert judge(later.low, later.high, *band).kind == "within"


@settings(max_examples=40)
@given(st.floats(0.8e-3, 1.2e-3), st.floats(0.0, 0.3))
def test_never_negative_and_zero_only_when_decided(edge: float, spread: float) -> None:
    times = [10.0 - spread, 10.0, 10.0 + spread]
    now = timed_flow(times, 0.01, 1e-4, 0.1, 0.95)
    decided = judge(now.low, now.high, edge, None).kind != "undecided"
    try:
        more = more_runs_to_decide(times, 0.01, 1e-4, band_low=edge, band_high=None, **RULES)
    except NoSolution:
        assert not decided
    else:
        assert (more == 0) == decided
        assert more >= 0


def test_says_when_the_container_is_the_trouble() -> None:
    with pytest.raises(NoSolution, match="container"):
        more_runs_to_decide([10.0] * 3, 0.01, 1e-3, band_low=9.8e-4, band_high=None, **RULES)


def test_says_when_it_would_take_too_many() -> None:
    with pytest.raises(NoSolution, match="even 20"):
        more_runs_to_decide([8.0, 12.0], 0.01, 0.0, band_low=9.99e-4, band_high=None, **RULES)


@given(st.floats(0.001, 0.5), st.floats(0.01, 1.0), st.integers(1, 50))
def test_time_and_number_are_each_other_back(target: float, scatter: float, runs: int) -> None:
    time = fill_time_for(target, scatter, runs)
    if 0.01 <= time * 1.0001 <= 86400:
        assert runs_for(target, scatter, time * 1.0001) == runs


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        more_runs_to_decide([], 0.01, 0.0, band_low=1e-3, band_high=None, **RULES)
    with pytest.raises(OutOfRange):
        more_runs_to_decide([1.0], 0.01, 0.0, 0.1, 0.95, 1e-3, None, 0)
    with pytest.raises(OutOfRange):
        fill_time_for(0.0, 0.1, 3)
    with pytest.raises(OutOfRange):
        fill_time_for(0.1, 0.1, 0)
    with pytest.raises(OutOfRange):
        runs_for(0.0, 0.1, 10.0)
