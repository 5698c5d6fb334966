"""A bed of gravel over pipes with slots: what it takes, and how many slots."""

import pytest
from fluids.packed_bed import Ergun
from hypothesis import given
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.filters.bed_loss import bed_loss
from pondapp.core.filters.slots import slotted_pipes

flows = st.floats(1e-6, 0.02)
areas = st.floats(0.01, 200.0)


@given(flows, areas, st.floats(0.05, 2.0), st.floats(0.002, 0.2), st.floats(0.3, 0.5))
def test_the_loss_is_that_of_a_library(
    flow: float, area: float, depth: float, grain: float, gaps: float
) -> None:
    found = bed_loss(flow, area, depth, grain, gaps, 998.0, 1e-3)
    printed = Ergun(dp=grain, voidage=gaps, vs=flow / area, rho=998.0, mu=1e-3, L=depth)
    assert found.pressure == pytest.approx(printed, rel=1e-9)
    assert found.head == pytest.approx(printed / 998.0 / 9.80665, rel=1e-9)
    assert [step.result.value for step in found.steps()] == [
        found.velocity, found.pressure, found.head,
    ]  # fmt: skip


@given(flows, areas, st.floats(0.1, 1.0))
def test_slots_let_the_flow_out_at_no_more_than_their_speed(
    flow: float, area: float, spacing: float
) -> None:
    found = slotted_pipes(flow, area, spacing, 0.05, 0.003, 0.05)
    assert flow / found.open_area <= 0.05 * (1 + 1e-6)
    assert found.side**2 == pytest.approx(area)
    assert found.side / found.pipes <= spacing * (1 + 1e-6)
    assert found.apart * found.slots == pytest.approx(found.pipes * found.side)
    assert found.steps()[0].result.value == found.slots


def test_what_is_no_bed_is_refused() -> None:
    with pytest.raises(OutOfRange):
        bed_loss(1e-3, 1.0, 0.0, 0.02, 0.4, 998.0, 1e-3)
    with pytest.raises(OutOfRange):
        bed_loss(1e-3, 0.0, 0.5, 0.02, 0.4, 998.0, 1e-3)
    with pytest.raises(OutOfRange):
        slotted_pipes(0.0, 1.0, 0.4, 0.05, 0.003, 0.05)
    with pytest.raises(OutOfRange):
        slotted_pipes(1e-3, 1.0, 0.4, 0.0, 0.003, 0.05)
