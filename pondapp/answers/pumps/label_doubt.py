"""Whether what was measured goes with what is entered of a pump."""

from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.tuning.evidence import Evidence
from pondapp.answers.tuning.flow_sets import branch_places, newest_at
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import Line

LABEL_DOUBTED = (
    "{name}: what was measured does not go with what is entered of it. Check its label, the "
    "containers and times, and which pump ran."
)


def contradicts_label(evidence: Evidence, line: Line) -> bool:
    """Whether more was measured than a line's pump can give, or a fit of all readings suspects it.

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
        found = learned_once(evidence.worked, line, evidence.log, evidence.turned_at, evidence.now)
    except PondError:  # the screen of the readings says why
        return False
    return any(template == LABEL for template, _ in suspects_of(found))
