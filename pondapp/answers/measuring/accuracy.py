"""What limits a measurement, and what would halve its doubt, in words."""

from dataclasses import dataclass
from math import ceil, hypot, sqrt

from pondapp import units
from pondapp.core.base.errors import NotEnoughReadings
from pondapp.core.base.messages import Amount, Message, Value
from pondapp.core.measuring.budget import Budget, budget
from pondapp.core.measuring.estimate import FlowEstimate
from pondapp.core.measuring.timed_flow import TimedFlow
from pondapp.core.measuring.uncertainty import rectangular

TIMING = "starting and stopping by hand"
UNEVEN = "the flow and the filling, which differ a little each time"
CONTAINER = "how well it is known what the container holds"
SCALE = "the scale"
DIFFERING = Message("Mostly how much the fills differ: more than hand and flow explain.")
FIND_OUT = Message(
    "To know it better, find out why: strike out a fill that went wrong, or wait until the "
    "flow is steady."
)
# What each letter of an estimate's formula stands for, in words that can stand in a sentence.
PARTS = {
    "A": "the water area",
    "d": "reading the level",
    "t": TIMING,
    "V": "the size of the space",
    "ε": "the share of gaps in the gravel",
    "h": "reading the depth",
    "b": "the width of the lip",
    "k": "the formula, which is rough for a sheet this thin",
    "Q": "the meter",
}


@dataclass(frozen=True, slots=True)
class Accuracy:
    """Two sentences for under a result."""

    limits: Message
    halve: Message


def _limits(found: Budget) -> Message:
    first = found.parts[0]
    return Message(
        "Mostly because of this: {part} ({share} % of it).",
        {"part": first.name, "share": units.fixed(100 * first.share, 0)},
    )


def _both(found: Budget) -> Message:
    return Message(
        "To know it twice as well, improve both: {first}, and {second}.",
        {"first": found.parts[0].name, "second": found.parts[1].name},
    )


def of_timed(flow: TimedFlow, most_runs: float, *, weighed: bool) -> Accuracy | None:
    """What limits fills of a container; nothing to say where nothing is in doubt."""
    if flow.timing.beyond:
        return Accuracy(DIFFERING, FIND_OUT)
    known = SCALE if weighed else CONTAINER
    count, expected = len(flow.times), flow.timing.expected
    # The scatter of a fill, shared out as it is expected to come from hand and flow.
    each = flow.timing.std / flow.mean_time / sqrt(count)
    whole = hypot(expected.reaction, expected.variation * flow.mean_time)
    by_hand = expected.reaction / whole if whole > 0.0 else 1.0
    timing, uneven = each * by_hand, each * sqrt(max(0.0, 1.0 - by_hand**2))
    holds = rectangular(flow.volume_half_width) / flow.volume
    try:
        found = budget({TIMING: timing, UNEVEN: uneven, known: holds})
    except NotEnoughReadings:
        return None
    if found.parts[0].name not in (TIMING, UNEVEN):
        if found.shrink is None:
            return Accuracy(_limits(found), _both(found))
        half = Amount(found.shrink * flow.volume_half_width, "m3")
        cure = (
            "To know it twice as well: a scale good to {half}, or more water in each fill."
            if weighed
            else "To know it twice as well: find out to within {half} what it holds, say by "
            "weighing its water."
        )
        if weighed:  # a scale's error is a mass; a litre of water is a kilogram to 0.2 %
            half = Amount(1000.0 * half.value / sqrt(2.0), "kg")
        return Accuracy(_limits(found), Message(cure, {"half": half}))
    return Accuracy(_limits(found), _more_time(found, flow, timing, uneven, holds, most_runs))


def _more_time(
    found: Budget, flow: TimedFlow, timing: float, uneven: float, holds: float, most_runs: float
) -> Message:
    """More fills halve what hand and flow do; a larger container what the hand does."""
    wanted = 0.25 * found.total**2
    left, left_to_hand = wanted - holds**2, wanted - holds**2 - uneven**2
    # A hair's breadth above nothing would ask for a million fills.
    times_as_many = (timing**2 + uneven**2) / left if left > 4e-3 * wanted else None
    # Four times as many are four, whatever the last digit of a float says.
    runs = ceil(len(flow.times) * times_as_many - 1e-9) if times_as_many else None
    volume = flow.volume * timing / sqrt(left_to_hand) if left_to_hand > 4e-3 * wanted else None
    few = runs is not None and runs <= most_runs
    values: dict[str, Value] = {"runs": str(runs)}
    if volume is not None:
        values["volume"] = Amount(volume, "m3")
    if few and volume is not None:
        words = "To know it twice as well: {runs} fills in all, or a container of {volume}."
        return Message(words, values)
    if volume is not None:
        return Message("To know it twice as well: a container of {volume}.", values)
    if few:
        return Message("To know it twice as well: {runs} fills in all.", values)
    return (
        _both(found)
        if len(found.parts) > 1
        else Message("Only many more fills would tell it much better.")
    )


def of_estimate(flow: FlowEstimate, runs: int) -> Accuracy | None:
    """What limits a flow that was found without fills of a container."""
    factors = {PARTS[factor.term.symbol]: factor for factor in flow.factors}
    try:
        found = budget(
            {
                name: abs(factor.power) * factor.uncertainty / factor.term.value
                for name, factor in factors.items()
            }
        )
    except NotEnoughReadings:
        return None
    first = factors[found.parts[0].name]
    symbol, value, unit = first.term.symbol, first.term.value, first.term.unit
    if symbol == "k":
        return Accuracy(
            _limits(found),
            Message(
                "No ruler is fine enough for more. Catch the flow of a part of the lip in a "
                "bucket once, or measure another way too."
            ),
        )
    if symbol == "Q":
        return Accuracy(
            _limits(found), Message("To know it twice as well: time a bucket or a level too.")
        )
    if found.shrink is None:
        return Accuracy(_limits(found), _both(found))
    half = found.shrink * first.uncertainty * sqrt(3.0)
    values: dict[str, Value] = {
        "half": Amount(half, unit),
        "share": units.fixed(100 * half / value, 1),
        "longer": Amount(value / found.shrink, unit),
        "runs": str(ceil(runs / found.shrink**2)),
    }
    cures = {
        "A": "To know it twice as well: measure the area to within {share} %, at both marks.",
        "d": "To know it twice as well: let the level move by {longer}.",
        "t": "To know it twice as well: time it over {longer}, or {runs} times in all.",
        "V": "To know it twice as well: measure the space to within {share} %.",
        "ε": "To know it twice as well: fill a bucket with this gravel, then pour in water to "
        "its top. That water, as a share of the bucket, is the gaps; measure it to within "
        "{share} %.",
        "h": "To know it twice as well: read the depth to within {half}.",
        "b": "To know it twice as well: measure the width that carries water to within {half}.",
    }
    return Accuracy(_limits(found), Message(cures[symbol], values))
