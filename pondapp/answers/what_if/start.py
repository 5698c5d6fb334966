"""What a trial starts from: the pond as it was entered, or as its readings say that it is."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from pondapp.answers.learning.kept import learned_once
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.what_if.trial import Trial, measured_flows
from pondapp.core.base.errors import PondError
from pondapp.core.calibration.learned import Learned
from pondapp.models.reading import Reading


def as_read(
    worked: WorkedPond,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
) -> Trial:
    """A trial of the pond as its readings say that it is.

    Losses, lifts and pump are those that all readings tell; each valve stands so that what was
    measured last comes out of its branch, if that still stands.

    Args:
        worked: The pond as entered.
        log: Its log. What is dated after now is no evidence.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be; the message says why.
    """
    readings = [item for item in until(log, now) if isinstance(item, Reading)]
    measured = measured_flows(worked, readings, now)
    learned: dict[str, Learned] = {}
    for line in worked.lines:
        if pump_of(worked.pond, line) is None:
            continue
        try:
            found = learned_once(worked, line, log, turned_at, now)
        except PondError:  # its own screen says why
            continue
        if found.model.times.reads:
            learned[line.id] = found.learned
    return Trial(WorkedPond(worked.pond, learned) if learned else worked, measured)


def as_entered(worked: WorkedPond) -> Trial:
    """A trial of the pond as it was entered, each valve as the plan sets it."""
    return Trial(worked)
