"""Fish load: every row of the topic, found by the core or excused."""

import pytest
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters, rows

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.constants import ZERO_CELSIUS
from pondapp.core.dosing.molar_masses import CARBON, OXYGEN_GAS
from pondapp.core.stock.ammonia import (
    ammonia_pka,
    ammonia_production,
    flow_to_hold_ammonia,
    unionised_share,
)
from pondapp.core.stock.feed import feed_at_ration, feeding
from pondapp.core.stock.nitrification import (
    MEDIA,
    alkalinity_for_nitrification,
    media_area,
    oxygen_for_nitrification,
)
from pondapp.core.stock.span import exactly

TOPIC = "7 fish load"
RULES = StockAssumptions()
DAY = 86400.0  # s
GRAM = 1e-3  # kg
LITRE_AN_HOUR = 1e-3 / 3600.0  # m3/s
MILLIGRAM_AN_HOUR = 1e-6 / 3600.0  # kg/s


def production(row: Row) -> float:
    given = row.numbers()
    return ammonia_production(given["feed"] / DAY, given["protein"], RULES.ammonia_likely) * DAY


def share(row: Row) -> float:
    given = row.numbers()
    return 100.0 * unionised_share(given["T_C"] + ZERO_CELSIUS, given["pH"])


def area(row: Row) -> float:
    given = row.numbers()
    return media_area(given["P_TAN_g"] * GRAM / DAY, given["rate"] * GRAM / DAY)


def flow(row: Row) -> float:
    given = row.numbers()
    made = given["P_TAN_g_d"] * GRAM / DAY
    return flow_to_hold_ammonia(made, given["removed_per_pass"], given["C"] * GRAM) / LITRE_AN_HOUR


def fed(row: Row) -> float:
    given = row.numbers()
    return feed_at_ration(given["biomass"], given["feed_rate"] / DAY) * DAY


def koi(row: Row) -> float:
    return feed_at_ration(row.numbers()["mass"], RULES.ration_warm_likely) * DAY / GRAM


CHECKS: dict[int, Check] = {
    346: fed,
    347: production,
    348: lambda row: production(row) / GRAM,
    350: lambda _: oxygen_for_nitrification(1.0),
    352: lambda _: alkalinity_for_nitrification(1.0),
    **dict.fromkeys((354, 355, 356, 357, 358, 359, 360, 362, 363, 365, 367, 369), share),
    **dict.fromkeys((370, 371, 373, 375, 377), share),
    378: lambda row: ammonia_pka(row.numbers()["T_C"] + ZERO_CELSIUS),
    388: area,
    389: lambda _: RULES.oxygen_per_feed,
    390: lambda _: OXYGEN_GAS / CARBON,
    399: koi,
    400: flow,
}

MEDIA_ROWS = {
    380: "tuff",
    381: "pumice",
    382: "limestone",
    383: "expanded_clay",
    384: "bottle_caps",
    385: "plastic",
}
RATE_ROWS = {386: "warm", 387: "cold"}
CHART_ROWS = (393, 394, 395, 396, 397, 398)

NOT_APPLICABLE: dict[int, str] = {
    351: "counts what growing bacteria spare; the core counts all of it, on the careful side",
    **dict.fromkeys(MEDIA_ROWS, "a range, not a number; the table of media holds it, see below"),
    **dict.fromkeys(RATE_ROWS, "a range, not a number; the rules hold its ends, see below"),
    391: "per mass of feed; the core takes the fish's breath by mass and temperature instead",
    392: "a range, not a number; the rules hold its ends, see below",
    **dict.fromkeys(CHART_ROWS, "words of a chart; the core says the same, see below"),
}


def ends(row: Row) -> tuple[float, float]:
    low, _, high = row.expected.partition("-")
    return float(low), float(high)


BY_ID = {row.id: row for row in rows(TOPIC)}


@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)


@pytest.mark.parametrize(("row", "key"), MEDIA_ROWS.items())
def test_media_have_the_printed_range(row: int, key: str) -> None:
    surface = MEDIA[key].surface
    assert (surface.low, surface.high) == ends(BY_ID[row])


@pytest.mark.parametrize(("row", "season"), RATE_ROWS.items())
def test_rates_of_the_filter_have_the_range(row: int, season: str) -> None:
    found = [
        getattr(RULES, f"nitrification_{season}_{end}") * DAY / GRAM for end in ("low", "high")
    ]
    assert found == pytest.approx(ends(BY_ID[row]))


def test_breath_of_carp_has_the_range() -> None:
    found = [rate / MILLIGRAM_AN_HOUR for rate in (RULES.respiration_low, RULES.respiration_high)]
    assert found == pytest.approx(ends(BY_ID[392]))


@pytest.mark.parametrize("row", CHART_ROWS)
def test_chart_of_feeding_says_the_same(row: int) -> None:
    about = BY_ID[row]
    text = about.given()["T_C"]
    if text.startswith("<"):
        celsius = float(text[1:]) - 0.5
    elif text.startswith(">"):
        celsius = float(text[1:]) + 0.5
    else:
        low, _, high = text.partition("-")
        celsius = 0.5 * (float(low) + float(high))
    found = feeding(exactly(1.0), celsius + ZERO_CELSIUS, RULES)
    said = {
        "no feeding": (0, 0),
        "resist feeding": (0, 1),
        "once a day": (1, 1),
        "2-3 times": (2, 3),
    }
    meals = next(number for words, number in said.items() if about.expected.startswith(words))
    assert found.meals == meals
