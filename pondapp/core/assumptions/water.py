"""Assumptions about the water: the ranges in which fish and filter do well.

Limits of un-ionised ammonia, oxygen, salt and warmth stand with the fish, in stock.py.
"""

from dataclasses import dataclass

from pondapp.core.assumptions.rule import rule
from pondapp.core.base.working import COMMON_PRACTICE

MILLIGRAM_A_LITRE = 1e-3  # kg/m3


@dataclass(frozen=True, slots=True)
class WaterAssumptions:
    """Assumptions about the water."""

    volume_most: float = rule(
        "Water beyond which hardly a pond is a garden pond", 300.0, "m3", 1.0, 1e5, COMMON_PRACTICE
    )
    ph_low: float = rule("Lowest pH that suits a pond", 6.8, "-", 5.0, 8.0, COMMON_PRACTICE)
    ph_high: float = rule("Highest pH that suits a pond", 8.6, "-", 7.0, 10.0, COMMON_PRACTICE)
    ph_usual: float = rule(
        "pH to reckon with where none is read", 8.0, "-", 6.0, 10.0, COMMON_PRACTICE
    )
    nitrite_most: float = rule(
        "Most nitrite that fish can take for long",
        0.2 * MILLIGRAM_A_LITRE, "kg/m3", 1e-5, 5e-3, COMMON_PRACTICE,
    )  # fmt: skip
    ph_danger_low: float = rule(
        "pH below which fish are in danger", 6.0, "-", 4.0, 7.0, COMMON_PRACTICE
    )
    ph_danger_high: float = rule(
        "pH above which fish are in danger", 9.5, "-", 8.0, 11.0, COMMON_PRACTICE
    )
    nitrite_danger: float = rule(
        "Nitrite from which fish are in danger",
        1.0 * MILLIGRAM_A_LITRE, "kg/m3", 1e-5, 1e-2, COMMON_PRACTICE,
    )  # fmt: skip
    nitrate_most: float = rule(
        "Most nitrate before algae thrive on it",
        50.0 * MILLIGRAM_A_LITRE, "kg/m3", 1e-3, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    general_hardness_low: float = rule(
        "Lowest general hardness, as calcium carbonate",
        70.0 * MILLIGRAM_A_LITRE, "kg/m3", 0.0, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
    general_hardness_high: float = rule(
        "Highest general hardness, as calcium carbonate",
        360.0 * MILLIGRAM_A_LITRE, "kg/m3", 0.05, 2.0, COMMON_PRACTICE,
    )  # fmt: skip
    carbonate_hardness_low: float = rule(
        "Lowest carbonate hardness, as calcium carbonate",
        70.0 * MILLIGRAM_A_LITRE, "kg/m3", 0.0, 0.5, COMMON_PRACTICE,
    )  # fmt: skip
