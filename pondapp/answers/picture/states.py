"""What the last reading of its water says of each place of a pond now."""

from collections.abc import Collection, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import NamedTuple

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.log.log import LogItem
from pondapp.answers.measuring.flow import Measured, judged_sum
from pondapp.answers.planning.on_branch import passed
from pondapp.answers.plumbing.path import feature_of, left_dry
from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.evidence import DOUBTS, Evidence
from pondapp.answers.tuning.flow_sets import conflicts_of, newest_at, on_timer
from pondapp.answers.tuning.line_flow import line_flow
from pondapp.core.base.messages import Message
from pondapp.models.circuit import Branch, Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

WORDS = {
    "within": "Right",
    "below": "Too little",
    "above": "Too much",
    "undecided": "Not decided yet",
    "no target": "Measured",
}


PART_OF_DAY = "Rests part of the day"
"""Of a filter that needs water round the clock."""
CONFLICT = "This can't all work"
"""Of what lies on a branch where demands exclude each other, as tuning says it."""
PASSED = tuple(DOUBTS.values())
"""Words of what a reading said once, and does not say of now."""


@dataclass(frozen=True, slots=True)
class PlaceState:
    """How a place is.

    Attributes:
        severity: How bad that is.
        word: The same in a word.
        found: What was measured; None where nothing was.
        reading: The reading that says so; the newest of them where several do.
        summed: Where the branches were measured whose sum it is; empty for what was measured whole.
        why: What contradicts the reading, or what it does not tell.
    """

    severity: Severity
    word: str
    found: Measured | None = None
    reading: Reading | None = None
    summed: tuple[str, ...] = ()
    why: Message | None = None

    @property
    def taken_at(self) -> datetime | None:
        """When it was measured."""
        return self.reading.taken_at if self.reading else None


NOT_MEASURED = PlaceState("unknown", "Not measured yet")


def _state(reading: Reading, found: Measured) -> PlaceState:
    if found.dry:
        return PlaceState("wrong", "Dry", found, reading)
    return PlaceState(found.severity, WORDS[found.kind], found, reading)


def feeds_life(pond: Pond, feature_ids: Collection[str]) -> bool:
    """Whether fish are in danger where these get no water: bacteria live in one of them."""
    found = (feature_of(pond, item) for item in feature_ids)
    return bool(pond.fish) and any(kind_of(one).alive for one in found if one)


_Wrong = tuple[str, Message]
"""Why no flow is right at a place, in a word and in a sentence."""


class _Water(NamedTuple):
    """The water of a place."""

    key: str
    everywhere: Collection[str]
    """Where it can be measured."""
    fed: Collection[str]
    """What stands still without it."""
    rests: bool = False
    wrong: _Wrong | None = None


def _waters(worked: WorkedPond, conflicts: Mapping[str, Message]) -> Iterator[_Water]:
    """The water of each place."""
    for line in worked.lines:
        fed = {item for branch in line.branches for item in branch.feeds}
        yield _Water(line.id, (line.id,), fed, wrong=_conflict(conflicts, line.id))
        for branch in line.branches:
            yield from _on_branch(worked, line, branch, _conflict(conflicts, branch.id))
    for feature in left_dry(worked.pond):
        yield _Water(feature.id, (feature.id,), (feature.id,))


def _on_branch(
    worked: WorkedPond, line: Line, branch: Branch, conflict: _Wrong | None
) -> Iterator[_Water]:
    rests = worked.planned.flows.get(branch.id, 0.0) <= 0.0
    everywhere = (branch.id, *passed(branch))
    wrong = _part_of_day(worked, line, everywhere) or conflict
    for key in everywhere:
        yield _Water(key, everywhere, branch.feeds, rests, wrong)
    for key in branch.bypass:
        yield _Water(key, (key,), (key,), rests, _part_of_day(worked, line, (key,)))


def _conflict(conflicts: Mapping[str, Message], key: str) -> _Wrong | None:
    return (CONFLICT, conflicts[key]) if key in conflicts else None


def _part_of_day(worked: WorkedPond, line: Line, water: Collection[str]) -> _Wrong | None:
    """That no flow is right that is none for the rest of the day, where bacteria live on it."""
    why = on_timer(worked, line, water)
    return (PART_OF_DAY, why) if why else None


def _flows_again(line: Line, found: Mapping[str, PlaceState]) -> bool:
    """Whether water came out of a branch after none had come from its pump."""
    pump = found.get(line.id)
    if pump is None or not (pump.found and pump.found.dry and pump.reading):
        return False
    stopped = pump.reading.taken_at
    after = (one for branch in line.branches if (one := found.get(branch.id)))
    return any(
        one.found and not one.found.dry and one.reading and one.reading.taken_at > stopped
        for one in after
    )


def _summed(
    worked: WorkedPond, line: Line, evidence: Evidence, wrong: _Wrong | None
) -> PlaceState | None:
    """How a pump is by the sum of its branches, where that is newer than what it gave as a whole.

    One branch without water says what is wrong by itself.
    """
    flow = line_flow(worked, line, evidence.readings)
    if flow is None or not flow.summed or flow.dry:
        return None
    target, rules = worked.wanted.place(line.id), worked.rules.measuring
    band = target.band if target else None
    parts = {one.reading.place_name: one.found.flow.spread for one in flow.seen}
    found = judged_sum(parts, flow.spread, band, rules)
    newest = max(flow.readings, key=lambda one: one.taken_at)
    places = tuple(one.place_name for one in flow.readings)
    state = replace(_state(newest, found), summed=places)
    if evidence.doubt_of(flow.readings):
        return _doubted(state, evidence, flow.readings)
    return _wrong(state, wrong) if wrong else state


def _wrong(state: PlaceState, wrong: _Wrong) -> PlaceState:
    word, why = wrong
    return replace(state, severity="wrong", word=word, why=why)


def _doubted(state: PlaceState, evidence: Evidence, readings: Sequence[Reading]) -> PlaceState:
    """A state, of which nothing is known where its readings do not tell how it is now."""
    doubt, why = evidence.doubt_of(readings), evidence.why(readings)
    return replace(state, severity="unknown", word=DOUBTS[doubt], why=why) if doubt else state


def states_of(
    worked: WorkedPond, log: Sequence[LogItem], now: datetime
) -> Mapping[str, PlaceState]:
    """How each place is that was measured, or that no water reaches; all others are not known.

    A reading is one of all places that the same water passes, as it is while tuning.

    Args:
        worked: The pond.
        log: Its log. What is dated after now is no evidence.
        now: The time of now.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    pond, rules, evidence = worked.pond, worked.rules.measuring, Evidence(worked, log, now)
    found: dict[str, PlaceState] = {}
    conflicts = conflicts_of(worked)
    for key, everywhere, fed, rests, wrong in _waters(worked, conflicts):
        wanted = (worked.wanted.place(one) for one in (key, *everywhere))
        target = next((one for one in wanted if one), None)
        seen = newest_at(evidence.readings, everywhere, rules, target.band if target else None)
        if seen is None:
            continue
        state = _state(seen.reading, seen.found)
        if evidence.doubt(seen.reading):
            state = _doubted(state, evidence, (seen.reading,))
        elif rests:  # nothing is wanted there
            word = "Dry" if seen.found.dry else WORDS["no target"]
            state = replace(state, severity="unknown", word=word)
        elif seen.found.dry and feeds_life(pond, fed):
            state = replace(state, severity="danger")
        elif wrong and not seen.found.dry:
            state = _wrong(state, wrong)
        found[key] = state
    for line in worked.lines:
        whole = _summed(worked, line, evidence, _conflict(conflicts, line.id))
        if whole is not None:
            found[line.id] = whole
        elif _flows_again(line, found):
            del found[line.id]
    for feature in left_dry(pond):
        before = found.get(feature.id, NOT_MEASURED)
        found[feature.id] = replace(before, severity="wrong", word="On no branch yet")
    return found
