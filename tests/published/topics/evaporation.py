"""Evaporation: every row of the topic, found by the core or excused."""

from rows import FOOT, POUND, Check, Row, kelvin

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import DAY, HOUR, ZERO_CELSIUS
from pondapp.core.dosing.evaporation import WATER, evaporation, heat_of_evaporation, vapour_pressure
from pondapp.core.dosing.leak import leak_test
from pondapp.core.measuring.verdict import Certainty
from pondapp.core.stock.span import exactly

TOPIC = "9 evaporation"
MILLIMETRE = 1e-3  # m
INCH_OF_MERCURY = 3386.389  # Pa, at 0 degrees Celsius
BTU = 1055.05585262  # J
RULE = Certainty(sure=0.95, widest=0.5, coverage=0.95)


def bucket(row: Row) -> float:
    """Litres a day that a pond loses by a pan beside it: what a test for a leak expects."""
    given = row.numbers()
    fall, ratio = given["pan_mm_d"] * MILLIMETRE, exactly(given["coeff"])
    found = leak_test(0.0, fall, DAY, 0.001, ratio, 1e-8, RULE)
    return found.expected * given["area"] / 1e-3


def vapour(row: Row) -> float:
    return vapour_pressure(kelvin(row)) / 1e3


def heat(row: Row) -> float:
    return heat_of_evaporation(kelvin(row)) / 1e6


def pool(row: Row) -> float:
    """Pounds an hour and square foot, from the printed formula's own units."""
    given = row.numbers()
    water, air = given["T_water"] + ZERO_CELSIUS, given["T_air"] + ZERO_CELSIUS
    wind = given["v_ft_min"] * FOOT / 60.0
    rate = evaporation(water, air, given["humidity"], wind, 1.0) * WATER  # kg/(m2 s)
    return rate * HOUR / POUND * FOOT**2


FORMULAS: dict[int, Check] = {
    446: bucket,
    **dict.fromkeys((1025, 1026, 1027), vapour),
    1028: heat,
    1029: pool,
    1030: pool,
}

TABLES: dict[int, Check] = {
    445: lambda _: StockAssumptions().pan_likely,
    1031: lambda _: StockAssumptions().still_share_low,
}

MONTHS = "by month and annual map of one state; the app goes by the weather of the week"
LINACRE = "by monthly means and latitude, and high in damp climates; the app goes by the weather"
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((439, 440, 441, 443, 444), MONTHS),
    **dict.fromkeys((447, 1022), LINACRE),
}
