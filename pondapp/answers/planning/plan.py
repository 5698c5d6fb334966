"""The least flow that is enough for a pond's water path, or the conflict and its ways out.

The planner tells things by name, and says its sentences with them. Two things of a pond may have
the same name, so each gets one that no other has, and the flows come back by id.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial
from typing import Any, TypeVar

from pondapp.answers.care.severity import Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.features.targets import FlowBand, Target, Targets, aim_of, targets, too_much
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import assumed_of, feature_of, lines_of, pump_of
from pondapp.answers.plumbing.path_edits import MOST_BRANCHES, MOST_LINES
from pondapp.answers.plumbing.path_names import Names as Names
from pondapp.answers.plumbing.path_names import names_of as names_of
from pondapp.answers.pumps.pump_reach import curve_of, highest_outlet, most_at_lift, operating_flow
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.circuit import model as core
from pondapp.core.circuit.answer import Conflict, Plan
from pondapp.core.circuit.answer import WayOut as WayOut
from pondapp.core.circuit.edits import free_name
from pondapp.core.circuit.planner import plan_circuit
from pondapp.models.circuit import Branch, Line, WaterFeature
from pondapp.models.pond import Pond
from pondapp.words import t

TURNOVER_RULE = "filters.turnover_whole"
LONGEST_MADE = 76  # letters of a name; a number still fits behind
SLACK = 0.01  # a share of a flow or head that no hose or pump is known better than
Networks = Callable[[Line, Mapping[str, float]], LineNetwork]
"""The circuit behind a line at the flows of its branches [m3/s], given by id."""


@dataclass(frozen=True, slots=True)
class PondPlan:
    """The least flow that gives every place what was chosen for it.

    Attributes:
        plan: What the planner found.
        lines: Flow of each line's pump while it runs [m3/s], by the line's id.
        branches: Flow in each branch [m3/s], by id.
        through: Flow through each thing [m3/s], by id.
        past: Flow led past each thing that has a way round [m3/s], by id.
        notes: Where a chosen pump cannot deliver this; empty where each can or none is chosen.
        cautions: What to think of besides.
    """

    plan: Plan
    lines: Mapping[str, float]
    branches: Mapping[str, float]
    through: Mapping[str, float]
    past: Mapping[str, float]
    notes: tuple[Message, ...]
    cautions: tuple[Message, ...] = ()

    @property
    def total(self) -> float:
        """Flow of all pumps while all of them run [m3/s]."""
        return self.plan.total

    @property
    def daily_mean(self) -> float:
        """Flow of all pumps as the mean of a day [m3/s]."""
        return self.plan.daily_mean

    @property
    def reason(self) -> Message:
        """What holds the flow up."""
        return self.plan.reason

    def at(self, place_id: str) -> float | None:
        """Flow [m3/s] at a thing, a pump or a branch."""
        for flows in (self.through, self.lines, self.branches):
            if place_id in flows:
                return flows[place_id]
        return None

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return self.plan.steps()


def verdict_of(pond: Pond, plan: PondPlan) -> tuple[Severity, Message]:
    """Whether the plan holds: by the chosen pumps, and only as far as all of it is known.

    Args:
        pond: The pond.
        plan: Its plan.
    """
    total = {"total": Amount(plan.total, "m3/s")}
    if plan.notes:
        return "wrong", Message("{total} would be enough, but it does not arrive", total)
    pumped = [line for line in lines_of(pond) if pump_of(pond, line)]
    if any(one.what == "run" for line in pumped for one in assumed_of(pond, line)):
        return "unknown", Message("{total} is enough, if the lift and hose assumed are so", total)
    return "right", Message("{total} is enough for everything", total)


@dataclass(frozen=True, slots=True)
class PondConflict:
    """No flow is enough for everything.

    Attributes:
        conflict: What the planner found: the clashes, and ways out that were planned again.
        notes: What stands in the way besides.
    """

    conflict: Conflict
    notes: tuple[Message, ...]

    @property
    def clashes(self) -> tuple[Message, ...]:
        """What excludes each other, each with its numbers."""
        return self.conflict.clashes

    @property
    def ways_out(self) -> tuple[WayOut, ...]:
        """What settles it, the least effort first."""
        return self.conflict.ways_out

    def steps(self) -> tuple[Step, ...]:
        """The working: the bounds that exclude each other."""
        return self.conflict.steps()


def _want(pond: Pond, thing: WaterFeature, name: str, found: Targets) -> core.Want:
    target = next(place for place in found.places if place.place_id == thing.id)
    kind = kind_of(thing)
    want = core.Want(
        name=name,
        low=target.band.low,
        high=target.band.high,
        target=target.band.target,
        kind=kind.planner,
        size=kind.size_of(thing),
        all_day=kind.alive,
        aim=target.aim,
    )
    if kind.size is None:
        return want
    return replace(want, least_size=kind.size.least, most_size=kind.size.most(pond, found.volume))


def _branch(pond: Pond, branch: Branch, names: Names, found: Targets) -> core.Branch:
    things = [thing for item in branch.feeds if (thing := feature_of(pond, item)) is not None]
    return core.Branch(
        names.branches[branch.id],
        tuple(_want(pond, thing, names.features[thing.id], found) for thing in things),
        tuple(names.features[thing.id] for thing in things if thing.id in branch.bypass),
    )


def _most(pond: Pond, line: Line) -> tuple[float | None, tuple[Message, ...]]:
    """The most that a line's pump can deliver there [m3/s], and a word where it is nothing."""
    pump = pump_of(pond, line)
    if pump is None:
        return None, ()
    lift = highest_outlet(pond, line)
    most = most_at_lift(pump, lift)
    if most == 0.0:
        return None, (
            Message(
                "{pump} cannot lift water by {lift}: choose another pump for it",
                {"pump": pump.name, "lift": Amount(lift, "m")},
            ),
        )
    return most, ()


def circuit_of(pond: Pond, found: Targets) -> tuple[core.Circuit, tuple[Message, ...]]:
    """The pond's water path as the planner takes it, and what stands in its way besides.

    Raises:
        PondError: A number is beyond what the planner takes; the message says which.
    """
    names = names_of(pond)
    pumps: list[core.Pump] = []
    notes: list[Message] = []
    for line in lines_of(pond):
        most, words = _most(pond, line)
        notes += words
        branches = tuple(_branch(pond, branch, names, found) for branch in line.branches)
        pumps.append(core.Pump(names.lines[line.id], branches, most, line.hours_per_day / 24.0))
    rate = Assumptions().with_overrides(pond.assumptions).filters.turnover_whole
    return core.Circuit(tuple(pumps), found.volume * rate), tuple(notes)


def _undelivered(
    pond: Pond, lines: Mapping[str, float], flows: Mapping[str, float], network_at: Networks
) -> Iterator[Message]:
    """Each chosen pump that cannot bring the plan's flows through its hoses up to the outlets."""
    for line in lines_of(pond):
        pump, wanted = pump_of(pond, line), lines[line.id]
        curve = curve_of(pump) if pump else None
        if pump is None or curve is None or wanted <= 0.0:
            continue
        if most_at_lift(pump, highest_outlet(pond, line)) == 0.0:
            continue  # said by itself
        network = network_at(line, flows)
        missing = network.needs.head - curve.head_at(wanted)
        delivered = operating_flow(network, pump) or 0.0
        if wanted > curve.most_flow and not curve.estimate and delivered >= curve.most_flow:
            continue  # its printed points end before: it gives at least so much, nobody knows more
        if delivered < wanted * (1.0 - SLACK):
            yield Message(
                "{pump} delivers only about {delivered} up there through its hoses, not the "
                "{wanted} of this plan: it takes a wider hose or a stronger pump",
                {
                    "pump": pump.name,
                    "delivered": Amount(delivered, "m3/s"),
                    "wanted": Amount(wanted, "m3/s"),
                },
            )
        elif missing > SLACK * network.needs.head:
            yield Message(
                "{pump} cannot bring each branch its share of this plan: {branch} takes {head} of "
                "head, {missing} more than the pump makes then",
                {
                    "pump": pump.name,
                    "branch": network.needs.neediest,
                    "head": Amount(network.needs.head, "m"),
                    "missing": Amount(missing, "m"),
                },
            )


def _planned(
    pond: Pond, plan: Plan, volume: float, notes: tuple[Message, ...], network_at: Networks
) -> PondPlan:
    """The planner's flows by id."""
    names = names_of(pond)
    lines = {key: plan.pump_flow(name).flow for key, name in names.lines.items()}
    branches = {key: plan.branch_flow(name).flow for key, name in names.branches.items()}
    on_path = {key for line in lines_of(pond) for branch in line.branches for key in branch.feeds}
    things = {key: plan.thing_flow(name) for key, name in names.features.items() if key in on_path}
    caution = too_much(plan.total, volume, Assumptions().with_overrides(pond.assumptions))
    return PondPlan(
        plan=plan,
        lines=lines,
        branches=branches,
        through={key: thing.through for key, thing in things.items()},
        past={key: thing.bypass for key, thing in things.items() if thing.bypass > 0.0},
        notes=(*notes, *_undelivered(pond, lines, branches, network_at)),
        cautions=(caution,) if caution else (),
    )


def plan_of(pond: Pond, asked: Targets, network_at: Networks) -> PondPlan | PondConflict:
    """The least flow that gives each place what was chosen for it, or the conflict.

    Args:
        pond: The pond.
        asked: What its places want.
        network_at: Makes the circuit behind one of its lines.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    circuit, notes = circuit_of(pond, asked)
    share = Assumptions().with_overrides(pond.assumptions).pumps.waterfall_share
    found = plan_circuit(circuit, share)
    if isinstance(found, Conflict):
        return PondConflict(found, notes)
    return _planned(pond, found, asked.volume, notes, network_at)


def wanted(pond: Pond, found: Targets, plan: PondPlan | PondConflict) -> Targets:
    """What is wanted at each place, with one place for each pump; good is what the plan gives.

    While wishes conflict there is no plan, and each place keeps its own good flow by the rules.

    Args:
        pond: The pond.
        found: What its places want by rules or by its owner's band.
        plan: Its plan.
    """
    *things, pump = found.places
    lines, names = lines_of(pond), names_of(pond).lines
    if isinstance(plan, PondConflict):
        if len(lines) == 1:
            pump = replace(pump, place_id=lines[0].id, name=names[lines[0].id])
            return Targets(found.volume, (*things, pump))
        return Targets(found.volume, (*things, *_pumps_at_odds(pump, lines, names, found)))
    return Targets(
        found.volume,
        (*(_aimed(thing, plan) for thing in things), *_pump_targets(pump, lines, names, plan)),
    )


def _pumps_at_odds(
    pump: Target, lines: tuple[Line, ...], names: Mapping[str, str], found: Targets
) -> Iterator[Target]:
    """What each of several pumps must deliver at least while the wishes conflict."""
    rule = Message("What its branches ask for; it can't all work, so see the plan.")
    lows = {place.place_id: place.asked for place in found.places}
    for line in lines:
        needs = [
            (branch.name, max((lows.get(item, 0.0) for item in branch.feeds), default=0.0))
            for branch in line.branches
        ]
        least = sum(low for _, low in needs)
        if least > 0.0:
            yield replace(
                pump, place_id=line.id, name=names[line.id], rule=rule,
                band=FlowBand(least, least, None), working=partial(_sum_steps, least, needs),
            )  # fmt: skip


def _sum_steps(least: float, needs: list[tuple[str, float]]) -> tuple[Step, ...]:
    parts = tuple(
        Term("Qi", phrase("flow in {name}, at least", name=name), low, "m3/s")
        for name, low in needs
    )
    wanted = Term("Q", "flow of the pump, at least", least, "m3/s")
    return (Step(wanted, "Q = sum of Qi", parts, ARITHMETIC),)


def _aimed(target: Target, plan: PondPlan) -> Target:
    """A thing's target with the plan's flow as the good one."""
    flow = plan.through.get(target.place_id)
    if flow is None:
        return target
    # The plan keeps to the band, but for the last digits of a float.
    best = max(target.band.low, flow)
    high = target.band.high
    return replace(
        target, band=replace(target.band, target=best if high is None else min(best, high))
    )


def _pump_targets(
    pump: Target, lines: tuple[Line, ...], names: Mapping[str, str], plan: PondPlan
) -> Iterator[Target]:
    """What each pump has to deliver by the plan."""
    rule = Message("The least that is enough for the whole pond and everything this pump feeds.")
    for line in lines:
        flow = plan.lines[line.id]
        if flow > 0.0:
            band = FlowBand(flow, flow, None)
            yield replace(
                pump, place_id=line.id, name=names[line.id], band=band, rule=rule,
                working=plan.steps,
            )  # fmt: skip


def settled(pond: Pond, way: WayOut, new_id: Callable[[], str]) -> Pond:
    """The pond with a way out applied to it.

    A stronger pump has still to be chosen, so its line is left without one.

    Raises:
        PondError: The changed pond is more than a pond may have; the message says what.
    """
    found = targets(pond)
    circuit, _ = circuit_of(pond, found)
    before = {pump.name: pump for pump in circuit.pumps}
    names = names_of(pond)
    lines = _by_name(names.lines, {line.id: line for line in lines_of(pond)})
    branches = _by_name(names.branches, {b.id: b for line in lines_of(pond) for b in line.branches})
    thing_ids = {name: key for key, name in names.features.items()}

    def branch(changed: core.Branch) -> Branch:
        feeds = tuple(thing_ids[want.name] for want in changed.wants)
        bypass = tuple(thing_ids[name] for name in changed.bypass)
        known = branches.get(changed.name)
        if known is None:
            name = _title(changed.name, [one.name for one in branches.values()])
            return Branch(id=new_id(), name=name, valve="ball", feeds=feeds, bypass=bypass)
        return known.model_copy(update={"feeds": feeds, "bypass": bypass})

    def line(changed: core.Pump) -> Line:
        known = lines.get(changed.name)
        update: dict[str, Any] = {"branches": tuple(branch(part) for part in changed.branches)}
        if known is None:
            name = _title(changed.name, [one.name for one in lines.values()])
            known = Line(id=new_id(), name=name, branches=update["branches"])
        elif changed.most != before[changed.name].most:
            update["pump_id"] = None
        if known.hours_per_day / 24.0 != changed.duty:
            update["hours_per_day"] = 24.0 * changed.duty
        return known.model_copy(update=update)

    wants = {want.name: want for p in way.circuit.pumps for b in p.branches for want in b.wants}
    assumptions = dict(pond.assumptions)
    if way.circuit.turnover != circuit.turnover:
        assumptions[TURNOVER_RULE] = way.circuit.turnover / found.volume
        Assumptions().with_overrides(assumptions)
    made = tuple(line(pump) for pump in way.circuit.pumps)
    require_within("number of pumps", len(made), 1, MOST_LINES, "-")
    for one in made:
        require_within(
            phrase("branches of {name}", name=one.name), len(one.branches), 1, MOST_BRANCHES, "-"
        )
    return pond.model_copy(
        update={
            "lines": made,
            "fed": tuple(
                _changed(pond, thing, wants.get(names.features[thing.id])) for thing in pond.fed
            ),
            "assumptions": assumptions,
        }
    )


Item = TypeVar("Item")


def _by_name(names: Mapping[str, str], items: Mapping[str, Item]) -> dict[str, Item]:
    return {names[key]: item for key, item in items.items()}


def _title(name: str, taken: list[str]) -> str:
    """A name that the planner made up, as a heading that no other has, in the reader's language."""
    told = t(name)[:LONGEST_MADE]
    return str(free_name(told[0].upper() + told[1:], taken))


def _changed(pond: Pond, thing: WaterFeature, want: core.Want | None) -> WaterFeature:
    """A thing with the aim and of the size that a way out gave it."""
    if want is None:
        return thing
    if want.aim != aim_of(pond, thing):
        thing = thing.model_copy(update={"aim": want.aim})
    kind = kind_of(thing)
    if want.size is None or want.size == kind.size_of(thing):
        return thing
    resized: WaterFeature = kind.resized(thing, want.size)
    return resized
