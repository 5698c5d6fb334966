"""A bed of gravel: its volume, weight, voids and surface, and how fast water rises in it."""

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
        US EPA 832-R-93-008 (1993), table of media for subsurface flow wetlands, from memory.
        Filling a bucket of the gravel with water tells better (porosity_by_filling).
    """
    require_within("grain size", grain, 1e-5, 0.5, "m")
    if grain <= POROSITIES[0][0]:
        return POROSITIES[0][1]
    at = bisect_left(POROSITIES, (grain,))
    if at == len(POROSITIES):
        return POROSITIES[-1][1]
    (d0, e0), (d1, e1) = POROSITIES[at - 1], POROSITIES[at]
    return e0 + (e1 - e0) * log(grain / d0) / log(d1 / d0)


def bed_volume(area: float, depth: float) -> float:
    """Outside volume of a bed.

    Args:
        area: Area seen from above [m2], above 0 to 1e4.
        depth: Depth of the gravel [m], above 0 to 5.

    Returns:
        Volume [m3].

    Raises:
        OutOfRange: The area or the depth is outside its range.

    Source:
        Geometry.
    """
    require_above("area of the bed", area, 0.0, 1e4, "m2")
    require_above("depth of the gravel", depth, 0.0, 5.0, "m")
    return area * depth


def water_in_bed(volume: float, porosity: float) -> float:
    """Water between the stones of a bed.

    Args:
        volume: Outside volume [m3], above 0 to 1e5.
        porosity: Share of the volume that is free for water [-], above 0 to 1.

    Returns:
        Volume of the water [m3].

    Raises:
        OutOfRange: The volume or the porosity is outside its range.

    Source:
        Porosity is volume of voids over whole volume (definition).
    """
    require_above("volume of the bed", volume, 0.0, 1e5, "m3")
    require_above("porosity", porosity, 0.0, 1.0, "-")
    return porosity * volume


def porosity_by_filling(water: float, bucket: float) -> float:
    """Porosity from how much water goes into a bucket that is full of gravel.

    Args:
        water: Water that went in up to the top of the gravel [m3], above 0 to the bucket's.
        bucket: Volume of the gravel in the bucket [m3], above 0 to 10.

    Returns:
        Porosity [-].

    Raises:
        OutOfRange: A volume is outside its range, or more water than bucket.

    Source:
        Porosity is volume of voids over whole volume (definition).
    """
    require_above("volume of the bucket", bucket, 0.0, 10.0, "m3")
    require_above("water that went in", water, 0.0, bucket, "m3")
    return water / bucket


def upflow_velocity(flow: float, area: float) -> float:
    """Speed at which water would rise if there were no gravel: flow per area.

    Args:
        flow: Flow through the bed [m3/s], 0 to 10.
        area: Area of the bed [m2], 1e-6 to 1e4.

    Returns:
        Velocity [m/s].

    Raises:
        OutOfRange: The flow or the area is outside its range.

    Source:
        Hydraulic loading Q / A (definition).
    """
    require_within("flow through the bed", flow, 0.0, 10.0, "m3/s")
    require_within("area of the bed", area, 1e-6, 1e4, "m2")
    return flow / area


def pore_velocity(flow: float, area: float, porosity: float) -> float:
    """Mean speed of the water between the stones.

    Args:
        flow: Flow through the bed [m3/s], 0 to 10.
        area: Area of the bed [m2], 1e-6 to 1e4.
        porosity: Share of the volume that is free for water [-], 0.01 to 1.

    Returns:
        Velocity [m/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Q / (A ε) (definition).
    """
    require_within("porosity", porosity, 0.01, 1.0, "-")
    return upflow_velocity(flow, area) / porosity


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
    """
    require_within("grain size", grain, 1e-5, 0.5, "m")
    require_above("porosity", porosity, 0.0, 1.0, "-")
    return 6.0 * (1.0 - porosity) / grain


def bulk_density(solid_density: float, porosity: float) -> float:
    """Density of dry gravel as it lies.

    Args:
        solid_density: Density of the stone itself [kg/m3], 100 to 8000.
        porosity: Share of the volume between the stones [-], 0 to 1.

    Returns:
        Density [kg/m3].

    Raises:
        OutOfRange: The density or the porosity is outside its range.

    Source:
        Density of the solid times its share of the volume (definition).
    """
    require_within("density of the stone", solid_density, 100.0, 8000.0, "kg/m3")
    require_within("porosity", porosity, 0.0, 1.0, "-")
    return solid_density * (1.0 - porosity)


def gravel_mass(volume: float, density: float) -> float:
    """Weight of a bed of dry gravel.

    Args:
        volume: Outside volume [m3], above 0 to 1e5.
        density: Density as it lies [kg/m3], 50 to 8000.

    Returns:
        Mass [kg].

    Raises:
        OutOfRange: The volume or the density is outside its range.

    Source:
        Volume times density (definition).
    """
    require_above("volume of the bed", volume, 0.0, 1e5, "m3")
    require_within("density as it lies", density, 50.0, 8000.0, "kg/m3")
    return volume * density
