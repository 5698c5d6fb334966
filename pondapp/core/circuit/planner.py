"""The planner: the least total flow that is enough for everything, or what stands in its way."""

from functools import reduce

from pondapp.core.base.errors import require_within
from pondapp.core.circuit.answer import Infeasible, Plan, Resolution
from pondapp.core.circuit.conflicts import (
    Conflict,
    OrderConflict,
    PumpConflict,
    TimerConflict,
    find_conflicts,
)
from pondapp.core.circuit.edits import Edit, apply
from pondapp.core.circuit.model import LEAST_FLOW, DemandCircuit
from pondapp.core.circuit.resolutions import PUMP, Proposal, proposals
from pondapp.core.circuit.split import least_plan


def _same(one: Conflict, other: Conflict) -> bool:
    """Whether a conflict is still there after an edit: the same demands, whatever their numbers."""
    if type(one) is not type(other):
        return False
    if isinstance(one, OrderConflict) and isinstance(other, OrderConflict):
        mine, others = (one.demanding, one.restrictive), (other.demanding, other.restrictive)
        return [demand.key for demand in mine] == [demand.key for demand in others]
    if isinstance(one, TimerConflict) and isinstance(other, TimerConflict):
        return one.demand.key == other.demand.key
    if isinstance(one, PumpConflict) and isinstance(other, PumpConflict):
        return one.pump.key == other.pump.key
    return True


def _applied(circuit: DemandCircuit, edits: tuple[Edit, ...]) -> DemandCircuit:
    return reduce(apply, edits, circuit)


def _resolution(
    circuit: DemandCircuit, first: Proposal, conflict: Conflict, timer_duty: float
) -> Resolution | None:
    """A proposal carried through: what it leaves unresolved gets the first proposal of each kind.

    Each round resolves one conflict for good or puts in a stronger pump, so it ends; the limit is
    there to make a mistake in that reasoning visible as a resolution that is missing, not a hang.
    """
    made, circuit = [first], _applied(circuit, first.edits)
    left = find_conflicts(circuit)
    if any(_same(conflict, other) for other in left):
        return None
    for _ in range(2 * len(circuit.demands) + len(circuit.pumps) + 2):
        if not left:
            plan = least_plan(circuit)
            once = {change.about: change.say for change in reversed(made)}
            told = tuple(say(plan) for say in reversed(once.values()))
            effort = sum({change.about: change.effort for change in made}.values())
            edits = tuple(edit for change in made for edit in change.edits)
            return Resolution(told, edits, circuit, plan, effort)
        step = next(proposals(circuit, left[0], timer_duty))
        made.append(step)
        circuit = _applied(circuit, step.edits)
        left = find_conflicts(circuit)
    return None


def _resolutions(
    circuit: DemandCircuit, conflict: Conflict, timer_duty: float
) -> tuple[Resolution, ...]:
    """All proposals for one conflict that prove to work, the smallest effort first.

    To the hours of work come those that a greater flow costs in electricity: each time over that
    it is more than the smallest of the ways counts as much as a new pump. What takes from the
    pond itself comes last, however small the effort.
    """
    tried = (
        _resolution(circuit, step, conflict, timer_duty)
        for step in proposals(circuit, conflict, timer_duty)
    )
    found = [way for way in tried if way is not None]

    smallest = min((way.plan.daily_mean for way in found), default=0.0) or LEAST_FLOW

    def effort(way: Resolution) -> tuple[bool, float]:
        gives_in = way.circuit.turnover < circuit.turnover
        return gives_in, way.effort + PUMP * (way.plan.daily_mean / smallest - 1.0)

    return tuple(sorted(found, key=effort))


def plan_circuit(circuit: DemandCircuit, timer_duty: float = 1.0) -> Plan | Infeasible:
    """The least total flow that is enough for everything, or the conflicts and their resolutions.

    Each feature asks for its least or for its good flow, by its aim. Features in order on a branch
    share its flow, so what they ask for and the most they can take intersect; one with a bypass
    takes no more than its good flow; branches add; the mean flow of the day through all pumps is
    at least the pond's turnover; a pump delivers no more than its most.

    Args:
        circuit: The circuit, flows in [m3/s].
        timer_duty: Share of the day that a second pump for a waterfall alone would run [-],
            0.001 to 1.

    Returns:
        The plan with all flows [m3/s]; or the demands that exclude each other, with proposals for
        the first of them that were planned again in full and work.

    Raises:
        OutOfRange: The share of the day is outside its range.

    Source:
        Arithmetic: a linear programme whose constraints are intervals and sums of them. The
        proposals are common practice; their numbers follow from the bounds that conflict.

    Example:
        A bog and a box, each on its own branch, and a pond that wants 3000 L/h:

        >>> from pondapp.core.circuit.model import DemandBranch, DemandPump, FlowDemand
        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> box = FlowDemand("box", 2000 * litre, None, 4000 * litre)
        >>> branches = DemandBranch("a", (bog,)), DemandBranch("b", (box,))
        >>> plan = plan_circuit(DemandCircuit((DemandPump("pump", branches),), 3000 * litre))
        >>> {one.branch.key: round(one.flow / litre) for one in plan.pumps[0].branches}
        {'a': 455, 'b': 2545}
    """
    require_within("share of the day that a waterfall runs", timer_duty, 0.001, 1.0, "-")
    conflicts = find_conflicts(circuit)
    if not conflicts:
        return least_plan(circuit)
    messages = tuple(conflict.message for conflict in conflicts)
    within = {
        conflict.branch.key: conflict.message
        for conflict in reversed(conflicts)
        if isinstance(conflict, OrderConflict | TimerConflict)
    }
    ways = _resolutions(circuit, conflicts[0], timer_duty)
    return Infeasible(circuit, messages, ways, within)
