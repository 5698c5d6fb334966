"""What head a pump makes at which flow: from its label or from its printed curve."""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from pondapp.core.base.errors import (
    NotEnoughReadings,
    OutOfRange,
    require_above,
    require_within,
)
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Source
from pondapp.core.hydraulics.run import MOST_FLOW
from pondapp.core.hydraulics.solve import rising_root

MOST_HEAD = 500.0
"""Largest head of a pump that is asked about [m]."""

USUAL_BEND = 1.5
"""Exponent of a curve known by its label only [-]: 1 is straight, 2 a parabola."""

LABEL = Source(
    "H = H0 (1 - (Q/Qmax)^n) through the label's two numbers, n between straight (1) and "
    "parabola (2): an estimate",
    "rule of thumb",
)
PRINTED = Source("printed points, joined without a bump (Fritsch and Carlson)", "published")
SPEED = Source("affinity laws: flow ~ speed, head ~ speed², power ~ speed³", "published")

ESTIMATED = Message(
    "only its label is known, not its curve: points of its printed curve make this surer"
)


class PumpCurve(Protocol):
    """Head over flow, falling all the way."""

    @property
    def least_flow(self) -> float:
        """Where the known curve starts [m3/s]."""

    @property
    def most_flow(self) -> float:
        """Where the known curve ends [m3/s]."""

    @property
    def estimate(self) -> bool:
        """Whether the curve is guessed from a label."""

    @property
    def source(self) -> Source:
        """Where the curve is from."""

    def head_at(self, flow: float) -> float:
        """Head [m] at a flow [m3/s], carried on beyond the known curve for solvers only."""

    def slope(self, flow: float) -> float:
        """Slope of head_at [s/m2] at a flow [m3/s], never above 0."""


@dataclass(frozen=True, slots=True)
class LabelCurve:
    """Curve estimated from the two numbers on the label: H = H0 (1 - (Q/Qmax)^n).

    Attributes:
        max_head: Head at no flow [m], above 0 to 500.
        max_flow: Flow at no head [m3/s], above 0 to 10.
        bend: Exponent n [-], 0.5 to 4: 1 is a straight line, 2 a parabola.
    """

    max_head: float
    max_flow: float
    bend: float = USUAL_BEND

    def __post_init__(self) -> None:
        require_above("largest head of the pump", self.max_head, 0.0, MOST_HEAD, "m")
        require_above("largest flow of the pump", self.max_flow, 0.0, MOST_FLOW, "m3/s")
        require_within("bend of the curve", self.bend, 0.5, 4.0, "-")

    @property
    def least_flow(self) -> float:
        """Where the curve starts [m3/s]."""
        return 0.0

    @property
    def most_flow(self) -> float:
        """Where the curve ends [m3/s]."""
        return self.max_flow

    @property
    def estimate(self) -> bool:
        """A label is never the whole curve."""
        return True

    @property
    def source(self) -> Source:
        """Where the curve is from."""
        return LABEL

    def head_at(self, flow: float) -> float:
        """Head [m] at a flow [m3/s]; beyond the largest flow below 0, for solvers only."""
        share: float = max(0.0, flow / self.max_flow) ** self.bend
        return self.max_head * (1.0 - share)

    def slope(self, flow: float) -> float:
        """Slope of the head [s/m2] at a flow [m3/s]."""
        share = max(0.0, flow / self.max_flow)
        if share == 0.0:
            return 0.0 if self.bend > 1.0 else -self.max_head / self.max_flow
        steepness: float = self.bend * share ** (self.bend - 1.0)
        return -steepness * self.max_head / self.max_flow


@dataclass(frozen=True, slots=True)
class PointCurve:
    """Curve through points of the printed one; made by curve_through.

    Attributes:
        flows: Flows, rising [m3/s].
        heads: Heads, falling [m].
        slopes: Slope at each point [s/m2], never above 0.
        sure_from: Least flow of a printed point [m3/s]; before it the label counts.
        sure_to: Largest flow of a printed point [m3/s]; beyond it the label counts.
    """

    flows: tuple[float, ...]
    heads: tuple[float, ...]
    slopes: tuple[float, ...]
    sure_from: float
    sure_to: float

    @property
    def least_flow(self) -> float:
        """Where the printed curve starts [m3/s]."""
        return self.flows[0]

    @property
    def most_flow(self) -> float:
        """Where the printed curve ends [m3/s]."""
        return self.flows[-1]

    @property
    def estimate(self) -> bool:
        """Printed points are no guess."""
        return False

    @property
    def source(self) -> Source:
        """Where the curve is from."""
        return PRINTED

    def head_at(self, flow: float) -> float:
        """Head [m] at a flow [m3/s]; beyond the ends it goes on along the outer chord."""
        q, h, m = self.flows, self.heads, self.slopes
        if flow < q[0]:
            return h[0] + (flow - q[0]) * (h[1] - h[0]) / (q[1] - q[0])
        if flow > q[-1]:
            return h[-1] + (flow - q[-1]) * (h[-1] - h[-2]) / (q[-1] - q[-2])
        i = min(bisect_right(q, flow), len(q) - 1) - 1
        step = q[i + 1] - q[i]
        t = (flow - q[i]) / step
        s = 1.0 - t
        return (
            (1.0 + 2.0 * t) * s * s * h[i]
            + t * s * s * step * m[i]
            + t * t * (3.0 - 2.0 * t) * h[i + 1]
            - t * t * s * step * m[i + 1]
        )

    def slope(self, flow: float) -> float:
        """Slope of the head [s/m2] at a flow [m3/s]; beyond the ends that of the outer chord."""
        q, h, m = self.flows, self.heads, self.slopes
        if flow < q[0]:
            return (h[1] - h[0]) / (q[1] - q[0])
        if flow > q[-1]:
            return (h[-1] - h[-2]) / (q[-1] - q[-2])
        i = min(bisect_right(q, flow), len(q) - 1) - 1
        step = q[i + 1] - q[i]
        t = (flow - q[i]) / step
        s = 1.0 - t
        return (
            6.0 * t * s * (h[i + 1] - h[i]) / step
            + s * (s - 2.0 * t) * m[i]
            + t * (t - 2.0 * s) * m[i + 1]
        )


def curve_through(
    points: Sequence[tuple[float, float]], label: tuple[float, float] | None = None
) -> PointCurve:
    """A smooth falling curve through points read off the printed one.

    Args:
        points: Flow [m3/s], 0 to 10, and head [m], 0 to 500, of at least three points, any order;
            the head must fall as the flow rises.
        label: Largest flow [m3/s] and head [m] of the label, if they are known: the curve goes on
            to them where its points end before.

    Returns:
        The curve: head [m] over flow [m3/s], without a bump between the points.

    Raises:
        NotEnoughReadings: Fewer than three points; two are what a label gives.
        OutOfRange: A number is outside its range, or a head does not fall.

    Source:
        F. N. Fritsch, R. E. Carlson, Monotone piecewise cubic interpolation, SIAM J. Numer. Anal.
        17 (1980) 238-246, with the weighted harmonic mean of F. N. Fritsch, J. Butland, A method
        for constructing local monotone piecewise cubic interpolants, SIAM J. Sci. Stat. Comput. 5
        (1984) 300-304.

    Example:
        Three printed points; half way the curve has no bump:

        >>> curve = curve_through([(0.0, 4.0), (1e-3, 3.0), (2e-3, 0.0)])
        >>> round(curve.head_at(1e-3), 3), round(curve.head_at(1.5e-3), 3)
        (3.0, 1.812)
    """
    if len(points) < 3:
        raise NotEnoughReadings(
            "a pump's curve needs at least 3 points; there are {count}",
            count=Amount(len(points), "-"),
        )
    ordered = sorted(points)
    for flow, head in ordered:
        require_within("flow of a point", flow, 0.0, MOST_FLOW, "m3/s")
        require_within("head of a point", head, 0.0, MOST_HEAD, "m")
    for (q0, h0), (q1, h1) in pairwise(ordered):
        # Points closer than this are one reading twice, and their chord would be all error.
        if q1 - q0 < 1e-9 or h0 - h1 < 1e-6:
            raise OutOfRange(
                "the head must fall as the flow rises: {h1} at {q1} follows {h0} at {q0}",
                q0=Amount(q0, "m3/s"),
                h0=Amount(h0, "m"),
                q1=Amount(q1, "m3/s"),
                h1=Amount(h1, "m"),
            )
    sure_from, sure_to = ordered[0][0], ordered[-1][0]
    if label:
        ordered = _on_to_label(ordered, *label)
    flows, heads = zip(*ordered, strict=True)
    steps = [b - a for a, b in pairwise(flows)]
    chords = [(b - a) / s for a, b, s in zip(heads, heads[1:], steps, strict=False)]
    slopes = [_end_slope(steps[0], steps[1], chords[0], chords[1])]
    for s0, s1, c0, c1 in zip(steps, steps[1:], chords, chords[1:], strict=False):
        w0, w1 = 2.0 * s1 + s0, s1 + 2.0 * s0
        slopes.append((w0 + w1) / (w0 / c0 + w1 / c1))
    slopes.append(_end_slope(steps[-1], steps[-2], chords[-1], chords[-2]))
    return PointCurve(flows, heads, tuple(slopes), sure_from, sure_to)


def _on_to_label(
    points: list[tuple[float, float]], most_flow: float, most_head: float
) -> list[tuple[float, float]]:
    """The points with the label's two in addition, where those do not contradict them."""
    (first_flow, first_head), (last_flow, last_head) = points[0], points[-1]
    if most_flow > last_flow * (1.0 + 1e-6) and last_head > 0.0:
        points = [*points, (most_flow, 0.0)]
    if first_flow > 1e-9 and most_head > first_head + 1e-6:
        points = [(0.0, most_head), *points]
    return points


def _end_slope(step: float, next_step: float, chord: float, next_chord: float) -> float:
    """Slope at an end from three points, held between flat and three times the chord."""
    slope = ((2.0 * step + next_step) * chord - step * next_chord) / (step + next_step)
    return min(0.0, max(slope, 3.0 * chord))


@dataclass(frozen=True, slots=True)
class SlowedCurve:
    """A pump at a share of its full speed; made by at_speed.

    Attributes:
        full: Curve at full speed.
        speed: Share of full speed [-].
    """

    full: PumpCurve
    speed: float

    @property
    def least_flow(self) -> float:
        """Where the curve starts [m3/s]."""
        return self.full.least_flow * self.speed

    @property
    def most_flow(self) -> float:
        """Where the curve ends [m3/s]."""
        return self.full.most_flow * self.speed

    @property
    def estimate(self) -> bool:
        """As sure as the curve at full speed."""
        return self.full.estimate

    @property
    def source(self) -> Source:
        """Where the change of the curve is from."""
        return SPEED

    def head_at(self, flow: float) -> float:
        """Head [m] at a flow [m3/s]."""
        return self.speed**2 * self.full.head_at(flow / self.speed)

    def slope(self, flow: float) -> float:
        """Slope of the head [s/m2] at a flow [m3/s]."""
        return self.speed * self.full.slope(flow / self.speed)


@dataclass(frozen=True, slots=True)
class ScaledCurve:
    """A pump that gives so much more or less than its curve says.

    Attributes:
        full: The curve as printed.
        flow: Times its flow [-], above 0.
        head: Times its head [-], above 0.
    """

    full: PumpCurve
    flow: float
    head: float

    @property
    def least_flow(self) -> float:
        """Where the curve starts [m3/s]."""
        return self.full.least_flow * self.flow

    @property
    def most_flow(self) -> float:
        """Where the curve ends [m3/s]."""
        return self.full.most_flow * self.flow

    @property
    def estimate(self) -> bool:
        """As sure as the printed curve."""
        return self.full.estimate

    @property
    def source(self) -> Source:
        """Where the curve is from."""
        return self.full.source

    def head_at(self, flow: float) -> float:
        """Head [m] at a flow [m3/s]."""
        return self.head * self.full.head_at(flow / self.flow)

    def slope(self, flow: float) -> float:
        """Slope of the head [s/m2] at a flow [m3/s]."""
        return self.head / self.flow * self.full.slope(flow / self.flow)


def at_speed(curve: PumpCurve, speed: float) -> SlowedCurve:
    """A pump's curve at another speed.

    Args:
        curve: Curve at full speed.
        speed: Share of full speed [-], 0.05 to 2.

    Returns:
        Curve of head [m] over flow [m3/s].

    Raises:
        OutOfRange: The speed is outside its range.

    Source:
        Affinity laws, Q ~ n and H ~ n²; the same impeller in the same water.

    Example:
        At half speed a pump lifts a quarter as high:

        >>> slow = at_speed(LabelCurve(4.0, 2e-3), 0.5)
        >>> slow.head_at(0.0), slow.most_flow
        (1.0, 0.001)
    """
    require_within("share of full speed", speed, 0.05, 2.0, "-")
    return SlowedCurve(curve, speed)


def power_at_speed(power: float, speed: float, kept: float = 0.0) -> float:
    """Power of a pump at another speed and the matching flow.

    Args:
        power: Power at full speed [W], 0 to 1e6.
        speed: Share of full speed [-], 0.05 to 2.
        kept: Share of the power that does not fall with the speed [-], 0 to 1: what motor and
            driver take for themselves.

    Returns:
        Power [W].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Affinity law, P ~ n³, on all but the part that is kept. The law alone flatters slow
        pumps: I. Sârbu, I. Borza, Period. Polytech. Mech. Eng. 42 (1998) 189-198.

    Example:
        100 W at four fifths of the speed:

        >>> round(power_at_speed(100.0, 0.8), 1)
        51.2
    """
    require_within("power", power, 0.0, 1e6, "W")
    require_within("share of full speed", speed, 0.05, 2.0, "-")
    require_within("share of the power that is kept", kept, 0.0, 1.0, "-")
    return power * (kept + (1.0 - kept) * speed**3)


def flow_at_no_head(curve: PumpCurve) -> float:
    """What a pump gives at most: where its curve has no head left.

    Args:
        curve: Its curve; a printed one may end before, and goes on as it does there.

    Returns:
        Flow [m3/s], at most three times that at the end of the curve.

    Raises:
        NoSolution: The curve is no number somewhere.

    Source:
        Definition.

    Example:
        >>> flow_at_no_head(LabelCurve(4.0, 2e-3))
        0.002
    """
    end = curve.most_flow
    most = 3.0 * end
    if curve.head_at(end) <= 0.0:
        return end
    if curve.head_at(most) > 0.0:
        return most
    return rising_root(
        lambda flow: (-curve.head_at(flow), -curve.slope(flow)), end, most, end, 1e-10, 0.0
    )
