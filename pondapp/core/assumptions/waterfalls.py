"""Assumptions about waterfall sheets and streams."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import HOUR
from pondapp.core.base.working import COMMON_PRACTICE


@dataclass(frozen=True, slots=True)
class WaterfallAssumptions:
    """Assumptions about waterfall sheets and streams."""

    sheet_flow_per_width: float = rule(
        "Flow per width of lip", 4.0 / HOUR / 0.30, "m2/s", 1e-4, 0.1, COMMON_PRACTICE
    )
    sheet_low_factor: float = rule(
        "Thinnest sheet, share of the rule", 0.5, "-", 0.1, 1.0, COMMON_PRACTICE
    )
    sheet_high_factor: float = rule(
        "Heaviest fall, multiple of the rule", 2.0, "-", 1.0, 5.0, COMMON_PRACTICE
    )
    crest_height: float = rule(
        "Height of a lip over the bottom behind it", 0.10, "m", 0.005, 5.0, COMMON_PRACTICE
    )
    stream_flow_min: float = rule(
        "Least flow per width of a stream", 4.0 / HOUR, "m2/s", 1e-5, 0.1, COMMON_PRACTICE
    )
    stream_flow_target: float = rule(
        "Flow per width of a stream", 8.0 / HOUR, "m2/s", 1e-5, 0.1, COMMON_PRACTICE
    )
    stream_flow_max: float = rule(
        "Most flow per width of a stream", 20.0 / HOUR, "m2/s", 1e-5, 0.1, COMMON_PRACTICE
    )
    stream_edge: float = rule(
        "Height of a stream's edges over its bed", 0.20, "m", 0.02, 1.0, COMMON_PRACTICE
    )
    stream_layers: float = rule(
        "Layers of stones in the bed of a stream", 1.0, "-", 0.1, 5.0, COMMON_PRACTICE
    )
