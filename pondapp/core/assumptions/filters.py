"""Assumptions about filters and turnover."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.working import COMMON_PRACTICE

PER_HOUR = 1.0 / 3600.0


@dataclass(frozen=True, slots=True)
class FilterAssumptions:
    """Assumptions about filters and turnover."""

    bog_share: float = rule(
        "Bog volume as a share of the pond's", 0.10, "-", 0.01, 1.0, COMMON_PRACTICE
    )
    bog_share_heavy: float = rule(
        "Bog volume as a share of the pond's, many fish", 0.25, "-", 0.01, 1.0, COMMON_PRACTICE
    )
    bog_retention_min: float = rule(
        "Shortest time through a bog", 300.0, "s", 30.0, 36000.0, COMMON_PRACTICE
    )
    bog_retention_target: float = rule(
        "Best time through a bog", 600.0, "s", 30.0, 36000.0, COMMON_PRACTICE
    )
    bog_retention_max: float = rule(
        "Longest time through a bog", 900.0, "s", 30.0, 36000.0, COMMON_PRACTICE
    )
    turnover_whole: float = rule(
        "Whole pond through the pump", PER_HOUR, "1/s", 1e-6, 0.01, COMMON_PRACTICE
    )
    high_flow_turnover_min: float = rule(
        "Least turnover of a high-flow filter", 2 * PER_HOUR, "1/s", 1e-6, 0.01, COMMON_PRACTICE
    )
    high_flow_turnover_target: float = rule(
        "Turnover of a high-flow filter", 4 * PER_HOUR, "1/s", 1e-6, 0.01, COMMON_PRACTICE
    )
