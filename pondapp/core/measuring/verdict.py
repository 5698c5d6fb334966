"""A measured flow against the wanted band, and the fill time to aim for."""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.errors import require_above, require_within

Kind = Literal["within", "below", "above", "undecided"]


@dataclass(frozen=True, slots=True)
class Verdict:
    """Where the flow's interval lies."""

    kind: Kind


@dataclass(frozen=True, slots=True)
class FillWindow:
    """Fill times [s] that mean a flow in the band."""

    shortest: float | None
    aim: float
    longest: float


def judge(low: float, high: float, band_low: float, band_high: float | None) -> Verdict:
    """Say whether the whole interval lies in, under or over the band.

    Args:
        low: Lower end of the measured interval [m3/s], 0 to 1e6.
        high: Upper end of the measured interval [m3/s], from the lower end to 1e6.
        band_low: Least wanted flow [m3/s], 0 to 1e6.
        band_high: Most wanted flow [m3/s], from the least to 1e6, or none.

    Returns:
        The verdict [-]; undecided where the interval crosses an end of the band.

    Raises:
        OutOfRange: A flow is outside its range.

    Source:
        JCGM 106:2012, 8.3: a result is decided when its interval does not cross the limit.
    """
    require_within("lower end of the interval", low, 0.0, 1e6, "m3/s")
    require_within("upper end of the interval", high, low, 1e6, "m3/s")
    require_within("least wanted flow", band_low, 0.0, 1e6, "m3/s")
    if band_high is not None:
        require_within("most wanted flow", band_high, band_low, 1e6, "m3/s")
    if high < band_low:
        return Verdict("below")
    if band_high is not None and low > band_high:
        return Verdict("above")
    if low >= band_low and (band_high is None or high <= band_high):
        return Verdict("within")
    return Verdict("undecided")


def change_needed(flow: float, band_low: float, band_high: float | None) -> float:
    """By how much a flow must change to reach the nearest end of the band.

    Args:
        flow: Measured flow [m3/s], above 0 to 1e6.
        band_low: Least wanted flow [m3/s], 0 to 1e6.
        band_high: Most wanted flow [m3/s], from the least to 1e6, or none.

    Returns:
        Change over the measured flow [-]: above 0 for more, below 0 for less, 0 inside the band.

    Raises:
        OutOfRange: A flow is outside its range.

    Source:
        Wanted flow over measured flow, less one (definition).
    """
    require_above("flow", flow, 0.0, 1e6, "m3/s")
    require_within("least wanted flow", band_low, 0.0, 1e6, "m3/s")
    if band_high is not None:
        require_within("most wanted flow", band_high, band_low, 1e6, "m3/s")
        if flow > band_high:
            return band_high / flow - 1.0
    return band_low / flow - 1.0 if flow < band_low else 0.0


def fill_time_window(
    volume: float, band_low: float, target: float, band_high: float | None
) -> FillWindow:
    """Fill times of a container that mean a flow in the band.

    Args:
        volume: What the container holds [m3], above 0 to 100.
        band_low: Least wanted flow [m3/s], above 0.
        target: Best flow [m3/s], above 0.
        band_high: Most wanted flow [m3/s], above 0, or none.

    Returns:
        Fill times [s].

    Raises:
        OutOfRange: The volume or a flow is outside its range.

    Source:
        Time is volume over flow (definition).
    """
    require_above("volume", volume, 0.0, 100.0, "m3")
    for flow in (band_low, target, band_high):
        if flow is not None:
            require_above("flow", flow, 0.0, 1e6, "m3/s")
    return FillWindow(volume / band_high if band_high else None, volume / target, volume / band_low)
