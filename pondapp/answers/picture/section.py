"""The pond cut through, as the ground of its picture: basins side by side, at one scale."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from pondapp.answers.picture.primitives import Point, Shape, area, stroke
from pondapp.answers.water.basin_outline import basin_picture
from pondapp.models.water import TypedVolume, Water

BETWEEN = 4.0
"""The bank between two basins."""
PLAIN = ((0.0, 0.0), (0.06, 1.0), (0.94, 1.0), (1.0, 0.0))
"""A pond of which nobody knows more than the volume: across and down, as shares."""
TOOTH = 6.0
"""How far a torn edge goes in."""


@dataclass(frozen=True, slots=True)
class Section:
    """Where the water is, below a water line at 0.

    Attributes:
        cuts: The floor of each basin from its left bank to its right one.
        deepest: How far down the deepest place is.
        metre: How much one metre across is; None where the pond was never drawn.
        stretch: How many times larger a depth is drawn than a length.
    """

    cuts: tuple[tuple[Point, ...], ...]
    deepest: float
    metre: float | None
    stretch: float

    def piece(self, left: float, right: float) -> "Section":
        """What of it lies between two places, moved so that the left one is at 0."""
        cuts = (_between(cut, left, right) for cut in self.cuts)
        return replace(self, cuts=tuple(cut for cut in cuts if cut))

    def floor(self, left: float, right: float) -> float:
        """The least depth between two places; 0 where a bank is."""
        return min(
            (_depth(cut, left, right) for cut in self.cuts if _over(cut, left, right)), default=0.0
        )

    @property
    def floor_span(self) -> tuple[float, float]:
        """From where to where the deepest basin is at its deepest."""
        cut = max(self.cuts, key=lambda one: max(y for _, y in one))
        lowest = max(y for _, y in cut)
        level = [x for x, y in cut if y == lowest]
        return min(level), max(level)


def _between(cut: Sequence[Point], left: float, right: float) -> tuple[Point, ...]:
    """What of a cut lies between two places; where it goes on beyond one, it ends sheer."""
    if cut[-1][0] <= left or right <= cut[0][0]:
        return ()
    points = [point for point in cut if left <= point[0] <= right]
    if cut[0][0] < left:
        points = [(left, 0.0), (left, _at(cut, left)), *points]
    if right < cut[-1][0]:
        points = [*points, (right, _at(cut, right)), (right, 0.0)]
    return tuple((x - left, y) for x, y in points)


def _over(cut: Sequence[Point], left: float, right: float) -> bool:
    return cut[0][0] <= left and right <= cut[-1][0]


def _depth(cut: Sequence[Point], left: float, right: float) -> float:
    """The least depth of a cut between two places that lie inside it."""
    inner = [y for x, y in cut if left < x < right]
    return min([_at(cut, left), _at(cut, right), *inner])


def _at(cut: Sequence[Point], x: float) -> float:
    """The depth at one place; at a sheer side, that of its foot."""
    return max(
        (
            max(near[1], far[1])
            if far[0] == near[0]
            else near[1] + (far[1] - near[1]) * (x - near[0]) / (far[0] - near[0])
            for near, far in pairwise(cut)
            if near[0] <= x <= far[0]
        ),
        default=0.0,
    )


def section_of(
    water: Water, left: float, right: float, *, least: float, usual: float, most: float
) -> Section:
    """The section between two edges, its deepest place at least and at most so far down.

    Raises:
        PondError: A shape cannot be; the message says why.
    """
    if isinstance(water, TypedVolume):
        down = max(least, usual)
        cut = tuple((left + x * (right - left), y * down) for x, y in PLAIN)
        return Section((cut,), down, None, 1.0)
    basins = [basin_picture(one) for one in water.basins]
    room = right - left - BETWEEN * (len(basins) - 1)
    metre = room / sum(one.length for one in basins)
    depth = max(one.depth for one in basins)
    deepest = min(max(depth * metre, least), most)
    down = deepest / depth
    cuts, at = [], left
    for one in basins:
        cuts.append(tuple((at + x * metre, y * down) for x, y in one.cut))
        at += one.length * metre + BETWEEN
    return Section(tuple(cuts), deepest, metre, down / metre)


def drawn(section: Section, line: float, width: float, bottom: float) -> tuple[Shape, ...]:
    """Water and ground, with the water line at this height of the picture."""
    cuts = [[(x, line + y) for x, y in cut] for cut in section.cuts]
    rim = [point for cut in cuts for point in cut]
    ground = area("ground", (0, line), *rim, (width, line), (width, bottom), (0, bottom))
    water = [area("water", *cut) for cut in cuts]
    surface = [stroke("water", 2.0, cut[0], cut[-1]) for cut in cuts]
    return (ground, *water, *surface)


def torn(edge: float, inner: float, line: float, bottom: float) -> Shape:
    """An edge at which the water goes on in another row, as of a sheet that was torn."""
    teeth = max(1, round((bottom - line) / (2 * TOOTH)))
    step = (bottom - line) / (2 * teeth)
    rip = [(inner if at % 2 else edge, line + at * step) for at in range(2 * teeth + 1)]
    return area("gap", *rip)
