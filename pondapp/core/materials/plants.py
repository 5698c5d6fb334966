"""Plants: how many for a bog, how many bunches under water, how much shade on the surface."""

from dataclasses import dataclass
from math import ceil

from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term

ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class PlantCount:
    """A number of plants for an area.

    Attributes:
        count: Whole plants or bunches.
        area: Area to plant [m2].
        per_area: Plants per area [1/m2].
    """

    count: int
    area: float
    per_area: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("A", "area to plant", self.area, "m2"),
            Term("n", "plants per area", self.per_area, "1/m2"),
        )
        count = Term("N", "plants", float(self.count), "-")
        return (Step(count, "N = n A, rounded up", inputs, COMMON_PRACTICE),)


def plants_for_area(area: float, per_area: float) -> PlantCount:
    """Plants for a bog, or bunches of submerged plants for a pond.

    Args:
        area: Area to plant [m2], above 0 to 250000.
        per_area: Plants or bunches per area [1/m2], above 0 to 200.

    Returns:
        Number of plants [-], rounded up to whole ones.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        n = A d, rounded up; plants per area: common practice.

    Example:
        Six plants on each of 2.5 m²:

        >>> plants_for_area(2.5, 6.0).count
        15
    """
    require_above("area to plant", area, 0.0, 250000.0, "m2")
    require_above("plants per area", per_area, 0.0, 200.0, "1/m2")
    return PlantCount(ceil(area * per_area * (1.0 - ROUNDING)), area, per_area)


@dataclass(frozen=True, slots=True)
class ShadedArea:
    """How much of the surface leaves should cover in summer.

    Attributes:
        low: Least area [m2].
        high: Most area [m2].
        surface: Area of the water [m2].
        share_low: Least share [-].
        share_high: Most share [-].
    """

    low: float
    high: float
    surface: float
    share_low: float
    share_high: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        surface = Term("A", "area of the water", self.surface, "m2")
        return tuple(
            Step(
                Term("As", phrase("{name} area in shade", name=name), area, "m2"),
                "As = s A",
                (Term("s", phrase("{name} share in shade", name=name), share, "-"), surface),
                COMMON_PRACTICE,
            )
            for name, area, share in (
                ("least", self.low, self.share_low),
                ("most", self.high, self.share_high),
            )
        )


def shaded_area(surface: float, share_low: float, share_high: float) -> ShadedArea:
    """Area of the surface that leaves should cover in summer.

    Args:
        surface: Area of the water [m2], above 0 to 250000.
        share_low: Least share [-], 0 to 1.
        share_high: Most share [-], from the least to 1.

    Returns:
        Least and most area [m2].

    Raises:
        OutOfRange: A number is outside its range, or the least is above the most.

    Source:
        A = s A_surface; half to two thirds of the surface: common practice.

    Example:
        Half to seven tenths of 12 m²:

        >>> shade = shaded_area(12.0, 0.50, 0.70)
        >>> round(shade.low, 1), round(shade.high, 1)
        (6.0, 8.4)
    """
    require_above("area of the water", surface, 0.0, 250000.0, "m2")
    require_within("least share in shade", share_low, 0.0, 1.0, "-")
    require_within("most share in shade", share_high, 0.0, 1.0, "-")
    if share_low > share_high:
        raise OutOfRange("the least share in shade is more than the most")
    return ShadedArea(share_low * surface, share_high * surface, surface, share_low, share_high)
