"""Student's t distribution."""

from math import atan, cos, pi, sin, sqrt

from pondapp.core.errors import require_within


def _inside(t: float, dof: int) -> float:
    """Probability that |T| is below t, by the finite series for whole degrees of freedom."""
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


def t_factor(coverage: float, dof: int) -> float:
    """Two-sided coverage factor.

    Args:
        coverage: Share of cases inside [-], 0.5 to 0.999.
        dof: Degrees of freedom [-], 1 to 1000; more is as good as 1000.

    Returns:
        Factor on the standard uncertainty [-].

    Raises:
        OutOfRange: The coverage or the degrees of freedom are outside their range.

    Source:
        JCGM 100:2008, annex G; series: Abramowitz & Stegun (1964), 26.7.3 and 26.7.4.
    """
    require_within("coverage", coverage, 0.5, 0.999, "-")
    require_within("degrees of freedom", dof, 1, 1e9, "-")
    dof = min(dof, 1000)
    low, high = 0.0, 1000.0
    for _ in range(100):
        middle = 0.5 * (low + high)
        if _inside(middle, dof) < coverage:
            low = middle
        else:
            high = middle
    return 0.5 * (low + high)
