"""What the last reading at each place of a pond says of it now."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime

from pondapp.answers.care.due import flow_stands
from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.features.targets import Target
from pondapp.answers.log.log import until
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.measuring.methods import MeasuringAssumptions, measured_reading
from pondapp.answers.plumbing.path import branch_of, feature_of, left_dry
from pondapp.answers.pond import WorkedPond
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

WORDS = {
    "within": "Right",
    "below": "Too little",
    "above": "Too much",
    "undecided": "Not decided yet",
    "no target": "Measured",
}


@dataclass(frozen=True, slots=True)
class PlaceState:
    """How a place is.

    Attributes:
        severity: How bad that is.
        word: The same in a word.
        found: What was measured; None where nothing was.
        taken_at: When.
    """

    severity: Severity
    word: str
    found: Measured | None = None
    taken_at: datetime | None = None


NOT_MEASURED = PlaceState("unknown", "Not measured yet")


def state_of(
    reading: Reading | None, target: Target | None, rules: MeasuringAssumptions
) -> PlaceState:
    """How a place is by a reading, against what is wanted there now."""
    found = measured_reading(reading, rules, target.band if target else None) if reading else None
    if reading is None or found is None:
        return NOT_MEASURED
    if found.dry:
        return PlaceState("wrong", "Dry", found, reading.taken_at)
    return PlaceState(found.severity, WORDS[found.kind], found, reading.taken_at)


def _dies(pond: Pond, place_id: str) -> bool:
    """Whether fish are in danger where no water comes out: bacteria live on that branch."""
    branch = branch_of(pond, place_id)
    features = [feature_of(pond, item) for item in branch.feeds] if branch else []
    return bool(pond.fish) and any(kind_of(one).alive for one in features if one)


def states_of(
    worked: WorkedPond, readings: Sequence[Reading], now: datetime
) -> Mapping[str, PlaceState]:
    """How each place is that was measured, or that no water reaches; all others are not known.

    Args:
        worked: The pond.
        readings: Its readings, newest first. Those dated after now are no evidence.
        now: The time of now.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    pond = worked.pond
    newest = {reading.place_id: reading for reading in reversed(until(readings, now))}
    found = {}
    for place_id, reading in newest.items():
        state = state_of(reading, worked.wanted.place(place_id), worked.rules.measuring)
        if state.found and not flow_stands(pond, reading.taken_at, now):
            state = replace(state, severity="unknown", word="Too long ago")
        elif state.found and state.found.dry and _dies(pond, place_id):
            state = replace(state, severity="danger")
        found[place_id] = state
    for feature in left_dry(pond):
        before = found.get(feature.id, NOT_MEASURED)
        found[feature.id] = replace(before, severity="wrong", word="On no branch yet")
    return found
