"""Whether what was measured goes with what is entered of a pump."""

from collections.abc import Sequence

from pondapp.answers.log.log import LogItem, moment
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.tuning.evidence import Evidence
from pondapp.answers.tuning.flow_sets import branch_places, newest_at
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import Line
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading

LABEL_DOUBTED = (
    "{name}: what was measured does not go with what is entered of it. Check its label, the "
    "containers and times, and which pump ran."
)


def contradicts_label(evidence: Evidence, line: Line) -> bool:
    """Whether more was measured than a line's pump can give, or a fit suspects its label.

    The fit is of the newest reading of each place: a long log takes seconds, and this is asked on
    the way to the first screen.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    worked = evidence.worked
    if pump_of(worked.pond, line) is None:
        return False
    waters = [(line.id,), *(place.everywhere for place in branch_places(worked, line))]
    seen = (newest_at(evidence.readings, one, worked.rules.measuring) for one in waters)
    doubts = {evidence.doubt(one.reading) for one in seen if one}
    if "too much" in doubts:
        return True
    return None in doubts and _suspected(evidence, line)


def _suspected(evidence: Evidence, line: Line) -> bool:
    # No part of the way to the first screen of a pond whose flows were all measured as wanted.
    from pondapp.answers.learning.kept import learned_once
    from pondapp.answers.learning.misfits import LABEL, suspects_of

    try:
        found = learned_once(
            evidence.worked, line, _newest(evidence.log), evidence.turned_at, evidence.now
        )
    except PondError:  # the screen of the readings says why
        return False
    return any(template == LABEL for template, _ in suspects_of(found))


def _newest(log: Sequence[LogItem]) -> list[LogItem]:
    newest: dict[str, Reading] = {}
    for item in sorted(log, key=moment):
        if isinstance(item, Reading):
            newest[item.place_id] = item
    return [item for item in log if isinstance(item, Entry) or newest[item.place_id] is item]
