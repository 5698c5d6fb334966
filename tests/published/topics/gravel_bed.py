"""Gravel beds: every row of the topic, found by the core or excused."""

import iapws
from rows import Check, Row

from pondapp.core.filters.bed import (
    bed_volume,
    pore_velocity,
    porosity_by_filling,
    porosity_of,
    specific_surface,
    water_in_bed,
)
from pondapp.core.filters.bed_loss import bed_loss, pressure_loss_carman, pressure_loss_ergun
from pondapp.core.filters.bog import retention

TOPIC = "6 gravel bed"
LITRE_AN_HOUR = 1e-3 / 3600.0  # m3/s


def water_at(row: Row) -> tuple[float, float]:
    """Density and viscosity, given or by temperature."""
    given = row.numbers()
    if "T_C" not in given:
        return given["rho"], given["mu"]
    water = iapws.IAPWS95(T=given["T_C"] + 273.15, P=0.101325)
    return water.rho, water.mu


def ergun(row: Row) -> float:
    given = row.numbers()
    return pressure_loss_ergun(
        given["dp"], given["voidage"], given["vs"], given["L"], *water_at(row)
    )


def ergun_head(row: Row) -> float:
    given = row.numbers()
    return (
        1000.0
        * bed_loss(
            given["vs"], 1.0, given["L"], given["dp"], given["voidage"], *water_at(row), 1.0
        ).head
    )


def carman(row: Row) -> float:
    given = row.numbers()
    return pressure_loss_carman(given["dp"], given["voidage"], given["vs"], given["L"], given["mu"])


def time_in_bed(row: Row) -> float:
    given = row.numbers()
    return retention(given["V"], given["voidage"], given["Q_L_per_h"] * LITRE_AN_HOUR).true / 60.0


def pore_speed(row: Row) -> float:
    given = row.numbers()
    return 1000.0 * pore_velocity(given["Q_L_per_h"] * LITRE_AN_HOUR, given["A"], given["voidage"])


def held(row: Row) -> float:
    given = row.numbers()
    return 1000.0 * water_in_bed(bed_volume(given["A"], given["depth"]), given["voidage"])


def voids(row: Row) -> float:
    given = row.numbers()
    return porosity_by_filling(given["V_water"] / 1000.0, given["V_bucket"] / 1000.0)


def surface(row: Row) -> float:
    return specific_surface(row.numbers()["d"], row.numbers()["voidage"])


FORMULAS: dict[int, Check] = {
    **dict.fromkeys((310, 311, 313, 314), ergun),
    315: ergun_head,
    316: carman,
    335: time_in_bed,
    337: pore_speed,
    338: held,
    339: voids,
    340: surface,
    341: surface,
}

TABLES: dict[int, Check] = {
    **dict.fromkeys((321, 325, 329), lambda row: porosity_of(row.numbers()["d10"])),
}

DARCY = "a conductivity after Darcy; the core finds the loss by Ergun from grain and porosity"
MEDIA = "a mean of natural ground, sizes mixed; the core has the gaps of gravel of one size"
SEWAGE = "wetlands for sewage hold water for days; the core has no rule from them"
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((318, 319, 320, 322, 324, 326, 328, 330), DARCY),
    331: MEDIA,
    **dict.fromkeys((343, 344, 345), SEWAGE),
}
