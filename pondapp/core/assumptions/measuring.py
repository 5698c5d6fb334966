"""Assumptions about timing, containers and readings."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import DAY
from pondapp.core.base.working import COMMON_PRACTICE, Source

SIMULATED = Source(
    "set so that intervals of simulated fills hold, for flows that vary by 0 to 3 %", "computed"
)


@dataclass(frozen=True, slots=True)
class MeasuringAssumptions:
    """Assumptions about timing, containers and readings."""

    reaction_sd: float = rule(
        "Scatter of a start and stop by hand", 0.10, "s", 0.01, 1.0,
        Source("Am. J. Phys. 87 (2019) 110, abstract: 4304 hand times", "published"),
    )  # fmt: skip
    flow_variation: float = rule(
        "Scatter of flow and filling from one fill to the next", 0.016, "-", 0.0, 0.2, SIMULATED,
    )  # fmt: skip
    scatter_weight: float = rule(
        "How many fills that scatter counts for, beside those that were timed",
        4.0, "-", 1.0, 100.0, SIMULATED,
    )  # fmt: skip
    sure: float = rule(
        "Chance from which a flow counts as right or wrong", 0.95, "-", 0.8, 0.999,
        COMMON_PRACTICE,
    )  # fmt: skip
    widest_interval: float = rule(
        "Half an interval over its flow, beyond which nothing is decided", 0.10, "-", 0.01, 1.0,
        COMMON_PRACTICE,
    )  # fmt: skip
    shortest_fill: float = rule(
        "Shortest fill worth timing", 3.0, "s", 0.5, 60.0,
        Source("connectedwater.gov.au, volumetric flow: at least 3 s", "published"),
    )  # fmt: skip
    coverage: float = rule("Coverage of an interval", 0.95, "-", 0.5, 0.999, COMMON_PRACTICE)
    container_tolerance: float = rule(
        "Tolerance of a container's mark, either way", 0.02, "-", 0.0, 0.5, COMMON_PRACTICE
    )
    outlier_chance: float = rule(
        "Chance of calling a good fill a slip", 0.01, "-", 0.001, 0.2, COMMON_PRACTICE
    )
    most_runs: float = rule(
        "Most fills that anyone will time", 20.0, "-", 3.0, 200.0, COMMON_PRACTICE
    )
    small_sheet_uncertainty: float = rule(
        "Uncertainty of a weir formula on a thin sheet, either way",
        0.30, "-", 0.05, 1.0, COMMON_PRACTICE,
    )  # fmt: skip
    hose_flow_tolerance: float = rule(
        "How far a hose's flow by the bucket may be off, either way",
        0.05, "-", 0.0, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    salt_mass_tolerance: float = rule(
        "How far the mass of salt may be off, either way", 0.01, "-", 0.0, 0.5, COMMON_PRACTICE
    )
    salt_meter_tolerance: float = rule(
        "How far a salt meter may be off, either way", 0.05, "kg/m3", 0.0, 5.0, COMMON_PRACTICE
    )
    water_meter_tolerance: float = rule(
        "How far a water meter may be off, either way", 0.02, "-", 0.0, 0.5,
        Source("ISO 4064-1:2014, class 2 at usual flows, as quoted", "published"),
    )  # fmt: skip
    weir_uncertainty: float = rule(
        "Uncertainty of a weir formula within its range, either way",
        0.10, "-", 0.01, 1.0, COMMON_PRACTICE,
    )  # fmt: skip
    area_tolerance: float = rule(
        "How far a water area by tape may be off, either way",
        0.05, "-", 0.0, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    level_tolerance: float = rule(
        "How far a level read on a ruler may be off, either way",
        0.001, "m", 0.0001, 0.05, COMMON_PRACTICE,
    )  # fmt: skip
    space_tolerance: float = rule(
        "How far the size of a box or bed may be off, either way",
        0.05, "-", 0.0, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    porosity_tolerance: float = rule(
        "How far the share of gaps in gravel may be off, either way",
        0.05, "-", 0.0, 0.3, COMMON_PRACTICE,
    )  # fmt: skip
    lip_width_tolerance: float = rule(
        "How far the width of a lip may be off, either way", 0.005, "m", 0.0, 1.0, COMMON_PRACTICE
    )
    scale_tolerance: float = rule(
        "How far a household scale may be off, either way", 0.05, "kg", 0.001, 10.0, COMMON_PRACTICE
    )
    flow_meter_tolerance: float = rule(
        "How far a simple flow meter may be off, either way",
        0.05, "-", 0.001, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    same_setting: float = rule(
        "Time within which two readings at one place are compared",
        DAY, "s", 60.0, 365.0 * DAY, COMMON_PRACTICE,
    )  # fmt: skip
