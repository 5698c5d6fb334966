"""From timed fills to a flow, a verdict, and what to do next."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.errors import NoSolution
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.hydraulics.water import density
from pondapp.core.measuring.estimate import FlowEstimate
from pondapp.core.measuring.no_flow import NoFlow
from pondapp.core.measuring.pooling import Pooled
from pondapp.core.measuring.runs_needed import more_runs_to_decide
from pondapp.core.measuring.slips import likely_slip
from pondapp.core.measuring.timed_flow import TimedFlow, timed_flow
from pondapp.core.measuring.verdict import FillWindow, fill_time_window, judge
from pondapp.core.messages import Amount
from pondapp.core.messages import Message as Message
from pondapp.models.reading import Container, Fill
from pondapp.sizing.accuracy import Accuracy, of_timed

COOL_WATER = 288.15  # K; a few degrees either way change a weighed volume by under 0.1 %
ENOUGH_FILLS = 3

Kind = Literal["within", "below", "above", "undecided", "no target"]
AnyFlow = TimedFlow | FlowEstimate | NoFlow


@dataclass(frozen=True, slots=True)
class Measured:
    """What a measurement says, whatever the method."""

    flow: AnyFlow
    counted: int
    kind: Kind
    verdict: Message
    advice: tuple[Message, ...]
    slip: int | None
    """Place among all fills of the one that looks like a slip."""
    accuracy: Accuracy | None
    """What limits it, and what would halve the doubt."""
    limits: tuple[Message, ...] = ()
    """Where its formula is stretched beyond what it was tested for, or how it was seen."""

    @property
    def dry(self) -> bool:
        """Whether no water came at all."""
        return isinstance(self.flow, NoFlow)


def counted_times(fills: Sequence[Fill]) -> list[float]:
    """The fill times that were not struck out."""
    return [fill.seconds for fill in fills if not fill.struck]


def fill_window(container: Container, band: FlowBand) -> FillWindow:
    """The fill time to aim for in this container."""
    return fill_time_window(container.volume_m3, band.low, band.target, band.high)


def fill_time(container: Container, found: Measured) -> float:
    """How long a fill of this container takes [s] at a measured flow."""
    return container.volume_m3 / found.flow.flow


def volume_of_water(mass: float) -> float:
    """Volume of so much cool water [m3] for a mass [kg]."""
    return mass / density(COOL_WATER)


def measured(
    container: Container,
    fills: Sequence[Fill],
    band: FlowBand | None,
    rules: MeasuringAssumptions | None = None,
) -> Measured | None:
    """The flow and the verdict, or nothing while no fill counts."""
    times = counted_times(fills)
    if not times:
        return None
    rules = rules or Assumptions().measuring
    flow = timed_flow(
        times, container.volume_m3, container.tolerance_m3, rules.reaction_sd, rules.coverage
    )
    return judged_fills(flow, fills, band, rules, weighed=False)


def judged_fills(
    flow: TimedFlow,
    fills: Sequence[Fill],
    band: FlowBand | None,
    rules: MeasuringAssumptions,
    *,
    weighed: bool,
) -> Measured:
    """The verdict on a flow from repeated fills, and what to do next."""
    advice: list[Message] = []
    if flow.mean_time < rules.shortest_fill:
        advice.append(
            Message(
                "A fill takes only {time}: use a bigger container.",
                {"time": Amount(flow.mean_time, "s")},
            )
        )
    slip = _slip_among(fills, flow.times, rules)
    if slip is not None:
        advice.append(
            Message(
                "Fill {number} looks like a slip: strike it out if something went wrong with it.",
                {"number": str(slip + 1)},
            )
        )
    kind = kind_of_verdict(flow, band)
    if len(flow.times) < ENOUGH_FILLS:
        advice.append(_more_fills(ENOUGH_FILLS - len(flow.times)))
    elif kind == "undecided" and band is not None:
        advice.append(_fills_to_decide(flow, band, rules))
    elif kind != "no target":
        advice.append(VALVE[kind])
    return Measured(
        flow=flow,
        counted=len(flow.times),
        kind=kind,
        verdict=verdict_words(kind, flow, band),
        advice=tuple(advice),
        slip=slip,
        accuracy=of_timed(flow, rules.most_runs, weighed=weighed),
    )


def kind_of_verdict(flow: AnyFlow, band: FlowBand | None) -> Kind:
    """Where the interval lies against the band."""
    if band is None:
        return "no target"
    return judge(flow.low, flow.high, band.low, band.high).kind


def _slip_among(
    fills: Sequence[Fill], times: Sequence[float], rules: MeasuringAssumptions
) -> int | None:
    counted = [index for index, fill in enumerate(fills) if not fill.struck]
    if len(counted) < ENOUGH_FILLS:
        return None
    slip = likely_slip(times, rules.reaction_sd, rules.slip_chance)
    return None if slip is None else counted[slip.index]


def _more_fills(count: int) -> Message:
    if count == 1:
        return Message("Time one more fill.")
    return Message("Time {count} more fills.", {"count": str(count)})


def verdict_words(kind: Kind, flow: AnyFlow | Pooled, band: FlowBand | None) -> Message:
    """The verdict in a sentence; empty without a band."""
    if band is None:
        return Message("")
    if kind == "within":
        return Message("Right: within what is wanted here.")
    if kind == "below":
        return Message(
            "Too little: {gap} more would reach the band.",
            {"gap": Amount(band.low - flow.flow, "m3/s")},
        )
    if kind == "above" and band.high is not None:
        return Message(
            "Too much: {gap} less would reach the band.",
            {"gap": Amount(flow.flow - band.high, "m3/s")},
        )
    return Message("Not decided yet: the true flow may lie on either side of the limit.")


def _fills_to_decide(flow: TimedFlow, band: FlowBand, rules: MeasuringAssumptions) -> Message:
    try:
        return _more_fills(
            more_runs_to_decide(
                flow.times,
                flow.volume,
                flow.volume_half_width,
                rules.reaction_sd,
                rules.coverage,
                band.low,
                band.high,
                rules.most_runs,
            )
        )
    except NoSolution as reason:
        return reason.message


VALVE: dict[Kind, Message] = {
    "within": Message("Leave the valve as it is and save this reading."),
    "below": Message(
        "Open this branch's valve, or close another one a little. If it is open already, "
        "unplug the pump and clean it and its foam first."
    ),
    "above": Message("Close this branch's valve a little, then time it again."),
}
