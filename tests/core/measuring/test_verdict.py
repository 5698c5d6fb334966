"""One rule of decision: by the chance that the flow lies in its band, after JCGM 106."""

import numpy
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import integrate, stats

from pondapp.core.base.errors import OutOfRange
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Certainty, decide, fill_time_window

RULE = Certainty(0.95, 0.10, 0.95)
FLOWS = st.floats(1e-6, 1.0)


@pytest.mark.parametrize(
    ("flow", "scale", "kind"),
    [
        # One-sided 95 % of a normal distribution is 1.645 of its standard deviation.
        (0.90, 0.0607, "below"),
        (0.90, 0.0609, "undecided"),
        (1.0, 0.02, "undecided"),
        (1.07, 0.0425, "within"),
        (1.07, 0.0427, "undecided"),
        (1.90, 0.0607, "within"),
        (1.90, 0.0609, "undecided"),
        (2.10, 0.0607, "above"),
        (2.10, 0.0609, "undecided"),
    ],
)
def test_decided_from_the_chance_that_is_asked_for(flow: float, scale: float, kind: str) -> None:
    rule = Certainty(0.95, 0.15, 0.95)
    assert decide(Spread(flow, scale), 1.0, 2.0, rule).kind == kind


def test_chances_of_a_band_narrower_than_the_flow_is_known() -> None:
    found = decide(Spread(1.0, 0.03), 0.99, 1.01, RULE)
    assert found.kind == "undecided"
    assert found.below == pytest.approx(stats.norm.cdf(-1 / 3))
    assert found.above == pytest.approx(stats.norm.cdf(-1 / 3))
    assert found.below + found.inside + found.above == pytest.approx(1.0)


@given(st.floats(0.2, 50.0), st.floats(1e-3, 1.0), st.integers(1, 40), st.floats(0.0, 1.0))
def test_nothing_is_decided_of_a_flow_that_is_hardly_known(
    flow: float, scale: float, freedom: int, tolerance: float
) -> None:
    spread = Spread(flow, scale * flow, freedom, tolerance * flow)
    found = decide(spread, 1.0, 10.0, RULE)
    assert found.share == pytest.approx(spread.half_width(0.95) / flow)
    if found.share > 0.10:
        assert found.wide
        assert found.kind == "undecided"
    # A flow of which the interval begins at nothing is never right.
    assert not (found.kind == "within" and spread.interval(0.95)[0] == 0.0)


@settings(max_examples=30, deadline=None)
@given(st.floats(0.9, 1.1), st.floats(1e-3, 0.03), st.integers(1, 30), st.floats(1e-3, 0.05))
def test_chances_by_numerical_integration(
    flow: float, scale: float, freedom: int, tolerance: float
) -> None:
    found = decide(Spread(flow, scale, freedom, tolerance), 1.0, 1.03, RULE)

    def chance(limit: float) -> float:
        held, _ = integrate.quad(
            lambda u: stats.t.cdf((limit - flow - u) / scale, freedom) / (2 * tolerance),
            -tolerance, tolerance, limit=200,
            points=sorted({max(-tolerance, min(tolerance, limit - flow))}),
        )  # fmt: skip
        return float(held)

    assert found.below == pytest.approx(chance(1.0), abs=1e-6)
    assert found.above == pytest.approx(1.0 - chance(1.03), abs=1e-6)


def test_chances_by_chance() -> None:
    """A million flows drawn by numpy, counted."""
    dice = numpy.random.default_rng(106)
    many = 1_000_000
    drawn = 1.02 + 0.012 * dice.standard_t(6, many) + dice.uniform(-0.02, 0.02, many)
    found = decide(Spread(1.02, 0.012, 6, 0.02), 1.0, 1.05, RULE)
    assert found.below == pytest.approx((drawn < 1.0).mean(), abs=2e-3)
    assert found.inside == pytest.approx(((drawn >= 1.0) & (drawn <= 1.05)).mean(), abs=2e-3)


def test_no_water_is_below_and_an_exact_flow_is_where_it_is() -> None:
    assert decide(Spread(0.0), 1.0, 2.0, RULE).kind == "below"
    assert decide(Spread(0.0), 0.0, 2.0, RULE).kind == "within"
    for flow, kind in ((0.999, "below"), (1.0, "within"), (2.0, "within"), (2.001, "above")):
        assert decide(Spread(flow), 1.0, 2.0, RULE).kind == kind
    assert decide(Spread(5.0), 1.0, None, RULE).kind == "within"


RANK = {"below": 0, "undecided": 1, "within": 2, "above": 4}


@given(FLOWS, FLOWS, st.floats(0.0, 0.04), FLOWS)
def test_more_flow_never_moves_a_decision_down(
    a: float, b: float, scale: float, edge: float
) -> None:
    def rank(flow: float) -> int:
        found = decide(Spread(flow, scale * flow), edge, 2 * edge, RULE)
        if found.kind == "undecided":  # at the upper end of the band, or at the lower
            return 3 if found.above > found.below else 1
        return RANK[found.kind]

    assert rank(min(a, b)) <= rank(max(a, b))


def test_the_working_shows_the_larger_chance() -> None:
    (step,) = decide(Spread(1.5, 0.01), 1.0, 2.0, RULE).steps()
    assert (step.result.symbol, step.result.value) == ("P", pytest.approx(1.0))
    assert "lies in the wanted range" in str(step.result.meaning)


@given(FLOWS, FLOWS)
def test_a_fill_as_long_as_the_window_says_has_that_flow(volume: float, low: float) -> None:
    window = fill_time_window(volume, low, 1.5 * low, 3 * low)
    assert window.shortest is not None
    assert window.shortest < window.aim < window.longest
    assert volume / window.longest == pytest.approx(low)
    assert volume / window.shortest == pytest.approx(3 * low)
    assert fill_time_window(volume, low, low, None).shortest is None


def test_refuses() -> None:
    for band_low, band_high, rule in (
        (-1.0, 2.0, RULE),
        (2.0, 1.0, RULE),
        (1.0, 2.0, Certainty(0.5, 0.10, 0.95)),
        (1.0, 2.0, Certainty(0.95, 0.0, 0.95)),
        (float("nan"), 2.0, RULE),
    ):
        with pytest.raises(OutOfRange):
            decide(Spread(1.0, 0.01), band_low, band_high, rule)
    with pytest.raises(OutOfRange):
        fill_time_window(0.0, 1.0, 1.0, None)
    with pytest.raises(OutOfRange):
        fill_time_window(1.0, 0.0, 1.0, None)
