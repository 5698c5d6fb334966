"""Oxygen, air and ammonia: limits, properties and refusals."""

import math
from collections.abc import Callable

import gsw
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.stock.air import SEA_LEVEL_PRESSURE, standard_pressure
from pondapp.core.stock.ammonia import (
    ammonia_pka,
    ammonia_production,
    flow_to_hold_ammonia,
    production_span,
    read_ammonia,
    unionised_share,
)
from pondapp.core.stock.oxygen import (
    fall_aeration,
    oxygen_saturation,
    oxygen_saturation_at_pressure,
    oxygen_supply,
    salt_water_share,
    saturation_at_altitude,
)
from pondapp.core.stock.span import NOTHING, Span, exactly

RULES = StockAssumptions()
NAN = math.nan
water = st.floats(273.15, 313.15)
ONE = exactly(1.0)


@settings(max_examples=50)
@given(water, water)
def test_warmer_water_holds_less_oxygen(one: float, other: float) -> None:
    cold, warm = sorted((one, other))
    assert oxygen_saturation(cold) >= oxygen_saturation(warm) * (1 - 1e-12)  # last digit


@settings(max_examples=50)
@given(water, st.floats(-500, 5000), st.floats(-500, 5000))
def test_thinner_air_gives_less_oxygen(heat: float, one: float, other: float) -> None:
    low, high = sorted((one, other))
    valley, peak = saturation_at_altitude(heat, low), saturation_at_altitude(heat, high)
    assert valley.concentration >= peak.concentration > 0.0


@given(water)
def test_one_atmosphere_needs_no_correction(heat: float) -> None:
    corrected = oxygen_saturation_at_pressure(heat, SEA_LEVEL_PRESSURE)
    assert corrected == pytest.approx(oxygen_saturation(heat), rel=1e-12)


@given(st.floats(273.15, 323.15))
def test_half_is_un_ionised_where_ph_equals_pka(heat: float) -> None:
    assert unionised_share(heat, ammonia_pka(heat)) == pytest.approx(0.5)


@given(st.floats(273.15, 323.15), st.floats(5.0, 10.0))
def test_more_is_un_ionised_with_ph_and_warmth(heat: float, ph: float) -> None:
    share = unionised_share(heat, ph)
    assert 0.0 < share < unionised_share(heat, ph + 1.0) < 1.0
    # Ten times the ratio of the two kinds for one more pH: the definition of pH.
    more = unionised_share(heat, ph + 1.0)
    assert more / (1.0 - more) == pytest.approx(10.0 * share / (1.0 - share))
    assert unionised_share(273.15, ph) <= share


def test_the_same_reading_is_harmless_in_spring_and_a_warning_in_summer() -> None:
    spring = read_ammonia(0.5e-3, 283.15, 7.2, RULES.unionised_limit)
    summer = read_ammonia(0.5e-3, 300.15, 8.6, RULES.unionised_limit)
    assert not spring.warnings
    assert summer.unionised > RULES.unionised_limit
    assert "change" in str(summer.warnings[0])


@settings(max_examples=50)
@given(st.floats(1e-6, 0.1), water, st.floats(6.0, 10.0))
def test_the_change_of_water_that_is_named_brings_ammonia_to_the_limit(
    total: float, heat: float, ph: float
) -> None:
    found = read_ammonia(total, heat, ph, RULES.unionised_limit)
    assert bool(found.warnings) == (found.unionised > found.limit)
    assert found.total_allowed * found.share == pytest.approx(found.limit)
    for warning in found.warnings:
        kept = 1.0 - warning.values["share"].value  # type: ignore[union-attr]
        after = read_ammonia(total * kept, heat, ph, RULES.unionised_limit)
        assert after.unionised == pytest.approx(found.limit)


def test_working_of_a_reading_ends_in_its_numbers() -> None:
    found = read_ammonia(1e-3, 293.15, 8.0, RULES.unionised_limit)
    values = [step.result.value for step in found.steps()]
    assert values[1:] == [found.share, found.unionised, found.total_allowed]


def test_no_feed_makes_no_ammonia_and_the_range_holds_the_likely() -> None:
    share = Span(RULES.ammonia_low, RULES.ammonia_likely, RULES.ammonia_high)
    assert production_span(NOTHING, 0.35, share) == NOTHING
    made = production_span(exactly(1e-6), 0.35, share)
    assert made.low < made.likely < made.high
    assert made.likely == ammonia_production(1e-6, 0.35, RULES.ammonia_likely)


@settings(max_examples=50)
@given(st.floats(1e-12, 1e-6), st.floats(0.05, 1.0), st.floats(1e-4, 1e-2))
def test_the_flow_takes_out_what_the_fish_give_off(made: float, share: float, total: float) -> None:
    assert flow_to_hold_ammonia(made, share, total) * share * total == pytest.approx(made)


@settings(max_examples=50)
@given(st.floats(0.0, 3.9), water, st.floats(0.0, 5.0))
def test_a_higher_fall_aerates_more_and_never_beyond_saturation(
    height: float, heat: float, factor: float
) -> None:
    share = fall_aeration(height, heat, factor)
    assert 0.0 <= share <= fall_aeration(height + 0.1, heat, factor) < 1.0


def test_half_a_metre_at_twenty_degrees_by_hand() -> None:
    # r = 1 + 0.38 x 0.5 x (1 - 0.055) x (1 + 0.92) = 1.344736
    assert fall_aeration(0.5, 293.15, 1.0) == pytest.approx(1.0 - 1.0 / 1.344736, rel=1e-9)
    assert fall_aeration(0.0, 293.15, 1.0) == 0.0


def test_supply_adds_fall_and_surface_and_ends_at_saturation() -> None:
    full = saturation_at_altitude(293.15, 0.0)
    found = oxygen_supply(full, 6e-3, 1e-3, 0.5, ONE, 10.0, exactly(5e-6))
    assert found.supply.likely == found.by_fall.likely + found.by_surface.likely
    by_surface = 5e-6 * 10.0 * (full.concentration - 6e-3)
    assert found.by_surface.likely == pytest.approx(by_surface)
    assert found.steps()[-1].result.value == found.supply.likely
    assert oxygen_supply(full, 0.01, 1e-3, 0.5, ONE, 10.0, exactly(5e-6)).supply == NOTHING


def test_sea_level_is_one_atmosphere() -> None:
    assert standard_pressure(0.0) == SEA_LEVEL_PRESSURE


FULL = saturation_at_altitude(293.15, 0.0)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: oxygen_saturation(273.0),
        lambda: oxygen_saturation(NAN),
        lambda: oxygen_saturation_at_pressure(293.15, 4e4),
        lambda: saturation_at_altitude(293.15, 6000.0),
        lambda: standard_pressure(NAN),
        lambda: fall_aeration(4.1, 293.15, 1.0),
        lambda: fall_aeration(1.0, 320.0, 1.0),
        lambda: fall_aeration(1.0, 293.15, -1.0),
        lambda: oxygen_supply(FULL, 0.03, 0.0, 0.0, ONE, 1.0, NOTHING),
        lambda: oxygen_supply(FULL, 6e-3, -1.0, 0.0, ONE, 1.0, NOTHING),
        lambda: oxygen_supply(FULL, 6e-3, 0.0, 0.0, ONE, NAN, NOTHING),
        lambda: oxygen_supply(FULL, 6e-3, 0.0, 0.0, ONE, 1.0, ONE),
        lambda: ammonia_pka(260.0),
        lambda: unionised_share(293.15, 4.0),
        lambda: read_ammonia(-1.0, 293.15, 7.0, 2e-5),
        lambda: read_ammonia(1e-3, 293.15, 7.0, 0.0),
        lambda: ammonia_production(2.0, 0.35, 0.092),
        lambda: ammonia_production(1e-6, 1.1, 0.092),
        lambda: ammonia_production(1e-6, 0.35, 0.2),
        lambda: production_span(exactly(2.0), 0.35, exactly(0.1)),
        lambda: flow_to_hold_ammonia(1e-8, 0.0, 1e-3),
        lambda: flow_to_hold_ammonia(1e-8, 0.25, 0.0),
        lambda: flow_to_hold_ammonia(1.0, 1e-300, 1e-3),
        lambda: exactly(-1.0),
        lambda: exactly(math.inf),
        lambda: Span(2.0, 1.0, 3.0),
        lambda: Span(NAN, 1.0, 3.0),
        lambda: ONE.over(Span(0.0, 1.0, 1.0)),
    ],
)
def test_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        refused()


def test_ranges_combine_end_by_end() -> None:
    one, other = Span(1.0, 2.0, 3.0), Span(2.0, 4.0, 5.0)
    assert one.times(other) == Span(2.0, 8.0, 15.0)
    assert one.plus(other) == Span(3.0, 6.0, 8.0)
    assert one.over(other) == Span(0.2, 0.5, 1.5)


@pytest.mark.parametrize("celsius", [5.0, 20.0, 30.0])
@pytest.mark.parametrize("salinity", [3.0, 10.0, 30.0])
def test_salt_takes_from_the_oxygen_as_in_the_library(celsius: float, salinity: float) -> None:
    def dense(salt: float) -> float:
        return float(gsw.rho_t_exact(salt * 35.16504 / 35.0, celsius, 0))

    fresh, salty = (gsw.O2sol_SP_pt(s, celsius) * dense(s) for s in (0.0, salinity))
    found = salt_water_share(celsius + 273.15, salinity / 1000.0 * dense(salinity))
    assert found == pytest.approx(salty / fresh, abs=3e-4)


def test_fresh_water_and_refusals_of_salt() -> None:
    assert salt_water_share(293.15, 0.0) == 1.0
    for salt in (-1.0, 41.0, NAN):
        with pytest.raises(OutOfRange):
            salt_water_share(293.15, salt)
