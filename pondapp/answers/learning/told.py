"""What was learned of each part, in words, and what the readings leave as it was entered."""

from dataclasses import dataclass
from math import exp

from pondapp import units
from pondapp.answers.learning.learning import Learning
from pondapp.answers.log.dates import day_text
from pondapp.core.base.messages import Amount, Message, counted
from pondapp.core.base.working import Step, Term
from pondapp.core.calibration.fit import SQUARES, Row
from pondapp.core.calibration.scene import moved_head

LITTLE = 0.5
"""Share of what is known that readings brought, below which they say nothing of a part."""


@dataclass(frozen=True, slots=True)
class PartTold:
    """What is known of a part."""

    name: str
    sentence: Message
    share: float
    """How much of that readings brought [-]."""
    steps: tuple[Step, ...]

    def working(self) -> tuple[Step, ...]:
        """How it was found."""
        return self.steps

    @property
    def learned(self) -> bool:
        """Whether readings say anything of it."""
        return self.share >= LITTLE


def _times(found: Learning, times: float, deviation: float) -> dict[str, str]:
    """A factor on what was entered, known by its logarithm, with the ends of its interval."""
    reach = exp(found.reach * deviation)
    return {
        "times": units.readable(times, 2),
        "low": units.readable(times / reach, 2),
        "high": units.readable(times * reach, 2),
    }


def _part(
    found: Learning,
    name: str,
    template: str,
    times: float,
    deviation: float,
    row: Row,
    meaning: str,
) -> PartTold:
    """A factor on what was entered, in words and with its working."""
    values = _times(found, times, deviation)
    share = found.fitted.share_from_data(row)
    count = Term("n", "number of readings", float(len(found.model.times.reads)), "-")
    told = Term("r", meaning, times, "-")
    brought = Term("p", "share of it that readings brought", share, "share")
    steps = (
        Step(told, "least Σ w r² + Σ x²", (count,), SQUARES),
        Step(brought, "p = 1 - u² / u0²", (count,), SQUARES),
    )
    return PartTold(name, Message(template, values), share, steps)


def parts_told(found: Learning) -> tuple[PartTold, ...]:
    """The pump, and what hose and valve of each branch take.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    model, fitted = found.model, found.fitted
    lines = model.worked.names.lines
    ratio, row = moved_head(found.scene_now, fitted.values)
    row = fitted.by_deviations(row)
    deviation = fitted.fitted.variance(row) ** 0.5
    told = [
        _part(
            found, lines[model.line.id],
            "It makes {times} times the head that its curve says at this flow ({low} to {high}).",
            ratio, deviation, row, "head of the pump over that of its curve",
        )
    ]  # fmt: skip
    names = model.worked.names.branches
    for end in found.scene_now.ends:
        row = fitted.by_deviations(dict(end.loss))
        value = sum(times * fitted.values[place] for place, times in end.loss)
        told.append(
            _part(
                found, names[end.outlet.key],
                "Hose and what it feeds take {times} times what was worked out ({low} to {high}).",
                exp(value), fitted.fitted.variance(row) ** 0.5, row,
                "loss over what was worked out",
            )
        )  # fmt: skip
    return tuple(told)


def valves_told(found: Learning) -> tuple[Message, ...]:
    """Valves whose handle was noted, against the table of their kind, and what others may hide."""
    model, fitted = found.model, found.fitted
    names = model.worked.names.branches
    told = []
    for end in found.scene_now.ends:
        place = model.unknowns.known(("table", end.outlet.key))
        if place is None or fitted.fitted.from_data(place) < LITTLE:
            continue
        known = _times(found, exp(fitted.values[place]), fitted.deviation(place))
        values = {"name": names[end.outlet.key], **known}
        words = "The valve of {name} takes {times} times what tables say ({low} to {high})."
        told.append(Message(words, values))
    guessed = [
        names[place.branch.id]
        for place in model.places
        if place.valve != "none"
        and (place.branch.id, model.times.valve_state(place.branch.id, found.now))
        not in model.times.opened
    ]
    if guessed:
        told.append(
            Message(
                "Nobody noted how these valves stand: {names}. They are assumed rather open than "
                "shut, so some of what is said of the pump may be theirs.",
                {"names": ", ".join(guessed)},
            )
        )
    return tuple(told)


def outliers_told(found: Learning) -> tuple[Message, ...]:
    """Readings that do not fit the rest."""
    by_id = {read.reading.id: read for read in found.model.times.reads}
    return tuple(
        Message(
            "{place}, {day}: {flow} does not fit the other readings and counts less.",
            {
                "place": by_id[key].reading.place_name,
                "day": day_text(by_id[key].at),
                "flow": Amount(by_id[key].flow, "m3/s"),
            },
        )
        for key in found.outliers
    )


def from_readings(found: Learning) -> Message:
    """What it rests on."""
    reads = found.model.times.reads
    return counted(
        "From one flow, {first}.",
        "From {count} flows, {first} to {last}.",
        len(reads),
        {"first": day_text(reads[0].at), "last": day_text(reads[-1].at)},
    )
