"""Gravel beds: every row of the topic, found by the core or excused."""

from rows import Check, Row

from pondapp.core.filters.bed import porosity_of, specific_surface

TOPIC = "6 gravel bed"


def surface(row: Row) -> float:
    return specific_surface(row.numbers()["d"], row.numbers()["voidage"])


FORMULAS: dict[int, Check] = {
    340: surface,
    341: surface,
}

TABLES: dict[int, Check] = {
    **dict.fromkeys((321, 325, 329), lambda row: porosity_of(row.numbers()["d10"])),
}

LOSS = "the loss in a bed of gravel: the app does not compute this"
INSIDE = "time, speed and water between the stones: the app does not compute this"
MEDIA = "a mean of natural ground, sizes mixed; the core has the gaps of gravel of one size"
SEWAGE = "wetlands for sewage hold water for days; the core has no rule from them"
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((310, 311, 313, 314, 315, 316), LOSS),
    **dict.fromkeys((318, 319, 320, 322, 324, 326, 328, 330), LOSS),
    331: MEDIA,
    **dict.fromkeys((335, 337, 338, 339), INSIDE),
    **dict.fromkeys((343, 344, 345), SEWAGE),
}
