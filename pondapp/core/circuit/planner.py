"""The planner: the least total flow that is enough for everything, or what stands in its way."""

from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Message
from pondapp.core.circuit.answer import Conflict, Plan, WayOut
from pondapp.core.circuit.clashes import Clash, OrderClash, PumpClash, TimerClash, find_clashes
from pondapp.core.circuit.model import LEAST_FLOW, Circuit
from pondapp.core.circuit.split import least_plan
from pondapp.core.circuit.ways_out import PUMP, Proposal, proposals


def _same(one: Clash, other: Clash) -> bool:
    """Whether a clash is still there after an edit: the same wishes, whatever their numbers."""
    if type(one) is not type(other):
        return False
    if isinstance(one, OrderClash) and isinstance(other, OrderClash):
        return (one.thirsty.name, one.tight.name) == (other.thirsty.name, other.tight.name)
    if isinstance(one, TimerClash) and isinstance(other, TimerClash):
        return one.want.name == other.want.name
    if isinstance(one, PumpClash) and isinstance(other, PumpClash):
        return one.pump.name == other.pump.name
    return True


def _way_out(first: Proposal, clash: Clash, timer_duty: float) -> WayOut | None:
    """A proposal carried through: what it leaves unsettled gets the first proposal of each kind.

    Each round settles one clash for good or puts in a stronger pump, so it ends; the limit is
    there to make a mistake in that reasoning visible as a way out that is missing, not a hang.
    """
    made, circuit = [first], first.circuit
    left = find_clashes(circuit)
    if any(_same(clash, other) for other in left):
        return None
    wants = sum(len(branch.wants) for pump in circuit.pumps for branch in pump.branches)
    for _ in range(2 * wants + len(circuit.pumps) + 2):
        if not left:
            plan = least_plan(circuit)
            once = {change.about: change.say for change in reversed(made)}
            told = tuple(say(plan) for say in reversed(once.values()))
            effort = sum({change.about: change.effort for change in made}.values())
            return WayOut(told, circuit, plan, effort)
        step = next(proposals(circuit, left[0], timer_duty))
        made.append(step)
        circuit = step.circuit
        left = find_clashes(circuit)
    return None


def _ways_out(circuit: Circuit, clash: Clash, timer_duty: float) -> tuple[WayOut, ...]:
    """All proposals for one clash that prove to work, the smallest effort first.

    To the hours of work come those that a greater flow costs in electricity: each time over that
    it is more than the smallest of the ways counts as much as a new pump. What takes from the
    pond's own wish comes last, however small the effort.
    """
    tried = (_way_out(step, clash, timer_duty) for step in proposals(circuit, clash, timer_duty))
    found = [way for way in tried if way is not None]

    smallest = min((way.plan.daily_mean for way in found), default=0.0) or LEAST_FLOW

    def effort(way: WayOut) -> tuple[bool, float]:
        gives_in = way.circuit.turnover < circuit.turnover
        return gives_in, way.effort + PUMP * (way.plan.daily_mean / smallest - 1.0)

    return tuple(sorted(found, key=effort))


def plan_circuit(circuit: Circuit, timer_duty: float = 1.0) -> Plan | Conflict:
    """The least total flow that is enough for everything, or the conflict and its ways out.

    Each thing asks for its least or for its good flow, by its aim. Things in order on a branch
    share its flow, so what they ask for and the most they can take intersect; a thing with a bypass
    takes no more than its good flow; branches add; the mean flow of the day through all pumps is
    at least the pond's turnover; a pump delivers no more than its most.

    Args:
        circuit: The circuit, flows in [m3/s].
        timer_duty: Share of the day that a second pump for a waterfall alone would run [-],
            0.001 to 1.

    Returns:
        The plan with all flows [m3/s]; or the wishes that exclude each other, with proposals for
        the first of them that were planned again in full and work.

    Raises:
        OutOfRange: The share of the day is outside its range.

    Source:
        Arithmetic: a linear programme whose constraints are intervals and sums of them. The
        proposals are common practice; their numbers follow from the bounds that clash.
    """
    require_within("share of the day that a waterfall runs", timer_duty, 0.001, 1.0, "-")
    clashes = find_clashes(circuit)
    if not clashes:
        return least_plan(circuit)
    messages: list[Message] = [clash.message for clash in clashes]
    return Conflict(circuit, tuple(messages), _ways_out(circuit, clashes[0], timer_duty))
