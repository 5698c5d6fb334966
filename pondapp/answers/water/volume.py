"""How much water a pond holds, and the shapes that a drawing of it needs."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import cos, hypot, pi, sin, sqrt

from pondapp.core.assumptions import Assumptions as Assumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Amount
from pondapp.core.volume.basin import BasinVolume, basin, pond_volume
from pondapp.core.volume.basin import PondVolume as PondVolume
from pondapp.core.volume.layers import Layer, ellipse_layer, rectangle_layer
from pondapp.core.volume.outline import area_by_corners, area_by_simpson, area_set_back
from pondapp.core.volume.plan_shapes import l_shape_area
from pondapp.models.pond import Pond
from pondapp.models.water import (
    Basin,
    Circle,
    Corners,
    Ellipse,
    LShape,
    Offsets,
    Outline,
    Rectangle,
    TypedVolume,
    Water,
)

LEAST_SIDE, USUAL_DEPTH = 2.0, 1.0  # m; of a pond that is not drawn


def outline_points(outline: Outline, steps: int = 48) -> list[tuple[float, float]]:
    """Corner points [m] of an outline as seen from above, with round ones in so many steps."""
    if isinstance(outline, Corners):
        return [(x, y) for x, y in outline.points_m]
    if isinstance(outline, Offsets):
        along = [number * outline.spacing_m for number in range(len(outline.widths_m))]
        near = [(x, width / 2) for x, width in zip(along, outline.widths_m, strict=True)]
        return near + [(x, -y) for x, y in reversed(near)]
    if isinstance(outline, LShape):
        length, width = outline.length_m, outline.width_m
        inner_x, inner_y = length - outline.cut_length_m, width - outline.cut_width_m
        return [(0, 0), (length, 0), (length, inner_y), (inner_x, inner_y), (inner_x, width),
                (0, width)]  # fmt: skip
    if isinstance(outline, Rectangle):
        return [(0, 0), (outline.length_m, 0), (outline.length_m, outline.width_m),
                (0, outline.width_m)]  # fmt: skip
    length, width = _axes(outline)
    turns = [2 * pi * number / steps for number in range(steps)]
    return [(length / 2 * (1 + cos(t)), width / 2 * (1 + sin(t))) for t in turns]


def _axes(outline: Circle | Ellipse) -> tuple[float, float]:
    if isinstance(outline, Circle):
        return outline.diameter_m, outline.diameter_m
    return outline.length_m, outline.width_m


def _free_area(outline: Offsets | Corners) -> float:
    if isinstance(outline, Corners):
        return area_by_corners(outline.points_m)
    if not any(outline.widths_m):
        raise OutOfRange("every width is 0, so there is no water: enter the widths of the pond")
    return area_by_simpson(outline.widths_m, outline.spacing_m)


def _perimeter(points: Sequence[tuple[float, float]]) -> float:
    return sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise([*points, points[0]]))


def free_radius(outline: Offsets | Corners) -> float:
    """Radius [m] of the circle that would touch every side, if one can; for drawings."""
    return 2 * _free_area(outline) / _perimeter(outline_points(outline))


def _l_area(outline: LShape, inset: float) -> float:
    """Area inside an L whose sides have all moved in; the missing corner keeps its size."""
    return l_shape_area(
        outline.length_m - 2 * inset,
        outline.width_m - 2 * inset,
        outline.cut_length_m,
        outline.cut_width_m,
    )


def _layer(outline: Outline, inset: float, thickness: float, slope: float) -> Layer:
    """The water between two levels: the outline moved in by `inset`, sides running in by slope."""
    if isinstance(outline, Rectangle):
        length, width = outline.length_m - 2 * inset, outline.width_m - 2 * inset
        _require_left(min(length, width))
        return rectangle_layer(length, width, thickness, slope)
    if isinstance(outline, Circle | Ellipse):
        length, width = (axis - 2 * inset for axis in _axes(outline))
        _require_left(min(length, width))
        return ellipse_layer(length, width, thickness, slope)
    if isinstance(outline, LShape):
        _l_area(outline, 0.0)  # says what is wrong with the sides themselves
        last = inset + slope * thickness
        arms = (outline.length_m - outline.cut_length_m, outline.width_m - outline.cut_width_m)
        _require_left(min(arms) - 2 * last)
        middle = _l_area(outline, (inset + last) / 2)
        return Layer(_l_area(outline, inset), middle, _l_area(outline, last), thickness)
    whole, corners = _free_area(outline), tuple(outline_points(outline))
    straight = area_set_back(corners, 0.0)

    def area(distance: float) -> float:
        # What a curved edge has beyond straight sides keeps its share.
        return whole * area_set_back(corners, distance) / straight if distance else whole

    below = inset + slope * thickness
    _require_left(area(below))
    return Layer(area(inset), area((inset + below) / 2), area(below), thickness)


def _require_left(size: float) -> None:
    if size <= 0:
        raise OutOfRange(
            "slope and shelves meet before the bottom; make them narrower or the pond shallower"
        )


def basin_levels(drawn: Basin) -> list[tuple[float, float]]:
    """Depth [m] and inset [m] of the side from the water line down, shelf by shelf.

    Raises:
        OutOfRange: A shelf lies below the bottom.
    """
    levels = [(0.0, 0.0)]
    for shelf in sorted(drawn.shelves, key=lambda shelf: shelf.depth_m):
        if shelf.depth_m >= drawn.depth_m:
            raise OutOfRange(
                "a shelf at {shelf} lies below the bottom at {bottom}",
                shelf=Amount(shelf.depth_m, "width"),
                bottom=Amount(drawn.depth_m, "width"),
            )
        depth, inset = levels[-1]
        at_shelf = inset + drawn.side_slope * (shelf.depth_m - depth)
        levels += [(shelf.depth_m, at_shelf), (shelf.depth_m, at_shelf + shelf.width_m)]
    depth, inset = levels[-1]
    return [*levels, (drawn.depth_m, inset + drawn.side_slope * (drawn.depth_m - depth))]


@lru_cache(maxsize=16)
def found_basin(drawn: Basin) -> BasinVolume:
    """Volume [m3], surface [m2] and depth [m] of one basin.

    Raises:
        PondError: The shape cannot be; the message says why.
    """
    layers = [
        _layer(drawn.outline, inset, below - depth, drawn.side_slope)
        for (depth, inset), (below, _) in pairwise(basin_levels(drawn))
        if below > depth
    ]
    return basin(layers)


def volume_of(water: Water, measured: float | None = None) -> PondVolume:
    """The water of a pond; a measured volume [m3] takes precedence.

    Raises:
        PondError: A shape cannot be; the message says why.
    """
    rules = Assumptions().filters
    if isinstance(water, TypedVolume):
        return pond_volume((), water.volume_m3 if measured is None else measured, 1.0)
    found = [found_basin(drawn) for drawn in water.basins]
    return pond_volume(found, measured, rules.volume_mismatch)


def water_volume(pond: Pond) -> float:
    """The volume [m3] that everything else counts with.

    Raises:
        PondError: A shape cannot be; the message says why.
    """
    measured = pond.measured_volume.volume_m3 if pond.measured_volume else None
    return volume_of(pond.water, measured).volume


def widest_lip(pond: Pond, volume: float) -> float:
    """The widest lip [m] that a pond has room for: as long as its longest basin.

    A pond that is not drawn is taken for a square one metre deep of this volume [m3], but no
    shorter than two metres.
    """
    if isinstance(pond.water, TypedVolume):
        return max(LEAST_SIDE, sqrt(volume / USUAL_DEPTH))
    spans: list[float] = []
    for drawn in pond.water.basins:
        across, along = zip(*outline_points(drawn.outline), strict=True)
        spans += [max(across) - min(across), max(along) - min(along)]
    return max(spans)
