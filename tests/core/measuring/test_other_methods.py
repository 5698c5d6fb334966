"""Other ways to the same number: agreement, propagation against a library, refusals."""

from math import sqrt

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from uncertainties import ufloat

from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.base.working import ARITHMETIC
from pondapp.core.measuring.estimate import flow_estimate
from pondapp.core.measuring.other_methods import (
    flow_by_filling,
    flow_by_level_drop,
    flow_over_lip,
    weighed_volume,
)

RULES = MeasuringAssumptions()
ROOT3 = sqrt(3.0)
SHARE = st.floats(0.001, 0.2)


@settings(max_examples=40)
@given(st.floats(0.1, 100.0), SHARE, st.floats(0.01, 1.0), SHARE, st.floats(10.0, 1e4))
def test_level_drop_as_the_propagation_library_has_it(
    area: float, area_share: float, drop: float, level_share: float, time: float
) -> None:
    found = flow_by_level_drop(area, area * area_share, drop, drop * level_share, time, 0.1, 0.95)
    start = ufloat(2.0, drop * level_share / ROOT3)
    end = ufloat(2.0 - drop, drop * level_share / ROOT3)
    expected = ufloat(area, area * area_share / ROOT3) * (start - end) / ufloat(time, 0.1)
    assert found.flow == pytest.approx(expected.nominal_value)
    assert found.standard_uncertainty == pytest.approx(expected.std_dev)
    assert 0.0 <= found.low < found.flow < found.high


@settings(max_examples=40)
@given(st.floats(0.01, 10.0), SHARE, st.floats(0.3, 0.5), SHARE, st.floats(10.0, 1e4))
def test_filling_as_the_propagation_library_has_it(
    volume: float, share: float, porosity: float, pore_share: float, time: float
) -> None:
    found = flow_by_filling(
        volume, volume * share, porosity, porosity * pore_share, time, 0.1, 0.95
    )
    expected = (
        ufloat(volume, volume * share / ROOT3)
        * ufloat(porosity, porosity * pore_share / ROOT3)
        / ufloat(time, 0.1)
    )
    assert found.flow == pytest.approx(expected.nominal_value)
    assert found.standard_uncertainty == pytest.approx(expected.std_dev)


def test_three_ways_agree_on_one_basin() -> None:
    box = flow_by_filling(0.1, 0.0, 1.0, 0.0, 100.0, 0.1, 0.95)
    level = flow_by_level_drop(0.5, 0.0, 0.2, 0.0, 100.0, 0.1, 0.95)
    assert box.flow == pytest.approx(level.flow)
    assert box.standard_uncertainty == pytest.approx(level.standard_uncertainty)


def test_weighing_takes_the_tare_off_and_doubles_the_reading_error() -> None:
    found = weighed_volume(10.5, 0.5, 0.05, 1000.0)
    assert found.volume == pytest.approx(0.010)
    assert found.half_width == pytest.approx(sqrt(2.0) * 0.05e-3)
    assert found.steps()[0].result.value == found.volume
    assert weighed_volume(10.5, 0.5, 0.0, 990.0).volume > found.volume


def lip(head: float, width: float = 0.5) -> float:
    found = flow_over_lip(
        head, 0.001, width, 0.005, 0.3, RULES.weir_uncertainty, RULES.small_sheet_uncertainty, 0.95
    )
    return found.standard_uncertainty / found.flow


def test_a_thin_sheet_is_known_worse_and_says_so() -> None:
    assert lip(0.015) > 2 * lip(0.04)
    thin = flow_over_lip(0.015, 0.001, 0.5, 0.005, 0.3, 0.1, 0.3, 0.95)
    assert thin.warnings
    assert flow_over_lip(0.05, 0.001, 0.5, 0.005, 0.4, 0.1, 0.3, 0.95).warnings == ()


@given(st.floats(0.002, 0.5), st.floats(0.0, 1.0))
def test_the_lip_never_gives_a_negative_end(head: float, share: float) -> None:
    found = flow_over_lip(head, share * head, 0.5, 0.0, 0.3, 1.0, 1.0, 0.999)
    assert 0.0 <= found.low <= found.flow <= found.high


def test_steps_name_every_quantity() -> None:
    first, second = flow_by_filling(0.1, 0.01, 0.4, 0.05, 100.0, 0.1, 0.95).steps()
    assert [term.symbol for term in first.inputs] == ["V", "ε", "t"]
    assert len(second.inputs) == 6


def test_refuses() -> None:
    with pytest.raises(OutOfRange, match="rough"):
        weighed_volume(1.0, 0.5, 0.5, 1000.0)
    with pytest.raises(OutOfRange):
        weighed_volume(1.0, 1.0, 0.0, 1000.0)
    with pytest.raises(OutOfRange):
        weighed_volume(1.0, 0.0, 0.0, 1.0)
    with pytest.raises(OutOfRange):
        flow_by_level_drop(1.0, 2.0, 0.1, 0.0, 10.0, 0.1, 0.95)
    with pytest.raises(OutOfRange):
        flow_by_level_drop(1.0, 0.1, 0.0, 0.0, 10.0, 0.1, 0.95)
    with pytest.raises(OutOfRange):
        flow_by_filling(1.0, 0.1, 1.1, 0.0, 10.0, 0.1, 0.95)
    with pytest.raises(OutOfRange):
        flow_by_filling(1.0, 0.1, 0.4, 0.0, float("nan"), 0.1, 0.95)
    with pytest.raises(OutOfRange):
        flow_over_lip(0.01, 0.02, 0.5, 0.0, 0.3, 0.1, 0.3, 0.95)
    with pytest.raises(NotEnoughReadings):
        flow_estimate(1.0, (), 0.95, "", ARITHMETIC)
    with pytest.raises(OutOfRange):
        flow_estimate(0.0, (), 0.95, "", ARITHMETIC)
