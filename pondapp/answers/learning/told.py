"""What was learned of each part, in words, and what the readings leave as it was entered."""

from dataclasses import dataclass
from math import exp

from pondapp import units
from pondapp.answers.learning.intervals import FARTHEST
from pondapp.answers.learning.learning import Learning
from pondapp.answers.log.dates import day_text
from pondapp.answers.tuning.flow_sets import BranchPlace
from pondapp.core.base.messages import Message, counted
from pondapp.core.base.working import Step, Term
from pondapp.core.calibration.fit import SQUARES, Row
from pondapp.core.calibration.scene import has_head, moved_head
from pondapp.core.calibration.strain import USUAL

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
    close: bool
    """Whether it is known closely enough for its figures to say anything."""

    def working(self) -> tuple[Step, ...]:
        """How it was found."""
        return self.steps

    @property
    def learned(self) -> bool:
        """Whether readings say anything of it that is worth telling."""
        return self.close and self.share >= LITTLE


def _close(found: Learning, deviation: float) -> bool:
    """Whether a factor is known as closely as a flow has to be for its figures to be told."""
    return exp(min(1.0, found.reach * deviation)) <= 1.0 + FARTHEST


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
    count = Term("n", "number of readings", float(len(found.reads)), "-")
    told = Term("r", meaning, times, "-")
    brought = Term("p", "share of it that readings brought", share, "share")
    steps = (
        Step(told, "least Σ w r² + Σ x²", (count,), SQUARES),
        Step(brought, "p = 1 - u² / u0²", (count,), SQUARES),
    )
    close = _close(found, deviation)
    return PartTold(name, Message(template, values), share, steps, close)


def parts_told(found: Learning) -> tuple[PartTold, ...]:
    """The pump, and what hose and valve of each branch take.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    model, fitted = found.model, found.fitted
    lines = model.worked.names.lines
    told = []
    if has_head(found.scene_now, fitted.values):
        ratio, row = moved_head(found.scene_now, fitted.values)
        row = fitted.by_deviations(row)
        words = (
            "It makes {times} times the head that its curve says at this flow ({low} to {high})."
        )
        told.append(
            _part(
                found, lines[model.line.id], words, ratio, fitted.fitted.variance(row) ** 0.5, row,
                "head of the pump over that of its curve",
            )
        )  # fmt: skip
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
        if not _close(found, fitted.deviation(place)):
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
                "Nobody noted how far a valve is open: {names}. It is assumed rather open than "
                "shut, so some of what is said of the pump may be the valve's.",
                {"names": ", ".join(guessed)},
            )
        )
    told += [
        Message(
            "{name}: these readings only fit if its valve is nearly shut. If it is not, look at "
            "their unit and time, and at what may block the hose.",
            {"name": names[place.branch.id]},
        )
        for place in model.places
        if _nearly_shut(found, place)
    ]
    return tuple(told)


def _nearly_shut(found: Learning, place: BranchPlace) -> bool:
    """Whether a valve of which nobody noted the handle has to take more than is usual."""
    model, key = found.model, place.branch.id
    state = str(model.times.valve_state(key, found.now))
    which = model.unknowns.known(("valve", key, state))
    return which is not None and found.fitted.fitted.at[which] > USUAL


def from_readings(found: Learning) -> Message:
    """What it rests on."""
    reads = found.reads
    first, last = day_text(reads[0].at), day_text(reads[-1].at)
    if first == last:
        return counted("From one flow, {day}.", "From {count} flows, {day}.", len(reads),
                       {"day": first})  # fmt: skip
    return counted(
        "From one flow, {first}.",
        "From {count} flows, {first} to {last}.",
        len(reads),
        {"first": first, "last": last},
    )
