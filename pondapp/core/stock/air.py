"""Pressure of the air by altitude."""

from pondapp.core.base.errors import require_within

SEA_LEVEL_PRESSURE = 101325.0
"""Standard atmosphere [Pa]. Source: ISO 2533 / ICAO Doc 7488, table of constants."""

LOWEST, HIGHEST = -500.0, 5000.0  # m: where people keep ponds
LEAST_PRESSURE, MOST_PRESSURE = 50e3, 110e3  # Pa: what the air does there, storms included

# ICAO standard atmosphere below 11 km.
_TEMPERATURE = 288.15  # K, at sea level
_LAPSE = 0.0065  # K/m
_EXPONENT = 5.2558774  # g M / (R lapse) = 34.163195 K/km / 6.5 K/km
_EARTH_RADIUS = 6356766.0  # m, nominal, turns height into geopotential height


def standard_pressure(altitude: float) -> float:
    """Mean pressure of the air at an altitude.

    Args:
        altitude: Height above the sea [m], -500 to 5000.

    Returns:
        Pressure [Pa].

    Raises:
        OutOfRange: The altitude is outside its range.

    Source:
        p = p0 (1 - L H / T0)^(g M / (R L)) in the troposphere, H the geopotential height: ICAO Doc
        7488, Manual of the ICAO Standard Atmosphere (ISO 2533, US Standard Atmosphere 1976);
        constants within 1e-6 of the library fluids 1.3.1 in tests/published.

    Example:
        At sea level and 1000 m up:

        >>> round(standard_pressure(0.0)), round(standard_pressure(1000.0))
        (101325, 89876)
    """
    require_within("altitude", altitude, LOWEST, HIGHEST, "m")
    height = _EARTH_RADIUS * altitude / (_EARTH_RADIUS + altitude)
    return float(SEA_LEVEL_PRESSURE * (1.0 - _LAPSE * height / _TEMPERATURE) ** _EXPONENT)
