"""The least flow that is enough for a pond's water path, or the conflicts and their resolutions.

The planner goes by the ids of what is stored; its sentences get the names.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from functools import partial

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.features.targets import FlowBand, Target, Targets, too_much
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import Names, feature_of, lines_of, names_of, pump_of
from pondapp.answers.pumps.pump_reach import curve_of, highest_outlet, most_at_lift, operating_flow
from pondapp.answers.rules.beyond import beyond_volume
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.circuit.answer import Infeasible, Plan
from pondapp.core.circuit.answer import Resolution as Resolution
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand
from pondapp.core.circuit.planner import plan_circuit
from pondapp.models.circuit import Branch, Line, WaterFeature
from pondapp.models.pond import Pond

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
        through: Flow through each feature [m3/s], by id.
        past: Flow led past each feature that has a way round [m3/s], by id.
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
        """Flow [m3/s] at a feature, a pump or a branch."""
        for flows in (self.through, self.lines, self.branches):
            if place_id in flows:
                return flows[place_id]
        return None

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        return self.plan.steps()


@dataclass(frozen=True, slots=True)
class PondConflict:
    """No flow is enough for everything.

    Attributes:
        found: What the planner found: conflicts, and resolutions that were planned again.
        notes: What stands in the way besides.
    """

    found: Infeasible
    notes: tuple[Message, ...]

    @property
    def conflicts(self) -> tuple[Message, ...]:
        """What excludes each other, each with its numbers."""
        return self.found.conflicts

    @property
    def by_branch(self) -> Mapping[str, Message]:
        """What excludes each other within a branch, by the branch's id."""
        return self.found.by_branch

    @property
    def resolutions(self) -> tuple[Resolution, ...]:
        """What resolves it, the least effort first."""
        return self.found.resolutions

    def steps(self) -> tuple[Step, ...]:
        """The working: the bounds that exclude each other."""
        return self.found.steps()


def _demand(pond: Pond, feature: WaterFeature, name: str, found: Targets) -> FlowDemand:
    target = next(place for place in found.places if place.place_id == feature.id)
    kind = kind_of(feature)
    demand = FlowDemand(
        key=feature.id,
        name=name,
        low=target.band.low,
        high=target.band.high,
        target=target.band.target,
        kind=kind.planner,
        size=kind.size_of(feature),
        all_day=kind.alive,
        aim=target.aim,
    )
    if kind.size is None:
        return demand
    return replace(demand, least_size=kind.size.least, most_size=kind.size.most(pond, found.volume))


def _branch(pond: Pond, branch: Branch, names: Names, found: Targets) -> DemandBranch:
    fed = [one for item in branch.feeds if (one := feature_of(pond, item)) is not None]
    return DemandBranch(
        branch.id,
        tuple(_demand(pond, one, names.features[one.id], found) for one in fed),
        tuple(one.id for one in fed if one.id in branch.bypass),
        names.branches[branch.id],
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


def circuit_of(pond: Pond, found: Targets) -> tuple[DemandCircuit, tuple[Message, ...]]:
    """The pond's water path as the planner takes it, and what stands in its way besides.

    Raises:
        PondError: A number is beyond what the planner takes; the message says which.
    """
    names = names_of(pond)
    pumps: list[DemandPump] = []
    notes: list[Message] = []
    for line in lines_of(pond):
        most, words = _most(pond, line)
        notes += words
        branches = tuple(_branch(pond, branch, names, found) for branch in line.branches)
        duty, name = line.hours_per_day / 24.0, names.lines[line.id]
        pumps.append(DemandPump(line.id, branches, most, duty, name))
    rate = Assumptions().with_overrides(pond.assumptions).filters.turnover_whole
    return DemandCircuit(tuple(pumps), found.volume * rate), tuple(notes)


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
                    "branch": network.needs.neediest.name,
                    "head": Amount(network.needs.head, "m"),
                    "missing": Amount(missing, "m"),
                },
            )


def _planned(
    pond: Pond, plan: Plan, volume: float, notes: tuple[Message, ...], network_at: Networks
) -> PondPlan:
    """The planner's flows by id."""
    lines = {one.pump.key: one.flow for one in plan.pumps}
    branches = {one.branch.key: one.flow for one in plan.branches}
    features = {one.demand.key: one for one in plan.features}
    rules = Assumptions().with_overrides(pond.assumptions)
    cautions = (beyond_volume(volume, rules), too_much(plan.total, volume, rules))
    return PondPlan(
        plan=plan,
        lines=lines,
        branches=branches,
        through={key: one.through for key, one in features.items()},
        past={key: one.bypass for key, one in features.items() if one.bypass > 0.0},
        notes=(*notes, *_undelivered(pond, lines, branches, network_at)),
        cautions=tuple(caution for caution in cautions if caution),
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
    if isinstance(found, Infeasible):
        return PondConflict(found, notes)
    return _planned(pond, found, asked.volume, notes, network_at)


def wanted(
    pond: Pond, found: Targets, plan: PondPlan | PondConflict, least: Mapping[str, float]
) -> Targets:
    """What is wanted at each place, with one place for each pump; good is what the plan gives.

    While demands conflict there is no plan, and each place keeps its own good flow by the rules.

    Args:
        pond: The pond.
        found: What its places want by rules or by its owner's band.
        plan: Its plan.
        least: What each pump gives [m3/s] in the plan that gives everything its least, by line.
    """
    *features, pump = found.places
    lines, names = lines_of(pond), names_of(pond).lines
    if isinstance(plan, PondConflict):
        return Targets(found.volume, (*features, *_pumps_at_odds(pump, lines, names, found)))
    return Targets(
        found.volume,
        (
            *(_aimed(feature, plan) for feature in features),
            *_pump_targets(pump, lines, names, plan, least),
        ),
    )


def _pumps_at_odds(
    pump: Target, lines: tuple[Line, ...], names: Mapping[str, str], found: Targets
) -> Iterator[Target]:
    """What each pump must deliver at least while the demands conflict."""
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
    """A feature's target with the plan's flow as the good one."""
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
    pump: Target,
    lines: tuple[Line, ...],
    names: Mapping[str, str],
    plan: PondPlan,
    least: Mapping[str, float],
) -> Iterator[Target]:
    """What each pump has to deliver by the plan, and the least that nothing lacks with."""
    rule = Message("The least that is enough for the whole pond and everything this pump feeds.")
    for line in lines:
        flow = plan.lines[line.id]
        if flow > 0.0:
            band = FlowBand(min(flow, least.get(line.id, flow)), flow, None)
            yield replace(
                pump, place_id=line.id, name=names[line.id], band=band, rule=rule,
                working=plan.steps,
            )  # fmt: skip
