"""Aims lie so far inside a band that the fills that are planned can tell they are right."""

import random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.measuring.aim import PlannedFills, aim_within
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.timed_flow import timed_flow
from pondapp.core.measuring.verdict import Certainty, decide

EXPECTED = ExpectedScatter(0.10, 0.016, 4, 0.01)
RULE = Certainty(0.95, 0.10, 0.95)
LPH = 1 / 3.6e6


def planned(volume: float = 0.009, fills: int = 3, tolerance: float = 0.02) -> PlannedFills:
    return PlannedFills(volume, tolerance, fills, EXPECTED, RULE)


def seen(flow: float, low: float, high: float | None, plan: PlannedFills) -> str:
    """What fills say that show just this flow, with the scatter that is expected."""
    time = plan.volume / flow
    away = EXPECTED.of(time)  # three fills so far apart scatter by just that
    times = [time - away, time, time + away]
    half = plan.tolerance * plan.volume
    found = timed_flow(times, plan.volume, half, EXPECTED, RULE.coverage)
    return decide(found.spread, low, high, RULE).kind


BANDS = [
    (1000, 1000, 3000), (4000, 4010, 16000), (400, 600, 1200), (1000, 1000, None),
    (990, 1200, 1200),
]  # fmt: skip


@pytest.mark.parametrize("band", BANDS)
@pytest.mark.parametrize("volume", [0.009, 0.02, 0.1])
def test_a_flow_set_at_the_aim_or_within_what_is_fine_is_found_right(band, volume) -> None:
    low, best, high = (value and value * LPH for value in band)
    plan = planned(volume)
    aim = aim_within(low, best, high, plan)
    assert aim.sure
    assert low < aim.least < aim.flow
    assert aim.most is None or aim.flow < aim.most < high
    for flow in (aim.least, aim.flow, aim.most):
        if flow is not None:
            assert seen(flow, low, high, plan) == "within"
    # A little nearer to the limit nothing could be told.
    assert seen(aim.least * 0.995, low, high, plan) == "undecided"


def test_a_flow_really_at_the_aim_is_seldom_left_undecided() -> None:
    """With fills that scatter and a container that is not quite what its mark says."""
    low, high = 1000 * LPH, 3000 * LPH
    plan, dice = planned(0.010), random.Random(1)
    aim = aim_within(low, low, high, plan)
    kinds = []
    for _ in range(400):
        time = 0.010 * (1 + dice.uniform(-0.02, 0.02)) / aim.flow
        times = [time + dice.gauss(0.0, EXPECTED.of(time)) for _ in range(3)]
        found = timed_flow(times, 0.010, 0.0002, EXPECTED, RULE.coverage)
        kinds.append(decide(found.spread, low, high, RULE).kind)
    assert kinds.count("within") >= 0.85 * 400
    assert kinds.count("below") == 0


def test_a_best_flow_well_inside_stays_the_aim() -> None:
    aim = aim_within(400 * LPH, 600 * LPH, 1200 * LPH, planned())
    assert aim.flow == pytest.approx(600 * LPH)


def test_a_band_too_narrow_for_the_fills_is_said_to_be() -> None:
    low, high = 1000 * LPH, 1060 * LPH
    aim = aim_within(low, low, high, planned())
    assert not aim.sure
    assert (aim.least, aim.most) == (low, high)
    assert low < aim.flow < high
    # More fills of a container that is known better can tell.
    assert aim_within(low, low, high, planned(0.03, 15, 0.005)).sure
    # Fills of under a second tell nothing at all.
    assert not aim_within(20_000 * LPH, 20_000 * LPH, None, planned(0.002)).sure


@settings(max_examples=60)
@given(
    st.floats(50.0, 20_000.0), st.floats(1.0, 4.0), st.floats(1.001, 4.0), st.floats(0.002, 0.2),
    st.integers(1, 10), st.booleans(),
)  # fmt: skip
def test_the_aim_is_never_outside_and_sure_where_it_says_so(
    low: float, better: float, wider: float, volume: float, fills: int, capped: bool
) -> None:
    low *= LPH
    best, high = low * better, (low * better * wider if capped else None)
    plan = planned(volume, fills)
    aim = aim_within(low, best, high, plan)
    assert low <= aim.flow
    assert high is None or aim.flow <= high
    assert low <= aim.least <= aim.flow * (1 + 1e-9)
    assert aim.most is None or aim.flow <= aim.most * (1 + 1e-9)
    assert plan.decided(aim.flow, low, high) or not aim.sure


def test_refuses() -> None:
    for low, best, high in ((0.0, 1e-3, None), (1e-3, 0.0, None), (2e-3, 2e-3, 1e-3)):
        with pytest.raises(OutOfRange):
            aim_within(low, best, high, planned())
