"""Sizing with no pond drawn up: a volume in, what to buy out."""

from dataclasses import dataclass

from pondapp.core.assumptions import Assumptions
from pondapp.core.filters.bands import FlowBand, bog_band, high_flow_band, whole_pond_band


@dataclass(frozen=True, slots=True)
class QuickSize:
    """First sizes for a pond."""

    bog_volume: float
    bog_volume_heavy: float
    bog: FlowBand
    high_flow: FlowBand
    pump: FlowBand


def quick_size(volume: float) -> QuickSize:
    """First sizes for a pond of this volume [m3], by the default rules."""
    rules = Assumptions().filters
    bog_volume = volume * rules.bog_share
    return QuickSize(
        bog_volume=bog_volume,
        bog_volume_heavy=volume * rules.bog_share_heavy,
        bog=bog_band(
            bog_volume, rules.bog_retention_min, rules.bog_retention_target, rules.bog_retention_max
        ),
        high_flow=high_flow_band(
            volume, rules.high_flow_turnover_min, rules.high_flow_turnover_target
        ),
        pump=whole_pond_band(volume, rules.turnover_whole),
    )
