"""The newest flows behind a pump, branch by branch, and the sets of them that a pond keeps."""

from collections.abc import Callable, Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from math import sqrt
from operator import attrgetter
from typing import Literal

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.measuring.aims import aimed
from pondapp.answers.measuring.flow import FlowBand, Measured, Message
from pondapp.answers.measuring.methods import MeasuringAssumptions, measured_reading
from pondapp.answers.planning.on_branch import branch_band, passed
from pondapp.answers.plumbing.path import feature_of, lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.constants import DAY, HOUR
from pondapp.core.base.messages import Amount
from pondapp.core.circuit.conflicts import TimerConflict
from pondapp.core.measuring.spread import spread_of_half_width
from pondapp.core.measuring.verdict import Certainty, decide
from pondapp.models.circuit import Branch, Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Container, Reading, Steadiness
from pondapp.models.tuned import FlowAt as FlowAt
from pondapp.models.tuned import FlowSet as FlowSet

SEEN = 0.002  # a share of a flow that may show in the digits that are told of it
CONFLICT = Message("No one flow suits everything that this branch feeds.")


@dataclass(frozen=True, slots=True)
class BranchPlace:
    """Where the whole flow of a branch can be caught, and what is wanted there."""

    branch: Branch
    name: str
    """The branch, by a name that no other has."""
    place_id: str
    place_name: str
    everywhere: tuple[str, ...]
    """All places where the whole flow passes: a reading at any of them is one of the branch."""
    planned: float
    """What the plan gives the branch [m3/s], as near as what is fine there allows."""
    band: FlowBand
    """What is fine, and the aim: so far inside that a few fills can tell it is right."""
    valve: Literal["none", "ball", "gate", "unknown"]
    """Unknown while the water path is only assumed."""
    rules: MeasuringAssumptions
    """By which a flow there is judged."""
    sure: bool = True
    """Whether a few fills can tell any flow there right; else the band is too narrow for them."""
    conflict: Message | None = None
    """What excludes each other on this branch: then no flow is right."""

    @property
    def off_plan(self) -> bool:
        """Whether the aim lies so far from the plan's flow that a reader sees two numbers."""
        return abs(self.band.target / self.planned - 1.0) > SEEN


@dataclass(frozen=True, slots=True)
class LatestReading:
    """A reading, and what it says."""

    reading: Reading
    found: Measured

    @property
    def flow(self) -> float:
        """Flow [m3/s]."""
        return self.found.flow.flow

    @property
    def doubt(self) -> float:
        """Half of its interval [m3/s]."""
        return 0.5 * (self.found.flow.high - self.found.flow.low)


def _place(pond: Pond, branch: Branch) -> tuple[str, str]:
    """The last feature that all the water of a branch passes, or the branch itself."""
    for feature_id in reversed(passed(branch)):
        feature = feature_of(pond, feature_id)
        if feature is not None:
            return feature.id, feature.name
    return branch.id, branch.name


def on_timer(worked: WorkedPond, line: Line, feature_ids: Collection[str]) -> Message | None:
    """What of these needs water round the clock, where their pump rests for a part of the day.

    The flow of the hours in which it runs is right for no filter then: its bacteria die in between.
    """
    if line.hours_per_day >= DAY / HOUR:
        return None
    for key in feature_ids:
        feature = feature_of(worked.pond, key)
        if feature is not None and kind_of(feature).alive:
            pump, duty = worked.names.lines[line.id], Amount(line.hours_per_day * HOUR, "s")
            return TimerConflict.told(worked.names.features[key], pump, duty)
    return None


@dataclass(frozen=True, slots=True)
class ToFill:
    """What is going to be timed at a place."""

    container: Container | None = None
    """None while none is chosen: then a usual time counts."""
    steadiness: Steadiness | None = None
    """What earlier fills there taught about their scatter."""


InHand = Callable[[str], ToFill]
"""What is filled at a place, by the place's id."""


def conflict_of(worked: WorkedPond, branch: Branch) -> Message | None:
    """What excludes each other on a branch that is to carry water: then no flow is right there.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    planned = worked.planned.flows.get(branch.id, 0.0)
    if planned <= 0.0 or branch_band(branch, planned, worked.targets):
        return None
    return worked.planned.by_branch.get(branch.id, CONFLICT)


def conflicts_of(worked: WorkedPond) -> Mapping[str, Message]:
    """The same by the id of each place that all the water of such a branch passes, and its pump's.

    What its branches ask of a pump cannot all be then, so none of its flows is right either.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    found: dict[str, Message] = {}
    for line in worked.lines:
        for branch in line.branches:
            if conflict := conflict_of(worked, branch):
                found.setdefault(line.id, conflict)
                found |= dict.fromkeys((branch.id, *passed(branch)), conflict)
    return found


def branch_places(
    worked: WorkedPond, line: Line, in_hand: InHand | None = None
) -> tuple[BranchPlace, ...]:
    """The branches of a line that are to carry water; those that rest are left out.

    Args:
        worked: The pond.
        line: One of its lines.
        in_hand: What will be filled there; else it takes a usual time to fill.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    pond, plan, names = worked.pond, worked.planned, worked.names.branches
    rules = worked.rules.measuring
    found = []
    for branch in line.branches:
        planned = plan.flows.get(branch.id, 0.0)
        if planned > 0.0:
            place_id, place_name = _place(pond, branch)
            band = branch_band(branch, planned, worked.targets)
            conflict = on_timer(worked, line, passed(branch)) or conflict_of(worked, branch)
            band = band or FlowBand(planned, planned, None)
            filled = in_hand(place_id) if in_hand else ToFill()
            aim = aimed(band, filled.container, rules, filled.steadiness)
            found.append(
                BranchPlace(
                    branch=branch,
                    name=names[branch.id],
                    place_id=place_id,
                    place_name=place_name,
                    everywhere=(branch.id, *passed(branch)),
                    planned=band.target,
                    band=replace(band, target=aim.flow),
                    valve=branch.valve if pond.lines else "unknown",
                    rules=rules,
                    sure=aim.sure,
                    conflict=conflict,
                )
            )  # fmt: skip
    return tuple(found)


def newest_at(
    log: Sequence[Reading],
    place_ids: Collection[str],
    rules: MeasuringAssumptions,
    band: FlowBand | None = None,
) -> LatestReading | None:
    """The newest reading at these places that says anything, judged by the band if one is given.

    Raises:
        PondError: Its numbers cannot be; the message says why.
    """
    mine = [reading for reading in log if reading.place_id in place_ids]
    while mine:
        # Nearly always the newest says something, and finding it is cheaper than sorting all.
        reading = max(mine, key=attrgetter("taken_at"))
        found = measured_reading(reading, rules, band)
        if found is not None:
            return LatestReading(reading, found)
        mine.remove(reading)
    return None


def flow_at(seen: LatestReading) -> FlowAt:
    """A reading as a pond keeps it."""
    return FlowAt(
        place_id=seen.reading.place_id,
        place_name=seen.reading.place_name,
        reading_id=seen.reading.id,
        flow_m3_s=seen.flow,
        half_width_m3_s=seen.doubt,
    )


def flow_set(line: Line, seen: Sequence[LatestReading], at: datetime) -> FlowSet:
    """Readings as a set for the pond to keep."""
    return FlowSet(line_id=line.id, at=at, places=tuple(flow_at(one) for one in seen))


def set_of(sets: Sequence[FlowSet], line: Line) -> FlowSet | None:
    """The set of a line."""
    return next((one for one in sets if one.line_id == line.id), None)


def _with(pond: Pond, sets: Sequence[FlowSet], made: FlowSet) -> tuple[FlowSet, ...]:
    """The sets with one put in place; those of lines that are gone go too."""
    lines = {line.id for line in lines_of(pond)} - {made.line_id}
    return (*(one for one in sets if one.line_id in lines), made)


def with_tuned(pond: Pond, made: FlowSet) -> Pond:
    """The pond with these flows as the ones to which its valves were set."""
    return pond.model_copy(update={"tuned": _with(pond, pond.tuned, made)})


def with_clean(pond: Pond, made: FlowSet) -> Pond:
    """The pond with these flows as the ones of the clean pump."""
    return pond.model_copy(update={"clean": _with(pond, pond.clean, made)})


@dataclass(frozen=True, slots=True)
class Change:
    """A flow of now as a share of what it was."""

    place_name: str
    then: float
    now: float
    share: float
    low: float
    high: float
    told: bool
    """Whether it can be told from no change at all, by the one rule of decision."""
    rule: Certainty

    def at_least(self, share: float) -> bool:
        """Whether it is sure that so much or more is left."""
        left = spread_of_half_width(self.share, self.high - self.share, self.rule.coverage)
        return decide(left, share, None, self.rule).kind == "within"


def change_of(
    name: str, then: float, d_then: float, now: float, d_now: float, rule: Certainty
) -> Change:
    """How a flow [m3/s] changed, with the interval of the share from both half widths [m3/s].

    A container's error is in both flows where it is the same one, so the interval is on the safe
    side.
    """
    share = now / then
    doubt = sqrt(d_now**2 + (share * d_then) ** 2) / then
    decision = decide(spread_of_half_width(share, doubt, rule.coverage), 1.0, 1.0, rule)
    told = decision.kind in ("below", "above")
    return Change(name, then, now, share, max(0.0, share - doubt), share + doubt, told, rule)
