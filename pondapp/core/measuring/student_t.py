"""Student's t distribution, its sum with a rectangular one, and the F distribution."""

from functools import lru_cache
from math import atan, cos, exp, hypot, lgamma, log, log1p, pi, sin, sqrt
from statistics import NormalDist

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.hydraulics.solve import rising_root

MOST_DOF = 1000  # from here on the normal distribution is the same to 0.1 %
NORMAL = NormalDist()


def t_inside(t: float, dof: int) -> float:
    """Probability that a variable of Student's t distribution lies between -t and t.

    Args:
        t: Bound [-], 0 to 1e6.
        dof: Degrees of freedom [-], 1 to 1000.

    Returns:
        Probability [-].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        M. Abramowitz, I. A. Stegun (eds.), Handbook of Mathematical Functions (1964), 26.7.3 and
        26.7.4.

    Example:
        With two degrees of freedom 4.303 standard deviations hold 95 %:

        >>> round(t_inside(4.303, 2), 4)
        0.95
    """
    require_within("bound", t, 0.0, 1e6, "-")
    require_within("degrees of freedom", dof, 1, MOST_DOF, "-")
    return _inside(t, dof)


def _inside(t: float, dof: int) -> float:
    """The finite series for whole degrees of freedom; odd in t."""
    angle = atan(t / sqrt(dof))
    cosine = cos(angle)
    odd = dof % 2 == 1
    term, total = (cosine, 0.0) if odd else (1.0, 0.0)
    for k in range(1 if odd else 0, dof - 1, 2):
        total += term
        term *= cosine * cosine * (k + 1) / (k + 2)
    if odd:
        return 2.0 / pi * (angle + sin(angle) * total)
    return sin(angle) * total


@lru_cache(maxsize=256)
def t_factor(coverage: float, dof: int) -> float:
    """Two-sided coverage factor.

    Args:
        coverage: Share of cases inside [-], 0.5 to 0.999.
        dof: Degrees of freedom [-], 1 to 1e9; more than 1000 is as good as 1000.

    Returns:
        Factor on the standard uncertainty [-].

    Raises:
        OutOfRange: The coverage or the degrees of freedom are outside their range.

    Source:
        JCGM 100:2008, Guide to the expression of uncertainty in measurement, annex G; series: M.
        Abramowitz, I. A. Stegun (eds.), Handbook of Mathematical Functions (1964), 26.7.3 and
        26.7.4.

    Example:
        Of three fills, two degrees of freedom:

        >>> round(t_factor(0.95, 2), 2)
        4.3
    """
    require_within("coverage", coverage, 0.5, 0.999, "-")
    require_within("degrees of freedom", dof, 1, 1e9, "-")
    dof = min(dof, MOST_DOF)
    low, high = 0.0, 1000.0
    for _ in range(60):
        middle = 0.5 * (low + high)
        if _inside(middle, dof) < coverage:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)


def _cumulative_and_integral(x: float, dof: int) -> tuple[float, float]:
    """The cumulative distribution at x, and its integral up to x less a constant."""
    if dof >= MOST_DOF:
        cumulative = NORMAL.cdf(x)
        return cumulative, x * cumulative + NORMAL.pdf(x)
    cumulative = 0.5 + 0.5 * _inside(x, dof)
    if dof == 1:
        return cumulative, x * cumulative - log1p(x * x) / (2.0 * pi)
    density = exp(
        lgamma(0.5 * (dof + 1))
        - lgamma(0.5 * dof)
        - 0.5 * log(dof * pi)
        - 0.5 * (dof + 1) * log1p(x * x / dof)
    )
    return cumulative, x * cumulative + (dof + x * x) / (dof - 1) * density


@lru_cache(maxsize=256)
def interval_half_width(scale: float, dof: int, half_width: float, coverage: float) -> float:
    """Half width of the interval of a scaled t variable plus a rectangular one.

    One factor on the combined standard uncertainty claims too much where the rectangular part
    rules, because nothing at all lies beyond its ends.

    Args:
        scale: Standard uncertainty of the t part [-], 0 to 1e6, in the unit of the answer.
        dof: Its degrees of freedom [-], 1 to 1e9; from 1000 it counts as normal.
        half_width: Half width of the rectangular part [-], 0 to 1e6, in the same unit.
        coverage: Share of cases inside [-], 0.5 to 0.999.

    Returns:
        Half width of the interval [-], in the same unit.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 101:2008, Supplement 1 to the GUM: Propagation of distributions, 6.4.2 and 6.4.9 (the
        two distributions); their sum integrated exactly.

    Example:
        A tolerance of 1 % alone, and with a scatter of 1 %:

        >>> [round(interval_half_width(u, MOST_DOF, 0.01, 0.95), 4) for u in (0.0, 0.01)]
        [0.0095, 0.0225]
    """
    require_within("scale", scale, 0.0, 1e6, "-")
    require_within("degrees of freedom", dof, 1, 1e9, "-")
    require_within("half width", half_width, 0.0, 1e6, "-")
    require_within("coverage", coverage, 0.5, 0.999, "-")
    dof = min(dof, MOST_DOF)
    factor = NORMAL.inv_cdf(0.5 + 0.5 * coverage) if dof == MOST_DOF else t_factor(coverage, dof)
    # Beyond these ratios the other part is lost in the rounding of the difference below.
    if half_width <= 1e-4 * scale:
        return factor * scale
    if scale <= 1e-6 * half_width:
        return coverage * half_width

    def missing(half: float) -> tuple[float, float]:
        """Coverage of an interval less the wanted one, and how fast it grows."""
        above, upper = _cumulative_and_integral((half + half_width) / scale, dof)
        below, lower = _cumulative_and_integral((half - half_width) / scale, dof)
        inside = scale / half_width * (upper - lower) - 1.0
        return inside - coverage, (above - below) / half_width

    widest = half_width + factor * scale
    together = hypot(coverage * half_width, factor * scale)
    return rising_root(missing, 0.0, widest, together, 1e-8, 1e-12 * widest)


def share_below(limit: float, scale: float, dof: int, half_width: float) -> float:
    """Probability that a scaled t variable plus a rectangular one lies below a limit.

    Args:
        limit: The limit [-], -1e12 to 1e12, in the unit of the scale.
        scale: Standard uncertainty of the t part [-], 0 to 1e6.
        dof: Its degrees of freedom [-], 1 to 1e9; from 1000 it counts as normal.
        half_width: Half width of the rectangular part [-], 0 to 1e6, in the same unit.

    Returns:
        Probability [-]; half of a value that is certain and lies on the limit.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 101:2008, Supplement 1 to the GUM: Propagation of distributions, 6.4.2 and 6.4.9 (the
        two distributions); their sum integrated exactly.

    Example:
        >>> round(share_below(1.645, 1.0, MOST_DOF, 0.0), 3)
        0.95
    """
    require_within("limit", limit, -1e12, 1e12, "-")
    require_within("scale", scale, 0.0, 1e6, "-")
    require_within("degrees of freedom", dof, 1, 1e9, "-")
    require_within("half width", half_width, 0.0, 1e6, "-")
    dof = min(dof, MOST_DOF)
    if scale <= 1e-6 * half_width:
        if half_width == 0.0:
            return 0.5 if limit == 0.0 else float(limit > 0.0)
        return min(1.0, max(0.0, 0.5 + 0.5 * limit / half_width))
    at = limit / scale
    # The same ratio as in interval_half_width: beyond it the difference below is only rounding.
    if half_width <= 1e-4 * scale or abs(at) > 1e5:
        return _cumulative_and_integral(at, dof)[0]
    wide = half_width / scale
    _, upper = _cumulative_and_integral(at + wide, dof)
    _, lower = _cumulative_and_integral(at - wide, dof)
    return min(1.0, max(0.0, (upper - lower) / (2.0 * wide)))


def chance_of_ratio(ratio: float, dof: int, dof_below: int) -> float:
    """Chance that one estimated variance is so many times another of the same thing, or more.

    Args:
        ratio: The first over the second [-], 0 to 1e12.
        dof: Degrees of freedom of the first [-], 1 to 1000.
        dof_below: Degrees of freedom of the second [-], 1 to 1000.

    Returns:
        Probability [-].

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        F distribution: M. Abramowitz, I. A. Stegun (eds.), Handbook of Mathematical Functions
        (1964), 26.6.2, by the continued fraction of the incomplete beta function, 26.5.8.

    Example:
        A variance four times the expected one, three fills:

        >>> round(chance_of_ratio(4.0, 2, 3), 3)
        0.142
    """
    require_within("ratio of variances", ratio, 0.0, 1e12, "-")
    require_within("degrees of freedom", dof, 1, MOST_DOF, "-")
    require_within("degrees of freedom", dof_below, 1, MOST_DOF, "-")
    x = dof_below / (dof_below + dof * ratio)
    a, b = 0.5 * dof_below, 0.5 * dof
    if x > (a + 1.0) / (a + b + 2.0):  # the fraction of the other tail is the quicker one
        return 1.0 - _beta_share(1.0 - x, b, a)
    return _beta_share(x, a, b)


def _beta_share(x: float, a: float, b: float) -> float:
    """Regularised incomplete beta function, for x below its middle."""
    if x <= 0.0:
        return 0.0
    front = exp(lgamma(a + b) - lgamma(a) - lgamma(b) + a * log(x) + b * log1p(-x)) / a
    # 26.5.8 from its end to its beginning; so many terms are enough for 1000 degrees of freedom.
    fraction = 1.0
    for k in range(120, 0, -1):
        m = k // 2
        if k % 2:
            term = -(a + m) * (a + b + m) * x / ((a + 2 * m) * (a + 2 * m + 1.0))
        else:
            term = m * (b - m) * x / ((a + 2 * m - 1.0) * (a + 2 * m))
        fraction = 1.0 + term / fraction
    return min(1.0, front / fraction)


def normal_factor(coverage: float) -> float:
    """Two-sided coverage factor where the standard uncertainty is as good as known.

    Args:
        coverage: Share of cases inside [-], above 0 to 0.999.

    Returns:
        Factor on the standard uncertainty [-].

    Raises:
        OutOfRange: The coverage is outside its range.

    Source:
        JCGM 100:2008, Guide to the expression of uncertainty in measurement, table G.1 (normal
        distribution).

    Example:
        >>> round(normal_factor(0.95), 2)
        1.96
    """
    require_above("coverage", coverage, 0.0, 0.999, "-")
    return NORMAL.inv_cdf(0.5 + 0.5 * coverage)
