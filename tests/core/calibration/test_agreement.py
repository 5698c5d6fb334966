"""Readings of one state: those that agree, slips, changes, and what nobody can decide."""

from math import log
from random import Random

import pytest

from pondapp.core.base.errors import OutOfRange
from pondapp.core.calibration.agreement import Agreement, agreement


def of(*flows: float) -> Agreement:
    return agreement([log(flow) for flow in flows], [0.024] * len(flows), 3.3)


def middle(flows: list[float]) -> tuple[float, float]:
    """Weighted mean of the logarithms and its standard uncertainty, with the weights it gives."""
    weights = [one / 0.024**2 for one in of(*flows).weights]
    whole = sum(weights)
    mean = sum(w * log(flow) for w, flow in zip(weights, flows, strict=True)) / whole
    return mean, whole**-0.5


@pytest.mark.parametrize("flows", [(), (5.0,), (5.0, 5.1), (5.0, 5.1, 4.9, 5.0)])
def test_what_agrees_counts_as_read(flows: tuple[float, ...]) -> None:
    assert of(*flows) == Agreement("agree", (1.0,) * len(flows))


@pytest.mark.parametrize("flows", [[6.0, 3.0], [3.0, 0.3], [6.0, 6.1, 3.0], [6.0] * 20 + [3.0]])
def test_where_the_newest_is_off_both_lie_within_what_is_left_open(flows: list[float]) -> None:
    assert of(*flows).kind == "open"
    mean, doubt = middle(flows)
    for flow in (flows[0], flows[-1]):
        assert abs(log(flow) - mean) <= 1.96 * doubt


def test_one_that_stands_alone_between_others_is_a_slip() -> None:
    found = of(6.0, 3.0, 6.1)
    assert found.kind == "slips"
    assert found.weights[1] < 0.01
    assert (found.weights[0], found.weights[2]) == (1.0, 1.0)


def test_two_of_now_against_two_of_before_are_a_change_that_nobody_logged() -> None:
    found = of(6.0, 6.1, 3.0, 3.05)
    assert found.kind == "changed"
    assert found.weights[2:] == (1.0, 1.0)
    assert max(found.weights[:2]) < 0.01


def test_what_goes_up_and_down_scatters_and_none_of_it_is_called_wrong() -> None:
    found = of(*[6.0, 3.0] * 10)
    assert found.kind == "open"
    assert len(set(found.weights)) == 1


def test_more_slips_than_there_can_be_are_scatter() -> None:
    chance = Random(3)
    found = of(*(6.0 * (1.0 + chance.gauss(0.0, 0.1)) for _ in range(30)))
    assert found.kind == "open"
    assert min(found.weights) == max(found.weights)


def test_good_readings_are_seldom_said_to_disagree() -> None:
    chance, called = Random(7), 0
    for _ in range(1000):
        offs = [chance.gauss(0.0, 0.1) for _ in range(8)]
        called += agreement(offs, [0.1] * 8, 3.23).kind != "agree"  # 1 % of eight, either way
    assert called <= 25


def test_refusals() -> None:
    with pytest.raises(OutOfRange):
        agreement([0.0, 1.0], [0.1, 0.1], 0.0)
