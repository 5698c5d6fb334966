"""Water by temperature."""

from pondapp.core.base.constants import COLDEST, WARMEST
from pondapp.core.base.errors import require_within

"""Range of pond water [K]; the correlation itself reaches further."""

# IAPWS SR6-08, table 1: (coefficient, power) in the specific volume at 0.1 MPa, the first group
# in 10 K / (593 K - T), the second in 10 K / (T - 232 K).
_GAS_CONSTANT = 461.51805  # J/(kg K)
_PRESSURE = 1e5  # Pa
_CONSTANT = 1.93763157e-2
_HOT = (
    (6.74458446e3, 4),
    (-2.22521604e5, 5),
    (1.00231247e8, 7),
    (-1.63552118e9, 8),
    (8.32299658e9, 9),
)
_COLD = (
    (5.78545292e-3, 1),
    (-1.53195665e-2, 2),
    (3.11337859e-2, 3),
    (-4.23546241e-2, 4),
    (3.38713507e-2, 5),
    (-1.19946761e-2, 6),
)
# IAPWS SR6-08, equation 7: micropascal seconds in powers of T / 300 K.
_VISCOSITY = ((280.68, -1.9), (511.45, -7.7), (61.131, -19.6), (0.45903, -40.0))


def density(temperature: float) -> float:
    """Density of water at 0.1 MPa.

    Args:
        temperature: Temperature [K], 273.15 to 313.15.

    Returns:
        Density [kg/m3].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        ρ = 1 / v, IAPWS SR6-08 (2011), Revised Supplementary Release on Properties of Liquid Water
        at 0.1 MPa, specific volume; coefficients as in the library iapws 1.5.5, within 1e-6 of
        IAPWS-95 in tests/published.

    Example:
        At 10 °C:

        >>> round(density(283.15), 2)
        999.7
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    hot = 10.0 / (593.0 - temperature)
    cold = 10.0 / (temperature - 232.0)
    series = _CONSTANT
    series += sum(factor * hot**power for factor, power in _HOT)
    series += sum(factor * cold**power for factor, power in _COLD)
    return _PRESSURE / (_GAS_CONSTANT * 10.0 * series)


def dynamic_viscosity(temperature: float) -> float:
    """Dynamic viscosity of water at 0.1 MPa.

    Args:
        temperature: Temperature [K], 273.15 to 313.15.

    Returns:
        Dynamic viscosity [Pa*s].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        IAPWS SR6-08 (2011), Revised Supplementary Release on Properties of Liquid Water at 0.1 MPa,
        equation 7; coefficients as in the library iapws 1.5.5, within 1e-4 of IAPWS R12-08 in
        tests/published.

    Example:
        At 0 °C:

        >>> round(1000.0 * dynamic_viscosity(273.15), 3)  # mPa s
        1.792
    """
    require_within("water temperature", temperature, COLDEST, WARMEST, "K")
    ratio = temperature / 300.0
    return 1e-6 * float(sum(factor * ratio**power for factor, power in _VISCOSITY))


def kinematic_viscosity(temperature: float) -> float:
    """Kinematic viscosity of water at 0.1 MPa.

    Args:
        temperature: Temperature [K], 273.15 to 313.15.

    Returns:
        Kinematic viscosity [m2/s].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        ν = μ / ρ (definition), both by IAPWS SR6-08 (2011), Revised Supplementary Release on
        Properties of Liquid Water at 0.1 MPa.

    Example:
        At 20 °C:

        >>> round(1e6 * kinematic_viscosity(293.15), 4)  # mm²/s
        1.0034
    """
    return dynamic_viscosity(temperature) / density(temperature)
