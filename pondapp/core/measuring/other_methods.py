"""Volume and flow by other means than a marked bucket: weighing, levels, a box, a lip."""

from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.measuring.estimate import Factor, FlowEstimate, flow_estimate
from pondapp.core.measuring.uncertainty import rectangular
from pondapp.core.spillway.weirs import weir_flow_rehbock

WEIGHING = Source("volume is mass over density (definition)", "computed")
TESTED_HEAD = 0.03  # m; weir formulas were fitted above it: Blevins's limit for Rehbock's


@dataclass(frozen=True, slots=True)
class WeighedVolume:
    """What a container holds, by weight.

    Attributes:
        volume: Volume [m3].
        half_width: Half width of the range it lies in [m3].
        full: Mass of the full container [kg].
        empty: Mass of the empty container [kg].
        density: Density of the water [kg/m3].
    """

    volume: float
    half_width: float
    full: float
    empty: float
    density: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("m1", "mass of the full container", self.full, "kg"),
            Term("m0", "mass of the empty container", self.empty, "kg"),
            Term("ρ", "density of the water", self.density, "kg/m3"),
        )
        volume = Term("V", "volume of the container", self.volume, "m3")
        return (Step(volume, "V = (m1 - m0) / ρ", inputs, WEIGHING),)


def weighed_volume(
    full: float, empty: float, scale_half_width: float, density: float
) -> WeighedVolume:
    """Volume of a container from its weight full and empty.

    The lift of the air, about 0.1 %, is left out: it is less than a household scale shows.

    Args:
        full: What the scale shows for the full container [kg], above the empty one to 1e5.
        empty: What it shows for the empty container [kg], 0 to 1e5; 0 on a scale set to zero.
        scale_half_width: Half width of the range in which each reading is right [kg], 0 to 100.
        density: Density of the water at its temperature [kg/m3], 900 to 1100.

    Returns:
        Volume [m3] and half width of its range [m3].

    Raises:
        OutOfRange: An argument is outside its range, or the scale is no better than the water
            in the container is heavy.

    Source:
        V = (m_full - m_empty) / ρ (definition); two readings after JCGM 100:2008, Guide to the
        expression of uncertainty in measurement, 4.3.7 and 5.1.

    Example:
        10 kg of water at 20 °C:

        >>> round(1000.0 * weighed_volume(10.5, 0.5, 0.01, 998.207).volume, 3)  # L
        10.018
    """
    require_within("weight of the empty container", empty, 0.0, 1e5, "kg")
    require_above("weight of the full container", full, empty, 1e5, "kg")
    require_within("tolerance of the scale", scale_half_width, 0.0, 100.0, "kg")
    require_within("density of the water", density, 900.0, 1100.0, "kg/m3")
    water = full - empty
    half_width = sqrt(2.0) * scale_half_width
    if half_width >= water:
        raise OutOfRange(
            "the scale is too rough to weigh {water} of water",
            water=Amount(water, "kg"),
        )
    return WeighedVolume(water / density, half_width / density, full, empty, density)


def flow_by_level_drop(
    area: float,
    area_half_width: float,
    drop: float,
    level_half_width: float,
    time: float,
    reaction_sd: float,
    coverage: float,
) -> FlowEstimate:
    """Flow out of a basin from how fast its level falls while nothing runs in.

    Args:
        area: Water area of the basin [m2], above 0 to 1e5, the same over the whole drop.
        area_half_width: Half width of the range it lies in [m2], 0 to the area.
        drop: Fall of the level, or its rise [m], above 0 to 10.
        level_half_width: Half width of the range in which each of the two readings is right
            [m], 0 to 1.
        time: Time between them [s], above 0 to 1e6.
        reaction_sd: Standard deviation of that time [s], 0 to 1e5.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The flow [m3/s] with its interval.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Q = A Δh / t (definition); two levels after JCGM 100:2008, Guide to the expression of
        uncertainty in measurement, 4.3.7 and 5.1.

    Example:
        2 m² fall by 30 mm in a minute:

        >>> found = flow_by_level_drop(2.0, 0.1, 0.030, 0.001, 60.0, 0.2, 0.95)
        >>> round(3.6e6 * found.flow)  # L/h
        3600
    """
    require_above("water area", area, 0.0, 1e5, "m2")
    require_within("tolerance of the area", area_half_width, 0.0, area, "m2")
    require_above("drop of the level", drop, 0.0, 10.0, "small")
    require_within("tolerance of the level", level_half_width, 0.0, 1.0, "small")
    require_above("time", time, 0.0, 1e6, "s")
    require_within("uncertainty of the time", reaction_sd, 0.0, 1e5, "s")
    factors = (
        Factor(Term("A", "water area", area, "m2"), 1.0, rectangular(area_half_width)),
        Factor(
            Term("d", "drop of the level", drop, "small"),
            1.0,
            sqrt(2.0) * rectangular(level_half_width),
        ),
        Factor(Term("t", "time", time, "s"), -1.0, reaction_sd),
    )
    return flow_estimate(area * drop / time, factors, coverage, "Q = A d / t", ARITHMETIC)


def flow_by_filling(
    volume: float,
    volume_half_width: float,
    porosity: float,
    porosity_half_width: float,
    time: float,
    reaction_sd: float,
    coverage: float,
) -> FlowEstimate:
    """Flow from the time it takes to fill a known space once, empty or full of gravel.

    Args:
        volume: Space between the two levels [m3], above 0 to 1e4.
        volume_half_width: Half width of the range it lies in [m3], 0 to the volume.
        porosity: Share of the space that is free for water [-], above 0 to 1; 1 without gravel.
        porosity_half_width: Half width of the range it lies in [-], 0 to the porosity.
        time: Filling time [s], above 0 to 1e6.
        reaction_sd: Standard deviation of that time [s], 0 to 1e5.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The flow [m3/s] with its interval.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Q = ε V / t, free volume over time (definition).

    Example:
        A basin of 30 L fills in a minute:

        >>> found = flow_by_filling(0.030, 0.001, 1.0, 0.0, 60.0, 0.2, 0.95)
        >>> round(3.6e6 * found.flow)  # L/h
        1800
    """
    require_above("volume", volume, 0.0, 1e4, "m3")
    require_within("tolerance of the volume", volume_half_width, 0.0, volume, "m3")
    require_above("porosity", porosity, 0.0, 1.0, "-")
    require_within("tolerance of the porosity", porosity_half_width, 0.0, porosity, "-")
    require_above("time", time, 0.0, 1e6, "s")
    require_within("uncertainty of the time", reaction_sd, 0.0, 1e5, "s")
    factors = (
        Factor(Term("V", "space that was filled", volume, "m3"), 1.0,
               rectangular(volume_half_width)),
        Factor(Term("ε", "porosity", porosity, "-"), 1.0, rectangular(porosity_half_width)),
        Factor(Term("t", "filling time", time, "s"), -1.0, reaction_sd),
    )  # fmt: skip
    return flow_estimate(porosity * volume / time, factors, coverage, "Q = ε V / t", ARITHMETIC)


def flow_over_lip(
    head: float,
    head_half_width: float,
    width: float,
    width_half_width: float,
    crest_height: float,
    formula_half_width: float,
    thin_formula_half_width: float,
    coverage: float,
) -> FlowEstimate:
    """Flow over a lip from the depth of the water behind it, for flows no bucket can catch.

    Measure the head over the lip's edge about four heads upstream: at the edge itself the
    surface has sunk already (spillway.sheet.flow_from_brink_depth).

    Args:
        head: Depth of the water over the lip's edge [m], above 0 to 2.
        head_half_width: Half width of the range it lies in [m], 0 to the head.
        width: Width of the lip that carries water [m], 0.01 to 100.
        width_half_width: Half width of the range it lies in [m], 0 to the width.
        crest_height: Height of the edge over the bottom behind it [m], 0.005 to 100.
        formula_half_width: Relative half width of the formula from 30 mm of head up [-], 0 to 1.
        thin_formula_half_width: The same below 30 mm [-], 0 to 1.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The flow [m3/s] with its wide interval, and warnings where the formula is stretched.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Rehbock's formula (weir_flow_rehbock); its uncertainty on thin sheets is a judgement.

    Example:
        20 mm of water behind a lip of half a metre, 10 cm high:

        >>> found = flow_over_lip(0.020, 0.001, 0.5, 0.005, 0.10, 0.03, 0.10, 0.95)
        >>> round(3.6e6 * found.flow, -2)  # L/h
        10200.0
    """
    found = weir_flow_rehbock(head, width, crest_height)
    require_within("tolerance of the head", head_half_width, 0.0, head, "small")
    require_within("tolerance of the width", width_half_width, 0.0, width, "width")
    require_within("uncertainty of the formula", formula_half_width, 0.0, 1.0, "-")
    require_within("uncertainty on a thin sheet", thin_formula_half_width, 0.0, 1.0, "-")
    rough = thin_formula_half_width if head < TESTED_HEAD else formula_half_width
    factors = (
        Factor(Term("h", "head over the lip", head, "small"), 1.5, rectangular(head_half_width)),
        Factor(Term("b", "width of the lip", width, "width"), 1.0, rectangular(width_half_width)),
        Factor(Term("k", "truth of the formula", 1.0, "-"), 1.0, rectangular(rough)),
    )
    return flow_estimate(found.flow, factors, coverage, found.formula, found.source, found.warnings)
