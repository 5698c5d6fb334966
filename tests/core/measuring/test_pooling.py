"""Pooled flows: limits, order, disagreement."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.measuring.pooling import differ, pooled

READINGS = st.lists(st.tuples(st.floats(1e-5, 1e-2), st.floats(1e-7, 1e-3)), min_size=1, max_size=6)


@settings(max_examples=60)
@given(READINGS)
def test_lies_between_the_least_and_the_most(readings: list[tuple[float, float]]) -> None:
    flows, parts = zip(*readings, strict=True)
    found = pooled(flows, parts, 0.95)
    assert min(flows) * (1 - 1e-9) <= found.flow <= max(flows) * (1 + 1e-9)
    assert 0.0 <= found.low <= found.flow <= found.high
    assert found.stretch >= 1.0
    turned = pooled(flows[::-1], parts[::-1], 0.95)
    assert turned.flow == pytest.approx(found.flow)


def test_four_equal_readings_halve_the_uncertainty() -> None:
    found = pooled([1e-3] * 4, [1e-5] * 4, 0.95)
    assert found.standard_uncertainty == pytest.approx(0.5e-5)
    assert found.warnings == ()
    assert found.steps()[0].result.value == found.flow


def test_the_better_reading_weighs_more() -> None:
    assert pooled([1.0, 2.0], [0.1, 0.2], 0.95).flow == pytest.approx(1.2)


def test_disagreement_is_said_and_widens() -> None:
    found = pooled([1.0, 2.0], [0.1, 0.1], 0.95)
    assert found.warnings
    # The two ends lie half apart from their mean: the spread alone gives 0.5.
    assert found.standard_uncertainty == pytest.approx(0.5)


def test_differ_needs_more_than_their_uncertainty() -> None:
    assert differ(1.0, 0.1, 1.3, 0.1, 0.95)
    assert not differ(1.0, 0.1, 1.2, 0.1, 0.95)
    assert not differ(1.0, 0.0, 1.0, 0.0, 0.95)


def test_refuses() -> None:
    with pytest.raises(NotEnoughReadings):
        pooled([], [], 0.95)
    with pytest.raises(OutOfRange):
        pooled([1.0], [0.1, 0.1], 0.95)
    with pytest.raises(OutOfRange):
        pooled([1.0], [0.0], 0.95)
    with pytest.raises(OutOfRange):
        pooled([-1.0], [0.1], 0.95)
    with pytest.raises(OutOfRange):
        differ(1.0, -0.1, 1.0, 0.1, 0.95)
