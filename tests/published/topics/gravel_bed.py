"""Gravel beds: every row of the topic, found by the core or excused."""

import iapws
from rows import LITRE_AN_HOUR, Check, Row

from pondapp.core.filters.bed import porosity_of, specific_surface
from pondapp.core.filters.bed_loss import BedLoss, bed_loss

TOPIC = "6 gravel bed"


def surface(row: Row) -> float:
    return specific_surface(row.numbers()["d"], row.numbers()["voidage"])


def clean_bed(row: Row) -> BedLoss:
    """The loss at a speed over one square metre, with the water's own numbers or by temperature."""
    given = row.numbers()
    if "T_C" in given:
        water = iapws.IAPWS95(T=given["T_C"] + 273.15, P=0.101325)
        given |= {"rho": water.rho, "mu": water.mu}
    return bed_loss(
        given["vs"], 1.0, given["L"], given["dp"], given["voidage"], given["rho"], given["mu"]
    )


def loading(row: Row) -> float:
    """The speed between the stones: that of the bed over its share of gaps, in mm/s."""
    given = row.numbers()
    flow = given["Q_L_per_h"] * LITRE_AN_HOUR
    found = bed_loss(flow, given["A"], 0.5, 0.02, given["voidage"], 998.2, 1.0e-3)
    return 1000.0 * found.velocity / given["voidage"]


FORMULAS: dict[int, Check] = {
    **dict.fromkeys((310, 311, 313, 314), lambda row: clean_bed(row).pressure),
    315: lambda row: 1000.0 * clean_bed(row).head,
    337: loading,
    340: surface,
    341: surface,
}

TABLES: dict[int, Check] = {
    **dict.fromkeys((321, 325, 329), lambda row: porosity_of(row.numbers()["d10"])),
}

LOSS = "the loss by another formula, or by conductivity: the app goes by Ergun's"
INSIDE = "time and water between the stones: the app does not compute this"
MEDIA = "a mean of natural ground, sizes mixed; the core has the gaps of gravel of one size"
SEWAGE = "wetlands for sewage hold water for days; the core has no rule from them"
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((316, 318, 319, 320, 322, 324, 326, 328, 330), LOSS),
    331: MEDIA,
    **dict.fromkeys((335, 338, 339), INSIDE),
    **dict.fromkeys((343, 344, 345), SEWAGE),
}
