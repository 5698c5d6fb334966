"""Layers of water between two levels, and their volume."""

from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange, require_above, require_within
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

    Example:
        4 by 3 m at the top, 1.2 m deep, each side coming in by half the depth:

        >>> round(prismoidal_volume(12.0, 8.16, 5.04, 1.2), 3)
        9.936
    """
    require_above("area at the top", area_top, 0.0, 250000.0, "m2")
    require_within("area half way down", area_middle, 0.0, 250000.0, "m2")
    require_within("area at the bottom", area_bottom, 0.0, 250000.0, "m2")
    require_above("depth", thickness, 0.0, DEEPEST, "m")
    return (area_top + 4.0 * area_middle + area_bottom) * thickness / 6.0


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

    Example:
        >>> layer = rectangle_layer(4.0, 3.0, 1.2, 0.5)
        >>> round(layer.area_top, 2), round(layer.area_middle, 2), round(layer.area_bottom, 2)
        (12.0, 8.16, 5.04)
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

    Example:
        5 by 3 m, 1 m deep, its tips coming in by 0.4 m:

        >>> layer = ellipse_layer(5.0, 3.0, 1.0, 0.4)
        >>> round(prismoidal_volume(layer.area_top, layer.area_middle, layer.area_bottom, 1.0), 3)
        9.435
    """
    area = ellipse_area(length, width)
    lost = _narrowed(length, width, thickness, set_back)
    return Layer(
        area,
        ellipse_area(length - 0.5 * lost, width - 0.5 * lost),
        ellipse_area(length - lost, width - lost),
        thickness,
    )
