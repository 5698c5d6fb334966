"""How long the oxygen of a pond lasts while no pump runs."""

from math import inf, log1p

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import Source

STILL = Source("oxygen in a well mixed pond: use against what the surface brings", "computed")


def time_to_oxygen(
    volume: float, exchange: float, full: float, start: float, limit: float, use: float
) -> float:
    """How long it takes until the oxygen of a still pond has fallen to a limit.

    Args:
        volume: Water in the pond [m3], above 0 to 1e5.
        exchange: Transfer velocity of the surface times its area [m3/s], 0 to 100.
        full: Oxygen at saturation [kg/m3], 0 to 0.02.
        start: Oxygen at the start [kg/m3], 0 to 0.05.
        limit: Oxygen to fall to [kg/m3], 0 to 0.02.
        use: Oxygen that fish, mud and plants use [kg/s], 0 to 1.

    Returns:
        Time [s]; 0 if there is no more at the start, infinite if the surface keeps it up.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        V dC/dt = K (Cs - C) - R, so C goes to Ce = Cs - R / K with exp(-K t / V): mass balance of a
        well mixed pond, two-film transfer. Fish that breathe less in poor water are not counted.

    Example:
        2 m³ from 8 to 4 mg/L by 1 g an hour, nothing through the surface:

        >>> round(time_to_oxygen(2.0, 0.0, 9e-3, 8e-3, 4e-3, 1e-3 / 3600.0) / 3600.0, 1)  # h
        8.0
    """
    require_above("pond volume", volume, 0.0, 1e5, "m3")
    require_within("exchange through the surface", exchange, 0.0, 100.0, "m3/s")
    require_within("oxygen at saturation", full, 0.0, 0.02, "kg/m3")
    require_within("oxygen at the start", start, 0.0, 0.05, "kg/m3")
    require_within("oxygen to fall to", limit, 0.0, 0.02, "kg/m3")
    require_within("oxygen used", use, 0.0, 1.0, "kg/s")
    if start <= limit:
        return 0.0
    draw = use - exchange * (full - limit)  # what is still lost at the limit
    if draw <= 0.0:
        return inf
    # The logarithm of the balance, in a form that holds for a surface of nearly nothing too.
    eased = exchange * (start - limit) / draw
    return volume * (start - limit) / draw * (log1p(eased) / eased if eased else 1.0)
