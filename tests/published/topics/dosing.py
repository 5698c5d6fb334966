"""Dosing: every row of the topic, found by the core or excused."""

from rows import GRAM, MILLIGRAM_A_LITRE, POUND, US_GALLON, Check, Row

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.dosing.dechlorinator import (
    ammonia_from_chloramine,
    ascorbic_acid_ratio,
    dechlorinate,
    thiosulfate_ratio,
)
from pondapp.core.dosing.mixing import mixed_temperature
from pondapp.core.dosing.salt import salt_dose
from pondapp.core.dosing.water_change import remaining_batch, remaining_continuous

TOPIC = "10 dosing"
RULES = StockAssumptions()


def salt(volume: float, rise: float) -> float:
    return salt_dose(volume, 0.0, rise, RULES.salt_caution, RULES.salt_most).mass


def batch(row: Row) -> float:
    given = row.numbers()
    return remaining_batch(given["fraction"], int(given["n"]))


def top_up(row: Row) -> float:
    given = row.numbers()
    chlorine = given["chlorine"] * MILLIGRAM_A_LITRE
    return dechlorinate(given["V"], chlorine, given["ratio"], given["V"], False).mass / GRAM


def blended(row: Row) -> float:
    given = row.numbers()
    share = given["cold"] / (given["cold"] + given["warm"])
    warm, cold = given["T_warm"] + ZERO_CELSIUS, given["T_cold"] + ZERO_CELSIUS
    return mixed_temperature(warm, cold, share) - ZERO_CELSIUS


FORMULAS: dict[int, Check] = {
    449: lambda row: salt(row.numbers()["V"], row.numbers()["dC"]),
    451: lambda _: salt(100.0 * US_GALLON, 1.0) / POUND,
    453: batch,
    454: batch,
    455: lambda row: remaining_continuous(1.0, 1e-3, 1e3 * row.numbers()["exchanged_volumes"]),
    457: lambda _: thiosulfate_ratio(crystals=True, route="tetrathionate"),
    458: lambda _: thiosulfate_ratio(crystals=False, route="tetrathionate"),
    465: lambda _: ascorbic_acid_ratio(),
    466: lambda _: ammonia_from_chloramine(MILLIGRAM_A_LITRE) / MILLIGRAM_A_LITRE,
    467: top_up,
    1023: blended,
    1024: blended,
}

TABLES: dict[int, Check] = {
    461: lambda _: RULES.thiosulfate_ratio,
    462: lambda _: RULES.thiosulfate_ratio_neutral,
    464: lambda _: RULES.ascorbic_ratio,
}

NOT_APPLICABLE: dict[int, str] = {
    463: "bisulfite takes oxygen out of the water: the app offers none for a pond with fish",
    452: "a range of baths for hours; the most salt for a pond is its lower end, see test_rules.py",
}
