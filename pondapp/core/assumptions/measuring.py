"""Assumptions about timing, containers and readings."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.working import COMMON_PRACTICE, Source


@dataclass(frozen=True, slots=True)
class MeasuringAssumptions:
    """Assumptions about timing, containers and readings."""

    reaction_sd: float = rule(
        "Scatter of a start and stop by hand", 0.10, "s", 0.01, 1.0,
        Source("Am. J. Phys. 87 (2019) 110, abstract: 4304 hand times", "published"),
    )  # fmt: skip
    shortest_fill: float = rule(
        "Shortest fill worth timing", 3.0, "s", 0.5, 60.0,
        Source("connectedwater.gov.au, volumetric flow: at least 3 s", "published"),
    )  # fmt: skip
    coverage: float = rule("Coverage of an interval", 0.95, "-", 0.5, 0.999, COMMON_PRACTICE)
    container_tolerance: float = rule(
        "Tolerance of a container's mark, either way", 0.02, "-", 0.0, 0.5, COMMON_PRACTICE
    )
    slip_chance: float = rule(
        "Chance of calling a good fill a slip", 0.01, "-", 0.001, 0.2, COMMON_PRACTICE
    )
    most_runs: float = rule(
        "Most fills that anyone will time", 20.0, "-", 3.0, 200.0, COMMON_PRACTICE
    )
    small_sheet_uncertainty: float = rule(
        "Uncertainty of a weir formula on a thin sheet, either way",
        0.30, "-", 0.05, 1.0, COMMON_PRACTICE,
    )  # fmt: skip
    hose_flow_give: float = rule(
        "How far a hose's flow by the bucket may be off, either way",
        0.05, "-", 0.0, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    salt_mass_give: float = rule(
        "How far the mass of salt may be off, either way", 0.01, "-", 0.0, 0.5, COMMON_PRACTICE
    )
    salt_meter_give: float = rule(
        "How far a salt meter may be off, either way", 0.05, "kg/m3", 0.0, 5.0, COMMON_PRACTICE
    )
    water_meter_give: float = rule(
        "How far a water meter may be off, either way", 0.02, "-", 0.0, 0.5,
        Source("ISO 4064-1, class 2 at usual flows", "from memory"),
    )  # fmt: skip
    weir_uncertainty: float = rule(
        "Uncertainty of a weir formula within its range, either way",
        0.10, "-", 0.01, 1.0, COMMON_PRACTICE,
    )  # fmt: skip
