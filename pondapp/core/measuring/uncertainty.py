"""Standard uncertainties: found and combined, after the GUM."""

from collections.abc import Sequence
from math import hypot, sqrt

from pondapp.core.base.errors import NotEnoughReadings, require_within


def mean_and_scatter(readings: Sequence[float]) -> tuple[float, float]:
    """Mean of repeated readings and their standard deviation.

    Args:
        readings: Two or more readings of one quantity, each between -1e12 and 1e12.

    Returns:
        Mean and standard deviation (divisor n - 1).

    Raises:
        NotEnoughReadings: There are fewer than two.
        OutOfRange: A reading is not a number or too large.

    Source:
        s² = Σ (x_i - mean)² / (n - 1): JCGM 100:2008, Guide to the expression of uncertainty in
        measurement, 4.2.1 and 4.2.2.

    Example:
        >>> mean, scatter = mean_and_scatter([12.4, 12.1, 12.7, 12.3, 12.5])
        >>> round(mean, 2), round(scatter, 4)
        (12.4, 0.2236)
    """
    count = len(readings)
    if count < 2:
        raise NotEnoughReadings("scatter needs at least two readings")
    for reading in readings:
        require_within("reading", reading, -1e12, 1e12, "-")
    mean = sum(readings) / count
    return mean, sqrt(sum((reading - mean) ** 2 for reading in readings) / (count - 1))


def rectangular(half_width: float) -> float:
    """Standard uncertainty of a value known only to lie within limits.

    Args:
        half_width: Half the distance between the limits, 0 to 1e12.

    Returns:
        Standard uncertainty, same unit.

    Raises:
        OutOfRange: The half width is outside its range.

    Source:
        u = a / √3: JCGM 100:2008, Guide to the expression of uncertainty in measurement, 4.3.7.

    Example:
        >>> round(rectangular(0.1), 4)
        0.0577
    """
    return require_within("half width", half_width, 0.0, 1e12, "-") / sqrt(3.0)


def combined(parts: Sequence[float]) -> float:
    """Combined standard uncertainty of independent parts.

    Args:
        parts: Standard uncertainties, each times its sensitivity, 0 to 1e12; one or more.

    Returns:
        Combined standard uncertainty, same unit.

    Raises:
        NotEnoughReadings: There is no part.
        OutOfRange: A part is outside its range.

    Source:
        u = √(Σ u_i²): JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2,
        equation 10.

    Example:
        >>> round(combined([0.25, 0.57, 0.82]), 2)
        1.03
    """
    if not parts:
        raise NotEnoughReadings("there is no uncertainty to combine")
    for part in parts:
        require_within("standard uncertainty", part, 0.0, 1e12, "-")
    return hypot(*parts)
