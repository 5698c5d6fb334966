"""Evaporation: every row of the topic, found by the core."""

import pytest
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.constants import ZERO_CELSIUS
from pondapp.core.dosing.evaporation import (
    evaporation_in_month,
    evaporation_linacre,
    pond_evaporation_from_pan,
    water_loss,
)
from pondapp.core.stock.span import exactly
from pondapp.core.working import ENTERED

TOPIC = "9 evaporation"
INCH = 0.0254  # m
MILLIMETRE_A_DAY = 1e-3 / 86400.0  # m/s
LITRE_A_DAY = 1e-3 / 86400.0  # m3/s


def month(row: Row) -> float:
    given = row.numbers()
    return evaporation_in_month(given["annual"], given["percent"] / 100.0) / INCH


def pan(row: Row) -> float:
    given = row.numbers()
    rate = pond_evaporation_from_pan(given["pan_mm_d"] * MILLIMETRE_A_DAY, given["coeff"])
    return water_loss(exactly(rate), given["area"], False, ENTERED).flow.likely / LITRE_A_DAY


def linacre(row: Row) -> float:
    given = row.numbers()
    return (
        evaporation_linacre(
            given["T_C"] + ZERO_CELSIUS,
            given["Tdew_C"] + ZERO_CELSIUS,
            given["latitude"],
            given["elevation"],
        )
        / MILLIMETRE_A_DAY
    )


CHECKS: dict[int, Check] = {
    **dict.fromkeys((439, 440, 441, 443, 444), month),
    445: lambda _: StockAssumptions().pan_likely,
    446: pan,
    447: linacre,
}

NOT_APPLICABLE: dict[int, str] = {}


@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)
