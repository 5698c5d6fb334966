"""Friction of a full round pipe, whatever the speed.

Three regimes: laminar below a Reynolds number of 2000, Colebrook's turbulent flow above 4000, and
between them a curve that meets both in value and slope. Nature has no single value there; the
curve lets a solver pass and makes the loss grow with the flow everywhere.
"""

from math import exp, log, log10

from pondapp.core.errors import require_above, require_within

LAMINAR_END = 2000.0
TURBULENT_START = 4000.0
ROUGHEST = 0.05
"""Largest relative roughness of Moody's chart [-]."""

_SLOPE = 2.0 / log(10.0)  # Colebrook's -2 log10(x) is -_SLOPE ln(x)
_STRETCH = log(TURBULENT_START / LAMINAR_END)


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
        Laminar: 64 / Re. Turbulent: C. F. Colebrook, J. Inst. Civ. Eng. 11 (1939) 133-156, solved
        exactly. Between: cubic Hermite curve in ln f over ln Re, this project's own.
    """
    require_above("Reynolds number", reynolds, 0.0, 1e8, "-")
    require_within("relative roughness", relative_roughness, 0.0, ROUGHEST, "-")
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
    """
    if reynolds >= TURBULENT_START:
        return _colebrook_root(reynolds, relative_roughness) ** -2
    if reynolds <= LAMINAR_END:
        return 64.0 / reynolds
    left = log(64.0 / LAMINAR_END)
    x = _colebrook_root(TURBULENT_START, relative_roughness)
    wall, film = relative_roughness / 3.7, 2.51 / TURBULENT_START
    right = -2.0 * log(x)
    right_slope = -2.0 * _SLOPE * film / (wall + film * x + _SLOPE * film)  # of ln f over ln Re
    t = log(reynolds / LAMINAR_END) / _STRETCH
    s = 1.0 - t
    return exp(
        (1.0 + 2.0 * t) * s * s * left
        - t * s * s * _STRETCH  # the laminar slope is -1
        + t * t * (3.0 - 2.0 * t) * right
        - t * t * s * _STRETCH * right_slope
    )


def _colebrook_root(reynolds: float, relative_roughness: float) -> float:
    """1 / sqrt(f) that satisfies Colebrook's equation, by Newton's method."""
    wall, film = relative_roughness / 3.7, 2.51 / reynolds
    x = -1.8 * log10(wall**1.11 + 6.9 / reynolds)  # Haaland's, good to 2 %
    for _ in range(3):  # the error falls from 1e-2 to 1e-5, 1e-11 and the last bit
        inside = wall + film * x
        x -= (x + _SLOPE * log(inside)) / (1.0 + _SLOPE * film / inside)
    return x
