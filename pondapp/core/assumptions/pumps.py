"""Assumptions about pumps, energy and money."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.working import COMMON_PRACTICE, Source

KILOWATT_HOUR = 3.6e6  # J
DAY = 86400.0  # s

_SMALL_PUMPS = Source("small submersible pond pumps; no official figure was found", "from memory")


@dataclass(frozen=True, slots=True)
class PumpAssumptions:
    """Assumptions about pumps, energy and money. Money is in the owner's own currency."""

    tariff: float = rule(
        "Price of electricity", 0.30 / KILOWATT_HOUR, "1/J", 0.0, 1000.0 / KILOWATT_HOUR,
        COMMON_PRACTICE,
    )  # fmt: skip
    running_time: float = rule(
        "Time a pump runs in a year", 365.0 * DAY, "s", 0.0, 366.0 * DAY, COMMON_PRACTICE
    )
    cost_years: float = rule("Years to count costs over", 5.0, "-", 0.5, 30.0, COMMON_PRACTICE)
    efficiency_low: float = rule(
        "Least share of a small pump's power that reaches the water",
        0.10, "-", 0.01, 0.9, _SMALL_PUMPS,
    )  # fmt: skip
    efficiency_high: float = rule(
        "Largest share of a small pump's power that reaches the water",
        0.35, "-", 0.01, 0.9, _SMALL_PUMPS,
    )  # fmt: skip
    too_much_flow: float = rule(
        "Delivered over wanted flow from which a pump is oversized",
        1.5, "-", 1.0, 10.0, COMMON_PRACTICE,
    )  # fmt: skip
    worn_share: float = rule(
        "Share of its flow below which a pump wants cleaning", 0.85, "-", 0.3, 0.99, COMMON_PRACTICE
    )
    slowest_speed: float = rule(
        "Slowest setting of an adjustable pump, as a share of full speed",
        0.3, "-", 0.05, 1.0, COMMON_PRACTICE,
    )  # fmt: skip
    waterfall_share: float = rule(
        "Share of the day that a waterfall on a timer runs", 0.5, "-", 0.01, 1.0, COMMON_PRACTICE
    )
