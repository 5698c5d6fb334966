"""What a trial starts from: the pond as it was entered, or as its readings say that it is."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from pondapp.answers.learning.kept import learned_once
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.picture.states import PASSED, states_of
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.what_if.read_line import ReadLine
from pondapp.answers.what_if.trial import Trial
from pondapp.core.base.errors import PondError
from pondapp.models.reading import Reading


def as_read(
    worked: WorkedPond,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
) -> Trial:
    """A trial of the pond as its readings say that it is.

    Pump, hoses, lifts and valves are those that all readings tell, with their intervals; of each
    place, its picture's word stands until something is changed that matters there.

    Args:
        worked: The pond as entered.
        log: Its log. What is dated after now is no evidence.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be; the message says why.
    """
    read: dict[str, ReadLine] = {}
    for line in worked.lines:
        if pump_of(worked.pond, line) is None:
            continue
        try:
            found = learned_once(worked, line, log, turned_at, now)
        except PondError:  # its own screen says why
            continue
        if found.reads:
            read[line.id] = ReadLine(found)
    measured = any(isinstance(item, Reading) for item in until(log, now))
    states = states_of(worked, log, now) if measured else {}
    seen = {key: one for key, one in states.items() if one.word not in PASSED}
    return Trial(worked, read, seen)


def as_entered(worked: WorkedPond) -> Trial:
    """A trial of the pond as it was entered, each valve as the plan sets it."""
    return Trial(worked)
