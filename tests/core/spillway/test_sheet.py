"""Thickness and flow of a sheet, both ways, and the rule per width."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.waterfalls import WaterfallAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.spillway.band import sheet_band, width_fed
from pondapp.core.spillway.sheet import (
    brink_depth,
    critical_depth,
    flow_from_brink_depth,
    head_over_lip,
)
from pondapp.core.spillway.weirs import weir_flow_rehbock

RULES = WaterfallAssumptions()


@settings(max_examples=50)
@given(st.floats(0.001, 1.0), st.floats(0.05, 5.0), st.floats(0.02, 2.0))
def test_head_and_flow_are_each_other_back(head: float, width: float, crest: float) -> None:
    flow = weir_flow_rehbock(head, width, crest).flow
    assert head_over_lip(flow, width, crest).head == pytest.approx(head, rel=1e-6)


@settings(max_examples=50)
@given(st.floats(1e-5, 1.0), st.floats(0.05, 5.0))
def test_brink_depth_and_flow_are_each_other_back(q: float, width: float) -> None:
    assert flow_from_brink_depth(brink_depth(q), width) == pytest.approx(q * width)
    assert brink_depth(q) < critical_depth(q)


def test_the_rule_gives_a_sheet_of_sixteen_millimetres() -> None:
    lip = head_over_lip(0.3 * RULES.sheet_flow_per_width, 0.3, 0.3)
    assert 0.014 < lip.head < 0.018
    assert lip.warnings  # thinner than any formula was tested at


@settings(max_examples=50)
@given(st.floats(0.01, 20.0))
def test_width_and_flow_are_each_other_back(width: float) -> None:
    rule, low, high = (
        RULES.sheet_flow_per_width,
        RULES.sheet_low_factor,
        RULES.sheet_high_factor,
    )
    band = sheet_band(width, rule, low, high)
    assert band.high is not None
    assert band.low < band.target < band.high
    assert width_fed(band.target, rule) == pytest.approx(width)
    assert width_fed(band.low, low * rule) == pytest.approx(width)


def test_thirty_centimetres_want_four_thousand_litres_an_hour() -> None:
    band = sheet_band(0.30, RULES.sheet_flow_per_width, 0.5, 2.0)
    assert band.target * 3.6e6 == pytest.approx(4000)
    assert band.low * 3.6e6 == pytest.approx(2000)


def test_nothing_flows_over_nothing() -> None:
    assert critical_depth(0.0) == 0.0
    assert flow_from_brink_depth(0.0, 1.0) == 0.0
    assert width_fed(0.0, 0.004) == 0.0


def test_refuses() -> None:
    with pytest.raises(NoSolution, match="film"):
        head_over_lip(1e-6, 1.0, 0.3)
    with pytest.raises(NoSolution, match="higher"):
        head_over_lip(900.0, 0.1, 0.3)
    with pytest.raises(OutOfRange):
        head_over_lip(0.0, 1.0, 0.3)
    with pytest.raises(OutOfRange):
        critical_depth(-1.0)
    with pytest.raises(OutOfRange):
        flow_from_brink_depth(-0.1, 1.0)
    with pytest.raises(OutOfRange):
        sheet_band(0.0, 0.004, 0.5, 2.0)
    with pytest.raises(OutOfRange):
        sheet_band(1.0, 0.004, 0.5, 0.9)
    with pytest.raises(OutOfRange):
        width_fed(1.0, 0.0)
