"""The flow that a filter or a pond wants: least, best, most."""

from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange, require_above, require_within
from pondapp.core.base.messages import Amount


@dataclass(frozen=True, slots=True)
class FlowBand:
    """Wanted flow [m3/s]; no upper end where more does no harm."""

    low: float
    target: float
    high: float | None


def _require_order(name: str, smaller: float, larger: float, unit: str) -> None:
    """Refuse rules that contradict each other: the band would be upside down."""
    if smaller > larger:
        raise OutOfRange(
            "{name}: {smaller} must not be more than {larger}",
            name=name,
            smaller=Amount(smaller, unit),
            larger=Amount(larger, unit),
        )


def bog_band(
    bog_volume: float, retention_min: float, retention_target: float, retention_max: float
) -> FlowBand:
    """Flow through a bog filter from the time that water should take to pass it.

    Args:
        bog_volume: Outside volume of the bed [m3], above 0 to 1e4.
        retention_min: Shortest time [s], 1 to 1e6.
        retention_target: Best time [s], from the shortest to 1e6.
        retention_max: Longest time [s], from the best to 1e6.

    Returns:
        Wanted flow [m3/s].

    Raises:
        OutOfRange: The volume or a time is outside its range, or the times are out of order.

    Source:
        Q = V / t, retention time is volume over flow (definition); the times are common practice.

    Example:
        A bed of 100 L, the water 5 to 15 minutes in it, best 10:

        >>> band = bog_band(0.1, 300.0, 600.0, 900.0)
        >>> [round(3.6e6 * flow) for flow in (band.low, band.target, band.high)]  # L/h
        [400, 600, 1200]
    """
    require_above("bog volume", bog_volume, 0.0, 1e4, "m3")
    for time in (retention_min, retention_target, retention_max):
        require_within("retention time", time, 1.0, 1e6, "s")
    _require_order("shortest and best time through the bog", retention_min, retention_target, "s")
    _require_order("best and longest time through the bog", retention_target, retention_max, "s")
    return FlowBand(
        bog_volume / retention_max, bog_volume / retention_target, bog_volume / retention_min
    )


def high_flow_band(pond_volume: float, min_rate: float, target_rate: float) -> FlowBand:
    """Flow through a high-flow filter from how often the pond should pass it.

    Args:
        pond_volume: Water in the pond [m3], above 0 to 1e5.
        min_rate: Fewest pond volumes per second [1/s], above 0 to 1.
        target_rate: Wanted pond volumes per second [1/s], from the fewest to 1.

    Returns:
        Wanted flow [m3/s]; the target is also its upper end.

    Raises:
        OutOfRange: The volume or a rate is outside its range, or the least is above the target.

    Source:
        Q = n V, turnover is flow over volume (definition); the rates are common practice.

    Example:
        A pond of 3 m³, once to twice an hour:

        >>> band = high_flow_band(3.0, 1 / 3600, 2 / 3600)
        >>> round(3.6e6 * band.low), round(3.6e6 * band.target)  # L/h
        (3000, 6000)
    """
    require_above("pond volume", pond_volume, 0.0, 1e5, "m3")
    require_above("turnover", min_rate, 0.0, 1.0, "1/s")
    require_above("turnover", target_rate, 0.0, 1.0, "1/s")
    _require_order("least and wanted turnover of the filter", min_rate, target_rate, "1/s")
    return FlowBand(pond_volume * min_rate, pond_volume * target_rate, pond_volume * target_rate)


def whole_pond_band(pond_volume: float, rate: float) -> FlowBand:
    """Flow that turns the whole pond over at a rate.

    Args:
        pond_volume: Water in the pond [m3], above 0 to 1e5.
        rate: Pond volumes per second [1/s], above 0 to 1.

    Returns:
        Wanted flow [m3/s], without an upper end.

    Raises:
        OutOfRange: The volume or the rate is outside its range.

    Source:
        Q = n V, turnover is flow over volume (definition); the rate is common practice.

    Example:
        A pond of 3 m³, once in two hours:

        >>> round(3.6e6 * whole_pond_band(3.0, 1 / 7200).target)  # L/h
        1500
    """
    require_above("pond volume", pond_volume, 0.0, 1e5, "m3")
    require_above("turnover", rate, 0.0, 1.0, "1/s")
    return FlowBand(pond_volume * rate, pond_volume * rate, None)
