"""Skimmers: flow that draws the surface in, by the width of the opening."""

from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange, require_above
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand


@dataclass(frozen=True, slots=True)
class SkimmerFlow:
    """The flow that a skimmer wants.

    Attributes:
        band: Wanted flow [m3/s].
        width: Width of the opening [m].
    """

    band: FlowBand
    width: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        width = Term("b", "width of the opening", self.width, "width")
        lines = [("least flow", self.band.low), ("best flow", self.band.target)]
        if self.band.high is not None:
            lines.append(("most flow", self.band.high))
        return tuple(
            Step(
                Term("Q", name, flow, "m3/s"),
                "Q = q b",
                (
                    Term("q", phrase("{name} per width", name=name), flow / self.width, "m2/s"),
                    width,
                ),
                COMMON_PRACTICE,
            )
            for name, flow in lines
        )


def skimmer_flow(width: float, low: float, target: float, high: float) -> SkimmerFlow:
    """Flow through a skimmer from the width of its opening.

    Args:
        width: Width of the opening [m], above 0 to 10.
        low: Least flow per width that still draws leaves in [m2/s], above 0 to 1.
        target: Best flow per width [m2/s], from the least to 1.
        high: Most flow per width, before the flap sinks and air is drawn [m2/s], from the best
            to 1.

    Returns:
        Wanted flow [m3/s].

    Raises:
        OutOfRange: A number is outside its range, or the three are out of order.

    Source:
        Q = q b; flow per width of opening: common practice.

    Example:
        An opening of 20 cm, 20 to 60 m³/h for each metre of it:

        >>> found = skimmer_flow(0.20, 20 / 3600, 40 / 3600, 60 / 3600)
        >>> round(3.6e6 * found.band.target)  # L/h
        8000
    """
    require_above("width of the opening", width, 0.0, 10.0, "width")
    for rate in (low, target, high):
        require_above("flow per width", rate, 0.0, 1.0, "m2/s")
    if not low <= target <= high:
        raise OutOfRange("the least, best and most flow per width are out of order")
    return SkimmerFlow(FlowBand(width * low, width * target, width * high), width)
