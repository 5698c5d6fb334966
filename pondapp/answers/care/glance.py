"""What the owner of a pond asks most often: its last water test, its pumps, what they cost."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.care.due import flow_stands
from pondapp.answers.care.severity import WORST_FIRST, Severity
from pondapp.answers.log.log import LogItem, moment, until
from pondapp.answers.plumbing.path import Line, line_name, pump_of
from pondapp.answers.plumbing.pump_history import by_other_pump
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import Health, health, usual_valves
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.rules.beyond import beyond_power
from pondapp.core.base.messages import Message
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading


@dataclass(frozen=True, slots=True)
class PumpGlance:
    """The pump that is worst off, against what it was or should be."""

    severity: Severity
    sentence: Message


@dataclass(frozen=True, slots=True)
class Running:
    """What electricity costs in a year, or why nobody knows."""

    per_year: float | None
    """In the owner's currency."""
    missing: Message | None = None
    beyond: Message | None = None
    """A remark where a pump's watts are beyond a garden pond."""


def last_water_test(log: Sequence[LogItem], now: datetime) -> Entry | None:
    """The newest water test; what is dated after now is none yet."""
    return next(
        (
            item
            for item in until(log, now)
            if isinstance(item, Entry) and item.what.kind == "water_test"
        ),
        None,
    )


def health_now(
    worked: WorkedPond, line: Line, readings: Sequence[Reading], now: datetime
) -> tuple[Health | None, bool]:
    """A pump's health by its newest flow, valves as usual, and whether that tells of today.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    found = health(worked, line, readings, usual_valves(worked.pond, line))
    return found, found is not None and flow_stands(worked.pond, line.id, found.now.at, now)


def pump_against_new(worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> PumpGlance:
    """What the newest flows say of the pumps, as the screen of their health says it.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    readings = [item for item in until(log, now) if isinstance(item, Reading)]
    found = []
    for line in worked.lines:
        one, stands = health_now(worked, line, readings, now)
        if one is None:
            found.append(PumpGlance("unknown", Message("Not measured yet")))
        elif by_other_pump(worked.pond, line.id, one.now.at):
            found.append(PumpGlance("unknown", Message("Measured with the old pump")))
        elif not stands:
            found.append(PumpGlance("unknown", Message("Measured too long ago")))
        else:
            found.append(PumpGlance(one.severity, one.verdict.sentence))
    return min(found, key=lambda one: WORST_FIRST.index(one.severity))


def running_cost(worked: WorkedPond) -> Running:
    """What the chosen pumps cost in a year with the flow plan, all of them or none.

    Raises:
        PondError: The pond's shape or a changed rule cannot be, or a circuit cannot be counted.
    """
    total, beyond = 0.0, None
    for line in worked.lines:
        if not line.branches:
            continue
        pump = pump_of(worked.pond, line)
        if pump is None:
            if len(worked.lines) == 1:
                return Running(None, Message("choose a pump first, and this can be worked out"))
            words = Message("{name}: choose a pump first.", {"name": line_name(worked.pond, line)})
            return Running(None, words)
        if pump.power_w is None:
            words = Message("{pump}: its watts are not entered", {"pump": pump.name})
            return Running(None, words)
        (answer,) = answers_for(worked.network(line, worked.planned.flows), (pump,))
        if answer.per_year is None:
            return Running(None, Message("Not known yet"))
        total += answer.per_year
        beyond = beyond or beyond_power(pump.power_w, worked.rules)
    missing = None if total else Message("Not known yet")
    return Running(total if total else None, missing, beyond)


def days_since(item: LogItem, now: datetime) -> int:
    """Whole days since then."""
    return (now - moment(item)).days
