"""Assumptions about looking after a pond: how often, and how far ahead to look."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import COLDEST, DAY
from pondapp.core.base.working import COMMON_PRACTICE


@dataclass(frozen=True, slots=True)
class CareAssumptions:
    """Assumptions about looking after a pond."""

    clean_every: float = rule(
        "Time between cleanings of pump and foam",
        28.0 * DAY, "s", DAY, 3650.0 * DAY, COMMON_PRACTICE,
    )  # fmt: skip
    measure_every: float = rule(
        "Time between flow readings", 14.0 * DAY, "s", DAY, 3650.0 * DAY, COMMON_PRACTICE
    )
    test_every: float = rule(
        "Time between water tests", 7.0 * DAY, "s", DAY, 3650.0 * DAY, COMMON_PRACTICE
    )
    test_valid: float = rule(
        "Time after which a water test says nothing of today",
        30.0 * DAY, "s", DAY, 3650.0 * DAY, COMMON_PRACTICE,
    )  # fmt: skip
    new_filter_watched: float = rule(
        "How long a new filter is watched", 42.0 * DAY, "s", 7.0 * DAY, 180.0 * DAY, COMMON_PRACTICE
    )
    new_filter_tested: float = rule(
        "Time between tests of a new filter", 2.0 * DAY, "s", DAY, 14.0 * DAY, COMMON_PRACTICE
    )
    quarantine: float = rule(
        "How long new fish stay in quarantine", 28.0 * DAY, "s", 7.0 * DAY, 180.0 * DAY,
        COMMON_PRACTICE,
    )  # fmt: skip
    ice_below: float = rule(
        "Water below which ice is to be expected", 277.15, "K", COLDEST, 288.15, COMMON_PRACTICE
    )
    pump_higher_below: float = rule(
        "Water below which the pump stands higher", 281.15, "K", COLDEST, 293.15, COMMON_PRACTICE
    )
    plants_rest_below: float = rule(
        "Water below which plants rest", 283.15, "K", COLDEST, 293.15, COMMON_PRACTICE
    )
    lamp_from: float = rule(
        "Water from which a UV lamp is of use", 283.15, "K", COLDEST, 293.15, COMMON_PRACTICE
    )
    filter_wakes_from: float = rule(
        "Water from which the bacteria of a filter work", 281.15, "K", COLDEST, 293.15,
        COMMON_PRACTICE,
    )  # fmt: skip
    trend_horizon: float = rule(
        "How far ahead a trend is carried on", 365.0 * DAY, "s", DAY, 3650.0 * DAY, COMMON_PRACTICE
    )
