"""Combining, against a propagation library and by limits."""

from math import inf, sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.uncertainty import (
    combined,
    mean_and_scatter,
    rectangular,
)

PARTS = st.lists(st.floats(1e-6, 1e3), min_size=1, max_size=6)


@settings(max_examples=50)
@given(st.floats(0.5, 100), st.floats(1e-6, 0.1), st.floats(0.5, 100), st.floats(1e-6, 0.1))
def test_a_quotient_as_the_propagation_library_has_it(v: float, rv: float, t: float, rt: float):
    flow = ufloat(v, v * rv) / ufloat(t, t * rt)
    assert combined((rv, rt)) * v / t == pytest.approx(flow.std_dev, rel=1e-9, abs=1e-15)


@given(PARTS)
def test_combined_is_between_the_largest_and_the_sum(parts: list[float]) -> None:
    assert max(parts) * (1 - 1e-12) <= combined(parts) <= sum(parts) * (1 + 1e-12)


def test_limits() -> None:
    assert rectangular(3.0) == pytest.approx(sqrt(3.0))
    assert mean_and_scatter([1.0, 3.0]) == pytest.approx((2.0, sqrt(2.0)))


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        combined([])
    with pytest.raises(NotEnoughReadings):
        mean_and_scatter([1.0])
    with pytest.raises(OutOfRange):
        mean_and_scatter([1.0, inf])
    with pytest.raises(OutOfRange):
        combined([-1.0])
    with pytest.raises(OutOfRange):
        rectangular(-1.0)
