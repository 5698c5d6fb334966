"""Friction of a full round pipe, whatever the speed.

Three regimes: laminar below a Reynolds number of 2000, Colebrook's turbulent flow above 4000, and
between them a curve that meets both in value and slope. Nature has no single value there; the
curve lets a solver pass and makes the loss grow with the flow everywhere.
"""

from math import exp, log

from pondapp.core.base.errors import require_above, require_within

LAMINAR_END = 2000.0
TURBULENT_START = 4000.0
ROUGHEST = 0.05
"""Largest relative roughness of Moody's chart [-]."""

SLOPE = 2.0 / log(10.0)
"""Colebrook's -2 log10(x) is -SLOPE ln(x) [-]."""
TYPICAL = 7.0
"""A usual 1 / sqrt(f) [-], to start from; it goes from 3 to 14."""
STRETCH = log(TURBULENT_START / LAMINAR_END)
"""Length of the bridge between the regimes in ln Re [-]."""
LAMINAR_LOG = log(64.0 / LAMINAR_END)
"""ln f where laminar flow ends [-]."""
_HALF_SLOPE = 0.5 * SLOPE


def friction_factor(reynolds: float, relative_roughness: float) -> float:
    """Darcy friction factor of a full round pipe in any regime.

    Args:
        reynolds: Reynolds number of the bore [-], above 0 to 1e8.
        relative_roughness: Wall roughness over bore [-], 0 to 0.05; ribbed hose lies at the top.

    Returns:
        Darcy (not Fanning) friction factor [-]. From 2000 to 4000 it is a bridge: real pipes
        scatter between the laminar and the turbulent value.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Laminar: f = 64 / Re. Turbulent: 1/√f = -2 log10(ε / 3.7 + 2.51 / (Re √f)), C. F. Colebrook,
        Turbulent flow in pipes, with particular reference to the transition region between the
        smooth and rough pipe laws, J. Inst. Civ. Eng. 11 (1939) 133-156, solved exactly. Between:
        cubic Hermite curve in ln f over ln Re, this project's own.

    Example:
        A smooth hose at a Reynolds number of 50 000, and calm flow at 1000:

        >>> round(friction_factor(5e4, 0.0), 6), friction_factor(1000.0, 0.0)
        (0.020891, 0.064)
    """
    # Asked before the checks are called: two calls would take a quarter of the time.
    if not (0.0 < reynolds <= 1e8 and 0.0 <= relative_roughness <= ROUGHEST):
        require_above("Reynolds number", reynolds, 0.0, 1e8, "-")
        require_within("relative roughness", relative_roughness, 0.0, ROUGHEST, "-")
    if reynolds >= TURBULENT_START:
        x = _colebrook_root(reynolds, relative_roughness)
        return 1.0 / (x * x)
    return factor(reynolds, relative_roughness)


def factor(reynolds: float, relative_roughness: float) -> float:
    """The friction factor without its range checks, for solvers that call it thousands of times.

    Args:
        reynolds: Reynolds number of the bore [-], above 0.
        relative_roughness: Wall roughness over bore [-], 0 to 0.05.

    Returns:
        Darcy friction factor [-].

    Source:
        As friction_factor.

    Example:
        >>> round(factor(5e4, 0.0), 6)
        0.020891
    """
    if reynolds >= TURBULENT_START:
        x = _colebrook_root(reynolds, relative_roughness)
        return 1.0 / (x * x)
    if reynolds <= LAMINAR_END:
        return 64.0 / reynolds
    return factor_and_slope(reynolds, relative_roughness)[0]


def factor_and_slope(reynolds: float, relative_roughness: float) -> tuple[float, float]:
    """The friction factor and how fast it changes, without range checks, for solvers.

    Args:
        reynolds: Reynolds number of the bore [-], above 0.
        relative_roughness: Wall roughness over bore [-], 0 to 0.05.

    Returns:
        Darcy friction factor [-] and the slope of its logarithm over that of the Reynolds number
        [-], -1 in laminar flow.

    Source:
        As friction_factor; derivatives by calculus.

    Example:
        >>> f, slope = factor_and_slope(5e4, 0.0)
        >>> round(f, 6), round(slope, 3)
        (0.020891, -0.223)
    """
    if reynolds <= LAMINAR_END:
        return 64.0 / reynolds, -1.0
    if reynolds >= TURBULENT_START:
        x = _colebrook_root(reynolds, relative_roughness)
        return 1.0 / (x * x), _colebrook_slope(reynolds, relative_roughness, x)
    c1, c2, c3 = bridge(relative_roughness)
    t = log(reynolds / LAMINAR_END) / STRETCH
    f = exp(LAMINAR_LOG + t * (c1 + t * (c2 + t * c3)))
    return f, (c1 + t * (2.0 * c2 + t * 3.0 * c3)) / STRETCH


def bridge(relative_roughness: float) -> tuple[float, float, float]:
    """The curve between laminar and turbulent flow, for solvers.

    Args:
        relative_roughness: Wall roughness over bore [-], 0 to 0.05.

    Returns:
        Coefficients of t, t squared and t cubed [-] in ln f, less LAMINAR_LOG; t rises from 0 at a
        Reynolds number of 2000 to 1 at 4000 with its logarithm.

    Source:
        Cubic Hermite curve with the values and slopes of both ends, this project's own.

    Example:
        The curve ends where turbulent flow begins:

        >>> c1, c2, c3 = bridge(0.0)
        >>> round(exp(LAMINAR_LOG + c1 + c2 + c3), 5) == round(factor(4000.0, 0.0), 5)
        True
    """
    x = _colebrook_root(TURBULENT_START, relative_roughness)
    slope = STRETCH * _colebrook_slope(TURBULENT_START, relative_roughness, x)
    rise = -2.0 * log(x) - LAMINAR_LOG
    return -STRETCH, 3.0 * rise + 2.0 * STRETCH - slope, slope - STRETCH - 2.0 * rise


def _colebrook_root(reynolds: float, relative_roughness: float) -> float:
    """1 / sqrt(f) that satisfies Colebrook's equation, by Halley's method."""
    film = 2.51 / reynolds
    wall = relative_roughness / (3.7 * film)
    # A typical value inside the logarithm leaves an error of 0.6 at most. Two steps, which cube it
    # and divide by some 1000, bring it below 3e-4 and below the last bits.
    x = -SLOPE * log(film * (wall + TYPICAL))
    y = wall + x
    error = x + SLOPE * log(film * y)
    below = y + SLOPE
    x -= error * y / (below + _HALF_SLOPE * error / below)
    y = wall + x
    error = x + SLOPE * log(film * y)
    below = y + SLOPE
    return x - error * y / (below + _HALF_SLOPE * error / below)


def _colebrook_slope(reynolds: float, relative_roughness: float, x: float) -> float:
    """Slope of ln f over ln Re where 1 / sqrt(f) is x."""
    film = SLOPE * 2.51 / reynolds
    return -2.0 * film / (relative_roughness / 3.7 + film * x / SLOPE + film)
