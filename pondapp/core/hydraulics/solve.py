"""Bracketed root finding."""

from collections.abc import Callable
from math import isfinite, ulp

from pondapp.core.base.errors import NoSolution

_CLEVER_STEPS = 60  # ten is usual
_MOST_STEPS = 1200  # then halving, which reaches even the smallest float in some 1100


def root(function: Callable[[float], float], low: float, high: float, tolerance: float) -> float:
    """Where a continuous function crosses zero inside a bracket.

    Args:
        function: Continuous function of one number, finite within the bracket.
        low: Lower end of the bracket.
        high: Upper end of the bracket.
        tolerance: Allowed error of the root, 0 for as good as floats allow.

    Returns:
        The root.

    Raises:
        NoSolution: The function has the same sign at both ends, or is not finite.

    Source:
        T. R. Chandrupatla, A new hybrid quadratic/bisection algorithm for finding the zero of a
        nonlinear function without using derivatives, Adv. Eng. Softw. 28 (1997) 145-149: inverse
        quadratic interpolation where it is safe, else bisection (from memory; checked against scipy
        in tests/published).

    Example:
        >>> round(root(lambda x: x * x - 2.0, 0.0, 2.0, 0.0), 12)
        1.414213562373
    """
    b, a = low, high
    fb, fa = function(b), function(a)
    if fb == 0.0:
        return b
    if fa == 0.0:
        return a
    if not (isfinite(fa) and isfinite(fb)) or (fa > 0.0) == (fb > 0.0):
        raise NoSolution("there is no balance between the two limits that were tried")
    c, fc = a, fa
    share = 0.5
    for step in range(_MOST_STEPS):
        x = a + share * (b - a)
        fx = function(x)
        if not isfinite(fx):
            break
        if (fx > 0.0) == (fa > 0.0):
            c, fc = a, fa
        else:
            c, b, fc, fb = b, a, fb, fa
        a, fa = x, fx
        best, value = (a, fa) if abs(fa) < abs(fb) else (b, fb)
        if value == 0.0:
            return best
        least = (0.5 * tolerance + 2.0 * ulp(best)) / abs(b - a)
        if least >= 0.5:
            return best
        across, up = (a - b) / (c - b), (fa - fb) / (fc - fb)
        share = 0.5
        straight = up**2 < across and (1.0 - up) ** 2 < 1.0 - across  # else it turns back
        if straight and step < _CLEVER_STEPS:
            share = fa / (fb - fa) * fc / (fb - fc)
            share += (c - a) / (b - a) * fa / (fc - fa) * fb / (fc - fb)
        share = min(max(share, least), 1.0 - least)
    raise NoSolution("the balance could not be found: the numbers jump too wildly")


def rising_root(
    function: Callable[[float], tuple[float, float]],
    low: float,
    high: float,
    start: float,
    closeness: float,
    tolerance: float,
) -> float:
    """Where a rising function whose slope is known crosses zero inside a bracket.

    Args:
        function: Value and slope at a number; the value rises and is finite.
        low: Lower end of the bracket; the value there is not above 0.
        high: Upper end of the bracket; the value there is not below 0.
        start: First estimate, in the bracket.
        closeness: Last step allowed as a share of the root [-]; the error is about its square.
        tolerance: Last step allowed besides, in the unit of the root.

    Returns:
        The root.

    Raises:
        NoSolution: The function is not finite, or no root was found.

    Source:
        Newton's method, with bisection where a step leaves the bracket or does not halve the last.

    Example:
        >>> round(rising_root(lambda x: (x * x - 2.0, 2.0 * x), 0.0, 2.0, 1.0, 1e-12, 0.0), 12)
        1.414213562373
    """
    x, last = start, high - low
    for _ in range(_MOST_STEPS):
        value, slope = function(x)
        if value > 0.0:
            high = x
        elif value < 0.0:
            low = x
        elif value == 0.0:
            return x
        else:
            break
        step = value / slope if slope > 0.0 else 2.0 * last
        if abs(step) <= closeness * abs(x) + tolerance:
            return min(max(x - step, low), high)
        found = x - step
        if not (low < found < high and 2.0 * abs(step) <= last):
            found = 0.5 * (low + high)
            if not low < found < high:
                return found
        x, last = found, abs(found - x)
    raise NoSolution("the balance could not be found: the numbers jump too wildly")
