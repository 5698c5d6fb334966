"""How often the pond's water passes the pump or a filter."""

from dataclasses import dataclass

from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand, whole_pond_band


@dataclass(frozen=True, slots=True)
class WholePondFlow:
    """The flow that turns the whole pond over.

    Attributes:
        band: Wanted flow [m3/s], without an upper end.
        pond_volume: Water in the pond [m3].
        rate: Pond volumes per second [1/s].
    """

    band: FlowBand
    pond_volume: float
    rate: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        inputs = (
            Term("n", "turnovers per time", self.rate, "1/s"),
            Term("V", "water in the pond", self.pond_volume, "m3"),
        )
        flow = Term("Q", "flow through the pump", self.band.target, "m3/s")
        return (Step(flow, "Q = n V", inputs, COMMON_PRACTICE),)


def whole_pond_flow(pond_volume: float, rate: float) -> WholePondFlow:
    """The band of whole_pond_band together with its working.

    Args:
        pond_volume: Water in the pond [m3], above 0 to 1e5.
        rate: Pond volumes per second [1/s], above 0 to 1.

    Returns:
        Wanted flow [m3/s].

    Raises:
        OutOfRange: The volume or the rate is outside its range.

    Source:
        Q = n V, turnover is flow over volume (definition); the rate is common practice.

    Example:
        A pond of 3 m³, once in two hours:

        >>> round(3.6e6 * whole_pond_flow(3.0, 1 / 7200).band.target)  # L/h
        1500
    """
    return WholePondFlow(whole_pond_band(pond_volume, rate), pond_volume, rate)
