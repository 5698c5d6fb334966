"""Assumptions about liner, gravel and plants."""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.working import COMMON_PRACTICE


@dataclass(frozen=True, slots=True)
class MaterialAssumptions:
    """Assumptions about liner, gravel and plants."""

    liner_overlap: float = rule(
        "Liner over the rim, each side", 0.30, "m", 0.0, 2.0, COMMON_PRACTICE
    )
    gravel_bulk_density: float = rule(
        "Weight of loose dry gravel", 1520.0, "kg/m3", 500.0, 2500.0, COMMON_PRACTICE
    )
    bag_mass: float = rule("Weight of a bag of gravel", 20.0, "kg", 1.0, 2000.0, COMMON_PRACTICE)
    gravel_spare: float = rule("Gravel to spare", 0.05, "-", 0.0, 0.5, COMMON_PRACTICE)
    plants_per_bog_area: float = rule(
        "Plants per area of bog", 6.0, "1/m2", 0.5, 50.0, COMMON_PRACTICE
    )
    bunches_per_area: float = rule(
        "Bunches of submerged plants per area of open water",
        4.5, "1/m2", 0.5, 50.0, COMMON_PRACTICE,
    )  # fmt: skip
    plant_eater_length: float = rule(
        "Length of fish from which they eat submerged plants",
        0.30, "m", 0.05, 2.0, COMMON_PRACTICE,
    )  # fmt: skip
    cover_min: float = rule(
        "Least share of the surface shaded in summer", 0.5, "-", 0.0, 1.0, COMMON_PRACTICE
    )
    cover_max: float = rule(
        "Most share of the surface shaded in summer", 0.7, "-", 0.0, 1.0, COMMON_PRACTICE
    )
