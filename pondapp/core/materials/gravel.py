"""Gravel to order: volume, weight, bags."""

from dataclasses import dataclass
from math import ceil

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import ARITHMETIC, COMMON_PRACTICE, Step, Term

# A weight that is a whole number of bags but for the rounding of a float is that many bags.
ROUNDING = 1e-9


@dataclass(frozen=True, slots=True)
class GravelOrder:
    """Gravel to order for a bed.

    Attributes:
        volume: Volume to order, with what is to spare [m3].
        mass: Its weight [kg].
        bags: Whole bags.
        bed_volume: Volume of the bed [m3].
        spare: Share to spare [-].
        density: Density of the gravel as it lies [kg/m3].
        bag_mass: Weight of a bag [kg].
    """

    volume: float
    mass: float
    bags: int
    bed_volume: float
    spare: float
    density: float
    bag_mass: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        bed = Term("Vb", "volume of the bed", self.bed_volume, "m3")
        spare = Term("s", "share to spare", self.spare, "-")
        volume = Term("V", "gravel to order", self.volume, "m3")
        density = Term("ρ", "weight of a volume of gravel", self.density, "kg/m3")
        mass = Term("m", "weight of the gravel", self.mass, "kg")
        bag = Term("mb", "weight of a bag", self.bag_mass, "kg")
        bags = Term("n", "bags", float(self.bags), "-")
        return (
            Step(volume, "V = Vb (1 + s)", (bed, spare), COMMON_PRACTICE),
            Step(mass, "m = ρ V", (density, volume), ARITHMETIC),
            Step(bags, "n = m / mb, rounded up", (mass, bag), ARITHMETIC),
        )


def gravel_order(bed_volume: float, density: float, bag_mass: float, spare: float) -> GravelOrder:
    """Gravel to order for a bed.

    Args:
        bed_volume: Outside volume of the bed [m3], above 0 to 1e4.
        density: Density of the gravel as it lies [kg/m3], 100 to 5000.
        bag_mass: Weight of a bag [kg], 0.1 to 5000.
        spare: Share to spare [-], 0 to 1.

    Returns:
        Volume [m3], weight [kg] and bags [-], rounded up to whole ones.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        m = ρ V (1 + spare), bags = m / m_bag, rounded up; the spare is common practice.

    Example:
        A bed of 1.8 m³ in bags of 25 kg, nothing to spare:

        >>> order = gravel_order(1.8, 1520.0, 25.0, 0.0)
        >>> round(order.mass), order.bags
        (2736, 110)
    """
    require_above("volume of the bed", bed_volume, 0.0, 1e4, "m3")
    require_within("weight of a volume of gravel", density, 100.0, 5000.0, "kg/m3")
    require_within("weight of a bag", bag_mass, 0.1, 5000.0, "kg")
    require_within("gravel to spare", spare, 0.0, 1.0, "-")
    volume = bed_volume * (1.0 + spare)
    mass = density * volume
    bags = ceil(mass / bag_mass * (1.0 - ROUNDING))
    return GravelOrder(volume, mass, bags, bed_volume, spare, density, bag_mass)
