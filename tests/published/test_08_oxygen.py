"""Oxygen: every row of the topic, found by the core; and two libraries over random inputs."""

import gsw
import iapws
import pytest
from fluids.atmosphere import ATMOSPHERE_1976
from hypothesis import given, settings
from hypothesis import strategies as st
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters

from pondapp.core.constants import ZERO_CELSIUS
from pondapp.core.stock.air import SEA_LEVEL_PRESSURE, standard_pressure
from pondapp.core.stock.oxygen import (
    oxygen_saturation,
    oxygen_saturation_at_pressure,
    saturation_at_altitude,
)

TOPIC = "8 oxygen"
MILLIGRAM_A_LITRE = 1e-3  # kg/m3
MILLIMETRE_OF_MERCURY = SEA_LEVEL_PRESSURE / 760.0  # Pa
KILOPASCAL = 1e3  # Pa


def kelvin(row: Row) -> float:
    return row.numbers()["T_C"] + ZERO_CELSIUS


def at_sea(row: Row) -> float:
    return oxygen_saturation(kelvin(row)) / MILLIGRAM_A_LITRE


def at_altitude(row: Row) -> float:
    found = saturation_at_altitude(kelvin(row), row.numbers()["altitude"])
    return found.concentration / MILLIGRAM_A_LITRE


def at_pressure(row: Row) -> float:
    pressure = row.numbers()["P_atm"] * SEA_LEVEL_PRESSURE
    return oxygen_saturation_at_pressure(kelvin(row), pressure) / MILLIGRAM_A_LITRE


def at_mercury(row: Row) -> float:
    pressure = row.numbers()["P_mmHg"] * MILLIMETRE_OF_MERCURY
    return oxygen_saturation_at_pressure(kelvin(row), pressure) / MILLIGRAM_A_LITRE


def air(row: Row) -> float:
    return standard_pressure(row.numbers()["altitude"]) / KILOPASCAL


CHECKS: dict[int, Check] = {
    **dict.fromkeys((402, 403, 404, 405, 406, 408, 409, 410, 412, 413, 416, 417), at_sea),
    419: at_pressure,
    **dict.fromkeys((423, 424, 426, 428, 430), air),
    **dict.fromkeys((425, 427, 429), at_altitude),
    **dict.fromkeys((432, 433, 434, 435, 436), at_sea),
    **dict.fromkeys((437, 438), at_mercury),
}

NOT_APPLICABLE: dict[int, str] = {}


@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)


@settings(max_examples=40)
@given(st.floats(-500.0, 5000.0))
def test_air_agrees_with_fluids(altitude: float) -> None:
    assert standard_pressure(altitude) == pytest.approx(ATMOSPHERE_1976(altitude).P, rel=1e-6)


@settings(max_examples=25)
@given(st.floats(0.5, 39.5))
def test_saturation_agrees_with_gsw(celsius: float) -> None:
    # The library fits the same measurements per kg of water, with other coefficients.
    per_kilogram = gsw.O2sol_SP_pt(0.0, celsius) * 1e-6 * 31.9988e-3
    water = iapws.IAPWS95(T=celsius + ZERO_CELSIUS, P=0.101325).rho
    found = oxygen_saturation(celsius + ZERO_CELSIUS)
    assert found == pytest.approx(per_kilogram * water, rel=5e-4)
