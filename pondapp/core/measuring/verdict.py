"""A measured flow against the wanted band, and the fill time to aim for."""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.errors import require_above

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
        low: Lower end of the measured interval [m3/s].
        high: Upper end of the measured interval [m3/s].
        band_low: Least wanted flow [m3/s].
        band_high: Most wanted flow [m3/s], or none.

    Returns:
        The verdict [-]; undecided where the interval crosses an end of the band.

    Source:
        JCGM 106:2012, 8.3: a result is decided when its interval does not cross the limit.
    """
    if high < band_low:
        return Verdict("below")
    if band_high is not None and low > band_high:
        return Verdict("above")
    if low >= band_low and (band_high is None or high <= band_high):
        return Verdict("within")
    return Verdict("undecided")


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
