"""Water that runs down a bed by itself: how deep and how fast it is.

Manning's formula was found on rivers, whose water covers the stones. Over stones that stand out of
it, water is slower and deeper than Manning's formula says; a formula for such streams gives the
other end of the range, and between the two no one number is known.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.hydraulics.solve import root
from pondapp.core.stock.span import Span, exactly

MANNING = Source("Manning's formula, as coded in fluids 1.3.1; n after Chow (1959)", "published")
CHOW = Source("Chow, Open-Channel Hydraulics (1959), as coded in fluids 1.3.1", "published")
OF_LINER = Source("Chow (1959) for cement mortar, taken for liner with folds", "rule of thumb")
SHALLOW = Source(
    "R. I. Ferguson, Water Resour. Res. 43 (2007) W05427, as coded in public programs",
    "from memory",
)
DEEP_SHARE, SHALLOW_SHARE = 6.5, 2.5
"""Of the speed of deep and of shallow water over stones [-]: a1 and a2 of Ferguson (2007)."""
MOST_DEPTH = 100.0  # m


@dataclass(frozen=True, slots=True)
class Bed:
    """What water runs over.

    Attributes:
        label: What it is.
        roughness: Least, normal and most of Manning's n [s/m^(1/3)].
        stone: Size of the stones [m]; 0 where there are none.
        source: Where the roughness is from.
    """

    label: str
    roughness: Span
    stone: float
    source: Source


# Sizes of stones: the middle of what is sold under each name, common practice.
BEDS: Mapping[str, Bed] = {
    "liner": Bed("smooth liner", Span(0.011, 0.013, 0.015), 0.0, OF_LINER),
    "gravel": Bed("gravel", Span(0.022, 0.025, 0.030), 0.03, CHOW),
    "cobbles": Bed("cobbles", Span(0.030, 0.040, 0.050), 0.10, CHOW),
    "boulders": Bed("large stones", Span(0.040, 0.050, 0.070), 0.25, CHOW),
}
"""Beds by the name under which they are stored: earth channel of gravel; bottom of gravel, cobbles
and few boulders; bottom of cobbles with large boulders."""


def manning_speed(depth: float, width: float, slope: float, roughness: float) -> float:
    """Speed of water that runs down a channel with upright sides.

    Args:
        depth: Depth of the water [m], above 0 to 100.
        width: Width of the channel [m], above 0 to 100.
        slope: Fall over length [-], above 0 to 1.
        roughness: Manning's n [s/m^(1/3)], 0.005 to 0.5.

    Returns:
        Mean speed [m/s]; n of a bed is known to some 20 %, and so is the speed.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        v = R^(2/3) √S / n with R = b y / (b + 2 y): R. Manning (1891), as coded in fluids 1.3.1
        (V_Manning).

    Example:
        Channel of 5 m, 0.8 m deep, falling 2.5 mm a metre, n = 0.015:

        >>> round(manning_speed(0.8, 5.0, 0.0025, 0.015), 2)
        2.39
    """
    require_above("depth of the water", depth, 0.0, MOST_DEPTH, "m")
    require_above("width of the stream", width, 0.0, 100.0, "width")
    require_above("slope", slope, 0.0, 1.0, "-")
    require_within("roughness of the bed", roughness, 0.005, 0.5, "-")
    radius = width * depth / (width + 2.0 * depth)
    return float(radius ** (2.0 / 3.0)) * sqrt(slope) / roughness


def speed_over_stones(depth: float, slope: float, stone: float) -> float:
    """Speed of water among stones that it hardly covers, or does not cover.

    Args:
        depth: Depth of the water [m], above 0 to 100.
        slope: Fall over length [-], above 0 to 1.
        stone: Size of the stones [m], above 0 to 2; 84 of 100 are smaller.

    Returns:
        Mean speed [m/s] of a stream much wider than deep; streams differ from it by a factor of
        two.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        v = √(g y S) a1 a2 r / √(a1² + a2² r^(5/3)), r = y / D, a1 = 6.5, a2 = 2.5: R. I. Ferguson,
        Flow resistance equations for gravel- and boulder-bed streams, Water Resour. Res. 43 (2007)
        W05427, tried there from r = 0.1 to 30; form and numbers from public programs.

    Example:
        3 cm of water on stones of 10 cm, falling 5 cm a metre:

        >>> round(speed_over_stones(0.03, 0.05, 0.10), 3)
        0.09
    """
    require_above("depth of the water", depth, 0.0, MOST_DEPTH, "m")
    require_above("slope", slope, 0.0, 1.0, "-")
    require_above("size of the stones", stone, 0.0, 2.0, "width")
    r = depth / stone
    a1, a2 = DEEP_SHARE, SHALLOW_SHARE
    share = a1 * a2 * r / sqrt(a1**2 + a2**2 * r ** (5.0 / 3.0))
    return sqrt(GRAVITY * depth * slope) * share


def _depth_at(flow: float, width: float, speed: Callable[[float], float]) -> float:
    """Depth [m] at which a flow [m3/s] passes; the flow rises with the depth from nothing."""

    def surplus(depth: float) -> float:
        return width * depth * speed(depth) - flow

    low = 1e-9
    high = low
    while surplus(high) < 0.0:
        require_within("depth of the water", 2.0 * high, 0.0, MOST_DEPTH, "m")
        low, high = high, 2.0 * high
    return high if surplus(low) >= 0.0 else root(surplus, low, high, 0.0)


def normal_depth(flow: float, width: float, slope: float, roughness: float) -> float:
    """Depth of a flow that runs down a long channel with upright sides.

    Args:
        flow: Flow [m3/s], 1e-9 to 1000.
        width: Width of the channel [m], above 0 to 100.
        slope: Fall over length [-], above 0 to 1.
        roughness: Manning's n [s/m^(1/3)], 0.005 to 0.5.

    Returns:
        Depth [m].

    Raises:
        OutOfRange: An argument is outside its range, or the water would be 100 m deep.

    Source:
        Q = b y v with Manning's speed (manning_speed), solved for y (root).

    Example:
        1 L/s in a channel of 30 cm that falls 2 cm a metre, n = 0.04:

        >>> round(1000 * normal_depth(0.001, 0.3, 0.02, 0.04), 2)  # mm
        15.93
    """
    require_within("flow", flow, 1e-9, 1e3, "m3/s")
    manning_speed(1.0, width, slope, roughness)  # says what is out of range
    return _depth_at(flow, width, lambda depth: manning_speed(depth, width, slope, roughness))


def depth_over_stones(flow: float, width: float, slope: float, stone: float) -> float:
    """Depth of a flow among stones that it hardly covers.

    Args:
        flow: Flow [m3/s], 1e-9 to 1000.
        width: Width of the channel [m], above 0 to 100.
        slope: Fall over length [-], above 0 to 1.
        stone: Size of the stones [m], above 0 to 2.

    Returns:
        Depth [m].

    Raises:
        OutOfRange: An argument is outside its range, or the water would be 100 m deep.

    Source:
        Q = b y v with Ferguson's speed (speed_over_stones), solved for y (root).

    Example:
        1 L/s in a channel of 30 cm that falls 2 cm a metre, on stones of 10 cm:

        >>> round(1000 * depth_over_stones(0.001, 0.3, 0.02, 0.10))  # mm
        39
    """
    require_within("flow", flow, 1e-9, 1e3, "m3/s")
    require_above("width of the stream", width, 0.0, 100.0, "width")
    speed_over_stones(1.0, slope, stone)  # says what is out of range
    return _depth_at(flow, width, lambda depth: speed_over_stones(depth, slope, stone))


@dataclass(frozen=True, slots=True)
class ChannelFlow:
    """How water runs down a stream.

    Attributes:
        flow: Flow [m3/s].
        width: Width of the stream [m].
        slope: Fall over length [-].
        bed: What it runs over.
        depth: Depth [m].
        speed: Mean speed [m/s].
        by_manning: Depth by Manning's formula with the normal n [m]: the likely one where there
            are no stones.
    """

    flow: float
    width: float
    slope: float
    bed: Bed
    depth: Span
    speed: Span
    by_manning: float

    @property
    def covered(self) -> bool:
        """Whether the water covers the stones, as Manning's formula wants it."""
        return self.by_manning >= self.bed.stone

    @property
    def warning(self) -> Message | None:
        """Why depth and speed are hardly known."""
        if self.covered:
            return None
        return Message(
            "The stones are about {stone} and stand out of the water, where Manning's formula does "
            "not hold: the deeper and slower end is by a formula for such streams, and that too "
            "may be wrong by a factor of two.",
            {"stone": Amount(self.bed.stone, "width")},
        )

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow = Term("Q", "flow", self.flow, "m3/s")
        width = Term("b", "width of the stream", self.width, "width")
        slope = Term("S", "fall over length", self.slope, "-")
        rough = Term("n", phrase("Manning's n of {bed}", bed=self.bed.label),
                     self.bed.roughness.likely, "-")  # fmt: skip
        depth = Term("y", "depth", self.by_manning, "m")
        speed = Term("v", "speed", self.flow / self.width / self.by_manning, "m/s")
        formula = "Q = b y R^(2/3) √S / n, R = b y / (b + 2 y)"
        found = [
            Step(depth, formula, (flow, width, slope, rough), MANNING),
            Step(speed, "v = Q / (b y)", (flow, width, depth), ARITHMETIC),
        ]
        if self.bed.stone:
            stone = Term("D", "size of the stones", self.bed.stone, "width")
            most = Term("y", "depth among stones", self.depth.high, "m")
            formula = "Q = b y √(g y S) a1 a2 r / √(a1² + a2² r^(5/3)), r = y / D"
            found.append(Step(most, formula, (flow, width, slope, stone), SHALLOW))
        return tuple(found)


def channel_flow(flow: float, width: float, slope: float, bed: Bed) -> ChannelFlow:
    """Depth and speed of a flow down a stream, each with its range.

    Args:
        flow: Flow [m3/s], 1e-9 to 1000.
        width: Width of the stream [m], above 0 to 100.
        slope: Fall over length [-], above 0 to 1.
        bed: What it runs over.

    Returns:
        Depth [m] and speed [m/s]: least and most depth by the table's least and most n, the most
        also by Ferguson's formula where there are stones; likely is Manning's with the normal n,
        and among stones the geometric middle between that and the most.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Manning's formula (normal_depth) and Ferguson's (depth_over_stones).

    Example:
        4000 L/h in a stream of 50 cm that falls 5 cm a metre over gravel, in mm:

        >>> found = channel_flow(4.0 / 3600.0, 0.5, 0.05, BEDS["gravel"])
        >>> [round(1000 * depth) for depth in (found.depth.low, found.depth.high)]
        [6, 17]
    """
    by_manning = likely = normal_depth(flow, width, slope, bed.roughness.likely)
    low = normal_depth(flow, width, slope, bed.roughness.low)
    high = normal_depth(flow, width, slope, bed.roughness.high)
    if bed.stone:
        high = max(high, depth_over_stones(flow, width, slope, bed.stone))
        likely = sqrt(by_manning * high)
    depth = Span(low, likely, high)
    speed = exactly(flow / width).over(depth)
    return ChannelFlow(flow, width, slope, bed, depth, speed, by_manning)
