"""Between which flows a branch, a pump and the whole circuit please everything on them."""

from math import inf

from pondapp.core.base.messages import phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand

ROUNDING = 1e-9
"""Two bounds closer than this share of themselves are equal [-]: floats round, pipes do not mind.
Source: far above the 1e-15 of one float operation, far below anything a bucket can show."""

ASKED = {"least": "least for {name}", "good": "good flow for {name}"}


def exceeds(value: float, limit: float | None) -> bool:
    """Whether a flow is above a limit by more than rounding.

    Args:
        value: Flow [m3/s].
        limit: Limit [m3/s], or None where there is none.

    Returns:
        True if it is above [-].

    Source:
        Arithmetic.

    Example:
        >>> exceeds(1.0001, 1.0), exceeds(1.0, None)
        (True, False)
    """
    return limit is not None and value > limit * (1.0 + ROUNDING)


def most_demanding(branch: DemandBranch) -> FlowDemand | None:
    """The feature on a branch that asks for the most water.

    Args:
        branch: The branch.

    Returns:
        The feature that asks for the most by its aim, the first of equals; None on a bare
        branch.

    Source:
        Arithmetic.
    """
    return max(branch.demands, key=lambda demand: demand.asked, default=None)


def most_restrictive(branch: DemandBranch) -> FlowDemand | None:
    """The feature on a branch that stands the least water and has no way round.

    Args:
        branch: The branch.

    Returns:
        The feature with the smallest most flow, the first of equals; None if nothing limits.

    Source:
        Arithmetic.
    """
    limiting = [
        demand
        for demand in branch.demands
        if demand.high is not None and demand.key not in branch.bypass
    ]
    return min(limiting, key=lambda demand: demand.high or inf, default=None)


def least_flow(branch: DemandBranch) -> float:
    """Least flow in a branch that leaves nothing on it short.

    Args:
        branch: The branch.

    Returns:
        Greatest of the flows asked for, each by its aim [m3/s]; 0 on a bare branch.

    Source:
        Arithmetic: features in order share one flow, so their bands intersect.

    Example:
        A branch with a bog and a box carries what the box needs:

        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> box = FlowDemand("box", 2000 * litre, None, 4000 * litre)
        >>> round(least_flow(DemandBranch("a", (bog, box))) / litre)
        2000
    """
    demand = most_demanding(branch)
    return 0.0 if demand is None else demand.asked


def most_flow(branch: DemandBranch) -> float | None:
    """Most flow in a branch that drowns nothing on it.

    Args:
        branch: The branch.

    Returns:
        Smallest of the most flows without a way round [m3/s]; None if nothing limits.

    Source:
        Arithmetic: features in order share one flow, so their bands intersect.

    Example:
        It carries no more than the bog can take, unless there is a way round it:

        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> box = FlowDemand("box", 2000 * litre, None, 4000 * litre)
        >>> straight = DemandBranch("a", (bog, box))
        >>> round_it = DemandBranch("a", (bog, box), ("bog",))
        >>> round(most_flow(straight) / litre), most_flow(round_it)
        (1200, None)
    """
    demand = most_restrictive(branch)
    return None if demand is None else demand.high


def least_of_pump(pump: DemandPump) -> float:
    """Least flow of a pump that leaves nothing short.

    Args:
        pump: The pump.

    Returns:
        Sum of the least flows of its branches [m3/s].

    Source:
        Arithmetic: branches add at a tee.

    Example:
        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> box = FlowDemand("box", 2000 * litre, None, 4000 * litre)
        >>> pump = DemandPump("pump", (DemandBranch("a", (bog,)), DemandBranch("b", (box,))))
        >>> round(least_of_pump(pump) / litre)
        2400
    """
    return sum(least_flow(branch) for branch in pump.branches)


def most_of_pump(pump: DemandPump) -> float | None:
    """Most flow of a pump that drowns nothing.

    Args:
        pump: The pump.

    Returns:
        Sum of the most flows of its branches, or what it can deliver if that is less [m3/s];
        None if nothing limits.

    Source:
        Arithmetic: branches add at a tee.

    Example:
        A pump that gives 3000 L/h at most:

        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> box = FlowDemand("box", 2000 * litre, None, 4000 * litre)
        >>> branches = DemandBranch("a", (bog,)), DemandBranch("b", (box,))
        >>> round(most_of_pump(DemandPump("pump", branches, 3000 * litre)) / litre)
        3000
    """
    total = 0.0
    for branch in pump.branches:
        most = most_flow(branch)
        if most is None:
            return pump.most
        total += most
    return total if pump.most is None else min(total, pump.most)


def most_of_day(circuit: DemandCircuit) -> float | None:
    """Most flow through all pumps, as the mean of a day.

    Args:
        circuit: The circuit.

    Returns:
        Sum of each pump's most flow times its share of the day [m3/s]; None if nothing limits.

    Source:
        Arithmetic: mean over time.

    Example:
        A pump of 3000 L/h that runs half the day:

        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> box = FlowDemand("box", 2000 * litre, None, 4000 * litre)
        >>> pump = DemandPump("pump", (DemandBranch("b", (box,)),), 3000 * litre, duty=0.5)
        >>> round(most_of_day(DemandCircuit((pump,), 1000 * litre)) / litre)
        1500
    """
    total = 0.0
    for pump in circuit.pumps:
        most = most_of_pump(pump)
        if most is None:
            return None
        total += pump.duty * most
    return total


def bound_steps(circuit: DemandCircuit) -> tuple[Step, ...]:
    """The working of the bounds: branch by branch, then pump by pump.

    Args:
        circuit: The circuit.

    Returns:
        Steps in the order of calculation, flows in [m3/s]; no step where nothing limits.

    Source:
        Arithmetic.

    Example:
        >>> litre = 1e-3 / 3600  # m3/s in L/h
        >>> bog = FlowDemand("bog", 400 * litre, 1200 * litre, 600 * litre)
        >>> pump = DemandPump("pump", (DemandBranch("a", (bog,)),))
        >>> steps = bound_steps(DemandCircuit((pump,), 300 * litre))
        >>> [round(step.result.value / litre) for step in steps]
        [400, 1200, 400]
    """
    steps = []
    for pump in circuit.pumps:
        for branch in pump.branches:
            lows = tuple(
                Term("Qmin", phrase(ASKED[w.aim], name=w.name), w.asked, "m3/s")
                for w in branch.demands
            )
            least = Term(
                "Qmin", phrase("least in {name}", name=branch.name), least_flow(branch), "m3/s"
            )
            if lows:
                steps.append(Step(least, "greatest of the flows in order", lows, ARITHMETIC))
            highs = tuple(
                Term("Qmax", phrase("most for {name}", name=demand.name), demand.high, "m3/s")
                for demand in branch.demands
                if demand.high is not None and demand.key not in branch.bypass
            )
            limit = most_flow(branch)
            if limit is not None:
                most = Term("Qmax", phrase("most in {name}", name=branch.name), limit, "m3/s")
                steps.append(Step(most, "smallest of the most flows in order", highs, ARITHMETIC))
        parts = tuple(
            Term("Qmin", phrase("least in {name}", name=branch.name), least_flow(branch), "m3/s")
            for branch in pump.branches
        )
        result = Term(
            "Qmin", phrase("least from {name}", name=pump.name), least_of_pump(pump), "m3/s"
        )
        steps.append(Step(result, "sum over the branches", parts, ARITHMETIC))
    return tuple(steps)
