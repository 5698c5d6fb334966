"""Areas of outlines seen from above."""

from math import pi

from pondapp.core.errors import require_above


def rectangle_area(length: float, width: float) -> float:
    """Area of a rectangle.

    Args:
        length: Length [m], above 0 to 500.
        width: Width [m], above 0 to 500.

    Returns:
        Area [m2].

    Raises:
        OutOfRange: A side is outside its range.

    Source:
        Geometry.
    """
    require_above("length", length, 0.0, 500.0, "m")
    require_above("width", width, 0.0, 500.0, "m")
    return length * width


def ellipse_area(length: float, width: float) -> float:
    """Area of an ellipse by its two axes.

    Args:
        length: Long axis, tip to tip [m], above 0 to 500.
        width: Short axis, tip to tip [m], above 0 to 500.

    Returns:
        Area [m2].

    Raises:
        OutOfRange: An axis is outside its range.

    Source:
        Geometry.
    """
    return pi / 4.0 * rectangle_area(length, width)
