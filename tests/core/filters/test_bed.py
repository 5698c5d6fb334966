"""Gravel beds: voids, weight, speed, loss."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.filters.bed import (
    bed_volume,
    bulk_density,
    gravel_mass,
    pore_velocity,
    porosity_by_filling,
    porosity_of,
    specific_surface,
    upflow_velocity,
    water_in_bed,
)
from pondapp.core.filters.bed_loss import (
    bed_loss,
    grain_reynolds,
    pressure_loss_carman,
    pressure_loss_ergun,
)

grain = st.floats(1e-4, 0.1)
voids = st.floats(0.25, 0.6)
speed = st.floats(1e-6, 0.1)
COLD, VISCOSITY = 998.2, 1.0e-3


@settings(max_examples=40)
@given(st.floats(0.1, 100.0), st.floats(0.1, 1.0), voids)
def test_water_and_stone_fill_the_bed(area: float, depth: float, eps: float) -> None:
    volume = bed_volume(area, depth)
    stone = gravel_mass(volume, bulk_density(2650.0, eps)) / 2650.0
    assert water_in_bed(volume, eps) + stone == pytest.approx(volume)
    assert porosity_by_filling(water_in_bed(0.01, eps), 0.01) == pytest.approx(eps)


@settings(max_examples=40)
@given(st.floats(0.0, 0.1), st.floats(0.1, 100.0), voids)
def test_water_is_faster_between_the_stones(flow: float, area: float, eps: float) -> None:
    assert pore_velocity(flow, area, eps) * eps == pytest.approx(upflow_velocity(flow, area))


@settings(max_examples=40)
@given(grain, voids)
def test_finer_gravel_has_more_surface(d: float, eps: float) -> None:
    assert specific_surface(d / 2, eps) == pytest.approx(2 * specific_surface(d, eps))


@settings(max_examples=60)
@given(grain, voids, speed, st.floats(0.1, 1.0))
def test_loss_grows_with_speed_and_fineness(d: float, eps: float, v: float, deep: float) -> None:
    loss = pressure_loss_ergun(d, eps, v, deep, COLD, VISCOSITY)
    assert loss > 0
    double = pressure_loss_ergun(d, eps, 2 * v, deep, COLD, VISCOSITY)
    assert 2 * loss * (1 - 1e-9) <= double <= 4 * loss * (1 + 1e-9)
    assert pressure_loss_ergun(d / 2, eps, v, deep, COLD, VISCOSITY) > loss
    assert pressure_loss_ergun(d, eps - 0.02, v, deep, COLD, VISCOSITY) > loss
    assert pressure_loss_ergun(d, eps, 0.0, deep, COLD, VISCOSITY) == 0.0


def test_slow_flow_is_carman_s_but_for_the_constant() -> None:
    ergun = pressure_loss_ergun(1e-3, 0.4, 1e-6, 0.5, COLD, VISCOSITY)
    assert ergun / pressure_loss_carman(1e-3, 0.4, 1e-6, 0.5, VISCOSITY) == pytest.approx(
        150 / 180, rel=1e-3
    )


def test_coarse_gravel_takes_nothing_worth_a_word_and_fine_gravel_does() -> None:
    coarse = bed_loss(1e-3, 1.0, 0.5, 0.02, 0.4, COLD, VISCOSITY, 0.02)
    assert coarse.head < 0.001
    assert coarse.warnings == ()
    fine = bed_loss(1e-3, 0.5, 0.5, 0.001, 0.38, COLD, VISCOSITY, 0.02)
    assert "coarser gravel" in str(fine.warnings[0])
    values = [step.result.value for step in fine.steps()]
    assert values == [fine.velocity, fine.pressure, fine.head]


def test_outside_the_data_the_loss_is_called_rough() -> None:
    creeping = bed_loss(1e-6, 1.0, 0.5, 0.002, 0.4, COLD, VISCOSITY, 0.02)
    racing = bed_loss(0.1, 1.0, 0.5, 0.05, 0.4, COLD, VISCOSITY, 5.0)
    for found in (creeping, racing):
        assert "rough" in str(found.warnings[-1])
    assert bed_loss(0.0, 1.0, 0.5, 0.002, 0.4, COLD, VISCOSITY, 0.02).warnings == ()


Call = Callable[[float], object]
CALLS: dict[str, Call] = {
    "bed_volume": lambda x: bed_volume(x, 0.5),
    "water_in_bed": lambda x: water_in_bed(1.0, x),
    "porosity_by_filling": lambda x: porosity_by_filling(x, 0.01),
    "porosity bucket": lambda x: porosity_by_filling(0.001, x),
    "upflow flow": lambda x: upflow_velocity(x, 1.0),
    "upflow area": lambda x: upflow_velocity(1e-3, x),
    "pore_velocity": lambda x: pore_velocity(1e-3, 1.0, x),
    "specific_surface": lambda x: specific_surface(x, 0.4),
    "surface porosity": lambda x: specific_surface(0.02, x),
    "bulk_density": lambda x: bulk_density(x, 0.4),
    "bulk porosity": lambda x: bulk_density(2650.0, x),
    "gravel_mass": lambda x: gravel_mass(1.0, x),
    "reynolds": lambda x: grain_reynolds(0.02, x, COLD, VISCOSITY),
    "reynolds density": lambda x: grain_reynolds(0.02, 1e-3, x, VISCOSITY),
    "ergun grain": lambda x: pressure_loss_ergun(x, 0.4, 1e-3, 0.5, COLD, VISCOSITY),
    "ergun porosity": lambda x: pressure_loss_ergun(0.02, x, 1e-3, 0.5, COLD, VISCOSITY),
    "ergun density": lambda x: pressure_loss_ergun(0.02, 0.4, 1e-3, 0.5, x, VISCOSITY),
    "carman depth": lambda x: pressure_loss_carman(0.02, 0.4, 1e-3, x, VISCOSITY),
    "carman viscosity": lambda x: pressure_loss_carman(0.02, 0.4, 1e-3, 0.5, x),
    "bed_loss": lambda x: bed_loss(1e-3, x, 0.5, 0.02, 0.4, COLD, VISCOSITY, 0.02),
    "bed_loss caution": lambda x: bed_loss(1e-3, 1.0, 0.5, 0.02, 0.4, COLD, VISCOSITY, x),
}


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf, 1e9])
@pytest.mark.parametrize("name", CALLS)
def test_numbers_out_of_range_are_refused(name: str, bad: float) -> None:
    with pytest.raises(OutOfRange):
        CALLS[name](bad)


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
    coarse = rules.changed({"filters.gravel_grain": 0.05})
    assert coarse.filters.porosity > rules.filters.porosity
    assert coarse.changed({"filters.gravel_porosity": 0.35}).filters.porosity == 0.35
