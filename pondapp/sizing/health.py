"""The pump's health: what it gives against what it should, what it lost, and where that went."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from pondapp.core.errors import PondError
from pondapp.core.hydraulics.lost_flow import LostFlow, lost_flow
from pondapp.core.hydraulics.network import operating_point
from pondapp.core.hydraulics.pump_condition import PumpCondition, pump_condition
from pondapp.core.hydraulics.pump_curve import SlowedCurve
from pondapp.core.hydraulics.tuning import as_found, least_speed
from pondapp.core.messages import Amount, Message
from pondapp.core.working import Step
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.sizing.flow_sets import (
    BranchPlace,
    Change,
    FlowSet,
    Seen,
    branch_places,
    change_of,
    newest_at,
    set_of,
)
from pondapp.sizing.methods import rules_for
from pondapp.sizing.pumped import Pumped, pumped

Valves = Literal["open", "kept", "other"]
State = Literal["good", "clean it", "look", "not decided", "not told"]
Where = Literal["nowhere", "pump side", "branch", "both", "either", "unclear"]

OPEN_ALL = Message(
    "Open every valve for one round of fills: then the pump alone decides. Turn them back after."
)
MORE_FILLS = Message("Time more fills, or use a bigger container: the flow is not known well yet.")
EACH_BRANCH = Message("Time a fill at every branch: their pattern tells the pump from a blockage.")
CLEAN = Message("Unplug the pump, clean its inlet, foam and impeller, then measure again.")


@dataclass(frozen=True, slots=True)
class LineFlow:
    """The flow of a pump, and the readings it comes from."""

    flow: float
    doubt: float
    """Half of its interval [m3/s]."""
    at: datetime
    seen: tuple[Seen, ...]
    summed: bool
    """Whether it is the sum over the branches."""


@dataclass(frozen=True, slots=True)
class Since:
    """What is left of an earlier flow."""

    kept: FlowSet
    clean: bool
    """Whether that was the clean pump; else it was as tuned."""
    change: Change
    where: Where | None
    """Where flow was lost; none where the branches were not measured one by one."""
    blocked: tuple[str, ...]
    working: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Health:
    """What can be said of a pump."""

    now: LineFlow
    state: State
    verdict: Message
    expected: float | None
    """Flow [m3/s] of the pump as new here with every valve wide open."""
    condition: PumpCondition | None
    """Against the pump as new; none where the flow is too far from its curve, or no curve is."""
    since: Since | None
    tells: tuple[Message, ...]
    """What to do, and what would tell more."""
    notes: tuple[Message, ...]


def has_valves(pond: Pond, line: Line) -> bool:
    """Whether anything in a line can be half shut; who knows while its path is only supposed."""
    return not pond.lines or any(branch.valve != "none" for branch in line.branches)


def baseline(pond: Pond, line: Line) -> tuple[FlowSet, bool] | None:
    """The newest set to compare with, and whether it was the clean pump; else it was as tuned."""
    clean, tuned = set_of(pond.clean, line), set_of(pond.tuned, line)
    if clean and (tuned is None or clean.at >= tuned.at):
        return clean, True
    return (tuned, False) if tuned else None


def line_flow(pond: Pond, line: Line, log: Sequence[Reading]) -> LineFlow | None:
    """The newest flow of a pump: measured as a whole, or as the sum over its branches.

    The doubts of a sum are added up, since the same container may be wrong in all of them.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    whole = newest_at(log, line.id)
    found = [newest_at(log, place.place_id) for place in branch_places(pond, line)]
    seen = tuple(one for one in found if one is not None)
    fresh = rules_for(pond).measuring.same_setting
    if found and len(seen) == len(found):
        times = [one.reading.taken_at for one in seen]
        together = (max(times) - min(times)).total_seconds() <= fresh
        if together and (whole is None or max(times) > whole.reading.taken_at):
            flow = sum(one.flow for one in seen)
            return LineFlow(flow, sum(one.doubt for one in seen), max(times), seen, True)
    if whole is None:
        return None
    return LineFlow(whole.flow, whole.doubt, whole.reading.taken_at, (whole,), False)


def missing_places(pond: Pond, line: Line, log: Sequence[Reading]) -> tuple[BranchPlace, ...]:
    """The branches that were never measured.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    places = branch_places(pond, line)
    return tuple(place for place in places if newest_at(log, place.place_id) is None)


def _by_branch(places: Sequence[BranchPlace], names: Mapping[str, str]) -> dict[str, str]:
    """Name in the circuit by the place where a branch is caught."""
    return {place.place_id: names[place.branch.id] for place in places}


def _where(parts: Pumped, was: Mapping[str, float], now: Mapping[str, tuple[float, float]]
           ) -> tuple[Where, tuple[str, ...], tuple[Step, ...]]:  # fmt: skip
    """Where flow was lost, as far as it holds for a strong pump and for a weak one alike."""
    weak = SlowedCurve(
        parts.curve, least_speed(parts.curve, parts.circuit, was, parts.viscosity)
    )  # fmt: skip
    found: list[LostFlow] = []
    for curve in (parts.curve, weak):
        stand = as_found(curve, parts.circuit, was, parts.viscosity)
        found.append(lost_flow(curve, stand.circuit, now, parts.viscosity))
    blocked = tuple(name for name in found[0].blocked if name in found[1].blocked)
    sides = [one.where for one in found]
    steps = found[0].steps()
    where: Where = "unclear"
    if "either" in sides:
        where = "either" if sides == ["either", "either"] else "unclear"
    elif sides == ["nowhere", "nowhere"]:
        where = "nowhere"
    elif all(side in ("pump side", "both") for side in sides):
        where = "both" if blocked else "pump side"
    elif blocked:
        where = "branch"
    return where, blocked, steps


def _since(
    pond: Pond, line: Line, now: LineFlow, parts: Pumped | None, places: Sequence[BranchPlace]
) -> Since | None:
    """What is left since the newest baseline, where that is older than the flow of now."""
    found = baseline(pond, line)
    if found is None or found[0].at >= now.at:
        return None
    kept, clean = found
    if {place.reading_id for place in kept.places} & {one.reading.id for one in now.seen}:
        return None  # a reading of the baseline itself
    then, doubt = (
        sum(place.flow_m3_s for place in kept.places),
        sum(place.half_width_m3_s for place in kept.places),
    )
    change = change_of(line.name, then, doubt, now.flow, now.doubt)
    was = {place.place_id: place for place in kept.places}
    here = {one.reading.place_id: one for one in now.seen}
    if parts is None or not now.summed or was.keys() != here.keys():
        return Since(kept, clean, change, None, (), ())
    names = _by_branch(places, parts.names)
    flows = {}
    for place_id, one in here.items():
        old = was[place_id]
        each = change_of("", old.flow_m3_s, old.half_width_m3_s, one.flow, one.doubt)
        flows[names[place_id]] = (one.flow, one.flow * (each.high - each.share) / each.share)
    try:
        before = {names[place_id]: place.flow_m3_s for place_id, place in was.items()}
        where, blocked, steps = _where(parts, before, flows)
    except PondError:
        return Since(kept, clean, change, None, (), ())
    return Since(kept, clean, change, where, blocked, steps)


def _condition(parts: Pumped, now: LineFlow, worn: float) -> PumpCondition | Message:
    try:
        return pump_condition(
            parts.curve, parts.circuit, parts.viscosity, now.flow, now.doubt, worn
        )
    except PondError as problem:
        return problem.message


def health(pond: Pond, line: Line, log: Sequence[Reading], valves: Valves) -> Health | None:
    """What the newest flow says of a line's pump; nothing while there is none.

    Args:
        pond: The pond.
        line: One of its lines.
        log: The pond's readings.
        valves: Wide open, as they were at the baseline, or otherwise.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    now = line_flow(pond, line, log)
    if now is None:
        return None
    places = branch_places(pond, line)
    worn = rules_for(pond).pumps.worn_share
    parts: Pumped | None = None
    condition: PumpCondition | None = None
    expected: float | None = None
    notes: list[Message] = []
    try:
        parts = pumped(pond, line, places)
        expected = operating_point(parts.curve, parts.circuit, parts.viscosity).flow
        found = _condition(parts, now, worn)
        if isinstance(found, PumpCondition):
            condition = found
        else:
            notes.append(found)
        notes += parts.doubts()
    except PondError as problem:
        notes.append(problem.message)
    throttled = has_valves(pond, line) and valves != "open"
    compared = valves == "kept" or not has_valves(pond, line)
    since = _since(pond, line, now, parts, places) if compared else None
    state, verdict = _judged(throttled, condition, since)
    return Health(
        now, state, verdict, expected, condition, since,
        _tells(state, throttled, now.summed, parts, condition, since), tuple(notes),
    )  # fmt: skip


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f}"


def _judged(
    throttled: bool, condition: PumpCondition | None, since: Since | None
) -> tuple[State, Message]:
    """The verdict: against the baseline if there is one, else against the pump as new."""
    if since is not None:
        return _judged_since(since)
    if condition is None:
        return "not told", Message("What this pump should give here is not known.")
    share = {"share": _percent(condition.share)}
    if condition.state == "strong":
        return "look", Message(
            "{share} % of what this pump should give here: no wear. Pump, lift or hose are not as "
            "entered.",
            share,
        )
    if condition.state == "as expected":
        return "good", Message("Healthy: {share} % of what it should give here.", share)
    if throttled:
        return "not told", Message(
            "{share} % of what it gives with every valve open. Valves may take the rest, so this "
            "says nothing of the pump.",
            share,
        )
    if condition.state == "worn":
        return "clean it", Message("Only {share} % of what it should give here.", share)
    if condition.state == "weak":
        return "good", Message(
            "A little low, {share} % of what it should give here: clean it at the next round.",
            share,
        )
    return "not decided", Message(
        "Not decided yet: {share} % of what it should give, but not known well enough.", share
    )


def _judged_since(since: Since) -> tuple[State, Message]:
    """The verdict against the baseline."""
    change = since.change
    values = {
        "share": _percent(change.share),
        "names": ", ".join(since.blocked),
        "day": since.kept.at.astimezone().strftime("%Y-%m-%d"),
    }
    if since.where == "branch":
        return "look", Message(
            "Less water at {names} than on {day}, while the pump pushes as it did: something is in "
            "the way there.",
            values,
        )
    if not change.told and since.where in (None, "nowhere"):
        return "good", Message(
            "Nothing lost since {day} that can be told: {share} % of it is there.", values
        )
    if change.share > 1.0:
        return "look", Message(
            "{share} % of the flow on {day}: a valve was opened since, or the pump was cleaned.",
            values,
        )
    if since.where == "pump side":
        return "clean it", Message(
            "{share} % of the flow on {day}. All branches fell together: it is the pump, its "
            "inlet or the hose up to the T-piece.",
            values,
        )
    if since.where == "both":
        return "clean it", Message(
            "{share} % of the flow on {day}. The pump's side lost, and {names} is blocked besides.",
            values,
        )
    return "clean it", Message(
        "{share} % of the flow on {day}. Whether pump or hose took it, this flow alone does not "
        "tell.",
        values,
    )


def _tells(
    state: State,
    throttled: bool,
    summed: bool,
    parts: Pumped | None,
    condition: PumpCondition | None,
    since: Since | None,
) -> tuple[Message, ...]:
    """What to do first, and which measurement would tell more."""
    if state == "good":
        return ()
    if state == "not told" and throttled:
        return (OPEN_ALL,)
    if state == "not decided":
        return (MORE_FILLS,)
    tells: list[Message] = []
    if since is not None and since.where == "branch":
        tells.append(
            Message(
                "At {names}: look for clogged foam or gravel, roots, a kink, or a valve that was "
                "touched.",
                {"names": ", ".join(since.blocked)},
            )
        )
        return tuple(tells)
    if state == "clean it":
        tells.append(CLEAN)
        if since is not None and since.where is None and not summed:
            tells.append(EACH_BRANCH)
    if parts is not None and state in ("clean it", "look"):
        tells += _more(parts, condition if since is None else None)
    return tuple(tells)


def _more(parts: Pumped, condition: PumpCondition | None) -> list[Message]:
    """Measurements that tell the pump from the circuit."""
    tells = []
    if parts.curve.least_flow == 0.0:
        # At no flow nothing is lost in hoses, so only the pump decides how high the water stands.
        tells.append(
            Message(
                "To tell pump from hose: raise the end of one hose, all others shut, until no "
                "water comes. A sound pump stops at about {head}, kink or not; a worn one lower.",
                {"head": Amount(parts.curve.reach(0.0), "m")},
            )
        )
    if condition is not None and condition.head_missing > 0.0:
        tells.append(
            Message(
                "If cleaning changes nothing, the circuit takes {missing} more than was entered: "
                "measure the lift again, and look for a kink or a half shut valve.",
                {"missing": Amount(condition.head_missing, "m")},
            )
        )
    return tells
