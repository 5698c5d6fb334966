"""The dose of a lamp: the formula against rings that are added up one by one."""

from math import exp, log, pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.filters.uv_lamp import lamp_dose


def by_rings(uvc: float, flow: float, path: float, clearness: float) -> float:
    """Mean light over all rings of a chamber [W/m2] times the time that water stays in it [s]."""
    sleeve, length, rings = 0.0125, 0.3, 4000
    taken_up, step = -100.0 * log(clearness), path / rings
    light = volume = 0.0
    for ring in range(rings):
        way = (ring + 0.5) * step
        around = 2.0 * pi * (sleeve + way)
        water = around * step * length
        light += water * uvc * exp(-taken_up * way) / (around * length)
        volume += water
    return light / volume * (volume / flow)


@given(
    st.floats(0.5, 200.0), st.floats(1e-5, 1e-2), st.floats(0.003, 0.2), st.floats(0.05, 1.0)
)  # fmt: skip
def test_the_formula_is_the_sum_of_the_rings(
    uvc: float, flow: float, path: float, clearness: float
) -> None:
    found = lamp_dose(uvc, flow, path, clearness)
    assert found.dose == pytest.approx(by_rings(uvc, flow, path, clearness), rel=2e-3)
    assert found.steps()[0].result.value == found.dose


def test_twice_the_flow_is_half_the_dose_and_clear_water_gets_all_of_the_way() -> None:
    assert lamp_dose(4, 1e-3, 0.02, 0.7).dose == pytest.approx(
        lamp_dose(4, 5e-4, 0.02, 0.7).dose / 2
    )
    assert lamp_dose(4, 5e-4, 0.02, 1.0).dose == pytest.approx(4 * 0.02 / 5e-4)
    assert lamp_dose(4, 5e-4, 0.02, 0.5).dose < lamp_dose(4, 5e-4, 0.02, 0.9).dose


@pytest.mark.parametrize(
    "numbers",
    [(0, 1e-3, 0.02, 0.7), (4, 0, 0.02, 0.7), (4, 1e-3, 0, 0.7), (4, 1e-3, 0.02, 0),
     (4, 1e-3, 0.02, 1.1), (float("nan"), 1e-3, 0.02, 0.7)],
)  # fmt: skip
def test_what_cannot_be_is_refused(numbers: tuple[float, float, float, float]) -> None:
    with pytest.raises(OutOfRange):
        lamp_dose(*numbers)
