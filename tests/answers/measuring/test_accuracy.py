"""What limits a measurement and what would halve its doubt, with the numbers worked out by hand."""

from math import sqrt

import pytest

from pondapp.answers.measuring.accuracy import Accuracy, of_estimate, of_timed
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import ARITHMETIC, Term
from pondapp.core.measuring.estimate import Factor, FlowEstimate
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.timed_flow import TimedFlow, timed_flow

MOST = 20.0


def fills(
    times: list[float], half_width: float, reaction: float = 0.1, variation: float = 0.0
) -> TimedFlow:
    # Known so well beforehand that a few fills that agree change nothing.
    known = ExpectedScatter(reaction, variation, 10**3, 0.01)
    return timed_flow(times, 0.010, half_width, known, 0.95)


def cure(found: Accuracy | None, place: str) -> float:
    assert found is not None
    value = found.halve.values[place]
    return value.value if isinstance(value, Amount) else float(str(value))


def test_a_container_known_badly_must_be_known_better() -> None:
    # Four fills of 20 s and 0.1 s of reaction: 0.0025 of the flow. 0.2 L of 10 L, as a rectangle:
    # 0.011547. Half of both together, less the time's part, leaves 0.46351 of the container's.
    found = of_timed(fills([20.0] * 4, 0.0002), MOST, weighed=False)
    assert found is not None
    assert str(found.limits) == (
        "Mostly because of this: how well it is known what the container holds (96 % of it)."
    )
    assert cure(found, "half") == pytest.approx(0.46351 * 0.0002, rel=1e-3)
    # A scale is read twice, and a litre weighs a kilogram: 92.7 mL over the root of two is 65.5 g.
    weighed = of_timed(fills([20.0] * 4, 0.0002), MOST, weighed=True)
    assert cure(weighed, "half") == pytest.approx(0.46351 * 0.2 / sqrt(2.0), rel=1e-3)
    assert "a scale good to" in str(weighed.halve if weighed else "")


def test_timing_asks_for_more_fills_or_a_larger_container() -> None:
    # With the container known, only the time is left: half of it takes four times as
    # many fills, or a container of twice the size.
    found = of_timed(fills([5.0, 5.0], 0.0), MOST, weighed=False)
    assert cure(found, "runs") == 8.0
    assert cure(found, "volume") == pytest.approx(0.020, rel=2e-3)
    many = of_timed(fills([5.0] * 6, 0.0), MOST, weighed=False)
    assert many is not None
    assert str(many.halve.template) == "To know it twice as well: a container of {volume}."


def test_two_parts_of_one_size_must_both_be_bettered() -> None:
    # 0.1 s on one fill of 10 s is 0.01; 0.17321 L of 10 L as a rectangle is 0.01 too.
    found = of_timed(fills([10.0], 0.00017321), MOST, weighed=False)
    assert found is not None
    assert str(found.halve).startswith("To know it twice as well, improve both: ")
    assert "starting and stopping by hand" in str(found.halve)
    assert "the container holds" in str(found.halve)


def test_what_differs_from_fill_to_fill_asks_for_more_fills_only() -> None:
    # 2 % from fill to fill, nothing by hand: four times as many fills, whatever the container.
    found = of_timed(fills([20.0, 20.0], 0.0, reaction=0.0, variation=0.02), MOST, weighed=False)
    assert found is not None
    assert str(found.limits).startswith("Mostly because of this: the flow and the filling")
    assert str(found.halve) == "To know it twice as well: 8 fills in all."
    # By hand 0.4 s and as much by the flow, of 20 s: a larger container cannot halve both.
    both = of_timed(fills([20.0, 20.0], 0.0, reaction=0.4, variation=0.02), MOST, weighed=False)
    assert both is not None
    assert str(both.halve) == "To know it twice as well: 8 fills in all."


def test_where_nothing_is_in_doubt_nothing_is_said() -> None:
    assert of_timed(fills([10.0], 0.0, reaction=0.0), MOST, weighed=False) is None
    assert of_estimate(estimate(("A", 2.0, 0.0), ("d", 0.1, 0.0)), 1) is None


def estimate(*factors: tuple[str, float, float]) -> FlowEstimate:
    made = tuple(
        Factor(Term(symbol, symbol, value, "m"), -1.0 if symbol == "t" else 1.0, doubt)
        for symbol, value, doubt in factors
    )
    return FlowEstimate(1e-3, 1e-5, 9e-4, 1.1e-3, (), "Q = A d / t", made, ARITHMETIC, 0.95)


@pytest.mark.parametrize(
    ("symbol", "place", "wanted"),
    [
        ("A", "share", 100 * 0.5 * 0.1 * sqrt(3.0) / 2.0),
        ("V", "share", 100 * 0.5 * 0.1 * sqrt(3.0) / 2.0),
        ("ε", "share", 100 * 0.5 * 0.1 * sqrt(3.0) / 2.0),
        ("h", "half", 0.5 * 0.1 * sqrt(3.0)),
        ("b", "half", 0.5 * 0.1 * sqrt(3.0)),
        ("d", "longer", 4.0),
        ("t", "runs", 12.0),
    ],
)
def test_a_lone_part_is_to_be_halved(symbol: str, place: str, wanted: float) -> None:
    found = of_estimate(estimate((symbol, 2.0, 0.1)), 3)
    assert cure(found, place) == pytest.approx(wanted, rel=0.01)  # shares are rounded for a reader


@pytest.mark.parametrize(("symbol", "words"), [("k", "No ruler"), ("Q", "a bucket or a level")])
def test_a_formula_or_a_meter_is_checked_another_way(symbol: str, words: str) -> None:
    found = of_estimate(estimate((symbol, 1.0, 0.1)), 1)
    assert found is not None
    assert words in str(found.halve)


def test_an_estimate_with_two_parts_of_one_size_names_both() -> None:
    found = of_estimate(estimate(("A", 1.0, 0.02), ("d", 0.1, 0.002)), 1)
    assert found is not None
    assert str(found.halve) == (
        "To know it twice as well, improve both: the water area, and reading the level."
    )


@pytest.mark.parametrize("times", [[9.52, 7.27], [10.0, 10.0, 10.0, 30.0]])
@pytest.mark.parametrize("weighed", [False, True])
def test_fills_that_differ_too_much_are_not_blamed_on_the_hand(
    times: list[float], weighed: bool
) -> None:
    found = of_timed(fills(times, 0.0002), MOST, weighed=weighed)
    assert found is not None
    assert str(found.limits).startswith("Mostly how much the fills differ")
    assert "find out why" in str(found.halve)
    assert "fills in all" not in str(found.halve)
