"""Assumptions about volume, filters and turnover."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import HOUR
from pondapp.core.base.working import COMMON_PRACTICE, Source
from pondapp.core.filters.bed import porosity_of

PER_HOUR = 1.0 / HOUR


@dataclass(frozen=True, slots=True)
class FilterAssumptions:
    """Assumptions about volume, filters and turnover."""

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
    turnover_most: float = rule(
        "Turnover beyond which the water is stirred too much",
        10 * PER_HOUR, "1/s", 1e-6, 0.1, COMMON_PRACTICE,
    )  # fmt: skip
    high_flow_turnover_min: float = rule(
        "Least turnover of a high-flow filter", 2 * PER_HOUR, "1/s", 1e-6, 0.01, COMMON_PRACTICE
    )
    high_flow_turnover_target: float = rule(
        "Turnover of a high-flow filter", 4 * PER_HOUR, "1/s", 1e-6, 0.01, COMMON_PRACTICE
    )
    high_flow_turnover_large: float = rule(
        "Least turnover of a high-flow filter on a large pond",
        PER_HOUR, "1/s", 1e-6, 0.01, COMMON_PRACTICE,
    )  # fmt: skip
    large_pond: float = rule(
        "Size from which a pond counts as large", 20.0, "m3", 1.0, 1e5, COMMON_PRACTICE
    )
    gravel_porosity: float = rule(
        "Share of gaps in gravel; 0 for the usual of its grain size",
        0.0, "-", 0.0, 0.8, COMMON_PRACTICE,
    )  # fmt: skip
    gravel_grain: float = rule(
        "Grain size of the gravel in a bog", 0.02, "m", 0.0005, 0.2, COMMON_PRACTICE
    )
    gravel_surface_tolerance: float = rule(
        "How far the area of gravel may be off, as a share of it",
        0.30, "-", 0.0, 0.9, COMMON_PRACTICE,
    )  # fmt: skip
    bog_depth: float = rule("Depth of gravel in a bog", 0.5, "m", 0.1, 2.0, COMMON_PRACTICE)
    bog_coarse: float = rule(
        "Layer of coarse stones round the pipes of a bog", 0.15, "m", 0.02, 1.0, COMMON_PRACTICE
    )
    bog_water_over: float = rule(
        "Water over the gravel of a bog", 0.03, "m", 0.0, 0.5, COMMON_PRACTICE
    )
    bog_edge: float = rule("Edge of a bog over its overflow", 0.10, "m", 0.01, 0.5, COMMON_PRACTICE)
    bog_overflow: float = rule(
        "Width of the overflow of a bog", 0.30, "m", 0.02, 5.0, COMMON_PRACTICE
    )
    bog_pipe_spacing: float = rule(
        "From one pipe under a bog to the next", 0.40, "m", 0.05, 2.0, COMMON_PRACTICE
    )
    slot_speed: float = rule(
        "Speed of the water in the slots of a pipe", 0.10, "m/s", 0.005, 2.0, COMMON_PRACTICE
    )
    slot_width: float = rule("Width of a slot in a pipe", 0.003, "m", 0.0005, 0.02, COMMON_PRACTICE)
    slot_length: float = rule("Length of a slot in a pipe", 0.05, "m", 0.005, 0.3, COMMON_PRACTICE)
    foam_speed: float = rule(
        "Speed of the water through foam", 0.01, "m/s", 0.0005, 0.1, COMMON_PRACTICE
    )
    foam_depth: float = rule("Depth of all layers of foam", 0.15, "m", 0.02, 1.0, COMMON_PRACTICE)
    skimmer_flow_min: float = rule(
        "Least flow per width of a skimmer's opening",
        20.0 * PER_HOUR, "m2/s", 1e-4, 0.1, COMMON_PRACTICE,
    )  # fmt: skip
    skimmer_flow_target: float = rule(
        "Flow per width of a skimmer's opening",
        36.0 * PER_HOUR, "m2/s", 1e-4, 0.1, COMMON_PRACTICE,
    )  # fmt: skip
    skimmer_flow_max: float = rule(
        "Most flow per width of a skimmer's opening",
        60.0 * PER_HOUR, "m2/s", 1e-4, 0.1, COMMON_PRACTICE,
    )  # fmt: skip
    salt_rise_min: float = rule(
        "Least rise of salt worth measuring", 1.0, "kg/m3", 0.05, 5.0,
        Source("GUM propagation with a meter good to 0.05 g/L: 7 %", "computed"),
    )  # fmt: skip
    lamp_watts: float = rule(
        "Watts of a UV lamp for 1000 L of pond", 2.0, "-", 0.1, 20.0, COMMON_PRACTICE
    )
    lamp_uvc_low: float = rule(
        "Least UV-C light of a lamp, share of its watts", 0.20, "-", 0.05, 0.6, COMMON_PRACTICE
    )
    lamp_uvc_high: float = rule(
        "Most UV-C light of a lamp, share of its watts", 0.35, "-", 0.05, 0.6, COMMON_PRACTICE
    )
    lamp_aged: float = rule(
        "Light that a lamp still gives at the end of its life", 0.7, "-", 0.3, 1.0, COMMON_PRACTICE
    )
    uvc_passes_low: float = rule(
        "Least UV-C that passes 1 cm of pond water", 0.5, "-", 0.01, 1.0, COMMON_PRACTICE
    )
    uvc_passes_high: float = rule(
        "Most UV-C that passes 1 cm of pond water", 0.9, "-", 0.01, 1.0, COMMON_PRACTICE
    )
    lamp_dose: float = rule(
        "Dose of UV-C against green water", 150.0, "J/m2", 10.0, 2000.0, COMMON_PRACTICE
    )
    lamp_life: float = rule(
        "Hours that a UV lamp is lit until it is changed",
        8000.0 * HOUR, "s", 500.0 * HOUR, 30000.0 * HOUR, COMMON_PRACTICE,
    )  # fmt: skip
    volume_mismatch: float = rule(
        "Difference of measured and computed volume worth mentioning",
        0.15, "-", 0.01, 1.0, COMMON_PRACTICE,
    )  # fmt: skip

    @property
    def porosity(self) -> float:
        """Share of gaps in the gravel [-]: the owner's own, or that of its grain size."""
        return self.gravel_porosity or porosity_of(self.gravel_grain)
