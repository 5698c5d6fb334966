"""Thickness of a sheet from its flow, and the rule per width."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.waterfalls import WaterfallAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.spillway.sheet import (
    brink_depth,
    critical_depth,
    head_over_lip,
    width_fed,
)
from pondapp.core.spillway.weirs import weir_flow_rehbock

RULES = WaterfallAssumptions()


@settings(max_examples=50)
@given(st.floats(0.001, 1.0), st.floats(0.05, 5.0), st.floats(0.02, 2.0))
def test_head_and_flow_are_each_other_back(head: float, width: float, crest: float) -> None:
    flow = weir_flow_rehbock(head, width, crest).flow
    assert head_over_lip(flow, width, crest).head == pytest.approx(head, rel=1e-6)


@settings(max_examples=50)
@given(st.floats(1e-5, 1.0))
def test_the_sheet_is_thinner_at_its_edge(q: float) -> None:
    assert 0.0 < brink_depth(q) < critical_depth(q)


def test_the_rule_gives_a_sheet_of_sixteen_millimetres() -> None:
    lip = head_over_lip(0.3 * RULES.sheet_flow_per_width, 0.3, 0.3)
    assert 0.014 < lip.head < 0.018
    assert lip.warnings  # thinner than any formula was tested at


def test_four_thousand_litres_an_hour_feed_thirty_centimetres() -> None:
    assert width_fed(4000 / 3.6e6, RULES.sheet_flow_per_width) == pytest.approx(0.3)


def test_nothing_flows_over_nothing() -> None:
    assert critical_depth(0.0) == 0.0
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
        width_fed(1.0, 0.0)
