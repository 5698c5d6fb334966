"""Where the flows of a visit lie on a strip: setting after setting, against what is wanted."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.answers.measuring.flow import FlowBand

AIR = 0.12  # of the flows' range, above and below it
ABOVE_AIM = 1.15  # times the aim, where what is wanted has no upper end

Interval = tuple[float, float, float]
"""Low end, flow and high end of what was measured."""


@dataclass(frozen=True, slots=True)
class Room:
    """The part of a drawing that the flows may take."""

    left: float
    top: float
    right: float
    foot: float


@dataclass(frozen=True, slots=True)
class Spot:
    """A setting on the strip: its flow, and the ends of its interval."""

    x: float
    y: float
    top: float
    foot: float


@dataclass(frozen=True, slots=True)
class StripLayout:
    """All that is drawn, in pixels from the top left."""

    spots: tuple[Spot, ...]
    column: float
    """Width of one setting."""
    aim: float
    band_top: float
    band_foot: float


def laid_out(flows: Sequence[Interval], band: FlowBand, room: Room) -> StripLayout:
    """The settings from left to right, each in a column of one width, and what is wanted.

    Args:
        flows: What was measured at each setting, oldest first.
        band: What is wanted.
        room: What there is for it.
    """
    most = band.high if band.high is not None else max(ABOVE_AIM * band.target, band.low)
    values = [band.low, band.target, most, *(end for one in flows for end in one)]
    air = AIR * (max(values) - min(values)) or AIR * band.target
    low, high = max(0.0, min(values) - air), max(values) + air

    def at(flow: float) -> float:
        return room.foot - (flow - low) / (high - low) * (room.foot - room.top)

    column = (room.right - room.left) / max(1, len(flows))
    spots = tuple(
        Spot(room.left + (number + 0.5) * column, at(flow), at(top), at(foot))
        for number, (foot, flow, top) in enumerate(flows)
    )
    return StripLayout(
        spots,
        column,
        aim=at(band.target),
        band_top=at(band.high) if band.high is not None else room.top,
        band_foot=at(band.low),
    )
