"""Pressure that a clean bed of gravel takes from the water."""

from dataclasses import dataclass

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.filters.bed import upflow_velocity

ERGUN = Source("Ergun, Chem. Eng. Prog. 48 (1952) 89, as printed with fluids 1.3.1", "published")
ERGUN_LAMINAR, ERGUN_TURBULENT = 150.0, 1.75
CARMAN = 180.0
# Reynolds number of the bed over (1 - porosity) between which Ergun's data lie.
TESTED_LOW, TESTED_HIGH = 1.0, 2500.0


def _checked(
    grain: float, porosity: float, velocity: float, depth: float, viscosity: float
) -> None:
    require_within("grain size", grain, 1e-5, 0.5, "m")
    require_within("porosity", porosity, 0.2, 0.9, "-")
    require_within("upflow velocity", velocity, 0.0, 1.0, "m/s")
    require_above("depth of the gravel", depth, 0.0, 5.0, "m")
    require_within("viscosity of the water", viscosity, 1e-4, 1e-2, "Pa*s")


def grain_reynolds(grain: float, velocity: float, density: float, viscosity: float) -> float:
    """Reynolds number of the flow round the grains.

    Args:
        grain: Grain size [m], 1e-5 to 0.5.
        velocity: Flow per area of bed [m/s], 0 to 1.
        density: Density of the water [kg/m3], 900 to 1100.
        viscosity: Dynamic viscosity of the water [Pa*s], 1e-4 to 1e-2.

    Returns:
        Reynolds number [-].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        ρ v d / μ (definition).
    """
    require_within("grain size", grain, 1e-5, 0.5, "m")
    require_within("upflow velocity", velocity, 0.0, 1.0, "m/s")
    require_within("density of the water", density, 900.0, 1100.0, "kg/m3")
    require_within("viscosity of the water", viscosity, 1e-4, 1e-2, "Pa*s")
    return density * velocity * grain / viscosity


def pressure_loss_ergun(
    grain: float,
    porosity: float,
    velocity: float,
    depth: float,
    density: float,
    viscosity: float,
) -> float:
    """Pressure loss through a clean bed, slow or fast.

    Args:
        grain: Diameter of the sphere of the grains' volume [m], 1e-5 to 0.5.
        porosity: Share of the volume that is free for water [-], 0.2 to 0.9.
        velocity: Flow per area of bed [m/s], 0 to 1.
        depth: Depth of the gravel [m], above 0 to 5.
        density: Density of the water [kg/m3], 900 to 1100.
        viscosity: Dynamic viscosity of the water [Pa*s], 1e-4 to 1e-2.

    Returns:
        Pressure loss [Pa]; fitted for Reynolds numbers over (1 - ε) from 1 to about 2500.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Ergun, Fluid flow through packed columns, Chem. Eng. Prog. 48 (1952) 89, as
        printed with fluids 1.3.1 and checked against it in tests/published.
    """
    _checked(grain, porosity, velocity, depth, viscosity)
    require_within("density of the water", density, 900.0, 1100.0, "kg/m3")
    solid = 1.0 - porosity
    slow = ERGUN_LAMINAR * viscosity * solid**2 * velocity / (porosity**3 * grain**2)
    fast = ERGUN_TURBULENT * density * solid * velocity**2 / (porosity**3 * grain)
    return depth * (slow + fast)


def pressure_loss_carman(
    grain: float, porosity: float, velocity: float, depth: float, viscosity: float
) -> float:
    """Pressure loss through a clean bed of fine grains in slow flow.

    Args:
        grain: Diameter of the sphere of the grains' volume [m], 1e-5 to 0.5.
        porosity: Share of the volume that is free for water [-], 0.2 to 0.9.
        velocity: Flow per area of bed [m/s], 0 to 1.
        depth: Depth of the gravel [m], above 0 to 5.
        viscosity: Dynamic viscosity of the water [Pa*s], 1e-4 to 1e-2.

    Returns:
        Pressure loss [Pa]; good for grain Reynolds numbers below about 1.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Kozeny and Carman with the constant 180; any textbook of packed beds.
    """
    _checked(grain, porosity, velocity, depth, viscosity)
    return CARMAN * viscosity * (1.0 - porosity) ** 2 * velocity * depth / (porosity**3 * grain**2)


@dataclass(frozen=True, slots=True)
class BedLoss:
    """What a clean bed takes from the water.

    Attributes:
        head: Loss as a height of water [m].
        pressure: Loss as a pressure [Pa].
        velocity: Flow per area [m/s].
        reynolds: Reynolds number over (1 - porosity) [-].
        warnings: When the gravel is fine or the formula stretched; mostly empty.
        inputs: What went into the formula.
    """

    head: float
    pressure: float
    velocity: float
    reynolds: float
    warnings: tuple[Message, ...]
    inputs: tuple[Term, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow, area, density, *rest = self.inputs
        velocity = Term("v", "flow per area of bed", self.velocity, "m/s")
        pressure = Term("Δp", "pressure loss", self.pressure, "Pa")
        head = Term("h", "loss as a height of water", self.head, "m")
        return (
            Step(velocity, "v = Q / A", (flow, area), ARITHMETIC),
            Step(
                pressure,
                "Δp = L (150 μ (1 - ε)² v / (ε³ d²) + 1.75 ρ (1 - ε) v² / (ε³ d))",
                (velocity, density, *rest),
                ERGUN,
            ),
            Step(
                head,
                "h = Δp / (ρ g)",
                (pressure, density, Term("g", "gravity", GRAVITY, "m/s2")),
                ARITHMETIC,
            ),
        )


def bed_loss(
    flow: float,
    area: float,
    depth: float,
    grain: float,
    porosity: float,
    density: float,
    viscosity: float,
    caution: float,
) -> BedLoss:
    """Head that a clean bed takes; dirt and roots take more.

    Args:
        flow: Flow through the bed [m3/s], 0 to 10.
        area: Area of the bed [m2], 1e-6 to 1e4.
        depth: Depth of the gravel [m], above 0 to 5.
        grain: Grain size [m], 1e-5 to 0.5.
        porosity: Share of the volume that is free for water [-], 0.2 to 0.9.
        density: Density of the water [kg/m3], 900 to 1100.
        viscosity: Dynamic viscosity of the water [Pa*s], 1e-4 to 1e-2.
        caution: Loss from which a word is due [m], above 0 to 10.

    Returns:
        Loss [m], [Pa], with a caution where it is large or the formula is outside its data.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Ergun's equation (pressure_loss_ergun); the caution is common practice.
    """
    require_above("loss worth a caution", caution, 0.0, 10.0, "m")
    velocity = upflow_velocity(flow, area)
    pressure = pressure_loss_ergun(grain, porosity, velocity, depth, density, viscosity)
    head = pressure / (density * GRAVITY)
    reynolds = grain_reynolds(grain, velocity, density, viscosity) / (1.0 - porosity)
    warnings = []
    if head >= caution:
        warnings.append(
            Message(
                "gravel of {grain} already holds the water up by {head} when clean: use coarser "
                "gravel, a larger bed or less flow",
                {"grain": Amount(grain, "m"), "head": Amount(head, "m")},
            )
        )
    if reynolds > TESTED_HIGH or 0.0 < reynolds < TESTED_LOW:
        warnings.append(
            Message(
                "the formula was fitted for Reynolds numbers from {low} to {high}; here it is "
                "{here}, so the loss is rough",
                {
                    "low": Amount(TESTED_LOW, "-"),
                    "high": Amount(TESTED_HIGH, "-"),
                    "here": Amount(reynolds, "-"),
                },
            )
        )
    inputs = (
        Term("Q", "flow through the bed", flow, "m3/s"),
        Term("A", "area of the bed", area, "m2"),
        Term("ρ", "density of the water", density, "kg/m3"),
        Term("L", "depth of the gravel", depth, "m"),
        Term("d", "grain size", grain, "m"),
        Term("ε", "porosity", porosity, "-"),
        Term("μ", "viscosity of the water", viscosity, "Pa*s"),
    )
    return BedLoss(head, pressure, velocity, reynolds, tuple(warnings), inputs)
