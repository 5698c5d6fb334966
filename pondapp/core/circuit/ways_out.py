"""What settles a clash: each proposal is a changed circuit, and words for its plan."""

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
    most_of_pump,
    thirstiest,
    tightest,
)
from pondapp.core.circuit.clashes import (
    Clash,
    OrderClash,
    PumpClash,
    TimerClash,
    TurnoverClash,
)
from pondapp.core.circuit.edits import free_name, resized, with_branch, with_pump, without
from pondapp.core.circuit.model import LEAST_FLOW, Branch, Circuit, Pump, Want

# What a change asks of its owner, in rough hours of work; a pump also has its price. The order of
# ways out rests on these (common practice; a judgement, no source).
WIDTH = "width"  # a length [m] that is told as a width
SETTING, VALVE, PLUMBING, BUILDING, PUMP = 0.5, 1.0, 2.0, 4.0, 5.0


@dataclass(frozen=True, slots=True)
class Proposal:
    """A changed circuit, and how to say the change once its plan is known.

    Attributes:
        circuit: The circuit with the change.
        say: The change in words, from the plan of the circuit in the end.
        effort: About how much work it is [h].
        about: What is changed: a change of the same thing again is said once, by its end.
    """

    circuit: Circuit
    say: Callable[[Plan], Message]
    effort: float
    about: tuple[str, ...]


def _flow(value: float) -> Amount:
    return Amount(value, "m3/s")


def _branch_names(circuit: Circuit) -> list[str]:
    return [branch.name for pump in circuit.pumps for branch in pump.branches]


def _new_pump(circuit: Circuit, wants: tuple[Want, ...], like: Pump, timer_duty: float) -> Pump:
    """A pump yet to be chosen for some things; it has a timer if none of them needs it all day."""
    on_timer = bool(wants) and not any(want.all_day for want in wants)
    duty = min(like.duty, timer_duty) if on_timer else 1.0
    branch = Branch(free_name("branch of the second pump", _branch_names(circuit)), wants)
    name = free_name("second pump", [pump.name for pump in circuit.pumps])
    return Pump(name, (branch,), duty=duty)


def _bypass(circuit: Circuit, pump: Pump, branch: Branch, tight: Want) -> Proposal:
    """A way round what stands the least."""
    relieved = replace(branch, bypass=(*branch.bypass, tight.name))
    template = {
        "bed": "let {past} run over the top of {thing}, so that {through} passes it",
        "lip": "lead {past} past {thing} by a T-piece and valve, so that {through} runs over it",
    }.get(tight.kind, "lead {past} round {thing} by a T-piece and valve, so that {through} passes")

    def say(plan: Plan) -> Message:
        flow = plan.thing_flow(tight.name)
        return Message(
            template,
            {"thing": tight.name, "past": _flow(flow.bypass), "through": _flow(flow.through)},
        )

    effort = SETTING if tight.kind == "bed" else VALVE
    edited = with_pump(circuit, pump, with_branch(pump, branch, relieved))
    return Proposal(edited, say, effort, ("bypass", tight.name))


def _content(circuit: Circuit, pump: Pump, wants: Iterable[Want]) -> Iterator[Proposal]:
    """Things that are to have their good flow, content with the least that is sufficient."""
    lowered = [want for want in wants if want.aim == "good" and want.low < want.target]
    if not lowered:
        return
    new = pump
    for want in lowered:
        branch = next(branch for branch in new.branches if want in branch.wants)
        less = replace(want, aim="least")
        wants_now = tuple(less if other.name == want.name else other for other in branch.wants)
        new = with_branch(new, branch, replace(branch, wants=wants_now))
    one = lowered[0]
    message = Message(
        "let {things} have the least that is sufficient in place of the good flow: {less} less",
        {
            "things": ", ".join(want.name for want in lowered),
            "less": _flow(least_of_pump(pump) - least_of_pump(new)),
        },
    )
    if len(lowered) == 1:
        message = Message(
            "let {thing} have its least flow, {least}, in place of its good flow, {good}",
            {"thing": one.name, "least": _flow(one.low), "good": _flow(one.target)},
        )
    names = tuple(want.name for want in lowered)
    yield Proposal(with_pump(circuit, pump, new), lambda _plan: message, SETTING, ("aim", *names))


def _resize(
    circuit: Circuit, pump: Pump, branch: Branch, want: Want, factor: float
) -> Iterator[Proposal]:
    """A lip of another width or a bed of another volume, if its size is known."""
    changed = resized(branch, want, factor)
    if changed is None or want.size is None or want.kind == "box":
        return
    lip, before = want.kind == "lip", want.size

    def say(plan: Plan) -> Message:
        size = plan.thing_flow(want.name).want.size or before
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
                "thing": want.name,
                "size": Amount(size, unit),
                "change": Amount(abs(size - before), unit),
            },
        )

    edited = with_pump(circuit, pump, with_branch(pump, branch, changed[0]))
    yield Proposal(edited, say, PLUMBING if lip else BUILDING, ("size", want.name))


def _own_branch(circuit: Circuit, clash: OrderClash, moved: Want) -> Proposal:
    """A branch of its own for one thing, on the same pump."""
    name = free_name(phrase("branch of {name}", name=moved.name), _branch_names(circuit))
    new = with_branch(
        clash.pump, clash.branch, without(clash.branch, moved), Branch(name, (moved,))
    )

    def say(plan: Plan) -> Message:
        return Message(
            "give {thing} a branch of its own with {own}; {branch} then has {rest}, and {pump} "
            "delivers {all}",
            {
                "thing": moved.name,
                "own": _flow(plan.branch_flow(name).flow),
                "branch": clash.branch.name,
                "rest": _flow(plan.branch_flow(clash.branch.name).flow),
                "pump": clash.pump.name,
                "all": _flow(plan.pump_flow(clash.pump.name).flow),
            },
        )

    return Proposal(with_pump(circuit, clash.pump, new), say, PLUMBING, ("branch", moved.name))


def _say_second_pump(new: Pump, old: Pump, names: str) -> Callable[[Plan], Message]:
    """Words for a second pump, with its hours if it has a timer."""
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
                "own": _flow(plan.pump_flow(new.name).flow),
                "duty": Amount(new.duty * DAY, "s"),
                "old": old.name,
                "rest": _flow(plan.pump_flow(old.name).flow),
            },
        )

    return say


def _order_proposals(circuit: Circuit, clash: OrderClash, timer_duty: float) -> Iterator[Proposal]:
    """Bypass, another size, a branch of its own, a second pump."""
    pump, branch, thirsty, tight = clash.pump, clash.branch, clash.thirsty, clash.tight
    high = tight.high or thirsty.asked
    yield _bypass(circuit, pump, branch, tight)
    yield from _content(circuit, pump, branch.wants)
    if thirsty.kind == "lip":
        yield from _resize(circuit, pump, branch, thirsty, high / thirsty.asked)
    yield from _resize(circuit, pump, branch, tight, thirsty.asked / high)
    # A lip is what may stand apart from the filters, and what may rest at night.
    moved = thirsty if thirsty.kind == "lip" and tight.kind != "lip" else tight
    yield _own_branch(circuit, clash, moved)
    second = _new_pump(circuit, (moved,), pump, timer_duty)
    rest = with_branch(pump, branch, without(branch, moved))
    yield Proposal(
        with_pump(circuit, pump, rest, second), _say_second_pump(second, pump, moved.name),
        PUMP, ("pump", second.name),
    )  # fmt: skip


def _timer_proposals(circuit: Circuit, clash: TimerClash) -> Iterator[Proposal]:
    """Round the clock, or a pump of its own for what needs it."""
    pump = clash.pump
    yield Proposal(
        with_pump(circuit, pump, replace(pump, duty=1.0)),
        lambda plan: Message(
            "run {pump} round the clock, with {flow}",
            {"pump": pump.name, "flow": _flow(plan.pump_flow(pump.name).flow)},
        ),
        SETTING,
        ("hours", pump.name),
    )
    needy = tuple(b for b in pump.branches if any(want.all_day for want in b.wants))
    rest = tuple(branch for branch in pump.branches if branch not in needy)
    if rest:
        name = free_name("second pump", [other.name for other in circuit.pumps])
        second = Pump(name, needy, duty=1.0)
        names = ", ".join(branch.name for branch in needy)
        edited = with_pump(circuit, pump, replace(pump, branches=rest), second)
        yield Proposal(edited, _say_second_pump(second, pump, names), PUMP, ("pump", second.name))


def _stronger(circuit: Circuit, pump: Pump, most: float) -> Proposal:
    """A pump that delivers more."""
    return Proposal(
        with_pump(circuit, pump, replace(pump, most=most)),
        lambda plan: Message(
            "put a stronger pump in the place of {pump}: one that delivers {flow} there",
            {"pump": pump.name, "flow": _flow(plan.pump_flow(pump.name).flow)},
        ),
        PUMP,
        ("stronger", pump.name),
    )


def _in_order(circuit: Circuit, pump: Pump, first: Branch, second: Branch) -> Proposal:
    """Two branches made one, so that the same water serves both."""
    low = max(least_flow(first), least_flow(second))
    wants = (*first.wants, *second.wants)
    past = tuple(want.name for want in wants if want.high is not None and want.high < low)
    bypass = tuple(dict.fromkeys((*first.bypass, *second.bypass, *past)))
    merged = replace(first, wants=wants, bypass=bypass)
    edited = with_branch(with_branch(pump, second), first, merged)

    def say(plan: Plan) -> Message:
        flow = plan.branch_flow(first.name)
        values: dict[str, Amount | str] = {
            "first": first.name,
            "second": second.name,
            "flow": _flow(flow.flow),
        }
        if not past:
            return Message(
                "lead the water of {first} on through {second}: {flow} serves both", values
            )
        values["things"] = ", ".join(past)
        values["past"] = _flow(max(plan.thing_flow(name).bypass for name in past))
        return Message(
            "lead the water of {first} on through {second}: {flow} serves both, with up to {past} "
            "led round {things}",
            values,
        )

    about = ("merge", first.name, second.name)
    return Proposal(with_pump(circuit, pump, edited), say, PLUMBING, about)


def _pump_proposals(circuit: Circuit, clash: PumpClash, timer_duty: float) -> Iterator[Proposal]:
    """A stronger pump, a second pump, a narrower lip, one thing after the other."""
    pump, least = clash.pump, least_of_pump(clash.pump)
    over = least - clash.most
    yield _stronger(circuit, pump, least)
    yield from _content(circuit, pump, (want for b in pump.branches for want in b.wants))
    if len(pump.branches) > 1:
        # The smallest branch whose leaving is enough, else the largest.
        enough = [branch for branch in pump.branches if least_flow(branch) >= over]
        moved = min(enough, key=least_flow) if enough else max(pump.branches, key=least_flow)
        second = _new_pump(circuit, moved.wants, pump, timer_duty)
        second = replace(second, branches=(moved,))
        edited = with_pump(circuit, pump, with_branch(pump, moved), second)
        yield Proposal(
            edited, _say_second_pump(second, pump, moved.name), PUMP, ("pump", second.name)
        )
    for branch in pump.branches:
        lip = thirstiest(branch)
        if lip and lip.kind == "lip" and lip.asked - over >= LEAST_FLOW:
            yield from _resize(circuit, pump, branch, lip, (lip.asked - over) / lip.asked)
    for first, second_branch in combinations(pump.branches, 2):
        if min(least_flow(first), least_flow(second_branch)) >= over:
            yield _in_order(circuit, pump, first, second_branch)


def _return_to_pond(circuit: Circuit, clash: TurnoverClash) -> Proposal:
    """Water that only turns the pond over: past everything, straight back."""
    pump = max(circuit.pumps, key=lambda pump: pump.duty)  # the longer it runs, the less it moves
    needed = (most_of_pump(pump) or 0.0) + (clash.turnover - clash.reach) / pump.duty
    stronger = pump.most is not None and pump.most < needed
    new = replace(pump, most=needed) if stronger else pump
    if not exceeds(needed, most_of_pump(replace(pump, most=None))):
        return _stronger(circuit, pump, needed)
    name = free_name("straight return", _branch_names(circuit))
    new = replace(new, branches=(*new.branches, Branch(name, ())))
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
                "past": _flow(plan.branch_flow(name).flow),
                "pump": pump.name,
                "flow": _flow(plan.pump_flow(pump.name).flow),
            },
        )

    effort = PUMP + VALVE if stronger else VALVE
    return Proposal(with_pump(circuit, pump, new), say, effort, ("return", pump.name))


def _turnover_proposals(circuit: Circuit, clash: TurnoverClash) -> Iterator[Proposal]:
    """A straight return, a bypass, larger things, a longer day, a second pump, less turnover."""
    yield _return_to_pond(circuit, clash)
    missing = clash.turnover - clash.reach
    for pump in circuit.pumps:
        for branch in pump.branches:
            tight = tightest(branch)
            if tight is None or tight.high is None:
                continue
            yield _bypass(circuit, pump, branch, tight)
            yield from _resize(circuit, pump, branch, tight, 1.0 + missing / pump.duty / tight.high)
        most = most_of_pump(pump)
        if most is not None and pump.duty + missing / most <= 1.0:
            yield _longer(circuit, pump, pump.duty + missing / most)
    name = free_name("second pump", [pump.name for pump in circuit.pumps])
    bare = Branch(free_name("straight return", _branch_names(circuit)), ())
    yield Proposal(
        replace(circuit, pumps=(*circuit.pumps, Pump(name, (bare,)))),
        lambda plan: Message(
            "stir the pond with {pump}: {flow} straight back",
            {"pump": name, "flow": _flow(plan.pump_flow(name).flow)},
        ),
        PUMP,
        ("pump", name),
    )
    yield Proposal(
        replace(circuit, turnover=clash.reach),
        lambda _plan: Message(
            "let the whole pond be content with {flow}, {missing} less",
            {"flow": _flow(clash.reach), "missing": _flow(missing)},
        ),
        SETTING,
        ("turnover",),
    )


def _longer(circuit: Circuit, pump: Pump, duty: float) -> Proposal:
    """A timer set to more of the day."""
    return Proposal(
        with_pump(circuit, pump, replace(pump, duty=duty)),
        lambda _plan: Message(
            "let {pump} run {duty} of the day instead of {before}",
            {
                "pump": pump.name,
                "duty": Amount(duty * DAY, "s"),
                "before": Amount(pump.duty * DAY, "s"),
            },
        ),
        SETTING,
        ("hours", pump.name),
    )


def proposals(circuit: Circuit, clash: Clash, timer_duty: float) -> Iterator[Proposal]:
    """What may settle a clash; the first always does.

    Args:
        circuit: The circuit [any].
        clash: One of its clashes [any].
        timer_duty: Share of the day that a second pump for a waterfall alone would run [-].

    Returns:
        Changed circuits [any], each still to be solved.

    Source:
        Common practice for what may be changed; the sizes follow from the bounds that clash.
    """
    match clash:
        case OrderClash():
            yield from _order_proposals(circuit, clash, timer_duty)
        case TimerClash():
            yield from _timer_proposals(circuit, clash)
        case PumpClash():
            yield from _pump_proposals(circuit, clash, timer_duty)
        case TurnoverClash():
            yield from _turnover_proposals(circuit, clash)
