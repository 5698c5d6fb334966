"""Standard uncertainties: found, combined, expanded, after the GUM."""

from collections.abc import Sequence
from math import floor, hypot, inf, sqrt

from pondapp.core.errors import NotEnoughReadings, OutOfRange, require_within
from pondapp.core.measuring.student_t import MOST_DOF, t_factor


def mean_and_scatter(readings: Sequence[float]) -> tuple[float, float]:
    """Mean of repeated readings and their standard deviation.

    Args:
        readings: Two or more readings of one quantity [any], each between -1e12 and 1e12.

    Returns:
        Mean and standard deviation (divisor n - 1) [any].

    Raises:
        NotEnoughReadings: There are fewer than two.
        OutOfRange: A reading is not a number or too large.

    Source:
        JCGM 100:2008, 4.2.1 and 4.2.2.
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
        half_width: Half the distance between the limits [any], 0 to 1e12.

    Returns:
        Standard uncertainty, same unit [any].

    Raises:
        OutOfRange: The half width is outside its range.

    Source:
        JCGM 100:2008, 4.3.7.
    """
    return require_within("half width", half_width, 0.0, 1e12, "-") / sqrt(3.0)


def combined(parts: Sequence[float]) -> float:
    """Combined standard uncertainty of independent parts.

    Args:
        parts: Standard uncertainties, each times its sensitivity [any], 0 to 1e12; one or more.

    Returns:
        Combined standard uncertainty, same unit [any].

    Raises:
        NotEnoughReadings: There is no part.
        OutOfRange: A part is outside its range.

    Source:
        JCGM 100:2008, 5.1.2, equation 10.
    """
    if not parts:
        raise NotEnoughReadings("there is no uncertainty to combine")
    for part in parts:
        require_within("standard uncertainty", part, 0.0, 1e12, "-")
    return hypot(*parts)


def effective_degrees_of_freedom(parts: Sequence[float], dofs: Sequence[float]) -> float:
    """Degrees of freedom of a combined standard uncertainty.

    Args:
        parts: Standard uncertainties, each times its sensitivity [any], 0 to 1e12.
        dofs: Degrees of freedom of each [-], 1 and up; infinity for a part that is known.

    Returns:
        Effective degrees of freedom [-], at most 1000; truncate before looking up a factor.

    Raises:
        NotEnoughReadings: There is no part.
        OutOfRange: The lists differ in length or a value is outside its range.

    Source:
        JCGM 100:2008, G.4.1, equation G.2b.
    """
    if len(parts) != len(dofs):
        raise OutOfRange("each uncertainty needs its degrees of freedom")
    for dof in dofs:
        require_within("degrees of freedom", dof, 1.0, inf, "-")
    total = combined(parts)
    if total == 0.0:
        return float(MOST_DOF)
    share = sum((part / total) ** 4 / dof for part, dof in zip(parts, dofs, strict=True))
    return 1.0 / share if share > 1.0 / MOST_DOF else float(MOST_DOF)


def expanded(parts: Sequence[float], dofs: Sequence[float], coverage: float) -> float:
    """Expanded uncertainty of independent parts.

    Args:
        parts: Standard uncertainties, each times its sensitivity [any], 0 to 1e12.
        dofs: Degrees of freedom of each [-], 1 and up; infinity for a part that is known.
        coverage: Share of cases inside [-], 0.5 to 0.999.

    Returns:
        Half width of the interval, same unit [any].

    Raises:
        NotEnoughReadings: There is no part.
        OutOfRange: The lists differ in length or a value is outside its range.

    Source:
        JCGM 100:2008, G.4.1 and G.6.4.
    """
    dof = floor(effective_degrees_of_freedom(parts, dofs))
    return t_factor(coverage, max(1, dof)) * combined(parts)
