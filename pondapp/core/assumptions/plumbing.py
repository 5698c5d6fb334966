"""Assumptions about pipes, hoses and fittings."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.constants import COLDEST, WARMEST
from pondapp.core.base.working import COMMON_PRACTICE, Source

FOOT_A_SECOND = 0.3048


@dataclass(frozen=True, slots=True)
class PlumbingAssumptions:
    """Assumptions about pipes, hoses and fittings."""

    smooth_roughness: float = rule(
        "Roughness of smooth plastic pipe and hose", 1.5e-6, "m", 0.0, 1e-4,
        Source("a drawn tube's roughness; printed values are from 0 to 1.5 µm", "published"),
    )  # fmt: skip
    ribbed_relative_roughness: float = rule(
        "Roughness of ribbed hose as a share of its bore", 0.03, "-", 0.005, 0.05,
        Source("two to three times the loss of a smooth bore", "rule of thumb"),
    )  # fmt: skip
    velocity_max: float = rule(
        "Fastest water in a pressure hose", 5.0 * FOOT_A_SECOND, "m/s", 0.3, 5.0, COMMON_PRACTICE
    )
    water_temperature: float = rule(
        "Water temperature for sizing", 288.15, "K", COLDEST, WARMEST, COMMON_PRACTICE
    )
    assumed_length: float = rule(
        "Length of hose to assume where none is entered", 3.0, "m", 0.1, 100.0, COMMON_PRACTICE
    )
    assumed_lift: float = rule(
        "Lift to assume where none is entered", 1.0, "m", 0.0, 10.0, COMMON_PRACTICE
    )
