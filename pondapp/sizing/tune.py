"""Tuning: which valve comes first, how far off a fill is, which way to turn, what that moves."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from typing import Literal

from pondapp.core.errors import NoSolution, PondError
from pondapp.core.hydraulics.fittings import fittings_loss
from pondapp.core.hydraulics.network import Circuit, Outlet
from pondapp.core.hydraulics.pump_curve import PumpCurve, SlowedCurve
from pondapp.core.hydraulics.tuning import (
    AsFound,
    Turn,
    as_found,
    least_speed,
    order_of_setting,
    turned,
)
from pondapp.core.hydraulics.valves import valve_opening
from pondapp.core.messages import Amount, Message
from pondapp.core.working import Step
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.sizing.flow import Measured
from pondapp.sizing.flow_sets import BranchPlace, Seen, branch_places, newest_at
from pondapp.sizing.methods import rules_for
from pondapp.sizing.network import LineNetwork, network_of
from pondapp.sizing.path import pump_of
from pondapp.sizing.planned import planned_flows
from pondapp.sizing.pumps import curve_of

State = Literal["to do", "off", "again", "in"]

WAYS: Mapping[tuple[str, str], str] = {
    ("none", "below"): "This branch has no valve of its own: close another branch's a little.",
    ("none", "above"): "This branch has no valve: fit one, or open another branch's.",
    ("ball", "below"): "Open the ball valve a little: turn its handle towards the line of the "
    "hose. If it is wide open, close another branch's valve instead.",
    ("ball", "above"): "Close the ball valve a little: turn its handle away from the line of the "
    "hose.",
    ("gate", "below"): "Open the gate valve a little: turn it anticlockwise. If it is wide open, "
    "close another branch's valve instead.",
    ("gate", "above"): "Close the gate valve a little: turn it clockwise.",
}


@dataclass(frozen=True, slots=True)
class BranchState:
    """A branch on the way to being tuned."""

    place: BranchPlace
    seen: Seen | None
    """The newest reading there."""
    state: State


@dataclass(frozen=True, slots=True)
class FirstToLast:
    """In which order to set the valves, by the circuit."""

    turns: tuple[tuple[BranchPlace, Turn], ...]
    why: tuple[Message, ...]


@dataclass(frozen=True, slots=True)
class OffBy:
    """A flow against the aim of its branch."""

    near_enough: bool
    sentence: Message
    turn: Message
    """Which way to turn the valve."""


@dataclass(frozen=True, slots=True)
class Moved:
    """What another branch does: its flow before, and the range of its flow after [m3/s]."""

    name: str
    before: float
    low: float
    high: float


@dataclass(frozen=True, slots=True)
class Moves:
    """What the other branches do when one valve is turned to its aim."""

    others: tuple["Moved", ...]
    supposed_open: tuple[str, ...]
    """Branches that were not measured lately, and count as wide open."""
    opening: Message
    """How far the valve would be open then, roughly."""
    notes: tuple[Message, ...]
    working: tuple[Step, ...]


def near_enough(found: Measured, place: BranchPlace) -> bool:
    """Whether a flow is where it is wanted, as far as it could be measured.

    The aim may lie on the very edge of the band, where no measurement can decide; there a flow
    that cannot be told from the aim is as good as one inside.
    """
    if found.kind == "within":
        return True
    flow = found.flow
    return found.kind == "undecided" and flow.low <= place.band.target <= flow.high


def off_by(found: Measured, place: BranchPlace) -> OffBy:
    """How far a measured flow is from the aim, and which way to turn."""
    aim, flow = place.band.target, found.flow.flow
    if near_enough(found, place):
        return OffBy(
            True,
            Message("Right, as far as this can be measured: the aim is {aim}.", _aim(aim)),
            Message("Leave this valve as it is."),
        )
    kind = found.kind
    if kind == "undecided":
        kind = "below" if flow < aim else "above"
    way = WAYS[place.branch.valve, kind]
    return OffBy(False, _distance(flow, aim, kind), Message(way))


def _distance(flow: float, aim: float, kind: str) -> Message:
    """How far from the aim: as a share of it, or as a multiple where that is easier to say."""
    ratio = flow / aim
    if ratio >= 2.0:
        return Message(
            "{times} times the aim of {aim}.", {"times": f"{ratio:.2g}", **_aim(aim)}
        )  # fmt: skip
    share = f"{100.0 * abs(ratio - 1.0):.0f}"
    if kind == "below":
        return Message("{share} % less than the aim of {aim}.", {"share": share, **_aim(aim)})
    return Message("{share} % more than the aim of {aim}.", {"share": share, **_aim(aim)})


def _aim(aim: float) -> dict[str, Amount]:
    return {"aim": Amount(aim, "m3/s")}


def states(
    pond: Pond, line: Line, log: Sequence[Reading], turned_at: Mapping[str, datetime]
) -> tuple[BranchState, ...]:
    """Every branch of a line that is to carry water, and how far its tuning is.

    Args:
        pond: The pond.
        line: One of its lines.
        log: The pond's readings.
        turned_at: When the valve of a branch was last turned, by the branch's id.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    found = []
    for place in branch_places(pond, line):
        seen = newest_at(log, place.place_id, place.band)
        found.append(BranchState(place, seen, _state(place, seen, turned_at)))
    return tuple(found)


def _state(place: BranchPlace, seen: Seen | None, turned_at: Mapping[str, datetime]) -> State:
    if seen is None:
        return "to do"
    if any(seen.reading.taken_at < at for at in turned_at.values()):
        return "again"
    return "in" if near_enough(seen.found, place) else "off"


def all_in(found: Sequence[BranchState]) -> bool:
    """Whether every branch is where it is wanted."""
    return bool(found) and all(one.state == "in" for one in found)


def _counted(
    pond: Pond, line: Line, places: Sequence[BranchPlace]
) -> tuple[PumpCurve, LineNetwork, Circuit]:
    """Pump and circuit of a line; a branch that rests behind a valve counts as shut.

    Raises:
        PondError: No pump is chosen, or the circuit cannot be counted.
    """
    pump = pump_of(pond, line)
    if pump is None:
        raise NoSolution("choose the pump of this line, and this can be worked out")
    curve = curve_of(pump)
    network = network_of(pond, line, planned_flows(pond).flows)
    wet = {place.branch.id for place in places}
    outlets = []
    for branch, counted in zip(line.branches, network.branches, strict=True):
        shut = branch.id not in wet and branch.valve != "none"
        outlets.append(Outlet(counted.name, counted.run, counted.lift, closed=shut))
    return curve, network, replace(network.circuit, branches=tuple(outlets))


def _names(network: LineNetwork) -> dict[str, str]:
    """Name in the circuit by the branch's id."""
    return {counted.key: counted.name for counted in network.branches}


def order(pond: Pond, line: Line) -> FirstToLast:
    """In which order to set the valves of a line.

    Raises:
        PondError: No pump is chosen, or the circuit cannot be counted; the message says why.
    """
    places = branch_places(pond, line)
    curve, network, circuit = _counted(pond, line, places)
    names = _names(network)
    by_name = {names[place.branch.id]: place for place in places}
    wanted = {name: place.band.target for name, place in by_name.items()}
    turns = order_of_setting(curve, circuit, wanted, network.viscosity)
    return FirstToLast(tuple((by_name[turn.name], turn) for turn in turns), _why(turns))


def _why(turns: Sequence[Turn]) -> tuple[Message, ...]:
    """Why in this order, and what is to be expected of it."""
    why: list[Message] = []
    first, last = turns[0], turns[-1]
    if len(turns) > 1 and first.throttles:
        why.append(
            Message(
                "Begin with {name}: with every valve open it would take {before}, and keep it from "
                "the others.",
                {"name": first.name, "before": Amount(first.before, "m3/s")},
            )
        )
        drift = first.after / first.wanted - 1.0
        if drift >= 0.01:
            why.append(
                Message(
                    "It will have risen by about {share} % when the others are set: then time it "
                    "once more.",
                    {"share": f"{100.0 * drift:.0f}"},
                )
            )
    if not last.throttles:
        why.append(
            Message(
                "{name} needs its valve wide open, and still gets only {before} of its {wanted}: "
                "the pump is short of that by this model.",
                {
                    "name": last.name,
                    "before": Amount(last.after, "m3/s"),
                    "wanted": Amount(last.wanted, "m3/s"),
                },
            )
        )
    return tuple(why)


def moves(
    pond: Pond,
    line: Line,
    log: Sequence[Reading],
    branch_id: str,
    flow: float,
    now: datetime,
) -> Moves:
    """What the other branches do when the valve of one is turned from this flow to its aim.

    Args:
        pond: The pond.
        line: One of its lines.
        log: The pond's readings; those of the last day tell how the other valves stand.
        branch_id: The branch whose valve is turned.
        flow: Its flow of now [m3/s].
        now: The time of now.

    Raises:
        PondError: No pump is chosen, the circuit cannot be counted, or the aim is out of reach.
    """
    places = branch_places(pond, line)
    curve, network, circuit = _counted(pond, line, places)
    names = _names(network)
    fresh = rules_for(pond).measuring.same_setting
    measured = {names[branch_id]: flow}
    supposed = []
    for place in places:
        if place.branch.id == branch_id:
            continue
        seen = newest_at(log, place.place_id)
        if seen and (now - seen.reading.taken_at).total_seconds() <= fresh:
            measured[names[place.branch.id]] = seen.flow
        else:
            supposed.append(place.name)
    mine = next(place for place in places if place.branch.id == branch_id)
    stand = as_found(curve, circuit, measured, network.viscosity)
    wanted = mine.band.target
    after = turned(curve, stand.circuit, names[branch_id], wanted, network.viscosity)
    weak = SlowedCurve(curve, least_speed(curve, circuit, measured, network.viscosity))
    weak_stand = as_found(weak, circuit, measured, network.viscosity)
    ends = [(stand.flows, after.flows)]
    try:
        weak_after = turned(weak, weak_stand.circuit, names[branch_id], wanted, network.viscosity)
        ends.append((weak_stand.flows, weak_after.flows))
    except NoSolution:
        pass  # a pump so weak could not reach the aim: that it can is the better guess
    others = []
    for place in places:
        name = names[place.branch.id]
        if place.branch.id != branch_id and all(before[name] > 0.0 for before, _ in ends):
            now_there = measured.get(name, stand.flows[name])
            # What is beyond the model keeps its own flow, and moves by the model's share.
            then = [now_there * later[name] / before[name] for before, later in ends]
            others.append(Moved(place.name, now_there, min(then), max(then)))
    return Moves(
        others=tuple(others),
        supposed_open=tuple(supposed),
        opening=_opening(network, mine, after.valve),
        notes=tuple(_doubts(network, curve, stand)),
        working=after.steps(),
    )


def _doubts(network: LineNetwork, curve: PumpCurve, stand: AsFound) -> list[Message]:
    """What makes this rougher than it looks."""
    doubts = []
    if curve.estimate:
        doubts.append(Message("The pump's curve is guessed from its label."))
    supposed = [counted.name for counted in network.branches if counted.supposed]
    if supposed:
        doubts.append(
            Message("No hose is entered for {names}: one is supposed.", {"names": _list(supposed)})
        )
    if stand.beyond:
        doubts.append(
            Message(
                "More than this pump and these hoses could give was measured at {names}: check "
                "what is entered.",
                {"names": _list(stand.beyond)},
            )
        )
    return doubts


def _list(names: Sequence[str]) -> str:
    return ", ".join(names)


def _opening(network: LineNetwork, place: BranchPlace, valve: float) -> Message:
    """How far the valve is open then."""
    kind = place.branch.valve
    if kind == "none":
        return Message("")
    counted = next(one for one in network.branches if one.key == place.branch.id)
    try:
        share = valve_opening(kind, valve + fittings_loss(counted.valve))
    except PondError:
        return Message(
            "The valve will be nearly closed then: move it by hair's breadths, and time each move."
        )
    return Message(
        "The valve will be about {share} % open then. No two valves are alike: the clock decides.",
        {"share": f"{10.0 * round(10.0 * share):.0f}"},
    )
