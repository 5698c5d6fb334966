"""The least flow of a circuit without conflicts, and how it splits."""

from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount, Message
from pondapp.core.circuit.answer import FeatureFlow, Plan, PlannedBranch, PlannedPump
from pondapp.core.circuit.bounds import (
    least_flow,
    least_of_pump,
    most_demanding,
    most_flow,
)
from pondapp.core.circuit.conflicts import find_conflicts
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump

# A branch's flow at levels 0 to 3, straight between them: first everything goes from what is asked
# for to its good flow, then bare returns to the pond take what they can, then features go beyond.
Ramp = tuple[float, float, float, float]
TOP = 3


def _ramp(branch: DemandBranch, spare: float) -> Ramp:
    """A branch's flow at each level; the spare flow stands in where nothing limits."""
    if not branch.demands:
        return 0.0, 0.0, spare, spare
    low = least_flow(branch)
    best = max(demand.target for demand in branch.demands)
    most = max(best, low + spare)
    limit = most_flow(branch)
    if limit is not None:
        limit = max(low, limit)  # below low only by rounding
        best, most = min(best, limit), min(most, limit)
    return low, best, best, most


def _at(ramp: Ramp, level: float) -> float:
    """Flow of a branch at a level."""
    piece = min(int(level), TOP - 1)
    return ramp[piece] + (level - piece) * (ramp[piece + 1] - ramp[piece])


def _full_level(ramps: list[Ramp], limit: float | None) -> float:
    """The level at which branches together reach a pump's limit, at most the top."""
    if limit is None:
        return float(TOP)
    sums: list[float] = [sum(flows) for flows in zip(*ramps, strict=True)]
    for piece in range(TOP):
        if sums[piece + 1] > limit:
            more = max(0.0, limit - sums[piece])  # nothing where only rounding passes the limit
            return piece + (more / (sums[piece + 1] - sums[piece]) if more else 0.0)
    return float(TOP)


def _levels(circuit: DemandCircuit, ramps: list[list[Ramp]]) -> list[float]:
    """One level for all pumps that brings the pond its turnover, less for a pump at its limit.

    The mean flow of the day rises with the level in straight pieces, so the level is found
    exactly: go up piece by piece, then along the last one.
    """
    full = [_full_level(own, pump.most) for pump, own in zip(circuit.pumps, ramps, strict=True)]

    def mean(level: float) -> float:
        return sum(
            pump.duty * sum(_at(ramp, min(level, top)) for ramp in own)
            for pump, own, top in zip(circuit.pumps, ramps, full, strict=True)
        )

    below = 0.0
    for above in sorted({1.0, 2.0, 3.0, *full}):
        start, end = mean(below), mean(above)
        if end >= circuit.turnover:
            share = (circuit.turnover - start) / (end - start) if end > start else 0.0
            below += max(0.0, share) * (above - below)
            break
        below = above
    return [min(below, top) for top in full]


def _flows(pump: DemandPump, ramps: list[Ramp], level: float) -> list[float]:
    """Flow of each branch of a pump at a level, never more together than it delivers.

    Where a pump is tiny beside its demands the level loses digits, so the rest is trimmed.
    """
    flows = [_at(ramp, level) for ramp in ramps]
    lows = [ramp[0] for ramp in ramps]
    total, least = sum(flows), sum(lows)
    if pump.most is None or total <= pump.most or total <= least:
        return flows
    share = max(0.0, pump.most - least) / (total - least)
    return [low + share * (flow - low) for low, flow in zip(lows, flows, strict=True)]


def _branch_flow(branch: DemandBranch, flow: float) -> PlannedBranch:
    """Flow through each feature of a branch: a bypass lets it have its best flow."""
    features = []
    for demand in branch.demands:
        through = min(flow, demand.target) if demand.key in branch.bypass else flow
        features.append(FeatureFlow(demand, through, flow - through))
    return PlannedBranch(branch, flow, tuple(features))


def _pump_flow(pump: DemandPump, flows: list[float]) -> PlannedPump:
    """Flow of a pump from the flows in its branches."""
    branches = zip(pump.branches, flows, strict=True)
    return PlannedPump(pump, sum(flows), tuple(_branch_flow(branch, q) for branch, q in branches))


def _reason(circuit: DemandCircuit, least: float) -> Message:
    """What holds the flow up: the pond's turnover or the features in the branches."""
    if circuit.turnover > least:
        return Message(
            "the whole pond asks for {turnover}; everything in the branches together needs only "
            "{least}",
            {"turnover": Amount(circuit.turnover, "m3/s"), "least": Amount(least, "m3/s")},
        )
    thirsty = [
        most_demanding(branch)
        for pump in circuit.pumps
        for branch in pump.branches
        if branch.demands
    ]
    names = ", ".join(
        demand.name for demand in thirsty if demand is not None and demand.asked > 0.0
    )
    if not names:
        return Message("nothing on the water path needs water")
    return Message(
        "together they need at least {least}, as the mean of a day: {names}",
        {"least": Amount(least, "m3/s"), "names": names},
    )


def least_plan(circuit: DemandCircuit) -> Plan:
    """The least flow that is enough for everything, where there is one.

    The mean flow of the day is the least possible. Flow that only the pond's turnover asks for is
    shared so that all branches go the same part of the way from what is asked to their good flow;
    what is left goes straight back to the pond where a bare branch allows it, else all go the
    same part of the way from their good to their most flow.

    Args:
        circuit: The circuit.

    Returns:
        Flow of every pump, branch, feature and bypass [m3/s].

    Raises:
        NoSolution: Demands exclude each other; the first conflict is the message.

    Source:
        Arithmetic: a linear programme whose constraints are intervals and sums of them; its
        optimum is the greater of the turnover and the sum of the lower ends.

    Example:
        >>> from pondapp.core.circuit.model import FlowDemand
        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> pump = DemandPump("pump", (DemandBranch("a", (bog,)),))
        >>> round(least_plan(DemandCircuit((pump,), 300 * litre)).total / litre)
        400
    """
    conflicts = find_conflicts(circuit)
    if conflicts:
        message = conflicts[0].message
        raise NoSolution(message.template, **message.values)
    least = sum(pump.duty * least_of_pump(pump) for pump in circuit.pumps)
    short = max(0.0, circuit.turnover - least)
    ramps = [
        [_ramp(branch, short / pump.duty) for branch in pump.branches] for pump in circuit.pumps
    ]
    levels = _levels(circuit, ramps) if short > 0.0 else [0.0] * len(ramps)
    pumps = tuple(
        _pump_flow(pump, _flows(pump, own, level))
        for pump, own, level in zip(circuit.pumps, ramps, levels, strict=True)
    )
    return Plan(
        circuit=circuit,
        total=sum(pump.flow for pump in pumps),
        daily_mean=sum(pump.pump.duty * pump.flow for pump in pumps),
        pumps=pumps,
        reason=_reason(circuit, least),
    )
