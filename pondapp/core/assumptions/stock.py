"""Assumptions about fish, feed and water chemistry."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import COLDEST, DAY, HOUR, WARMEST
from pondapp.core.base.working import COMMON_PRACTICE, Source

PER_DAY = 1.0 / DAY
GRAM_A_DAY = 1e-3 / DAY  # kg/s, so of nitrogen per m2 of media
MILLIGRAM_AN_HOUR = 1e-6 / HOUR  # kg/s, so of oxygen or nitrogen per kg of fish
MILLIGRAM_A_LITRE = 1e-3  # kg/m3

_CONDITION = Source("Fulton's condition factor of 1.2 to 2.4, carp and goldfish", "rule of thumb")
_CHART = Source("a pond trade's feeding chart by temperature", "common practice")
_AMMONIA = Source("Timmons and Ebeling, Recirculating Aquaculture", "from memory")
_RATE_WARM = Source("filters in warm water: 0.2 to 1.0 g/m2/d", "rule of thumb")
_RATE_COLD = Source("garden ponds at 10 °C: 0.05 to 0.2 g/m2/d", "rule of thumb")
_CARP = Source("oxygen use of carp at 20 °C, 100 to 400 mg/kg/h", "rule of thumb")
_UNFED = Source("Brett and Zala 1975, J. Fish. Res. Board Can. 32, 2479: unfed fish", "published")
_FIELD_GUIDE = Source("AWWA disinfection field guide, table 7-2, at pH 7", "published")
_MOST_CHLORINE = Source(
    "US limit for tap water, 4.0 mg/L of chlorine or chloramine, as in COMAR 26.04.01.23",
    "published",
)
_PAN = Source("NOAA Technical Report NWS 33 (1982), annual, class A pan", "from memory")
_POOLS = Source(
    "ASHRAE Transactions 104 (1998), pt. 1A: undisturbed pools give off 74 % of the formula",
    "published",
)
_FALL = Source("quality of water times shape of fall, 0.46 to 1.89, as in SWAT+", "published")


@dataclass(frozen=True, slots=True)
class StockAssumptions:
    """Assumptions about fish, feed and water chemistry."""

    warmest_water: float = rule(
        "Water in the warmest week of the year, if not entered",
        299.15, "K", 283.15, WARMEST, COMMON_PRACTICE,
    )  # fmt: skip
    condition_low: float = rule(
        "Mass of a slim fish over its length cubed", 12.0, "kg/m3", 2.0, 60.0, _CONDITION
    )
    condition_likely: float = rule(
        "Mass of a fish over its length cubed", 17.0, "kg/m3", 2.0, 60.0, _CONDITION
    )
    condition_high: float = rule(
        "Mass of a stout fish over its length cubed", 24.0, "kg/m3", 2.0, 60.0, _CONDITION
    )

    feed_from: float = rule(
        "Coldest water in which fish are fed", 283.15, "K", COLDEST, 300.0, _CHART
    )
    feed_cool_from: float = rule(
        "Temperature from which fish are fed every day", 286.15, "K", COLDEST, 303.0, _CHART
    )
    feed_mild_from: float = rule(
        "Temperature from which fish take medium protein", 290.15, "K", COLDEST, 306.0, _CHART
    )
    feed_warm_from: float = rule(
        "Temperature from which fish are fed several times a day",
        293.15,
        "K",
        COLDEST,
        309.0,
        _CHART,
    )
    feed_until: float = rule(
        "Warmest water in which fish are fed", 301.15, "K", 283.15, WARMEST, _CHART
    )
    warmth_danger: float = rule(
        "Warmth of the water above which fish are in danger",
        305.15, "K", 283.15, WARMEST, COMMON_PRACTICE,
    )  # fmt: skip
    ration_cold_likely: float = rule(
        "Feed in a day below daily feeding, share of the fish",
        0.001 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_cold_high: float = rule(
        "Most feed in a day below daily feeding, share of the fish",
        0.0025 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_cool_low: float = rule(
        "Least feed in a day in cool water, share of the fish",
        0.002 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_cool_likely: float = rule(
        "Feed in a day in cool water, share of the fish",
        0.005 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_cool_high: float = rule(
        "Most feed in a day in cool water, share of the fish",
        0.008 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_mild_low: float = rule(
        "Least feed in a day in mild water, share of the fish",
        0.005 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_mild_likely: float = rule(
        "Feed in a day in mild water, share of the fish",
        0.008 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_mild_high: float = rule(
        "Most feed in a day in mild water, share of the fish",
        0.012 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_warm_low: float = rule(
        "Least feed in a day in warm water, share of the fish",
        0.007 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_warm_likely: float = rule(
        "Feed in a day in warm water, share of the fish",
        0.010 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    ration_warm_high: float = rule(
        "Most feed in a day in warm water, share of the fish",
        0.020 * PER_DAY, "1/s", 0.0, 0.1 * PER_DAY, COMMON_PRACTICE,
    )  # fmt: skip
    feed_protein: float = rule("Protein in the feed", 0.35, "-", 0.1, 0.7, COMMON_PRACTICE)

    # The upper limit of the three is all the nitrogen that protein holds.
    ammonia_low: float = rule(
        "Least ammonia nitrogen from protein", 0.07, "-", 0.01, 0.16, COMMON_PRACTICE
    )
    ammonia_likely: float = rule("Ammonia nitrogen from protein", 0.092, "-", 0.01, 0.16, _AMMONIA)
    ammonia_high: float = rule(
        "Most ammonia nitrogen from protein", 0.12, "-", 0.01, 0.16, COMMON_PRACTICE
    )
    unfed_ammonia_low: float = rule(
        "Least ammonia nitrogen that a mass of unfed fish gives off at 20 °C",
        1.0 * MILLIGRAM_AN_HOUR, "1/s", 0.0, 1e-7, COMMON_PRACTICE,
    )  # fmt: skip
    unfed_ammonia_likely: float = rule(
        "Ammonia nitrogen that a mass of unfed fish gives off at 20 °C",
        3.0 * MILLIGRAM_AN_HOUR, "1/s", 0.0, 1e-7, COMMON_PRACTICE,
    )  # fmt: skip
    unfed_ammonia_high: float = rule(
        "Most ammonia nitrogen that a mass of unfed fish gives off at 20 °C",
        8.2 * 2.0**0.5 * MILLIGRAM_AN_HOUR,  # 8.2 was printed at 15 °C; it doubles in 10 °C
        "1/s", 0.0, 1e-7, _UNFED,
    )  # fmt: skip
    unionised_limit: float = rule(
        "Most un-ionised ammonia nitrogen that fish can take for long",
        0.02 * MILLIGRAM_A_LITRE, "kg/m3", 1e-6, 1e-3, COMMON_PRACTICE,
    )  # fmt: skip
    removed_per_pass: float = rule(
        "Share of the ammonia that a filter takes out in one pass",
        0.25, "-", 0.01, 1.0, COMMON_PRACTICE,
    )  # fmt: skip

    nitrification_rest: float = rule(
        "Temperature below which a filter's bacteria all but rest",
        277.15, "K", COLDEST, 288.15, COMMON_PRACTICE,
    )  # fmt: skip
    nitrification_cold_at: float = rule(
        "Temperature of a filter's cold rate", 283.15, "K", COLDEST, 288.15, _RATE_COLD
    )
    nitrification_cold_low: float = rule(
        "Least ammonia nitrogen per area of media in cold water",
        0.05 * GRAM_A_DAY, "kg/m2/s", 1e-12, 1e-6, _RATE_COLD,
    )  # fmt: skip
    nitrification_cold_likely: float = rule(
        "Ammonia nitrogen per area of media in cold water",
        0.10 * GRAM_A_DAY, "kg/m2/s", 1e-12, 1e-6, _RATE_COLD,
    )  # fmt: skip
    nitrification_cold_high: float = rule(
        "Most ammonia nitrogen per area of media in cold water",
        0.20 * GRAM_A_DAY, "kg/m2/s", 1e-12, 1e-6, _RATE_COLD,
    )  # fmt: skip
    nitrification_warm_at: float = rule(
        "Temperature of a filter's warm rate", 298.15, "K", 289.15, 308.15, _RATE_WARM
    )
    nitrification_warm_low: float = rule(
        "Least ammonia nitrogen per area of media in warm water",
        0.2 * GRAM_A_DAY, "kg/m2/s", 1e-12, 1e-6, _RATE_WARM,
    )  # fmt: skip
    nitrification_warm_likely: float = rule(
        "Ammonia nitrogen per area of media in warm water",
        0.4 * GRAM_A_DAY, "kg/m2/s", 1e-12, 1e-6, _RATE_WARM,
    )  # fmt: skip
    nitrification_warm_high: float = rule(
        "Most ammonia nitrogen per area of media in warm water",
        1.0 * GRAM_A_DAY, "kg/m2/s", 1e-12, 1e-6, _RATE_WARM,
    )  # fmt: skip

    respiration_low: float = rule(
        "Least oxygen that a mass of fish uses at 20 °C",
        100.0 * MILLIGRAM_AN_HOUR, "1/s", 1e-10, 1e-5, _CARP,
    )  # fmt: skip
    respiration_likely: float = rule(
        "Oxygen that a mass of fish uses at 20 °C",
        200.0 * MILLIGRAM_AN_HOUR, "1/s", 1e-10, 1e-5, _CARP,
    )  # fmt: skip
    respiration_high: float = rule(
        "Most oxygen that a mass of fish uses at 20 °C",
        400.0 * MILLIGRAM_AN_HOUR, "1/s", 1e-10, 1e-5, _CARP,
    )  # fmt: skip
    respiration_q10: float = rule(
        "Growth of oxygen use for 10 °C more", 2.0, "-", 1.0, 4.0, COMMON_PRACTICE
    )
    oxygen_per_feed: float = rule(
        "Most oxygen that feed uses in the end, by mass", 1.25, "-", 0.1, 3.0,
        Source("Boyd, Oxygen demand of aquaculture feed", "published"),
    )  # fmt: skip
    oxygen_wanted: float = rule(
        "Least oxygen that fish should have", 6.0 * MILLIGRAM_A_LITRE, "kg/m3", 1e-3, 9e-3,
        COMMON_PRACTICE,
    )  # fmt: skip
    oxygen_danger: float = rule(
        "Oxygen below which fish are in danger", 4.0 * MILLIGRAM_A_LITRE, "kg/m3", 1e-3, 9e-3,
        COMMON_PRACTICE,
    )  # fmt: skip
    fall_factor_low: float = rule(
        "Aeration of a poor fall, multiple of the formula", 0.5, "-", 0.01, 5.0, _FALL
    )
    fall_factor_likely: float = rule(
        "Aeration of a fall, multiple of the formula", 1.0, "-", 0.01, 5.0, _FALL
    )
    fall_factor_high: float = rule(
        "Aeration of a good fall, multiple of the formula", 1.8, "-", 0.01, 5.0, _FALL
    )
    surface_exchange_low: float = rule(
        "Slowest oxygen through a still surface", 0.1 * PER_DAY, "m/s", 0.0, 1e-3, COMMON_PRACTICE
    )
    surface_exchange_likely: float = rule(
        "Oxygen through a pond's surface", 0.4 * PER_DAY, "m/s", 0.0, 1e-3, COMMON_PRACTICE
    )
    surface_exchange_high: float = rule(
        "Fastest oxygen through a windy surface", 1.0 * PER_DAY, "m/s", 0.0, 1e-3, COMMON_PRACTICE
    )

    night_oxygen_low: float = rule(
        "Least oxygen of a pond at night, share of what it can hold",
        0.70,
        "-",
        0.1,
        1.0,
        COMMON_PRACTICE,
    )
    night_oxygen_likely: float = rule(
        "Oxygen of a pond at night, share of what it can hold",
        0.85,
        "-",
        0.1,
        1.0,
        COMMON_PRACTICE,
    )
    night_oxygen_high: float = rule(
        "Most oxygen of a pond at night, share of what it can hold",
        1.0,
        "-",
        0.1,
        1.5,
        COMMON_PRACTICE,
    )
    mud_oxygen_low: float = rule(
        "Least oxygen that mud, plants and algae use at night",
        0.5 * GRAM_A_DAY,
        "kg/m2/s",
        0.0,
        1e-6,
        COMMON_PRACTICE,
    )
    mud_oxygen_likely: float = rule(
        "Oxygen that mud, plants and algae use at night",
        1.5 * GRAM_A_DAY,
        "kg/m2/s",
        0.0,
        1e-6,
        COMMON_PRACTICE,
    )
    mud_oxygen_high: float = rule(
        "Most oxygen that mud, plants and algae use at night",
        4.0 * GRAM_A_DAY,
        "kg/m2/s",
        0.0,
        1e-6,
        COMMON_PRACTICE,
    )
    filter_bears: float = rule(
        "How long the bacteria of a filter bear still water",
        4.0 * HOUR,
        "s",
        HOUR,
        2.0 * DAY,
        COMMON_PRACTICE,
    )

    salt_caution: float = rule(
        "Salt from which plants suffer", 1.0, "kg/m3", 0.1, 10.0, COMMON_PRACTICE
    )
    salt_most: float = rule(
        "Most salt for a pond with fish in it", 5.0, "kg/m3", 0.5, 10.0,
        Source("UF/IFAS fact sheet VM 86: baths of 5 to 10 g/L last hours only", "published"),
    )  # fmt: skip
    volume_tolerance: float = rule(
        "How far a volume that was not measured may be off", 0.15, "-", 0.01, 0.5, COMMON_PRACTICE
    )
    water_change_most: float = rule(
        "Largest share of water to change at once", 0.30, "-", 0.01, 1.0, COMMON_PRACTICE
    )
    warming_most: float = rule(
        "Most change of the water's temperature at once", 3.0, "warmer", 0.5, 15.0, COMMON_PRACTICE
    )
    tap_chlorine: float = rule(
        "Most chlorine in tap water, if not measured",
        4.0 * MILLIGRAM_A_LITRE, "kg/m3", 0.0, 1e-2, _MOST_CHLORINE,
    )  # fmt: skip
    thiosulfate_ratio: float = rule(
        "Thiosulfate crystals for a mass of chlorine", 7.0, "-", 0.5, 20.0,
        Source("two thiosulfate for one chlorine; an analytical support note: 7.0", "published"),
    )  # fmt: skip
    thiosulfate_ratio_neutral: float = rule(
        "Thiosulfate for a mass of chlorine, field value", 1.9, "-", 0.5, 20.0, _FIELD_GUIDE
    )
    ascorbic_ratio: float = rule(
        "Vitamin C for a mass of chlorine", 2.5, "-", 0.5, 20.0, _FIELD_GUIDE
    )
    still_share_low: float = rule(
        "Least that still water gives off, share of the formula", 0.74, "-", 0.3, 1.5, _POOLS
    )
    still_share_likely: float = rule(
        "What a pond gives off, share of the formula", 0.87, "-", 0.3, 1.5, COMMON_PRACTICE
    )
    still_share_high: float = rule(
        "Most that a pond gives off, share of the formula", 1.0, "-", 0.3, 1.5, _POOLS
    )
    wind_sheltered: float = rule(
        "Wind over a sheltered pond", 0.5, "m/s", 0.0, 10.0, COMMON_PRACTICE
    )
    wind_some: float = rule("Wind over a pond in a garden", 1.5, "m/s", 0.0, 10.0, COMMON_PRACTICE)
    wind_open: float = rule("Wind over a pond in the open", 2.5, "m/s", 0.0, 15.0, COMMON_PRACTICE)
    humidity_low: float = rule(
        "Driest air of a summer's week, if not entered", 0.50, "-", 0.0, 1.0, COMMON_PRACTICE
    )
    humidity_likely: float = rule(
        "Humidity of a summer's week, if not entered", 0.60, "-", 0.0, 1.0, COMMON_PRACTICE
    )
    humidity_high: float = rule(
        "Dampest air of a summer's week, if not entered", 0.70, "-", 0.0, 1.0, COMMON_PRACTICE
    )
    pan_low: float = rule("Least pond over pan evaporation", 0.6, "-", 0.3, 1.2, _PAN)
    pan_likely: float = rule("Pond over pan evaporation", 0.7, "-", 0.3, 1.2, _PAN)
    pan_high: float = rule("Most pond over pan evaporation", 0.8, "-", 0.3, 1.2, _PAN)
    bucket_low: float = rule(
        "Least loss of a pond over that of a bucket in it", 0.85, "-", 0.3, 1.5, COMMON_PRACTICE
    )
    bucket_likely: float = rule(
        "Loss of a pond over that of a bucket in it", 1.0, "-", 0.3, 1.5, COMMON_PRACTICE
    )
    bucket_high: float = rule(
        "Most loss of a pond over that of a bucket in it", 1.15, "-", 0.3, 1.9, COMMON_PRACTICE
    )
    level_tolerance: float = rule(
        "How far a reading of a level may be off, if not entered",
        0.001,
        "m",
        1e-4,
        0.02,
        COMMON_PRACTICE,
    )
    least_leak: float = rule(
        "Fall of the level by a leak that is worth looking for",
        0.002 / DAY,
        "m/s",
        0.0002 / DAY,
        0.05 / DAY,
        COMMON_PRACTICE,
    )
