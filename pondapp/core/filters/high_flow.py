"""High-flow filters: foam and loose media that want the pond several times an hour."""

from dataclasses import dataclass

from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import Amount, Message
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
        Turnover is flow over volume (definition); the rates are common practice.
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
    """
    require_above("pond volume", pond_volume, 0.0, 1e5, "m3")
    require_above("turnover", min_rate, 0.0, 1.0, "1/s")
    require_above("turnover", large_rate, 0.0, 1.0, "1/s")
    require_above("size of a large pond", large_pond, 0.0, 1e5, "m3")
    return min(min_rate, max(large_rate, min_rate * large_pond / pond_volume))


@dataclass(frozen=True, slots=True)
class LargestPond:
    """The largest pond that a filter can serve.

    Attributes:
        volume: Water in the pond [m3].
        flow: The most that the filter takes [m3/s].
        rate: Pond volumes per second that it needs [1/s].
        warnings: When it is too small for the pond at hand; mostly empty.
    """

    volume: float
    flow: float
    rate: float
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("Q", "the most that the filter takes", self.flow, "m3/s"),
            Term("n", "turnovers per time", self.rate, "1/s"),
        )
        volume = Term("V", "largest pond for this filter", self.volume, "m3")
        return (Step(volume, "V = Q / n", inputs, COMMON_PRACTICE),)


def largest_pond(flow: float, rate: float, pond_volume: float | None) -> LargestPond:
    """The rule read backwards, for a filter whose greatest flow is printed on it.

    Args:
        flow: The most that the filter takes [m3/s], above 0 to 100.
        rate: Pond volumes per second that it needs [1/s], 1e-9 to 1.
        pond_volume: Water in the pond at hand [m3], above 0 to 1e5, or None.

    Returns:
        Volume of the largest pond [m3], with a warning when the pond at hand is larger.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Turnover is flow over volume (definition); the rate is common practice.
    """
    require_above("most flow of the filter", flow, 0.0, 100.0, "m3/s")
    require_within("turnover", rate, 1e-9, 1.0, "1/s")
    largest = flow / rate
    warnings: tuple[Message, ...] = ()
    if pond_volume is not None:
        require_above("pond volume", pond_volume, 0.0, 1e5, "m3")
        if pond_volume > largest:
            warnings = (
                Message(
                    "this filter takes {flow}: enough for {largest}, not for {pond}",
                    {
                        "flow": Amount(flow, "m3/s"),
                        "largest": Amount(largest, "m3"),
                        "pond": Amount(pond_volume, "m3"),
                    },
                ),
            )
    return LargestPond(largest, flow, rate, warnings)
