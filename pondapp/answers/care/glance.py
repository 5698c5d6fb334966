"""What the owner of a pond asks most often: its last water test and its pumps."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.care.severity import WORST_FIRST, Severity
from pondapp.answers.log.log import LogItem, moment, until
from pondapp.answers.plumbing.path import Line
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import Health, health, usual_valves
from pondapp.answers.tuning.evidence import DOUBTS, Doubt, Evidence
from pondapp.core.base.messages import Message
from pondapp.models.entry import Entry


@dataclass(frozen=True, slots=True)
class PumpGlance:
    """The pump that is worst off, against what it was or should be."""

    severity: Severity
    sentence: Message


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


def health_now(evidence: Evidence, line: Line) -> tuple[Health | None, Doubt | None]:
    """A pump's health by its newest flow, valves as usual, and why that does not tell of today.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    worked = evidence.worked
    found = health(worked, line, evidence.readings, usual_valves(worked.pond, line))
    return found, evidence.doubt_of(found.now.readings) if found else None


def pump_against_new(worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> PumpGlance:
    """What the newest flows say of the pumps, as the screen of their health says it.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    evidence, found = Evidence(worked, log, now), []
    for line in worked.lines:
        one, doubt = health_now(evidence, line)
        if one is None:
            found.append(PumpGlance("unknown", Message("Not measured yet")))
        elif doubt == "old":
            found.append(PumpGlance("unknown", Message("Measured too long ago")))
        elif doubt:
            found.append(PumpGlance("unknown", Message(DOUBTS[doubt])))
        else:
            found.append(PumpGlance(one.severity, one.verdict.sentence))
    return min(found, key=lambda one: WORST_FIRST.index(one.severity))


def days_since(item: LogItem, now: datetime) -> int:
    """Whole days since then."""
    return (now - moment(item)).days
