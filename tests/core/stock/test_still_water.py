"""The oxygen of a still pond: against small steps in time, limits, refusals."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.stock.still_water import time_to_oxygen

HOUR = 3600.0


@settings(max_examples=25)
@given(st.floats(0.5, 10.0), st.floats(0.0, 2e-4), st.floats(5e-3, 9e-3), st.floats(1e-7, 3e-6))
def test_it_is_what_small_steps_give(
    volume: float, exchange: float, start: float, use: float
) -> None:
    found = time_to_oxygen(volume, exchange, 8.5e-3, start, 4e-3, use)
    if not 100.0 < found < 100.0 * HOUR:
        return
    oxygen, steps = start, 20_000
    for _ in range(steps):
        oxygen += found / steps * (exchange * (8.5e-3 - oxygen) - use) / volume
    assert oxygen == pytest.approx(4e-3, abs=2e-5)


def test_at_once_never_and_in_a_straight_line() -> None:
    assert time_to_oxygen(1.0, 1e-5, 9e-3, 4e-3, 4e-3, 1e-6) == 0.0
    assert time_to_oxygen(1.0, 1e-5, 9e-3, 8e-3, 4e-3, 1e-9) == math.inf
    assert time_to_oxygen(1.0, 0.0, 9e-3, 8e-3, 4e-3, 0.0) == math.inf
    assert time_to_oxygen(1.0, 0.0, 9e-3, 8e-3, 4e-3, 1e-6) == pytest.approx(4000.0)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: time_to_oxygen(0.0, 0.0, 9e-3, 8e-3, 4e-3, 1e-6),
        lambda: time_to_oxygen(1.0, -1.0, 9e-3, 8e-3, 4e-3, 1e-6),
        lambda: time_to_oxygen(1.0, 0.0, 0.03, 8e-3, 4e-3, 1e-6),
        lambda: time_to_oxygen(1.0, 0.0, 9e-3, math.nan, 4e-3, 1e-6),
        lambda: time_to_oxygen(1.0, 0.0, 9e-3, 8e-3, -1e-3, 1e-6),
        lambda: time_to_oxygen(1.0, 0.0, 9e-3, 8e-3, 4e-3, 2.0),
    ],
)
def test_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        refused()
