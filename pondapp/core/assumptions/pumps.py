"""Assumptions about pumps, energy and money."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import DAY
from pondapp.core.base.working import COMMON_PRACTICE, Source

KILOWATT_HOUR = 3.6e6  # J

_ISO_9906 = Source(
    "ISO 9906:1999, class 2: flow ± 8 %, head ± 5 % (read in a lexicon of pump terms)", "published"
)
_CURVES = Source("printed curves of small pumps, straight to parabola", "rule of thumb")
_SMALL_PUMPS = Source("small submersible pond pumps, 10 to 35 %", "rule of thumb")


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
    power_most: float = rule(
        "Watts beyond which hardly a pump for a garden pond is made",
        2000.0, "W", 10.0, 20_000.0, COMMON_PRACTICE,
    )  # fmt: skip
    too_much_flow: float = rule(
        "Delivered over wanted flow from which a pump is oversized",
        2.0, "-", 1.0, 10.0, COMMON_PRACTICE,
    )  # fmt: skip
    worn_share: float = rule(
        "Share of its flow below which a pump needs cleaning", 0.85, "-", 0.3, 0.99, COMMON_PRACTICE
    )
    slowest_speed: float = rule(
        "Slowest setting of an adjustable pump, as a share of full speed",
        0.3, "-", 0.05, 1.0, COMMON_PRACTICE,
    )  # fmt: skip
    waterfall_share: float = rule(
        "Share of the day that a waterfall on a timer runs", 0.5, "-", 0.01, 1.0, COMMON_PRACTICE
    )
    bend_low: float = rule(
        "Bend of a curve known by its label, at least (1 is straight)",
        0.9, "-", 0.5, 4.0, _CURVES,
    )  # fmt: skip
    bend_high: float = rule(
        "Bend of a curve known by its label, at most (2 is a parabola)",
        2.1, "-", 0.5, 4.0, _CURVES,
    )  # fmt: skip
    flow_tolerance: float = rule(
        "How far a pump's flow may be off its label or print", 0.08, "-", 0.0, 0.3, _ISO_9906
    )
    head_tolerance: float = rule(
        "How far a pump's head may be off its label or print", 0.05, "-", 0.0, 0.3, _ISO_9906
    )
    lift_doubt: float = rule(
        "How far a lift that was entered may be off", 0.05, "m", 0.0, 1.0, COMMON_PRACTICE
    )
    assumed_lift_doubt: float = rule(
        "How far a lift that is only assumed may be off", 0.5, "m", 0.0, 5.0, COMMON_PRACTICE
    )
    loss_doubt: float = rule(
        "Times by which a hose may take more or less than worked out",
        1.3, "-", 1.0, 5.0, COMMON_PRACTICE,
    )  # fmt: skip
    assumed_loss_doubt: float = rule(
        "Times by which a hose that is only assumed may take more or less",
        2.0, "-", 1.0, 5.0, COMMON_PRACTICE,
    )  # fmt: skip
    sure_odds: float = rule(
        "Odds from which a pump counts as enough", 0.95, "-", 0.6, 0.99, COMMON_PRACTICE
    )
    probable_odds: float = rule(
        "Odds from which a pump counts as probably enough", 0.75, "-", 0.5, 0.95, COMMON_PRACTICE
    )
    power_kept: float = rule(
        "Share of its watts that a pump keeps however slow it turns",
        0.10, "-", 0.0, 0.5, _SMALL_PUMPS,
    )  # fmt: skip
