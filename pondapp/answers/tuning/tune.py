"""Tuning: which valve comes first, how far off a fill is, which way to turn, what that moves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from pondapp import units
from pondapp.answers.care.severity import Severity
from pondapp.answers.log.log import LogItem
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.measuring.methods import rules_for
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumped import Pumped, pumped
from pondapp.answers.tuning.evidence import DOUBTS, Doubt, Evidence
from pondapp.answers.tuning.flow_sets import (
    BranchPlace,
    Change,
    FlowSet,
    InHand,
    LatestReading,
    branch_places,
    change_of,
    newest_at,
)
from pondapp.core.base.errors import NoSolution, PondError
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Step
from pondapp.core.hydraulics.fittings import fittings_loss
from pondapp.core.hydraulics.pump_curve import SlowedCurve
from pondapp.core.hydraulics.tuning import (
    AsFound,
    Turn,
    as_found,
    least_speed,
    order_of_setting,
    turned,
)
from pondapp.core.hydraulics.valves import valve_opening
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

State = Doubt | Literal["to do", "off", "again", "open", "conflict", "in"]
SEVERITY: Mapping[State, Severity] = {
    "to do": "unknown",
    "again": "unknown",
    **dict.fromkeys(DOUBTS, "unknown"),
    "open": "unknown",
    "off": "wrong",
    "conflict": "wrong",
    "in": "right",
}
"""How bad each state is."""
SEE_PLAN = Message("See the flow plan for a way out before you set this valve.")

WAYS: Mapping[tuple[str, str], str] = {
    ("none", "below"): "This branch has no valve of its own: close another branch's a little.",
    ("none", "above"): "This branch has no valve: fit one, or open another branch's.",
    ("unknown", "below"): "Open this branch's valve further. If it is wide open, close another "
    "branch's valve instead.",
    ("unknown", "above"): "Close this branch's valve further, or put one in.",
    ("ball", "below"): "Open the ball valve further: turn its handle towards the line of the "
    "hose. If it is wide open, close another branch's valve instead.",
    ("ball", "above"): "Close the ball valve further: turn its handle away from the line of the "
    "hose.",
    ("gate", "below"): "Open the gate valve further: turn it anticlockwise. If it is wide open, "
    "close another branch's valve instead.",
    ("gate", "above"): "Close the gate valve further: turn it clockwise.",
}


DRY_WAYS: Mapping[str, str] = {
    "none": "See that the pump runs. This branch has no valve: look for a kink, a clog or air in "
    "its hose.",
    "unknown": "See that the pump runs and that no valve is shut on the way. Then look for a kink, "
    "a clog or air in the hose.",
    "ball": "See that the pump runs. Open the ball valve: turn its handle into the line of the "
    "hose. If it is open, look for a kink, a clog or air in the hose.",
    "gate": "See that the pump runs. Open the gate valve: turn it anticlockwise. If it is open, "
    "look for a kink, a clog or air in the hose.",
}


@dataclass(frozen=True, slots=True)
class BranchState:
    """A branch on the way to being tuned."""

    place: BranchPlace
    seen: LatestReading | None
    """The newest reading there."""
    state: State
    why: Message | None = None
    """What contradicts the reading, where another one does."""


@dataclass(frozen=True, slots=True)
class TuningOrder:
    """In which order to set the valves, by the circuit."""

    turns: tuple[tuple[BranchPlace, Turn], ...]
    why: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class Deviation:
    """A flow against the aim of its branch."""

    state: Literal["in", "off", "open", "conflict"]
    """Right, wrong, not decided, or nothing can be right here."""
    sentence: Message
    turn: Message
    """Which way to turn the valve, or what would decide."""


@dataclass(frozen=True, slots=True)
class BranchEffect:
    """What another branch does: its flow before, and the range of its flow after [m3/s]."""

    name: str
    before: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class ValveEffect:
    """What the other branches do when one valve is turned to its aim."""

    others: tuple[BranchEffect, ...]
    assumed_open: tuple[str, ...]
    """Branches that were not measured lately, and count as wide open."""
    opening: Message
    """How far the valve would be open then, roughly."""
    notes: tuple[Message, ...]
    working: tuple[Step, ...]

    @property
    def ranges(self) -> bool:
        """Whether any flow after the turn is a range worth explaining."""
        return any(moved.high > 1.02 * moved.low for moved in self.others)


def deviation(found: Measured, place: BranchPlace) -> Deviation:
    """How far a measured flow is from the aim, and which way to turn.

    Args:
        found: The flow, judged by the band of the place.
        place: The branch.
    """
    aim, flow = place.band.target, found.flow.flow
    if found.dry:
        sentence = Message("Nothing comes out; the aim is {aim}.", _aim(aim))
        return Deviation("off", sentence, Message(DRY_WAYS[place.valve]))
    if place.conflict is not None:
        return Deviation("conflict", place.conflict, SEE_PLAN)
    if found.kind == "within":
        return _right(found, aim)
    if found.kind == "undecided":
        return Deviation("open", found.verdict, found.advice[-1])
    way = WAYS[place.valve, found.kind]
    return Deviation("off", _distance(flow, aim, found.kind), Message(way))


def _right(found: Measured, aim: float) -> Deviation:
    """At the aim, or elsewhere in the band."""
    leave = Message("Leave this valve as it is.")
    if found.flow.low <= aim <= found.flow.high:
        return Deviation("in", Message("At the aim of {aim}.", _aim(aim)), leave)
    if found.flow.flow > aim:
        leave = Message(
            "Leave this valve as it is, or close it a little and the others get more: {aim} is "
            "enough here.",
            _aim(aim),
        )
    return Deviation("in", Message("Inside what is wanted here."), leave)


def _distance(flow: float, aim: float, kind: str) -> Message:
    """How far from the aim: as a share of it, or as a multiple where that is easier to say."""
    ratio = flow / aim
    if ratio >= 2.0:
        return Message(
            "{times} times the aim of {aim}.", {"times": units.readable(ratio, 2), **_aim(aim)}
        )  # fmt: skip
    share = f"{100.0 * abs(ratio - 1.0):.0f}"
    if kind == "below":
        return Message("{share} % less than the aim of {aim}.", {"share": share, **_aim(aim)})
    return Message("{share} % more than the aim of {aim}.", {"share": share, **_aim(aim)})


def _aim(aim: float) -> dict[str, Amount]:
    return {"aim": Amount(aim, "m3/s")}


def states(
    worked: WorkedPond,
    line: Line,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
    in_hand: InHand | None = None,
) -> tuple[BranchState, ...]:
    """Every branch of a line that is to carry water, and how far its tuning is.

    Args:
        worked: The pond.
        line: One of its lines.
        log: The pond's log.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now. What is dated later is no evidence.
        in_hand: What is filled at each place, on which its aim depends a little.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    places = branch_places(worked, line, in_hand)
    evidence = Evidence(worked, log, now, turned_at)
    return tuple(state_of(evidence, place, turned_at) for place in places)


def state_of(
    evidence: Evidence, place: BranchPlace, turned_at: Mapping[str, datetime]
) -> BranchState:
    """How far the tuning of a branch is, by the pond's log and the last turns of valves.

    Raises:
        PondError: A reading's numbers cannot be.
    """
    seen = newest_at(evidence.readings, place.everywhere, place.rules, place.band)
    state: State = "to do"
    why = None
    if seen is not None:
        taken_at = seen.reading.taken_at
        if any(taken_at < at for at in turned_at.values()):
            state = "again"
        elif doubt := evidence.doubt(seen.reading):
            state, why = doubt, evidence.why((seen.reading,))
        else:
            state = deviation(seen.found, place).state
    return BranchState(place, seen, state, why)


def standing(pond: Pond, state: BranchState, now: datetime) -> LatestReading | None:
    """The newest reading of a branch, if it is of the last day and no valve was turned since.

    Args:
        pond: The pond.
        state: The branch.
        now: The time of now.

    Raises:
        OutOfRange: A changed rule cannot be.
    """
    seen = state.seen
    if seen is None or state.state == "again" or state.state in DOUBTS:
        return None
    age = (now - seen.reading.taken_at).total_seconds()
    return seen if age <= rules_for(pond).measuring.same_setting else None


def all_in(found: Sequence[BranchState]) -> bool:
    """Whether every branch is where it is wanted."""
    return bool(found) and all(one.state == "in" for one in found)


def order(worked: WorkedPond, line: Line) -> TuningOrder:
    """In which order to set the valves of a line.

    Raises:
        PondError: No pump is chosen, or the circuit cannot be counted; the message says why.
    """
    places = branch_places(worked, line)
    parts = pumped(worked, line, places)
    by_key = {place.branch.id: place for place in places}
    # Whether the pump can is a matter of the plan; the aims lie a little above it, to be told.
    wanted = {key: place.planned for key, place in by_key.items()}
    turns = order_of_setting(parts.curve, parts.circuit, wanted, parts.viscosity)
    return TuningOrder(tuple((by_key[turn.key], turn) for turn in turns), _why(turns))


def _why(turns: Sequence[Turn]) -> tuple[Message, ...]:
    """Why in this order, and what is to be expected of it."""
    why: list[Message] = []
    first, last = turns[0], turns[-1]
    if len(turns) > 1 and first.throttles:
        why.append(
            Message(
                "Begin with {name}: with every valve open it would take {before}, and keep it from "
                "the others.",
                {"name": first.branch.name, "before": Amount(first.before, "m3/s")},
            )
        )
        drift = first.after / first.wanted - 1.0
        if drift >= 0.01:
            why.append(
                Message(
                    "When the others are set it will have risen by about {share} %: time it once "
                    "more then.",
                    {"share": f"{100.0 * drift:.0f}"},
                )
            )
    if not last.throttles:
        why.append(
            Message(
                "{name} needs its valve wide open, and still gets only {before} of its {wanted}: "
                "the pump is short of that by this model.",
                {
                    "name": last.branch.name,
                    "before": Amount(last.after, "m3/s"),
                    "wanted": Amount(last.wanted, "m3/s"),
                },
            )
        )
    return tuple(why)


def valve_effect(
    worked: WorkedPond,
    line: Line,
    log: Sequence[Reading],
    branch_id: str,
    flow: float,
    now: datetime,
    in_hand: InHand | None = None,
) -> ValveEffect:
    """What the other branches do when the valve of one is turned from this flow to its aim.

    Args:
        worked: The pond.
        line: One of its lines.
        log: The pond's readings; those of the last day tell how the other valves stand.
        branch_id: The branch whose valve is turned.
        flow: Its flow of now [m3/s].
        now: The time of now.
        in_hand: What is filled at each place, on which its aim depends a little.

    Raises:
        PondError: No pump is chosen, the circuit cannot be counted, or the aim is out of reach.
    """
    places = branch_places(worked, line, in_hand)
    parts = pumped(worked, line, places)
    curve, circuit, nu = parts.curve, parts.circuit, parts.viscosity
    fresh = worked.rules.measuring.same_setting
    measured = {branch_id: flow}
    assumed = []
    for place in places:
        if place.branch.id == branch_id:
            continue
        seen = newest_at(log, place.everywhere, place.rules)
        if seen and (now - seen.reading.taken_at).total_seconds() <= fresh:
            measured[place.branch.id] = seen.flow
        else:
            assumed.append(place.name)
    mine = next(place for place in places if place.branch.id == branch_id)
    stand = as_found(curve, circuit, measured, nu)
    wanted = mine.band.target
    try:
        after = turned(curve, stand.circuit, branch_id, wanted, nu)
    except NoSolution:
        if branch_id in stand.beyond:  # more than that was just measured there
            too_much = _beyond(parts, stand)
            raise NoSolution(too_much.template, **too_much.values) from None
        raise
    ends, valves = [(stand.flows, after.flows)], [after.valve]
    try:
        weak = SlowedCurve(curve, least_speed(curve, circuit, measured, nu))
        weak_stand = as_found(weak, circuit, measured, nu)
        weak_after = turned(weak, weak_stand.circuit, branch_id, wanted, nu)
        ends.append((weak_stand.flows, weak_after.flows))
        valves.append(weak_after.valve)
    except NoSolution:
        # A pump so weak could not reach the aim: that it can is the better guess. And where no
        # water came anywhere, nothing says how weak it may be.
        pass
    others = []
    for place in places:
        key = place.branch.id
        if key != branch_id and all(before[key] > 0.0 for before, _ in ends):
            now_there = measured.get(key, stand.flows[key])
            # What is beyond the model keeps its own flow, and moves by the model's share.
            then = [now_there * later[key] / before[key] for before, later in ends]
            others.append(BranchEffect(place.name, now_there, min(then), max(then)))
    return ValveEffect(
        others=tuple(others),
        assumed_open=tuple(assumed),
        opening=_opening(parts, mine, valves),
        notes=_doubts(parts, stand),
        working=after.steps(),
    )


def _doubts(parts: Pumped, stand: AsFound) -> tuple[Message, ...]:
    """What makes this rougher than it looks."""
    return (*parts.doubts(), _beyond(parts, stand)) if stand.beyond else parts.doubts()


def _beyond(parts: Pumped, stand: AsFound) -> Message:
    """What was measured is more than what is entered allows."""
    return Message(
        "More than this pump and these hoses could give was measured at {names}: check what is "
        "entered.",
        {"names": parts.names(stand.beyond)},
    )


def _opening(parts: Pumped, place: BranchPlace, valves: Sequence[float]) -> Message:
    """How far the valve is open then, for the losses that it may have to make."""
    kind = place.valve
    if kind in ("none", "unknown"):
        return Message("")
    counted = next(one for one in parts.network.branches if one.key == place.branch.id)
    try:
        shares = [valve_opening(kind, valve + fittings_loss(counted.valve)) for valve in valves]
    except PondError:
        return Message(
            "The valve will be nearly closed then: move it a hair at a time, and time each move."
        )
    low, high = (f"{10.0 * round(10.0 * end(shares)):.0f}" for end in (min, max))
    share = low if low == high else f"{low}-{high}"
    return Message(
        "As a rough guide by a table of valves, this one is about {share} % open then. No two "
        "valves are alike: what you measure decides.",
        {"share": share},
    )


def changes_since(kept: FlowSet, evidence: Evidence) -> tuple[Change, ...]:
    """Each place of a set against its newest reading, where that is newer and tells how it is now.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be; the message says why.
    """
    found, rules = [], evidence.worked.rules.measuring
    for was in kept.places:
        seen = newest_at(evidence.readings, (was.place_id,), rules)
        if seen is None or seen.reading.id == was.reading_id or seen.reading.taken_at <= kept.at:
            continue
        if evidence.doubt(seen.reading) is None:
            then, doubt = was.flow_m3_s, was.half_width_m3_s
            rule = certainty(rules)
            found.append(change_of(was.place_name, then, doubt, seen.flow, seen.doubt, rule))
    return tuple(found)
