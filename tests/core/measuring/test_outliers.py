"""An outlier is found, and good fills are seldom called one."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.outliers import likely_outlier
from pondapp.core.measuring.scatter import ExpectedScatter


def expected(reaction: float, variation: float = 0.016) -> ExpectedScatter:
    return ExpectedScatter(reaction, variation, 4, 0.01)


SCATTER = expected(0.1)


def test_finds_the_late_stop() -> None:
    outlier = likely_outlier([10.1, 10.0, 12.6, 10.2, 9.9], SCATTER, 0.01)
    assert outlier is not None
    assert outlier.index == 2
    assert outlier.difference == pytest.approx(2.55)


def test_leaves_ordinary_scatter_alone() -> None:
    assert likely_outlier([10.1, 10.0, 10.4, 10.2, 9.9], SCATTER, 0.01) is None
    assert likely_outlier([10.0, 10.0, 10.1], SCATTER, 0.01) is None
    assert likely_outlier([10.0, 10.0, 10.0], expected(0.0, 0.0), 0.01) is None


@pytest.mark.parametrize(
    ("fills", "scatter"), [(3, 0.1), (3, 0.2), (3, 0.3), (5, 0.1), (5, 0.3), (8, 0.1), (8, 0.3)]
)
def test_false_alarms_are_as_rare_as_agreed(fills: int, scatter: float) -> None:
    rng = random.Random(fills)
    trials = 1500
    alarms = sum(
        likely_outlier([rng.gauss(10.0, scatter) for _ in range(fills)], SCATTER, 0.05) is not None
        for _ in range(trials)
    )
    # 0.3 s is half as much again as is expected of 10 s: twice as many are called an outlier then.
    assert alarms / trials <= (0.07 if scatter < 0.3 else 0.105)


@settings(max_examples=40)
@given(st.permutations([10.0, 10.1, 9.9, 10.05, 14.0]))
def test_order_does_not_matter(times: list[float]) -> None:
    outlier = likely_outlier(times, SCATTER, 0.01)
    assert outlier is not None
    assert times[outlier.index] == 14.0


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        likely_outlier([10.0, 20.0], SCATTER, 0.01)
    for times, reaction, chance in (
        ([10.0, 10.0, -1.0], 0.1, 0.01),
        ([10.0, 10.0, 10.0], float("nan"), 0.01),
        ([10.0, 10.0, 10.0], 0.1, 0.9),
    ):
        with pytest.raises(OutOfRange):
            likely_outlier(times, expected(reaction), chance)
