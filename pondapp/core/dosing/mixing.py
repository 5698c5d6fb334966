"""How warm a pond is once fresh water is mixed in."""

from pondapp.core.base.constants import COLDEST
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import Source

BOILING = 373.15  # K

HEAT_BALANCE = Source("conservation of heat in a well mixed pond", "computed")


def mixed_temperature(pond: float, fresh: float, share: float) -> float:
    """Temperature of a pond once a share of its water is replaced.

    Args:
        pond: Temperature of the pond [K], 273.15 to 373.15.
        fresh: Temperature of the fresh water [K], 273.15 to 373.15.
        share: Share of the water that is replaced [-], 0 to 1.

    Returns:
        Temperature afterwards [K].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        T = T0 + x (Tf - T0): conservation of heat, the same heat capacity in both; no heat to the
        air meanwhile.

    Example:
        A fifth of a pond of 22 °C replaced from a tap of 12 °C:

        >>> round(mixed_temperature(295.15, 285.15, 0.2) - 273.15, 1)
        20.0
    """
    require_within("water temperature", pond, COLDEST, BOILING, "K")
    require_within("temperature of the fresh water", fresh, COLDEST, BOILING, "K")
    require_within("share of the water changed", share, 0.0, 1.0, "-")
    return pond + share * (fresh - pond)


def share_by_warmth(pond: float, fresh: float, most: float) -> float:
    """Largest share of the water to replace that changes a pond's temperature by so much.

    Args:
        pond: Temperature of the pond [K], 273.15 to 373.15.
        fresh: Temperature of the fresh water [K], 273.15 to 373.15.
        most: Most change of temperature at once [K], above 0 to 40.

    Returns:
        Share of the water [-], 1 where the fresh water is warm enough for all of it.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        x = ΔT / |Tf - T0|, the mixing of mixed_temperature turned round.

    Example:
        From 22 °C with a tap of 12 °C, by 3 degrees at the most:

        >>> round(share_by_warmth(295.15, 285.15, 3.0), 2)
        0.3
    """
    require_within("water temperature", pond, COLDEST, BOILING, "K")
    require_within("temperature of the fresh water", fresh, COLDEST, BOILING, "K")
    require_above("most change of temperature at once", most, 0.0, 40.0, "warmer")
    apart = abs(fresh - pond)
    return 1.0 if apart <= most else most / apart
