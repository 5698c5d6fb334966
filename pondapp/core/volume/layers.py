"""Layers of water between two levels: upright, sloping, a bowl, contours, a lying barrel."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import acos, pi, sqrt

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount
from pondapp.core.base.working import Source
from pondapp.core.volume.plan_shapes import ellipse_area, rectangle_area

PRISMOIDAL = Source(
    "prismoidal rule of earthwork; University of Regina, a worked pond", "published"
)
DEEPEST = 50.0  # m; beyond any garden: a slip of the keyboard


@dataclass(frozen=True, slots=True)
class Layer:
    """Water between two levels.

    Attributes:
        area_top: Area at the upper level [m2].
        area_middle: Area half way down [m2], not the mean of the other two.
        area_bottom: Area at the lower level [m2].
        thickness: Distance between the levels [m].
    """

    area_top: float
    area_middle: float
    area_bottom: float
    thickness: float


def prismoidal_volume(
    area_top: float, area_middle: float, area_bottom: float, thickness: float
) -> float:
    """Volume between two levels from three areas.

    Exact for any side whose area is a polynomial of the depth up to the third power: straight
    slopes, bowls, cones.

    Args:
        area_top: Area at the upper level [m2], above 0 to 250000.
        area_middle: Area half way down [m2], 0 to 250000; measured there, not a mean.
        area_bottom: Area at the lower level [m2], 0 to 250000.
        thickness: Distance between the levels [m], above 0 to 50.

    Returns:
        Volume [m3].

    Raises:
        OutOfRange: An area or the thickness is outside its range.

    Source:
        V = (A_top + 4 A_mid + A_bottom) d / 6, the prismoidal rule; geometry. A pond
        worked with it: University of Regina, Math Central, QQ.09.07.
    """
    require_above("area at the top", area_top, 0.0, 250000.0, "m2")
    require_within("area half way down", area_middle, 0.0, 250000.0, "m2")
    require_within("area at the bottom", area_bottom, 0.0, 250000.0, "m2")
    require_above("depth", thickness, 0.0, DEEPEST, "m")
    return (area_top + 4.0 * area_middle + area_bottom) * thickness / 6.0


def straight_layer(area: float, thickness: float) -> Layer:
    """A layer with upright sides, of any outline.

    Args:
        area: Area of the outline [m2], above 0 to 250000.
        thickness: Depth of the layer [m], above 0 to 50.

    Returns:
        The layer [m2], [m].

    Raises:
        OutOfRange: The area or the depth is outside its range.

    Source:
        Geometry.
    """
    prismoidal_volume(area, area, area, thickness)
    return Layer(area, area, area, thickness)


def _narrowed(length: float, width: float, thickness: float, set_back: float) -> float:
    """How much both dimensions lose from top to bottom."""
    require_above("depth", thickness, 0.0, DEEPEST, "m")
    require_within("set-back of the side", set_back, 0.0, 10.0, "-")
    lost = 2.0 * set_back * thickness
    least = min(length, width)
    if lost >= least:
        raise OutOfRange(
            "sides that come in by {set_back} of the depth meet at {meet}, "
            "above the bottom at {depth}",
            set_back=Amount(set_back, "-"),
            meet=Amount(least / (2.0 * set_back), "m"),
            depth=Amount(thickness, "m"),
        )
    return lost


def rectangle_layer(length: float, width: float, thickness: float, set_back: float) -> Layer:
    """A rectangle whose four sides slope inward by the same amount.

    Args:
        length: Length at the upper level [m], above 0 to 500.
        width: Width at the upper level [m], above 0 to 500.
        thickness: Depth of the layer [m], above 0 to 50.
        set_back: How far each side comes in, per depth [-], 0 (upright) to 10.

    Returns:
        The layer [m2], [m].

    Raises:
        OutOfRange: A number is outside its range, or the sides meet above the bottom.

    Source:
        Geometry: a dimension at depth y is the upper one less 2 z y.
    """
    area = rectangle_area(length, width)
    lost = _narrowed(length, width, thickness, set_back)
    return Layer(
        area,
        rectangle_area(length - 0.5 * lost, width - 0.5 * lost),
        rectangle_area(length - lost, width - lost),
        thickness,
    )


def ellipse_layer(length: float, width: float, thickness: float, set_back: float) -> Layer:
    """An ellipse, or a circle, both of whose axes shrink by the same amount on the way down.

    Args:
        length: Long axis at the upper level, tip to tip [m], above 0 to 500.
        width: Short axis at the upper level, tip to tip [m], above 0 to 500.
        thickness: Depth of the layer [m], above 0 to 50.
        set_back: How far each tip comes in, per depth [-], 0 (upright) to 10.

    Returns:
        The layer [m2], [m].

    Raises:
        OutOfRange: A number is outside its range, or the sides meet above the bottom.

    Source:
        Geometry: an axis at depth y is the upper one less 2 z y.
    """
    area = ellipse_area(length, width)
    lost = _narrowed(length, width, thickness, set_back)
    return Layer(
        area,
        ellipse_area(length - 0.5 * lost, width - 0.5 * lost),
        ellipse_area(length - lost, width - lost),
        thickness,
    )


def bowl_layer(length: float, width: float, depth: float) -> Layer:
    """A rounded bowl: the lower half of an ellipsoid.

    Args:
        length: Long axis of the water, tip to tip [m], above 0 to 500.
        width: Short axis of the water, tip to tip [m], above 0 to 500.
        depth: Depth at the middle [m], above 0 to 50.

    Returns:
        The layer [m2], [m].

    Raises:
        OutOfRange: An axis or the depth is outside its range.

    Source:
        Half ellipsoid, geometry: half way down three quarters of the area are left.
    """
    area = ellipse_area(length, width)
    require_above("depth", depth, 0.0, DEEPEST, "m")
    return Layer(area, 0.75 * area, 0.0, depth)


def contour_volume(areas: Sequence[float], depths: Sequence[float]) -> float:
    """Volume from the areas known at several depths, with nothing known between them.

    Args:
        areas: Two or more areas from the top down [m2], the first above 0, none larger than the
            one above it, to 250000.
        depths: Their depths below the water [m], from 0 rising to 50.

    Returns:
        Volume [m3]; a few per cent too much where the sides slope evenly.

    Raises:
        NotEnoughReadings: There are fewer than two areas, or not as many depths.
        OutOfRange: An area or a depth is outside its range.

    Source:
        Average end area rule; any textbook of surveying.
    """
    if len(areas) < 2 or len(areas) != len(depths):
        raise NotEnoughReadings("give at least two areas, and a depth for each")
    require_above("area at the water", areas[0], 0.0, 250000.0, "m2")
    require_within("depth of the first area", depths[0], 0.0, 0.0, "m")
    volume = 0.0
    for (upper, lower), (above, below) in zip(pairwise(areas), pairwise(depths), strict=True):
        require_within("area further down", lower, 0.0, upper, "m2")
        require_above("depth of the next area", below, above, DEEPEST, "m")
        volume += 0.5 * (upper + lower) * (below - above)
    return volume


def lying_barrel_volume(diameter: float, length: float, depth: float) -> float:
    """Water in a barrel or pipe that lies level on its side, with flat ends.

    Args:
        diameter: Inside diameter [m], above 0 to 10.
        length: Inside length [m], above 0 to 100.
        depth: Depth of the water over the lowest line [m], 0 to the diameter.

    Returns:
        Volume [m3].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Circular segment, geometry.
    """
    require_above("diameter", diameter, 0.0, 10.0, "m")
    require_above("length", length, 0.0, 100.0, "m")
    require_within("depth of the water", depth, 0.0, diameter, "m")
    radius = 0.5 * diameter
    up = radius - depth
    segment = radius**2 * acos(max(-1.0, min(1.0, up / radius))) - up * sqrt(
        max(0.0, depth * (diameter - depth))
    )
    return length * min(max(segment, 0.0), pi * radius**2)
