"""What resolves a conflict: each proposal is a list of edits, and words for the plan in the end."""

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, replace
from itertools import combinations

from pondapp.core.base.constants import DAY
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.circuit.answer import Plan
from pondapp.core.circuit.bounds import (
    exceeds,
    least_flow,
    least_of_pump,
    most_demanding,
    most_of_pump,
    most_restrictive,
)
from pondapp.core.circuit.conflicts import (
    Conflict,
    OrderConflict,
    PumpConflict,
    TimerConflict,
    TurnoverConflict,
)
from pondapp.core.circuit.edits import (
    AddBranch,
    AddBypass,
    AddPump,
    Edit,
    MergeBranches,
    NewBranch,
    ReplacePump,
    Resize,
    SetAim,
    SetDuty,
    SetTurnover,
    can_resize,
    free_key,
    free_name,
)
from pondapp.core.circuit.model import (
    LEAST_FLOW,
    DemandBranch,
    DemandCircuit,
    DemandPump,
    FlowDemand,
)

# What a change asks of its owner, in rough hours of work; a pump also has its price. The order of
# resolutions rests on these (common practice; a judgement, no source).
WIDTH = "width"  # a length [m] that is told as a width
SETTING, VALVE, PLUMBING, BUILDING, PUMP = 0.5, 1.0, 2.0, 4.0, 5.0


@dataclass(frozen=True, slots=True)
class Proposal:
    """What may be changed, and how to say it once the plan is known.

    Attributes:
        edits: The change, in order.
        say: The change in words, from the plan of the circuit in the end.
        effort: About how much work it is [h].
        about: What is changed, by key: a change of the same thing again is said once, by its end.
    """

    edits: tuple[Edit, ...]
    say: Callable[[Plan], Message]
    effort: float
    about: tuple[str, ...]


def _flow(value: float) -> Amount:
    return Amount(value, "m3/s")


def _new_branch(
    circuit: DemandCircuit, name: str, key: str, features: tuple[str, ...] = ()
) -> NewBranch:
    return NewBranch(key, free_name(name, (branch.name for branch in circuit.branches)), features)


def _new_pump_name(circuit: DemandCircuit) -> str:
    return free_name("second pump", (pump.name for pump in circuit.pumps))


def _duty(demands: Iterable[FlowDemand], like: DemandPump, timer_duty: float) -> float:
    """Share of the day of a new pump for these: on a timer if none of them needs it all day."""
    fed = tuple(demands)
    on_timer = bool(fed) and not any(demand.all_day for demand in fed)
    return min(like.duty, timer_duty) if on_timer else 1.0


def _bypass(branch: DemandBranch, tight: FlowDemand) -> Proposal:
    """A way round what stands the least."""
    ways = {
        "bed": "let {past} run over the top of {thing}, so that {through} passes it",
        "lip": "lead {past} past {thing} by a T-piece and valve, so that {through} runs over it",
    }
    other = "lead {past} round {thing} by a T-piece and valve, so that {through} passes"
    template = ways.get(tight.kind, other)

    def say(plan: Plan) -> Message:
        flow = plan.feature_flow(tight.key)
        return Message(
            template,
            {"thing": tight.name, "past": _flow(flow.bypass), "through": _flow(flow.through)},
        )

    effort = SETTING if tight.kind == "bed" else VALVE
    return Proposal((AddBypass(branch.key, tight.key),), say, effort, ("bypass", tight.key))


def _content(pump: DemandPump, demands: Iterable[FlowDemand]) -> Iterator[Proposal]:
    """Features that are to have their good flow, content with the least that is sufficient."""
    lowered = [one for one in demands if one.aim == "good" and one.low < one.target]
    if not lowered:
        return
    keys = {one.key for one in lowered}
    branches = tuple(
        replace(
            branch,
            demands=tuple(
                replace(one, aim="least") if one.key in keys else one for one in branch.demands
            ),
        )
        for branch in pump.branches
    )
    one = lowered[0]
    message = Message(
        "give {things} the least that will do instead of the good flow: {less} less",
        {
            "things": ", ".join(demand.name for demand in lowered),
            "less": _flow(least_of_pump(pump) - least_of_pump(replace(pump, branches=branches))),
        },
    )
    if len(lowered) == 1:
        message = Message(
            "give {thing} its least flow, {least}, instead of its good flow, {good}",
            {"thing": one.name, "least": _flow(one.low), "good": _flow(one.target)},
        )
    edits = tuple(SetAim(demand.key, "least") for demand in lowered)
    about = ("aim", *(demand.key for demand in lowered))
    yield Proposal(edits, lambda _plan: message, SETTING, about)


def _resize(demand: FlowDemand, factor: float) -> Iterator[Proposal]:
    """A lip of another width or a bed of another volume, if its size is known."""
    before = demand.size
    if before is None or demand.kind == "box" or not can_resize(demand, before * factor):
        return
    lip = demand.kind == "lip"

    def say(plan: Plan) -> Message:
        size = plan.feature_flow(demand.key).demand.size or before
        larger = size > before
        if lip and larger:
            template = "make {thing} at least {size} wide, {change} wider"
        elif lip:
            template = "make {thing} at most {size} wide, {change} narrower"
        elif larger:
            template = "give {thing} a volume of at least {size}, {change} more"
        else:
            template = "give {thing} a volume of at most {size}, {change} less"
        unit = WIDTH if lip else "m3"
        return Message(
            template,
            {
                "thing": demand.name,
                "size": Amount(size, unit),
                "change": Amount(abs(size - before), unit),
            },
        )

    edit = Resize(demand.key, before * factor)
    yield Proposal((edit,), say, PLUMBING if lip else BUILDING, ("size", demand.key))


def _own_branch(circuit: DemandCircuit, conflict: OrderConflict, moved: FlowDemand) -> Proposal:
    """A branch of its own for one feature, on the same pump."""
    pump, branch = conflict.pump, conflict.branch
    name = phrase("branch of {name}", name=moved.name)
    new = _new_branch(circuit, name, free_key(circuit), (moved.key,))

    def say(plan: Plan) -> Message:
        return Message(
            "give {thing} a branch of its own with {own}; {branch} then has {rest}, and {pump} "
            "delivers {all}",
            {
                "thing": moved.name,
                "own": _flow(plan.branch_flow(new.key).flow),
                "branch": branch.name,
                "rest": _flow(plan.branch_flow(branch.key).flow),
                "pump": pump.name,
                "all": _flow(plan.pump_flow(pump.key).flow),
            },
        )

    return Proposal((AddBranch(pump.key, new),), say, PLUMBING, ("branch", moved.key))


def _second_pump(new: AddPump, old: DemandPump, names: str) -> Proposal:
    """A second pump for what these names stand for, with its hours if it has a timer."""
    template = "feed {things} from {new} with {own}; {old} then delivers {rest}"
    if new.duty < old.duty:
        template = (
            "feed {things} from {new} with {own}, {duty} of the day; {old} then delivers {rest}"
        )

    def say(plan: Plan) -> Message:
        return Message(
            template,
            {
                "things": names,
                "new": new.name,
                "own": _flow(plan.pump_flow(new.key).flow),
                "duty": Amount(new.duty * DAY, "s"),
                "old": old.name,
                "rest": _flow(plan.pump_flow(old.key).flow),
            },
        )

    return Proposal((new,), say, PUMP, ("pump", new.key))


def _order_proposals(
    circuit: DemandCircuit, conflict: OrderConflict, timer_duty: float
) -> Iterator[Proposal]:
    """Bypass, another size, a branch of its own, a second pump."""
    pump, branch = conflict.pump, conflict.branch
    thirsty, tight = conflict.demanding, conflict.restrictive
    high = tight.high or thirsty.asked
    yield _bypass(branch, tight)
    yield from _content(pump, branch.demands)
    if thirsty.kind == "lip":
        yield from _resize(thirsty, high / thirsty.asked)
    yield from _resize(tight, thirsty.asked / high)
    # A lip is what may stand apart from the filters, and what may rest at night.
    moved = thirsty if thirsty.kind == "lip" and tight.kind != "lip" else tight
    yield _own_branch(circuit, conflict, moved)
    key = free_key(circuit)
    own = _new_branch(circuit, "branch of the second pump", f"{key}-branch", (moved.key,))
    duty = _duty((moved,), pump, timer_duty)
    yield _second_pump(AddPump(key, _new_pump_name(circuit), duty, branch=own), pump, moved.name)


def _timer_proposals(circuit: DemandCircuit, conflict: TimerConflict) -> Iterator[Proposal]:
    """Round the clock, or a pump of its own for what needs it."""
    pump = conflict.pump
    yield Proposal(
        (SetDuty(pump.key, 1.0),),
        lambda plan: Message(
            "run {pump} round the clock, with {flow}",
            {"pump": pump.name, "flow": _flow(plan.pump_flow(pump.key).flow)},
        ),
        SETTING,
        ("hours", pump.key),
    )
    needy = tuple(b for b in pump.branches if any(demand.all_day for demand in b.demands))
    if len(needy) < len(pump.branches):
        moved = tuple(branch.key for branch in needy)
        new = AddPump(free_key(circuit), _new_pump_name(circuit), 1.0, moved)
        yield _second_pump(new, pump, ", ".join(branch.name for branch in needy))


def _stronger(pump: DemandPump, most: float) -> Proposal:
    """A pump that delivers more."""
    return Proposal(
        (ReplacePump(pump.key, most),),
        lambda plan: Message(
            "put a stronger pump in the place of {pump}: one that delivers {flow} there",
            {"pump": pump.name, "flow": _flow(plan.pump_flow(pump.key).flow)},
        ),
        PUMP,
        ("stronger", pump.key),
    )


def _in_order(first: DemandBranch, second: DemandBranch) -> Proposal:
    """Two branches made one, so that the same water serves both."""
    low = max(least_flow(first), least_flow(second))
    past = tuple(
        demand
        for demand in (*first.demands, *second.demands)
        if demand.high is not None and demand.high < low
    )

    def say(plan: Plan) -> Message:
        values: dict[str, Amount | str] = {
            "first": first.name,
            "second": second.name,
            "flow": _flow(plan.branch_flow(first.key).flow),
        }
        if not past:
            return Message(
                "lead the water of {first} on through {second}: {flow} serves both", values
            )
        values["things"] = ", ".join(demand.name for demand in past)
        values["past"] = _flow(max(plan.feature_flow(demand.key).bypass for demand in past))
        return Message(
            "lead the water of {first} on through {second}: {flow} serves both, with up to {past} "
            "led round {things}",
            values,
        )

    edit = MergeBranches(first.key, second.key, tuple(demand.key for demand in past))
    return Proposal((edit,), say, PLUMBING, ("merge", first.key, second.key))


def _pump_proposals(
    circuit: DemandCircuit, conflict: PumpConflict, timer_duty: float
) -> Iterator[Proposal]:
    """A stronger pump, a second pump, a narrower lip, one thing after the other."""
    pump, least = conflict.pump, least_of_pump(conflict.pump)
    over = least - conflict.most
    yield _stronger(pump, least)
    yield from _content(pump, (demand for b in pump.branches for demand in b.demands))
    if len(pump.branches) > 1:
        # The smallest branch whose leaving is enough, else the largest.
        enough = [branch for branch in pump.branches if least_flow(branch) >= over]
        moved = min(enough, key=least_flow) if enough else max(pump.branches, key=least_flow)
        duty = _duty(moved.demands, pump, timer_duty)
        new = AddPump(free_key(circuit), _new_pump_name(circuit), duty, (moved.key,))
        yield _second_pump(new, pump, moved.name)
    for branch in pump.branches:
        lip = most_demanding(branch)
        if lip and lip.kind == "lip" and lip.asked - over >= LEAST_FLOW:
            yield from _resize(lip, (lip.asked - over) / lip.asked)
    for first, second in combinations(pump.branches, 2):
        if min(least_flow(first), least_flow(second)) >= over:
            yield _in_order(first, second)


def _return_to_pond(circuit: DemandCircuit, conflict: TurnoverConflict) -> Proposal:
    """Water that only turns the pond over: past everything, straight back."""
    pump = max(circuit.pumps, key=lambda pump: pump.duty)  # the longer it runs, the less it moves
    needed = (most_of_pump(pump) or 0.0) + (conflict.turnover - conflict.most) / pump.duty
    stronger = pump.most is not None and pump.most < needed
    if not exceeds(needed, most_of_pump(replace(pump, most=None))):
        return _stronger(pump, needed)
    new = _new_branch(circuit, "straight return", free_key(circuit))
    edits: tuple[Edit, ...] = (AddBranch(pump.key, new),)
    if stronger:
        edits = (ReplacePump(pump.key, needed), *edits)
    template = (
        "lead {past} from {pump} straight back to the pond by a T-piece and valve, and put a "
        "stronger pump in its place: one that delivers {flow} there"
        if stronger
        else "lead {past} from {pump} straight back to the pond by a T-piece and valve"
    )

    def say(plan: Plan) -> Message:
        return Message(
            template,
            {
                "past": _flow(plan.branch_flow(new.key).flow),
                "pump": pump.name,
                "flow": _flow(plan.pump_flow(pump.key).flow),
            },
        )

    effort = PUMP + VALVE if stronger else VALVE
    return Proposal(edits, say, effort, ("return", pump.key))


def _turnover_proposals(circuit: DemandCircuit, conflict: TurnoverConflict) -> Iterator[Proposal]:
    """A straight return, a bypass, larger features, a longer day, a second pump, less turnover."""
    yield _return_to_pond(circuit, conflict)
    missing = conflict.turnover - conflict.most
    for pump in circuit.pumps:
        for branch in pump.branches:
            tight = most_restrictive(branch)
            if tight is None or tight.high is None:
                continue
            yield _bypass(branch, tight)
            yield from _resize(tight, 1.0 + missing / pump.duty / tight.high)
        most = most_of_pump(pump)
        if most is not None and pump.duty + missing / most <= 1.0:
            yield _longer(pump, pump.duty + missing / most)
    key, name = free_key(circuit), _new_pump_name(circuit)
    bare = _new_branch(circuit, "straight return", f"{key}-branch")
    yield Proposal(
        (AddPump(key, name, 1.0, branch=bare),),
        lambda plan: Message(
            "let {pump} send {flow} straight back to the pond",
            {"pump": name, "flow": _flow(plan.pump_flow(key).flow)},
        ),
        PUMP,
        ("pump", key),
    )
    yield Proposal(
        (SetTurnover(conflict.most),),
        lambda _plan: Message(
            "let the whole pond make do with {flow}, {missing} less",
            {"flow": _flow(conflict.most), "missing": _flow(missing)},
        ),
        SETTING,
        ("turnover",),
    )


def _longer(pump: DemandPump, duty: float) -> Proposal:
    """A timer set to more of the day."""
    return Proposal(
        (SetDuty(pump.key, duty),),
        lambda _plan: Message(
            "let {pump} run {duty} of the day instead of {before}",
            {
                "pump": pump.name,
                "duty": Amount(duty * DAY, "s"),
                "before": Amount(pump.duty * DAY, "s"),
            },
        ),
        SETTING,
        ("hours", pump.key),
    )


def proposals(circuit: DemandCircuit, conflict: Conflict, timer_duty: float) -> Iterator[Proposal]:
    """What may resolve a conflict; the first always does.

    Args:
        circuit: The circuit.
        conflict: One of its conflicts.
        timer_duty: Share of the day that a second pump for a waterfall alone would run [-].

    Returns:
        Edits, each still to be applied and planned.

    Source:
        Common practice for what may be changed; the sizes follow from the bounds that exclude
        each other.
    """
    match conflict:
        case OrderConflict():
            yield from _order_proposals(circuit, conflict, timer_duty)
        case TimerConflict():
            yield from _timer_proposals(circuit, conflict)
        case PumpConflict():
            yield from _pump_proposals(circuit, conflict, timer_duty)
        case TurnoverConflict():
            yield from _turnover_proposals(circuit, conflict)
