"""Water by temperature."""

from pondapp.core.errors import require_within


def density(temperature: float) -> float:
    """Density of air-free water at one atmosphere.

    Args:
        temperature: Temperature [K], 273.15 to 313.15.

    Returns:
        Density [kg/m3].

    Raises:
        OutOfRange: The temperature is outside its range.

    Source:
        Kell, J. Chem. Eng. Data 20 (1975) 97, equation 16, coefficients from memory; checked
        against IAPWS-95 values in tests/published.
    """
    require_within("water temperature", temperature, 273.15, 313.15, "K")
    t = temperature - 273.15
    top = 999.83952 + t * (
        16.945176
        + t * (-7.9870401e-3 + t * (-46.170461e-6 + t * (105.56302e-9 - t * 280.54253e-12)))
    )
    return top / (1.0 + 16.879850e-3 * t)
