"""Gravel beds: voids and surface."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.filters.bed import porosity_of, specific_surface

grain = st.floats(1e-4, 0.1)
voids = st.floats(0.25, 0.6)


@settings(max_examples=40)
@given(grain, voids)
def test_finer_gravel_has_more_surface(d: float, eps: float) -> None:
    assert specific_surface(d / 2, eps) == pytest.approx(2 * specific_surface(d, eps))


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf, 1e9])
def test_numbers_out_of_range_are_refused(bad: float) -> None:
    with pytest.raises(OutOfRange):
        porosity_of(bad)
    with pytest.raises(OutOfRange):
        specific_surface(bad, 0.4)
    with pytest.raises(OutOfRange):
        specific_surface(0.02, bad)


@pytest.mark.parametrize(
    ("grain", "gaps"), [(0.0005, 0.32), (0.002, 0.32), (0.016, 0.38), (0.032, 0.40), (0.3, 0.45)]
)
def test_coarser_gravel_has_more_gaps(grain: float, gaps: float) -> None:
    assert porosity_of(grain) == pytest.approx(gaps)


@given(st.floats(1e-5, 0.5), st.floats(1.0, 4.0))
def test_gaps_grow_with_the_grain(grain: float, times: float) -> None:
    assert porosity_of(grain) <= porosity_of(min(0.5, times * grain)) + 1e-12


def test_half_way_between_two_grains_on_a_logarithm() -> None:
    assert porosity_of((0.016 * 0.032) ** 0.5) == pytest.approx(0.39)


def test_an_owner_s_own_gaps_go_before_those_of_the_grain() -> None:
    rules = Assumptions()
    assert rules.filters.porosity == porosity_of(rules.filters.gravel_grain)
    coarse = rules.with_overrides({"filters.gravel_grain": 0.05})
    assert coarse.filters.porosity > rules.filters.porosity
    assert coarse.with_overrides({"filters.gravel_porosity": 0.35}).filters.porosity == 0.35
