"""From timed fills to a flow, a verdict, and what to do next."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from pondapp.core.assumptions import Assumptions
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.hydraulics.water import density
from pondapp.core.measuring.timed_flow import TimedFlow, timed_flow
from pondapp.core.measuring.verdict import FillWindow, fill_time_window, judge
from pondapp.core.messages import Amount, Message
from pondapp.models.reading import Container, Fill

COOL_WATER = 288.15  # K; a few degrees either way change a weighed volume by under 0.1 %
ENOUGH_FILLS = 3

Kind = Literal["within", "below", "above", "undecided", "no target"]


@dataclass(frozen=True, slots=True)
class Measured:
    """What a set of fills says."""

    flow: TimedFlow
    counted: int
    kind: Kind
    verdict: Message
    advice: tuple[Message, ...]


def counted_times(fills: Sequence[Fill]) -> list[float]:
    """The fill times that were not struck out."""
    return [fill.seconds for fill in fills if not fill.struck]


def fill_window(container: Container, band: FlowBand) -> FillWindow:
    """The fill time to aim for in this container."""
    return fill_time_window(container.volume_m3, band.low, band.target, band.high)


def volume_of_water(mass: float) -> float:
    """Volume of so much cool water [m3] for a mass [kg]."""
    return mass / density(COOL_WATER)


def measured(container: Container, fills: Sequence[Fill], band: FlowBand | None) -> Measured | None:
    """The flow and the verdict, or nothing while no fill counts."""
    times = counted_times(fills)
    if not times:
        return None
    rules = Assumptions().measuring
    flow = timed_flow(
        times, container.volume_m3, container.tolerance_m3, rules.reaction_sd, rules.coverage
    )
    advice: list[Message] = []
    if flow.mean_time < rules.shortest_fill:
        advice.append(
            Message(
                "A fill takes only {time}: use a bigger container.",
                {"time": Amount(flow.mean_time, "s")},
            )
        )
    if len(times) < ENOUGH_FILLS:
        more = ENOUGH_FILLS - len(times)
        text = "Time one more fill." if more == 1 else "Time {count} more fills."
        advice.append(Message(text, {"count": str(more)}))
    if band is None:
        return Measured(flow, len(times), "no target", Message("No target here"), tuple(advice))
    verdict = judge(flow.low, flow.high, band.low, band.high)
    sentence = _verdict_words(verdict.kind, flow, band)
    if len(times) >= ENOUGH_FILLS:
        advice.append(_what_next(verdict.kind))
    return Measured(flow, len(times), verdict.kind, sentence, tuple(advice))


def _verdict_words(kind: str, flow: TimedFlow, band: FlowBand) -> Message:
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


def _what_next(kind: str) -> Message:
    return {
        "within": Message("Leave the valve as it is and save this reading."),
        "below": Message(
            "Open this branch's valve, or close another one a little. If it is open already, "
            "unplug the pump and clean it and its foam first."
        ),
        "above": Message("Close this branch's valve a little, then time it again."),
    }.get(kind, Message("Time two more fills, or use a bigger container."))
