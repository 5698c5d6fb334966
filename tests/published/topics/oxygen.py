"""Oxygen: every row of the topic, found by the core."""

from rows import MILLIGRAM_A_LITRE, Check, Row, kelvin

from pondapp.core.stock.air import SEA_LEVEL_PRESSURE, standard_pressure
from pondapp.core.stock.oxygen import (
    fall_aeration,
    oxygen_saturation,
    oxygen_saturation_at_pressure,
    saturation_at_altitude,
)

TOPIC = "8 oxygen"
MILLIMETRE_OF_MERCURY = SEA_LEVEL_PRESSURE / 760.0  # Pa
KILOPASCAL = 1e3  # Pa


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


def deficit_ratio(row: Row) -> float:
    given = row.numbers()
    return 1.0 / (1.0 - fall_aeration(given["height"], kelvin(row), given["ab"]))


def air(row: Row) -> float:
    return standard_pressure(row.numbers()["altitude"]) / KILOPASCAL


FORMULAS: dict[int, Check] = {
    **dict.fromkeys((402, 403, 404, 405, 406, 408, 409, 410, 412, 413, 416, 417), at_sea),
    419: at_pressure,
    **dict.fromkeys((423, 424, 426, 428, 430), air),
    **dict.fromkeys((425, 427, 429), at_altitude),
    **dict.fromkeys((432, 433, 434, 435, 436), at_sea),
    **dict.fromkeys((437, 438), at_mercury),
    1021: deficit_ratio,
}
