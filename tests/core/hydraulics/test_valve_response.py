"""How far to turn next: exact where the valve is as in its table, and never past what is known."""

from math import sqrt

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.hydraulics.valve_response import (
    Setting,
    chance_of_more,
    next_opening,
    next_share,
    valve_loss,
)
from pondapp.core.hydraulics.valves import VALVES
from pondapp.core.measuring.spread import Spread

KINDS = [*VALVES, "unknown"]
SHARES = st.floats(0.05, 1.0)
FLOWS = st.floats(1e-5, 1e-2)


def exact(flow: float) -> Spread:
    return Spread(flow, 1e-9 * flow)


def settings_of(kind: str, pipe: float, *opened: float) -> list[Setting]:
    """A valve as in its table before a pipe of so many times v²/2g."""
    return [Setting(exact(1e-3 / sqrt(pipe + valve_loss(kind, x))), x) for x in opened]


@pytest.mark.parametrize("kind", VALVES)
def test_the_loss_of_a_valve_is_that_of_its_table(kind: str) -> None:
    for opened, loss in VALVES[kind][0]:
        assert valve_loss(kind, opened) == pytest.approx(loss)


@pytest.mark.parametrize("kind", KINDS)
@given(SHARES, SHARES)
def test_a_valve_loses_more_the_less_it_is_open(kind: str, one: float, other: float) -> None:
    low, high = sorted((one, other))
    assert valve_loss(kind, low) >= valve_loss(kind, high)


@pytest.mark.parametrize("kind", VALVES)
@given(st.floats(2.0, 80.0), st.floats(0.05, 0.85), st.floats(0.0, 1.0), st.floats(0.0, 1.0))
def test_two_settings_of_a_valve_as_in_its_table_tell_every_other_between(
    kind: str, pipe: float, low: float, further: float, between: float
) -> None:
    high = low + 0.11 + further * (0.99 - 0.11 - low)
    wanted = low + between * (high - low)
    (aim,) = settings_of(kind, pipe, wanted)
    found = next_opening(settings_of(kind, pipe, low, high), aim.flow.centre, 0.95, kind)
    assert found.best == pytest.approx(wanted, abs=2e-3)
    assert found.low <= found.best <= found.high


@given(st.data())
def test_the_line_between_settings_is_that_of_a_library(data: st.DataObject) -> None:
    opened = sorted(data.draw(st.sets(st.sampled_from([n / 10 for n in range(1, 11)]), min_size=2)))
    steps = data.draw(st.lists(st.floats(0.05, 1.0), min_size=len(opened), max_size=len(opened)))
    flows = list(1e-3 * np.cumsum(steps))
    aim = data.draw(st.floats(flows[0], flows[-1]))
    settings = [Setting(exact(q), x) for x, q in zip(opened, flows, strict=True)]
    found = next_opening(settings, aim, 0.95, "gate").best
    losses = [valve_loss("gate", x) for x in opened]
    wanted = np.interp(-(aim**-2), [-(q**-2) for q in flows], losses)
    assert valve_loss("gate", found) == pytest.approx(wanted, rel=0.01, abs=0.01)


@given(st.lists(st.tuples(SHARES, FLOWS), min_size=2, max_size=6), FLOWS, FLOWS)
def test_more_flow_asks_for_no_smaller_opening_and_no_end_is_passed(
    points: list[tuple[float, float]], one: float, other: float
) -> None:
    settings = [Setting(Spread(flow, 0.01 * flow, 5), opened) for opened, flow in points]
    try:
        low, high = (next_opening(settings, aim, 0.95, "ball") for aim in sorted((one, other)))
    except NoSolution:
        assume(False)
        return
    assert low.best <= high.best + 1e-9
    for found in (low, high):
        assert 0.0 < found.low <= found.best <= found.high <= 1.0
    widest = max(opened for opened, _ in points)
    least = min(opened for opened, _ in points)
    assert high.best <= min(1.0, widest + (widest - least)) + 1e-9


def test_settings_that_contradict_each_other_count_as_their_mean() -> None:
    told = [(0.3, 1.0), (0.5, 0.9), (0.9, 2.0)]
    settings = [Setting(exact(1e-3 * flow), opened) for opened, flow in told]
    assert next_opening(settings, 0.95e-3, 0.95, "ball").best == pytest.approx(0.4, abs=1e-3)


@pytest.mark.parametrize(
    "settings",
    [
        [],
        [Setting(exact(1e-3), 0.5)],
        [Setting(exact(1e-3)), Setting(exact(2e-3))],
        [Setting(exact(1e-3), 0.5), Setting(exact(2e-3), 0.5)],
        [Setting(exact(2e-3), 0.3), Setting(exact(1e-3), 0.8)],  # nothing rises
        [Setting(Spread(0.0), 0.3), Setting(exact(1e-3), 0.8)],
    ],
)
def test_too_little_is_known_of_the_handle(settings: list[Setting]) -> None:
    with pytest.raises(NoSolution):
        next_opening(settings, 1e-3, 0.95, "gate")


@given(FLOWS, FLOWS, FLOWS)
def test_the_next_turn_goes_towards_the_aim_and_no_further_than_as_far_again(
    before: float, after: float, aim: float
) -> None:
    assume(abs(after - before) > 1e-3 * before)
    assume(abs(aim - after) > 1e-3 * after)
    found = next_share(Spread(before, 0.01 * before), Spread(after, 0.01 * after), aim, 0.95)
    assert (found.best > 0.0) == ((aim > after) == (after > before))
    farthest = 0.5 if aim < after else 1.0
    assert -1.0 - farthest <= found.best <= farthest
    assert abs(found.low) <= abs(found.best) <= abs(found.high)
    if 1.001 * min(before, after) < aim < 0.999 * max(before, after):
        assert -1.0 <= found.high <= found.best < 0.0


def test_a_turn_that_cannot_be_told_is_an_even_chance() -> None:
    same = Spread(1e-3, 2e-5, 5)
    assert chance_of_more(same, same) == pytest.approx(0.5)
    assert chance_of_more(same, Spread(0.0)) == 0.0
    assert chance_of_more(Spread(0.0), same) > 0.999
    with pytest.raises(NoSolution):
        next_share(same, same, 2e-3, 0.95)


@given(FLOWS, st.floats(0.9, 1.1), st.integers(2, 30), st.integers(2, 30))
def test_more_and_less_are_two_sides_of_one_chance(
    flow: float, ratio: float, one: int, other: int
) -> None:
    before, after = Spread(flow, 0.02 * flow, one), Spread(ratio * flow, 0.01 * flow, other)
    there, back = chance_of_more(before, after), chance_of_more(after, before)
    assert there + back == pytest.approx(1.0, abs=1e-6)


def test_nonsense_is_refused() -> None:
    flow = exact(1e-3)
    for kind, opened in (("tap", 0.5), ("gate", 0.0), ("gate", 1.1)):
        with pytest.raises(OutOfRange):
            valve_loss(kind, opened)
    with pytest.raises(OutOfRange):
        next_share(flow, exact(2e-3), 0.0, 0.95)
    with pytest.raises(OutOfRange):
        next_opening([Setting(flow, 0.3), Setting(exact(2e-3), 0.6)], -1.0, 0.95, "gate")
