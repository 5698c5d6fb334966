"""Fish load: every row of the topic, found by the core or excused."""

from rows import GRAM, LITRE_AN_HOUR, Check, Row

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.constants import DAY, HOUR, ZERO_CELSIUS
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
    oxygen_for_nitrification,
)
from pondapp.core.stock.span import exactly

TOPIC = "7 fish load"
RULES = StockAssumptions()
MILLIGRAM_AN_HOUR = 1e-6 / HOUR  # kg/s


def production(row: Row) -> float:
    given = row.numbers()
    return ammonia_production(given["feed"] / DAY, given["protein"], RULES.ammonia_likely) * DAY


def share(row: Row) -> float:
    given = row.numbers()
    return 100.0 * unionised_share(given["T_C"] + ZERO_CELSIUS, given["pH"])


def flow(row: Row) -> float:
    given = row.numbers()
    made = given["P_TAN_g_d"] * GRAM / DAY
    return flow_to_hold_ammonia(made, given["removed_per_pass"], given["C"] * GRAM) / LITRE_AN_HOUR


def fed(row: Row) -> float:
    given = row.numbers()
    return feed_at_ration(given["biomass"], given["feed_rate"] / DAY) * DAY


def koi(row: Row) -> float:
    return feed_at_ration(row.numbers()["mass"], RULES.ration_warm_likely) * DAY / GRAM


def media(key: str) -> Check:
    return lambda _: (MEDIA[key].surface.low, MEDIA[key].surface.high)


def rate(season: str) -> Check:
    def ends(_: Row) -> tuple[float, float]:
        low, high = (
            getattr(RULES, f"nitrification_{season}_{end}") * DAY / GRAM for end in ("low", "high")
        )
        return low, high

    return ends


SAID = {(0, 0): "no feeding", (0, 1): "resist feeding", (1, 1): "once a day", (2, 3): "2-3 times"}


def meals(row: Row) -> str:
    """What the feeding chart says, as the core counts the meals of a day."""
    text = row.given()["T_C"]
    if text.startswith("<"):
        celsius = float(text[1:]) - 0.5
    elif text.startswith(">"):
        celsius = float(text[1:]) + 0.5
    else:
        low, _, high = text.partition("-")
        celsius = 0.5 * (float(low) + float(high))
    return SAID[feeding(exactly(1.0), celsius + ZERO_CELSIUS, RULES).meals]


FORMULAS: dict[int, Check] = {
    346: fed,
    347: production,
    348: lambda row: production(row) / GRAM,
    350: lambda _: oxygen_for_nitrification(1.0),
    352: lambda _: alkalinity_for_nitrification(1.0),
    **dict.fromkeys((354, 355, 356, 357, 358, 359, 360, 362, 363, 365, 367, 369), share),
    **dict.fromkeys((370, 371, 373, 375, 377), share),
    378: lambda row: ammonia_pka(row.numbers()["T_C"] + ZERO_CELSIUS),
    390: lambda _: OXYGEN_GAS / CARBON,
    399: koi,
    400: flow,
}

TABLES: dict[int, Check] = {
    380: media("tuff"),
    381: media("pumice"),
    382: media("limestone"),
    383: media("expanded_clay"),
    384: media("bottle_caps"),
    385: media("plastic"),
    386: rate("warm"),
    387: rate("cold"),
    389: lambda _: RULES.oxygen_per_feed,
    392: lambda _: (
        RULES.respiration_low / MILLIGRAM_AN_HOUR,
        RULES.respiration_high / MILLIGRAM_AN_HOUR,
    ),
    **dict.fromkeys(range(393, 399), meals),
}

NOT_APPLICABLE: dict[int, str] = {
    388: "area for a given load: the app goes the other way, from the media to what they take out",
    351: "counts what growing bacteria spare; the core counts all of it, on the careful side",
    391: "per mass of feed; the core takes the fish's breath by mass and temperature instead",
}
