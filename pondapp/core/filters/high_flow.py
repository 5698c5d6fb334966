"""High-flow filters: foam and loose media that want the pond several times an hour."""

from dataclasses import dataclass

from pondapp.core.base.errors import require_above
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand, high_flow_band


@dataclass(frozen=True, slots=True)
class HighFlow:
    """The flow that a high-flow filter wants.

    Attributes:
        band: Wanted flow [m3/s].
        pond_volume: Water in the pond [m3].
        min_rate: Fewest pond volumes per second [1/s].
        target_rate: Wanted pond volumes per second [1/s].
    """

    band: FlowBand
    pond_volume: float
    min_rate: float
    target_rate: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        pond = Term("V", "water in the pond", self.pond_volume, "m3")
        return tuple(
            Step(
                Term("Q", name, rate * self.pond_volume, "m3/s"),
                "Q = n V",
                (Term("n", "turnovers per time", rate, "1/s"), pond),
                COMMON_PRACTICE,
            )
            for name, rate in (("least flow", self.min_rate), ("best flow", self.target_rate))
        )


def high_flow(pond_volume: float, min_rate: float, target_rate: float) -> HighFlow:
    """The band of high_flow_band together with its working.

    Args:
        pond_volume: Water in the pond [m3], above 0 to 1e5.
        min_rate: Fewest pond volumes per second [1/s], above 0 to 1; fewer on a large pond.
        target_rate: Wanted pond volumes per second [1/s], from the fewest to 1.

    Returns:
        Wanted flow [m3/s].

    Raises:
        OutOfRange: A number is outside its range, or the least is above the target.

    Source:
        Q = n V, turnover is flow over volume (definition); the rates are common practice.

    Example:
        A pond of 3 m³, once to twice an hour:

        >>> box = high_flow(3.0, 1 / 3600, 2 / 3600)
        >>> round(3.6e6 * box.band.target)  # L/h
        6000
    """
    band = high_flow_band(pond_volume, min_rate, target_rate)
    return HighFlow(band, pond_volume, min_rate, target_rate)


def least_turnover(
    pond_volume: float, min_rate: float, large_rate: float, large_pond: float
) -> float:
    """Fewest pond volumes per time that a filter wants: fewer do on a large pond.

    From the size at which a pond counts as large the least flow stays what it is there, until the
    rate of large ponds asks for more: so no pond is asked for less than a smaller one.

    Args:
        pond_volume: Water in the pond [m3], above 0 to 1e5.
        min_rate: Fewest pond volumes per second on a small pond [1/s], above 0 to 1.
        large_rate: Fewest pond volumes per second on a large pond [1/s], above 0 to 1.
        large_pond: Water from which a pond is large [m3], above 0 to 1e5.

    Returns:
        Pond volumes per second [1/s].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Once an hour is accepted on large ponds, twice on others (common practice).

    Example:
        Twice an hour up to 20 m³, once from 40 m³ on:

        >>> rates = (least_turnover(v, 2 / 3600, 1 / 3600, 20.0) for v in (5.0, 30.0, 60.0))
        >>> [round(3600 * rate, 2) for rate in rates]  # times an hour
        [2.0, 1.33, 1.0]
    """
    require_above("pond volume", pond_volume, 0.0, 1e5, "m3")
    require_above("turnover", min_rate, 0.0, 1.0, "1/s")
    require_above("turnover", large_rate, 0.0, 1.0, "1/s")
    require_above("size of a large pond", large_pond, 0.0, 1e5, "m3")
    return min(min_rate, max(large_rate, min_rate * large_pond / pond_volume))
