"""Evaporation: every row of the topic, found by the core."""

from rows import INCH, Check, Row

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import DAY, ZERO_CELSIUS
from pondapp.core.base.working import ENTERED
from pondapp.core.dosing.evaporation import (
    evaporation_in_month,
    evaporation_linacre,
    pond_evaporation_from_pan,
    water_loss,
)
from pondapp.core.stock.span import exactly

TOPIC = "9 evaporation"
MILLIMETRE_A_DAY = 1e-3 / DAY  # m/s
LITRE_A_DAY = 1e-3 / DAY  # m3/s


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


FORMULAS: dict[int, Check] = {
    **dict.fromkeys((439, 440, 441, 443, 444), month),
    446: pan,
    447: linacre,
    1022: linacre,
}

TABLES: dict[int, Check] = {
    445: lambda _: StockAssumptions().pan_likely,
}
