"""A bed of gravel: its voids, and the surface of its stones."""

from bisect import bisect_left
from math import log

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import Source

GRAINS = Source("US EPA 832-R-93-008 (1993), media of subsurface wetlands", "from memory")
POROSITIES = ((0.002, 0.32), (0.008, 0.35), (0.016, 0.38), (0.032, 0.40), (0.128, 0.45))
"""Grain size [m] and share of gaps [-]: coarse sand to coarse rock, each of one size."""


def porosity_of(grain: float) -> float:
    """Share of gaps in gravel of one size; gravel of mixed sizes has less.

    Args:
        grain: Grain size [m], 1e-5 to 0.5; finer than 2 mm and coarser than 128 mm as those.

    Returns:
        Porosity [-], straight between the table's sizes over the logarithm of the size.

    Raises:
        OutOfRange: The grain size is outside its range.

    Source:
        US EPA 832-R-93-008, Subsurface Flow Constructed Wetlands for Wastewater Treatment (1993),
        table of media, from memory. Filling a bucket of the gravel with water is more accurate.

    Example:
        Gravel of 16 mm:

        >>> porosity_of(0.016)
        0.38
    """
    require_within("grain size", grain, 1e-5, 0.5, "m")
    if grain <= POROSITIES[0][0]:
        return POROSITIES[0][1]
    at = bisect_left(POROSITIES, (grain,))
    if at == len(POROSITIES):
        return POROSITIES[-1][1]
    (d0, e0), (d1, e1) = POROSITIES[at - 1], POROSITIES[at]
    return e0 + (e1 - e0) * log(grain / d0) / log(d1 / d0)


def specific_surface(grain: float, porosity: float) -> float:
    """Surface of the stones in a bed per volume of bed, on which bacteria live.

    Args:
        grain: Grain size [m], 1e-5 to 0.5.
        porosity: Share of the volume that is free for water [-], above 0 to 1.

    Returns:
        Surface [m2] per volume [m3], so [1/m]: that of spheres, the least that stones have.

    Raises:
        OutOfRange: The grain size or the porosity is outside its range.

    Source:
        6 (1 - ε) / d, geometry of spheres.

    Example:
        Gravel of 20 mm with 40 % of gaps:

        >>> round(specific_surface(0.020, 0.40))  # m² in each m³
        180
    """
    require_within("grain size", grain, 1e-5, 0.5, "m")
    require_above("porosity", porosity, 0.0, 1.0, "-")
    return 6.0 * (1.0 - porosity) / grain
