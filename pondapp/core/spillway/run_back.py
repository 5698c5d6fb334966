"""The water of a stream: what is under way, what runs back to the pond, what its pools keep."""

from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import ARITHMETIC, COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bed import porosity_of
from pondapp.core.spillway.channel import ChannelFlow
from pondapp.core.spillway.sheet import head_over_lip
from pondapp.core.stock.span import NOTHING, Span

GAPS_DRAIN = Span(0.0, 0.5, 1.0)
"""Share of the water between the stones that runs out: none in hollows, all of it on a slope."""
WEIR_TOLERANCE = 0.5
"""How far the water over a weir of stones may be off, as a share of it."""


@dataclass(frozen=True, slots=True)
class Pools:
    """Pools of one size, each held by a weir.

    Attributes:
        count: How many.
        length: Length of one along the stream [m].
        width: Width of one [m].
        depth: Depth of its water below the edge of the weir [m].
        weir: Width of the weir [m].
    """

    count: int
    length: float
    width: float
    depth: float
    weir: float

    @property
    def area(self) -> float:
        """Water surface of all [m2]."""
        return self.count * self.length * self.width


@dataclass(frozen=True, slots=True)
class StreamWater:
    """The water of a stream that runs.

    Attributes:
        flow: Flow [m3/s].
        running: Between the pools, above the stones [m3].
        gaps: Between the stones, what of it runs out [m3].
        over_weirs: In the pools above the edges of their weirs [m3].
        kept: In the pools below them, which stays when the pump stops [m3].
        soaked: Between the stones, when they fill [m3].
        length: Length between the pools [m].
        width: Width of the stream [m].
        depth: Depth between the pools [m].
    """

    flow: float
    running: Span
    gaps: Span
    over_weirs: Span
    kept: float
    soaked: float
    length: float
    width: float
    depth: float

    @property
    def returning(self) -> Span:
        """What runs back to the pond when the pump stops [m3]."""
        return self.running.plus(self.gaps).plus(self.over_weirs)

    @property
    def filling(self) -> Span:
        """What the first start takes from the pond, with dry stones and empty pools [m3]."""
        more = self.soaked + self.kept
        return self.running.plus(self.over_weirs).plus(Span(more, more, more))

    @property
    def time(self) -> Span:
        """How long water is on its way, the pools taken as mixed [s]."""
        there = self.running.plus(self.over_weirs).plus(Span(self.kept, self.kept, self.kept))
        return there.times(1.0 / self.flow)

    def steps(self) -> tuple[Step, ...]:
        """The working of the likely values."""
        length = Term("l", "length between the pools", self.length, "m")
        width = Term("b", "width of the stream", self.width, "width")
        depth = Term("y", "likely depth", self.depth, "m")
        running = Term("V1", "water that runs", self.running.likely, "m3")
        gaps = Term("V2", "water between the stones that runs out", self.gaps.likely, "m3")
        over = Term("V3", "water over the weirs", self.over_weirs.likely, "m3")
        back = Term("V", "water that runs back", self.returning.likely, "m3")
        kept = Term("V4", "water that the pools keep", self.kept, "m3")
        flow = Term("Q", "flow", self.flow, "m3/s")
        time = Term("t", "time on the way", self.time.likely, "s")
        return (
            Step(running, "V1 = l b y", (length, width, depth), ARITHMETIC),
            Step(back, "V = V1 + V2 + V3", (running, gaps, over), COMMON_PRACTICE),
            Step(time, "t = (V1 + V3 + V4) / Q", (running, over, kept, flow), ARITHMETIC),
        )


def stream_water(
    channel: ChannelFlow, length: float, layer: float, pools: Pools | None
) -> StreamWater:
    """The water of a stream, and what of it runs back.

    Args:
        channel: How the water runs between the pools.
        length: Length of the whole stream [m], above 0 to 1000.
        layer: Thickness of its layer of stones [m], 0 to 2.
        pools: Its pools, all of one size; None has none.

    Returns:
        Volumes [m3], each with its range: that of the depth, half or double for what stands over a
        weir of stones, and from nothing to all of the water between the stones.

    Raises:
        OutOfRange: A number is outside its range, or the pools are longer than the stream.
        NoSolution: The flow makes no closed sheet over the weirs, or two metres of one.

    Source:
        Volume is length times width times depth; head over a weir by Rehbock's formula
        (head_over_lip); gaps by the size of the stones (porosity_of). Tolerances: common practice.

    Example:
        4000 L/h down 6 m of liner, 50 cm wide, falling 5 cm a metre, in litres:

        >>> from pondapp.core.spillway.channel import BEDS, channel_flow
        >>> found = stream_water(channel_flow(4 / 3600, 0.5, 0.05, BEDS["liner"]), 6.0, 0.0, None)
        >>> round(1000 * found.returning.likely)
        14
    """
    require_above("length of the stream", length, 0.0, 1000.0, "m")
    require_within("layer of stones", layer, 0.0, 2.0, "m")
    between, over, kept = length, NOTHING, 0.0
    if pools is not None:
        between = length - pools.count * pools.length
        if between < 0.0:
            raise OutOfRange(
                "the pools are {pools} long together, longer than the stream of {stream}",
                pools=Amount(pools.count * pools.length, "m"),
                stream=Amount(length, "m"),
            )
        head = head_over_lip(channel.flow, pools.weir, pools.depth).head
        off = WEIR_TOLERANCE
        over = Span(1.0 - off, 1.0, 1.0 + off).times(head * pools.area)
        kept = pools.area * pools.depth
    bed = between * channel.width
    stones = channel.bed.stone
    soaked = bed * layer * porosity_of(stones) if stones else 0.0
    return StreamWater(
        channel.flow, channel.depth.times(bed), GAPS_DRAIN.times(soaked), over, kept, soaked,
        between, channel.width, channel.depth.likely,
    )  # fmt: skip
