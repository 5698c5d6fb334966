"""Which pump ran in a line when: a flow that was read with another says nothing of this one."""

from datetime import datetime

from pondapp.models.circuit import Line, PumpBefore
from pondapp.models.limits import MOST_EARLIER
from pondapp.models.pond import Pond


def pump_then(line: Line, at: datetime) -> str | None:
    """Id of the pump that ran in a line at a time."""
    return next((one.pump_id for one in line.pumps_before if at < one.until), line.pump_id)


def by_other_pump(pond: Pond, place_id: str, at: datetime) -> bool:
    """Whether what flowed at a place then came from another pump than the one of now.

    Args:
        pond: The pond.
        place_id: A line, one of its branches or what that feeds.
        at: When it was read.
    """
    for line in pond.lines:
        places = {line.id, *(branch.id for branch in line.branches)}
        places |= {key for branch in line.branches for key in branch.feeds}
        if place_id in places:
            return pump_then(line, at) != line.pump_id
    return False


def with_pumps_noted(pond: Pond, before: Pond, now: datetime) -> Pond:
    """A pond in which every pump that was replaced, or taken away, is noted with the time.

    Args:
        pond: The pond as it is to be saved.
        before: As it was saved last.
        now: The time of now.
    """
    from pondapp.answers.plumbing.path import lines_of  # not on the way to the first screen

    known = {line.id: line for line in lines_of(before)}
    lines = []
    for line in pond.lines:
        was = known.get(line.id)
        if was is None or was.pump_id == line.pump_id:
            past = line.pumps_before
        elif was.pump_id is None:
            past = was.pumps_before
        else:
            past = (*was.pumps_before, PumpBefore(pump_id=was.pump_id, until=now))[-MOST_EARLIER:]
        lines.append(
            line if past == line.pumps_before else line.model_copy(update={"pumps_before": past})
        )
    return pond if tuple(lines) == pond.lines else pond.model_copy(update={"lines": tuple(lines)})
