"""What a drawing to scale of a basin shows: from above, and cut through."""

from dataclasses import dataclass

from pondapp.answers.water.volume import basin_levels, found_basin, free_radius, outline_points
from pondapp.models.water import Basin, Circle, Corners, Ellipse, LShape, Offsets, Rectangle

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class BasinPicture:
    """Lines to draw, in metres, with the smallest x and y of the water line at 0.

    Attributes:
        rings: The outline at the water line, then the edge at each level where the side has
            come in: of a shelf, and of the floor.
        cut: Depth below the water line against length, from the left bank round to the right.
        length: Longest way across, left to right [m].
        width: The way across square to it [m].
        depth: Depth at the deepest place [m].
        shelves: Depths of the shelves, from the top down [m].
    """

    rings: tuple[tuple[Point, ...], ...]
    cut: tuple[Point, ...]
    length: float
    width: float
    depth: float
    shelves: tuple[float, ...]


def _ring(drawn: Basin, inset: float) -> list[Point]:
    """The outline, moved in."""
    outline = drawn.outline
    points = outline_points(outline)
    if isinstance(outline, Rectangle | LShape):
        # Square corners: every side moves in; which way is told by the side of the middle it
        # bounds, and the inner corner of an L bounds the water from above and from the right.
        middle_x, middle_y = _square_middle(outline)
        return [
            (x + (inset if x < middle_x else -inset), y + (inset if y < middle_y else -inset))
            for x, y in points
        ]
    if isinstance(outline, Circle | Ellipse):
        right, top = max(x for x, _ in points), max(y for _, y in points)
        return [
            (inset + x * (right - 2 * inset) / right, inset + y * (top - 2 * inset) / top)
            for x, y in points
        ]
    return _shrunk(outline, points, inset)


def _square_middle(outline: Rectangle | LShape) -> Point:
    if isinstance(outline, Rectangle):
        return outline.length_m / 2, outline.width_m / 2
    return (
        (outline.length_m - outline.cut_length_m) / 2,
        (outline.width_m - outline.cut_width_m) / 2,
    )


def _shrunk(outline: Offsets | Corners, points: list[Point], inset: float) -> list[Point]:
    """A free outline shrinks evenly about its middle: close to what its volume is reckoned by."""
    kept = 1 - inset / free_radius(outline)
    turns = [
        a[0] * b[1] - b[0] * a[1] for a, b in zip(points, points[1:] + points[:1], strict=True)
    ]
    whole = 3 * sum(turns)
    middle_x, middle_y = (
        sum(
            (a[axis] + b[axis]) * turn
            for a, b, turn in zip(points, points[1:] + points[:1], turns, strict=True)
        )
        / whole
        for axis in (0, 1)
    )
    return [(middle_x + kept * (x - middle_x), middle_y + kept * (y - middle_y)) for x, y in points]


def basin_picture(drawn: Basin) -> BasinPicture:
    """The lines of a basin's drawing.

    Raises:
        PondError: The shape cannot be; the message says why.
    """
    found_basin(drawn)
    levels = basin_levels(drawn)
    insets = sorted({inset for _, inset in levels})
    rings = {inset: _ring(drawn, inset) for inset in insets}
    left, low = (min(side) for side in zip(*rings[0.0], strict=True))
    right, high = (max(side) for side in zip(*rings[0.0], strict=True))
    moved = tuple(tuple((x - left, y - low) for x, y in rings[inset]) for inset in insets)
    spans = {
        inset: (min(x for x, _ in ring), max(x for x, _ in ring))
        for inset, ring in zip(insets, moved, strict=True)
    }
    down = [(spans[inset][0], depth) for depth, inset in levels]
    up = [(spans[inset][1], depth) for depth, inset in reversed(levels)]
    shelves = tuple(sorted(shelf.depth_m for shelf in drawn.shelves))
    return BasinPicture(moved, (*down, *up), right - left, high - low, drawn.depth_m, shelves)
