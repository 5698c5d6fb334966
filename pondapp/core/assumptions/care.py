"""Assumptions about looking after a pond: how often, and how far ahead to look."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import DAY
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
    trend_horizon: float = rule(
        "How far ahead a trend is carried on", 365.0 * DAY, "s", DAY, 3650.0 * DAY, COMMON_PRACTICE
    )
