"""Areas of outlines seen from above."""

from math import pi

from pondapp.core.base.errors import OutOfRange, require_above


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
        A = l w, geometry.

    Example:
        >>> rectangle_area(4.0, 3.0)
        12.0
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
        A = π/4 l w, geometry.

    Example:
        >>> round(ellipse_area(5.0, 3.0), 3)
        11.781
    """
    return pi / 4.0 * rectangle_area(length, width)


def l_shape_area(length: float, width: float, cut_length: float, cut_width: float) -> float:
    """Area of a rectangle with a smaller rectangle missing at one corner.

    Args:
        length: Whole length [m], above 0 to 500.
        width: Whole width [m], above 0 to 500.
        cut_length: Length of the missing corner [m], above 0 and below the whole length.
        cut_width: Width of the missing corner [m], above 0 and below the whole width.

    Returns:
        Area [m2].

    Raises:
        OutOfRange: A side is outside its range, or the missing corner is not smaller.

    Source:
        A = l w - l_c w_c, geometry.

    Example:
        5 by 4 m without a corner of 2 by 1.5 m:

        >>> l_shape_area(5.0, 4.0, 2.0, 1.5)
        17.0
    """
    whole = rectangle_area(length, width)
    require_above("length of the missing corner", cut_length, 0.0, length, "m")
    require_above("width of the missing corner", cut_width, 0.0, width, "m")
    if cut_length == length or cut_width == width:
        raise OutOfRange("the missing corner must be smaller than the rectangle on both sides")
    return whole - cut_length * cut_width
