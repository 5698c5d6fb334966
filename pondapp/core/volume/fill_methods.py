"""Volume of a pond by what goes into it: water by the clock, or salt."""

from dataclasses import dataclass
from math import hypot

from pondapp.core.base.errors import NoSolution, require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term

DILUTION = Source("conservation of the salt's mass", "computed")
PROPAGATION = Source("JCGM 100:2008, 5.1, and NIST TN 1297 (propagation)", "published")
ROUGH = 0.30  # relative; beyond it the linear propagation itself is no longer good


@dataclass(frozen=True, slots=True)
class FoundVolume:
    """A volume that was measured.

    Attributes:
        volume: Volume [m3].
        standard_uncertainty: Of the volume [m3].
        warnings: What makes it rougher than it need be; mostly empty.
        inputs: What went in.
        formula: How they were put together.
        source: Where the formula is from.
    """

    volume: float
    standard_uncertainty: float
    warnings: tuple[Message, ...]
    inputs: tuple[Term, ...]
    formula: str
    source: Source

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        volume = Term("V", "water in the pond", self.volume, "m3")
        doubt = Term("u(V)", "standard uncertainty", self.standard_uncertainty, "m3")
        return (
            Step(volume, self.formula, self.inputs, self.source),
            Step(doubt, "u(V) by propagation of the inputs' own", (volume,), PROPAGATION),
        )


def _rough(volume: float, relative: float) -> tuple[Message, ...]:
    if relative <= ROUGH:
        return ()
    return (
        Message(
            "the volume of {volume} is known no better than by about {share} of itself",
            {"volume": Amount(volume, "m3"), "share": Amount(relative, "share")},
        ),
    )


def volume_by_timed_filling(
    flow_before: float,
    flow_before_uncertainty: float,
    flow_after: float,
    flow_after_uncertainty: float,
    time: float,
    time_uncertainty: float,
) -> FoundVolume:
    """Volume from how long a steady hose takes to fill the pond.

    The hose is timed into a bucket before and after; the mean of both counts. Half their
    difference is taken as the limit of what the flow may have strayed in between.

    Args:
        flow_before: Flow when the filling begins [m3/s], above 0 to 1.
        flow_before_uncertainty: Its standard uncertainty [m3/s], 0 to the flow.
        flow_after: Flow when it ends [m3/s], above 0 to 1.
        flow_after_uncertainty: Its standard uncertainty [m3/s], 0 to the flow.
        time: Filling time [s], above 0 to 3e6.
        time_uncertainty: Its standard uncertainty [s], 0 to the time.

    Returns:
        Volume [m3] with its standard uncertainty [m3].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        V = t (Q_before + Q_after) / 2 (definition); JCGM 100:2008, Guide to the expression of
        uncertainty in measurement, 4.3.7 and 5.1.

    Example:
        Four hours of a hose that gives 0.3 L/s:

        >>> round(volume_by_timed_filling(3e-4, 0.0, 3e-4, 0.0, 14400.0, 0.0).volume, 2)
        4.32
    """
    require_above("flow before", flow_before, 0.0, 1.0, "m3/s")
    require_above("flow after", flow_after, 0.0, 1.0, "m3/s")
    require_within("its uncertainty", flow_before_uncertainty, 0.0, flow_before, "m3/s")
    require_within("its uncertainty", flow_after_uncertainty, 0.0, flow_after, "m3/s")
    require_above("filling time", time, 0.0, 3e6, "s")
    require_within("uncertainty of the time", time_uncertainty, 0.0, time, "s")
    flow = 0.5 * (flow_before + flow_after)
    strayed = 0.5 * abs(flow_after - flow_before) / 3.0**0.5
    doubt = hypot(0.5 * flow_before_uncertainty, 0.5 * flow_after_uncertainty, strayed)
    relative = hypot(doubt / flow, time_uncertainty / time)
    volume = flow * time
    inputs = (
        Term("Q1", "flow before", flow_before, "m3/s"),
        Term("Q2", "flow after", flow_after, "m3/s"),
        Term("t", "filling time", time, "s"),
    )
    warnings = _rough(volume, relative)
    return FoundVolume(
        volume, relative * volume, warnings, inputs, "V = (Q1 + Q2) t / 2", ARITHMETIC
    )


def volume_by_salt(
    mass: float,
    mass_uncertainty: float,
    before: float,
    after: float,
    meter_uncertainty: float,
    rise_wanted: float,
) -> FoundVolume:
    """Volume from how much a weighed dose of salt raises the salt in the water.

    The salt is pure, all of it is dissolved and mixed, none is lost in between, and the meter
    shows salt and not conductivity.

    Args:
        mass: Salt that was added [kg], above 0 to 1e5.
        mass_uncertainty: Its standard uncertainty [kg], 0 to the mass.
        before: Salt in the water before [kg/m3], 0 to 40.
        after: Salt in the water after [kg/m3], above the first by 1e-6 at least, to 40.
        meter_uncertainty: Standard uncertainty of one reading [kg/m3], 0 to 10.
        rise_wanted: Least rise that gives a useful answer [kg/m3], above 0 to 40.

    Returns:
        Volume [m3] with its standard uncertainty [m3], and warnings when the rise is small.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: The rise is no larger than its own uncertainty.

    Source:
        V = m / (C2 - C1), conservation of mass; uncertainty after JCGM 100:2008, Guide to the
        expression of uncertainty in measurement, 5.1.

    Example:
        5 kg of salt raise the pond from 0.30 to 0.80 g/L:

        >>> round(volume_by_salt(5.0, 0.0, 0.30, 0.80, 0.0, 0.5).volume, 2)
        10.0
    """
    require_above("mass of the salt", mass, 0.0, 1e5, "kg")
    require_within("uncertainty of the mass", mass_uncertainty, 0.0, mass, "kg")
    require_within("salt before", before, 0.0, 40.0, "kg/m3")
    require_above("salt after", after, before, 40.0, "kg/m3")
    require_within("uncertainty of the meter", meter_uncertainty, 0.0, 10.0, "kg/m3")
    require_above("rise wanted", rise_wanted, 0.0, 40.0, "kg/m3")
    rise = require_within("rise of the salt", after - before, 1e-6, 40.0, "kg/m3")
    rise_doubt = hypot(meter_uncertainty, meter_uncertainty)
    if rise_doubt >= rise:
        raise NoSolution(
            "the rise of {rise} is lost in the meter's own uncertainty of {doubt}",
            rise=Amount(rise, "kg/m3"),
            doubt=Amount(rise_doubt, "kg/m3"),
        )
    volume = mass / rise
    relative = hypot(mass_uncertainty / mass, rise_doubt / rise)
    warnings = _rough(volume, relative)
    # Readings carry a rounding of their own: a rise just as wanted is enough.
    if rise < rise_wanted * (1.0 - 1e-9):
        warnings = (
            *warnings,
            Message(
                "the salt rose by {rise} only; a rise of {wanted} gives a surer volume, if fish "
                "and plants bear it",
                {"rise": Amount(rise, "kg/m3"), "wanted": Amount(rise_wanted, "kg/m3")},
            ),
        )
    inputs = (
        Term("m", "salt added", mass, "kg"),
        Term("C1", "salt before", before, "kg/m3"),
        Term("C2", "salt after", after, "kg/m3"),
    )
    return FoundVolume(volume, relative * volume, warnings, inputs, "V = m / (C2 - C1)", DILUTION)
