"""Area of a free outline: widths measured at equal steps, or the corner points."""

from collections.abc import Iterator, Sequence
from functools import lru_cache
from itertools import pairwise
from math import hypot, sqrt

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount

Point = tuple[float, float]
MOST_POINTS = 500


def _checked(offsets: Sequence[float], spacing: float, least: int) -> None:
    if len(offsets) < least:
        raise NotEnoughReadings(
            "this rule needs at least {least} widths", least=Amount(float(least), "-")
        )
    for offset in offsets:
        require_within("width of the outline", offset, 0.0, 500.0, "m")
    require_above("distance between the widths", spacing, 0.0, 500.0, "m")


def area_by_simpson(offsets: Sequence[float], spacing: float) -> float:
    """Area like area_by_trapezoids, following a curved edge.

    An even number of widths leaves one bay over at the end; a trapezoid closes it.

    Args:
        offsets: Three or more widths, in order [m], each 0 to 500; the ends may be 0.
        spacing: Distance from one to the next [m], above 0 to 500.

    Returns:
        Area [m2].

    Raises:
        NotEnoughReadings: There are fewer than three widths.
        OutOfRange: A width or the distance is outside its range.

    Source:
        A = s/3 (w0 + 4 w1 + 2 w2 + ... + wn), Simpson's 1/3 rule, with a trapezoid on an odd last
        bay; any textbook of surveying.

    Example:
        Widths taken every metre across a pond:

        >>> round(area_by_simpson([0.0, 2.0, 2.6, 2.0, 0.0], 1.0), 2)
        7.07
    """
    _checked(offsets, spacing, 3)
    count = len(offsets) if len(offsets) % 2 else len(offsets) - 1
    y = offsets[:count]
    area = spacing / 3.0 * (y[0] + 4.0 * sum(y[1:-1:2]) + 2.0 * sum(y[2:-1:2]) + y[-1])
    if count < len(offsets):
        area += 0.5 * spacing * (offsets[-2] + offsets[-1])
    return area


def _turn(a: Point, b: Point, c: Point) -> float:
    """Twice the area of the triangle, positive when it runs to the left."""
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def _in_box(a: Point, b: Point, c: Point) -> bool:
    """Whether c, known to be on the line through a and b, is between them."""
    return min(a[0], b[0]) <= c[0] <= max(a[0], b[0]) and min(a[1], b[1]) <= c[1] <= max(a[1], b[1])


def _meet(a: Point, b: Point, c: Point, d: Point) -> bool:
    """Whether the sides a-b and c-d share a point."""
    abc, abd, cda, cdb = _turn(a, b, c), _turn(a, b, d), _turn(c, d, a), _turn(c, d, b)
    if (abc > 0) != (abd > 0) and (cda > 0) != (cdb > 0) and 0.0 not in (abc, abd, cda, cdb):
        return True
    return (
        (abc == 0 and _in_box(a, b, c))
        or (abd == 0 and _in_box(a, b, d))
        or (cda == 0 and _in_box(c, d, a))
        or (cdb == 0 and _in_box(c, d, b))
    )


def _refuse_crossings(corners: Sequence[Point]) -> None:
    count = len(corners)
    # First of all: a doubled corner would make the sides beside it meet, and be called a crossing.
    for i in range(count):
        if corners[i] == corners[(i + 1) % count]:
            raise OutOfRange("corner {first} and the next one are the same point", first=str(i + 1))
    for i in range(count):
        a, b, after = corners[i], corners[(i + 1) % count], corners[(i + 2) % count]
        # Neighbours always share a corner; they overlap only where one runs back on the other.
        back = (a[0] - b[0]) * (after[0] - b[0]) + (a[1] - b[1]) * (after[1] - b[1])
        if _turn(a, b, after) == 0 and back > 0:
            raise OutOfRange(
                "the outline runs back on itself at corner {at}", at=str((i + 1) % count + 1)
            )
        for j in range(i + 2, count - (i == 0)):
            if _meet(a, b, corners[j], corners[(j + 1) % count]):
                raise OutOfRange(
                    "the outline crosses itself: the side after corner {first} meets the side "
                    "after corner {second}; enter the corners in order round the edge",
                    first=str(i + 1),
                    second=str(j + 1),
                )


def area_by_corners(corners: Sequence[Point]) -> float:
    """Area inside straight sides from corner to corner.

    Args:
        corners: Three to 500 points in order round the edge, either way round: across and along
            [m], each -1000 to 1000.

    Returns:
        Area [m2], above 0.

    Raises:
        NotEnoughReadings: There are fewer than three corners.
        OutOfRange: There are too many, a corner is too far off or repeated, the outline meets
            itself, or it encloses nothing.

    Source:
        A = |Σ (x_i y_i+1 - x_i+1 y_i)| / 2, Gauss's area formula (shoelace); any textbook of
        surveying.

    Example:
        A triangle of 4 by 3 m:

        >>> area_by_corners([(0.0, 0.0), (4.0, 0.0), (0.0, 3.0)])
        6.0
    """
    if len(corners) < 3:
        raise NotEnoughReadings("an outline needs at least three corners")
    require_within("number of corners", float(len(corners)), 3.0, float(MOST_POINTS), "-")
    for corner in corners:
        for place in corner:
            require_within("place of a corner", place, -1000.0, 1000.0, "m")
    _refuse_crossings(corners)
    # Fanned out from the first corner, so that an outline far from zero loses no digits.
    start = corners[0]
    area = 0.5 * abs(sum(_turn(start, b, c) for b, c in pairwise(corners)))
    if area <= 0.0:
        raise OutOfRange("the outline encloses no area")
    return area


SLABS = 64
"""Least number of slabs that the area of a moved outline is summed over."""
GAUSS = 0.5 - sqrt(3.0) / 6.0
"""Place of the first of two Gauss points in a slab, as a share of it."""


def _inside(corners: Sequence[Point], y: float) -> list[float]:
    """Where a line across enters and leaves the outline, in order."""
    found = []
    for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
        if (ay > y) != (by > y):
            found.append(ax + (y - ay) / (by - ay) * (bx - ax))
    return sorted(found)


def _too_near(a: Point, b: Point, y: float, distance: float) -> tuple[float, float] | None:
    """The part of a line across that is nearer to the side a-b than the distance."""
    if not min(a[1], b[1]) - distance < y < max(a[1], b[1]) + distance:
        return None
    ends = []
    for px, py in (a, b):
        if abs(y - py) < distance:
            half = sqrt(distance**2 - (y - py) ** 2)
            ends += [px - half, px + half]
    long = hypot(b[0] - a[0], b[1] - a[1])
    if long == 0.0:
        return (min(ends), max(ends)) if ends else None
    nx, ny = distance * (a[1] - b[1]) / long, distance * (b[0] - a[0]) / long
    beside = [(a[0] + nx, a[1] + ny), (b[0] + nx, b[1] + ny),
              (b[0] - nx, b[1] - ny), (a[0] - nx, a[1] - ny)]  # fmt: skip
    ends += _inside(beside, y)
    return (min(ends), max(ends)) if ends else None


def _left(corners: Sequence[Point], y: float, distance: float) -> float:
    """Length of a line across that lies inside the outline and far enough from every side."""
    near = sorted(
        part
        for a, b in pairwise([*corners, corners[0]])
        if (part := _too_near(a, b, y, distance)) is not None
    )
    crossings = _inside(corners, y)
    total = 0.0
    for start, end in zip(crossings[::2], crossings[1::2], strict=True):
        at = start
        for low, high in near:
            total += max(0.0, min(low, end) - at)
            at = max(at, high)
        total += max(0.0, end - at)
    return total


def _bends(corners: Sequence[Point], distance: float) -> Iterator[float]:
    """Heights at which the length left may change its slope, so that no slab lies across one.

    Those are of the corners, of the corners of the moved sides, and of the ends of an arc.
    """
    around = sum(_turn(corners[0], b, c) for b, c in pairwise(corners))
    side = distance if around > 0.0 else -distance
    for a, b, c in zip(
        corners, (*corners[1:], corners[0]), (*corners[2:], *corners[:2]), strict=True
    ):
        moves = []
        for (x0, y0), (x1, y1) in ((a, b), (b, c)):
            long = hypot(x1 - x0, y1 - y0)
            if long > 0.0:
                moves.append(((y0 - y1) / long, (x1 - x0) / long))
        yield from (b[1], b[1] - distance, b[1] + distance)
        yield from (b[1] + side * y for _, y in moves)
        if len(moves) == 2:
            (x1, y1), (x2, y2) = moves
            along = 1.0 + x1 * x2 + y1 * y2
            if along > 1e-9:  # else the sides turn back on each other
                yield b[1] + side * (y1 + y2) / along


@lru_cache(maxsize=256)
def area_set_back(corners: tuple[Point, ...], distance: float) -> float:
    """Area left inside straight sides that have all moved in by the same distance.

    What is left is farther from every side than the distance, so an inner corner leaves an arc, as
    a bank of one slope does there.

    Args:
        corners: Three to 500 points in order round the edge: across and along [m], each -1000 to
            1000.
        distance: How far each side moves in [m], 0 to 500.

    Returns:
        Area [m2]; 0 where nothing is left.

    Raises:
        NotEnoughReadings: There are fewer than three corners.
        OutOfRange: The distance is outside its range. That the corners are in order is for
            area_by_corners to say.

    Source:
        Geometry: the length left of each line across, summed over slabs between the heights of all
        corners by Gauss's rule of two points (any textbook of numerical analysis).

    Example:
        A square of 4 m whose sides have come in by 0.5 m:

        >>> round(area_set_back(((0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)), 0.5), 6)
        9.0
    """
    require_within("distance that the sides move in", distance, 0.0, 500.0, "m")
    if len(corners) < 3:
        raise NotEnoughReadings("an outline needs at least three corners")
    ys = [y for _, y in corners]
    if max(ys) - min(ys) <= 2.0 * distance:
        return 0.0
    low, high = min(ys) + distance, max(ys) - distance
    even = [low + (high - low) * number / SLABS for number in range(SLABS + 1)]
    bends = (y for y in _bends(corners, distance) if low < y < high)
    return sum(
        0.5 * (top - start) * _left(corners, start + share * (top - start), distance)
        for start, top in pairwise(sorted({*even, *bends}))
        for share in (GAUSS, 1.0 - GAUSS)
    )
