"""Size of the sheet of liner that a basin needs."""

from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.errors import require_within
from pondapp.core.base.working import COMMON_PRACTICE, Source, Step, Term
from pondapp.core.volume.layers import rectangle_layer

SLOPE = Source("geometry of the sloping side", "computed")


@dataclass(frozen=True, slots=True)
class LinerSize:
    """A rectangular sheet.

    Attributes:
        length: Length of the sheet [m].
        width: Width of the sheet [m].
        area: Area of the sheet [m2].
        formula: How a side of it was found.
        inputs: What went in.
        source: Where the formula is from.
    """

    length: float
    width: float
    area: float
    formula: str
    inputs: tuple[Term, ...]
    source: Source

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        length = Term("L", "length of the sheet", self.length, "m")
        width = Term("W", "width of the sheet", self.width, "m")
        area = Term("A", "area of the sheet", self.area, "m2")
        return (
            Step(length, self.formula.format(side="L", pond="l"), self.inputs, self.source),
            Step(width, self.formula.format(side="W", pond="w"), self.inputs, self.source),
            Step(area, "A = L W", (length, width), SLOPE),
        )


def liner_size(length: float, width: float, depth: float, overlap: float) -> LinerSize:
    """Sheet for a pond of any profile, with upright sides or shelves in the worst case.

    Args:
        length: Longest way across the pond [m], above 0 to 500.
        width: Widest way across, square to it [m], above 0 to 500.
        depth: Depth at the deepest place [m], above 0 to 50.
        overlap: Liner beyond the rim on each side [m], 0 to 10.

    Returns:
        Sheet [m], [m2]; enough for upright sides and level shelves, and more than enough for
        sloping ones.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        L = l + 2 d + 2 o, the same for the width: common practice.

    Example:
        A pond of 10 by 8 ft, 6 ft deep, with 6 in over the rim:

        >>> round(liner_size(10 * 0.3048, 8 * 0.3048, 6 * 0.3048, 0.1524).length / 0.3048, 2)  # ft
        23.0
    """
    rectangle_layer(length, width, depth, 0.0)
    require_within("overlap of the liner", overlap, 0.0, 10.0, "m")
    more = 2.0 * depth + 2.0 * overlap
    inputs = (
        Term("l", "length of the pond", length, "m"),
        Term("w", "width of the pond", width, "m"),
        Term("d", "greatest depth", depth, "m"),
        Term("o", "overlap on each side", overlap, "m"),
    )
    sheet = (length + more, width + more)
    formula = "{side} = {pond} + 2 d + 2 o"
    return LinerSize(*sheet, sheet[0] * sheet[1], formula, inputs, COMMON_PRACTICE)


def sloped_liner_size(
    length: float, width: float, depth: float, set_back: float, overlap: float
) -> LinerSize:
    """Smallest sheet for a pond whose sides slope evenly from rim to floor.

    Args:
        length: Length at the rim [m], above 0 to 500.
        width: Width at the rim [m], above 0 to 500.
        depth: Depth [m], above 0 to 50.
        set_back: How far each side comes in, per depth [-], 0 (upright) to 10.
        overlap: Liner beyond the rim on each side [m], 0 to 10.

    Returns:
        Sheet [m], [m2]; too small for a pond with shelves or steeper places.

    Raises:
        OutOfRange: A number is outside its range, or the sides meet above the bottom.

    Source:
        L = l - 2 z d + 2 d √(1 + z²) + 2 o: floor, two slopes, two overlaps; geometry.

    Example:
        >>> round(sloped_liner_size(4.0, 3.0, 1.2, 0.5, 0.3).length, 3)
        6.083
    """
    rectangle_layer(length, width, depth, set_back)
    require_within("overlap of the liner", overlap, 0.0, 10.0, "m")
    more = 2.0 * depth * (sqrt(1.0 + set_back**2) - set_back) + 2.0 * overlap
    inputs = (
        Term("l", "length at the rim", length, "m"),
        Term("w", "width at the rim", width, "m"),
        Term("d", "depth", depth, "m"),
        Term("z", "set-back per depth", set_back, "-"),
        Term("o", "overlap on each side", overlap, "m"),
    )
    sheet = (length + more, width + more)
    formula = "{side} = {pond} - 2 z d + 2 d √(1 + z²) + 2 o"
    return LinerSize(*sheet, sheet[0] * sheet[1], formula, inputs, SLOPE)


def stream_sheet(
    length: float, width: float, edge: float, pools: int, pool_depth: float, overlap: float
) -> LinerSize:
    """Sheet for a stream of one width with pools along it.

    Args:
        length: Length of the stream [m], above 0 to 500.
        width: Its width, or that of its widest pool [m], above 0 to 500.
        edge: Height of its edges over its bed [m], 0 to 10.
        pools: Number of pools [-], 0 to 100.
        pool_depth: Depth of each below the bed [m], 0 to 10.
        overlap: Liner beyond the edge on each side [m], 0 to 10.

    Returns:
        Sheet [m], [m2]; enough for upright sides and pools with upright ends.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        L = l + 2 n d + 2 o, W = w + 2 (e + d) + 2 o: common practice, as for a pond.

    Example:
        6 m by 50 cm, edges of 20 cm, no pools, 30 cm over each edge:

        >>> sheet = stream_sheet(6.0, 0.5, 0.2, 0, 0.0, 0.3)
        >>> round(sheet.length, 2), round(sheet.width, 2)
        (6.6, 1.5)
    """
    rectangle_layer(length, width, max(edge, pool_depth, 0.001), 0.0)
    require_within("height of the edges", edge, 0.0, 10.0, "m")
    require_within("number of pools", pools, 0, 100, "-")
    require_within("depth of the pools", pool_depth, 0.0, 10.0, "m")
    require_within("overlap of the liner", overlap, 0.0, 10.0, "m")
    deep = edge + (pool_depth if pools else 0.0)
    long = length + 2.0 * pools * pool_depth + 2.0 * overlap
    wide = width + 2.0 * deep + 2.0 * overlap
    inputs = (
        Term("l", "length of the stream", length, "m"),
        Term("w", "width of the stream and its pools", width, "m"),
        Term("e", "height of the edges", edge, "m"),
        Term("n", "number of pools", float(pools), "-"),
        Term("d", "depth of a pool", pool_depth, "m"),
        Term("o", "overlap on each side", overlap, "m"),
    )
    formula = "L = l + 2 n d + 2 o, W = w + 2 (e + d) + 2 o"
    return LinerSize(long, wide, long * wide, formula, inputs, COMMON_PRACTICE)
