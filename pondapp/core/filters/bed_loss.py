"""Head that a clean bed of gravel takes from the water."""

from dataclasses import dataclass

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term

ERGUN = Source("Ergun, Chem. Eng. Prog. 48 (1952) 89, as coded in fluids 1.3.1", "published")
LAMINAR, TURBULENT = 150.0, 1.75


@dataclass(frozen=True, slots=True)
class BedLoss:
    """What a clean bed takes from the water.

    Attributes:
        head: Loss as a height of water [m].
        pressure: Loss as a pressure [Pa].
        velocity: Flow per area of bed [m/s].
        inputs: What went into it.
    """

    head: float
    pressure: float
    velocity: float
    inputs: tuple[Term, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow, area, *rest = self.inputs
        density = rest[-2]
        velocity = Term("v", "flow over area of the bed", self.velocity, "m/s")
        pressure = Term("p", "pressure that the bed takes", self.pressure, "Pa")
        head = Term("h", "head over the bed", self.head, "small")
        formula = "p = L (150 μ (1 - ε)² v / (ε³ d²) + 1.75 ρ (1 - ε) v² / (ε³ d))"
        return (
            Step(velocity, "v = Q / A", (flow, area), ARITHMETIC),
            Step(pressure, formula, (velocity, *rest), ERGUN),
            Step(head, "h = p / (ρ g)", (pressure, density), ARITHMETIC),
        )


def bed_loss(
    flow: float,
    area: float,
    depth: float,
    grain: float,
    porosity: float,
    density: float,
    viscosity: float,
) -> BedLoss:
    """Head that a clean bed of gravel takes from water that rises through it.

    Args:
        flow: Flow through the bed [m3/s], 0 to 10.
        area: Area of the bed seen from above [m2], 1e-6 to 1e5.
        depth: Depth of the gravel [m], above 0 to 5.
        grain: Grain size [m], 1e-5 to 0.5.
        porosity: Share of the volume that is free for water [-], 0.2 to 0.9.
        density: Density of the water [kg/m3], 900 to 1100.
        viscosity: Dynamic viscosity of the water [Pa*s], 1e-4 to 1e-2.

    Returns:
        Head [m] of a clean bed; roots and dirt multiply it.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Δp = L (150 μ (1 - ε)² v / (ε³ d²) + 1.75 ρ (1 - ε) v² / (ε³ d)): S. Ergun, Fluid flow
        through packed columns, Chem. Eng. Prog. 48 (1952) 89, as coded in fluids 1.3.1
        (packed_bed.Ergun); fitted for Reynolds numbers over 1 - ε from 1 to about 2500.

    Example:
        1 mm/s through 60 cm of gravel of 1 cm, in millimetres:

        >>> round(1000 * bed_loss(1e-3, 1.0, 0.6, 0.010, 0.38, 998.2, 1.0016e-3).head, 2)
        0.77
    """
    require_within("flow through the bed", flow, 0.0, 10.0, "m3/s")
    require_within("area of the bed", area, 1e-6, 1e5, "m2")
    require_above("depth of the gravel", depth, 0.0, 5.0, "m")
    require_within("grain size", grain, 1e-5, 0.5, "m")
    require_within("porosity", porosity, 0.2, 0.9, "-")
    require_within("density of the water", density, 900.0, 1100.0, "kg/m3")
    require_within("viscosity of the water", viscosity, 1e-4, 1e-2, "Pa*s")
    velocity = flow / area
    solid = 1.0 - porosity
    slow = LAMINAR * viscosity * solid**2 * velocity / (porosity**3 * grain**2)
    fast = TURBULENT * density * solid * velocity**2 / (porosity**3 * grain)
    pressure = depth * (slow + fast)
    inputs = (
        Term("Q", "flow through the bed", flow, "m3/s"),
        Term("A", "area of the bed", area, "m2"),
        Term("L", "depth of the gravel", depth, "m"),
        Term("d", "grain size", grain, "small"),
        Term("ε", "share of gaps", porosity, "-"),
        Term("ρ", "density of the water", density, "kg/m3"),
        Term("μ", "viscosity of the water", viscosity, "Pa*s"),
    )
    return BedLoss(pressure / (density * GRAVITY), pressure, velocity, inputs)
