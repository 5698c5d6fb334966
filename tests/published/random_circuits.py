"""Random circuits for the planner's tests, and the rules of a circuit said once more."""

from hypothesis import strategies as st

from pondapp.core.circuit.answer import Plan
from pondapp.core.circuit.model import DemandBranch, DemandCircuit, DemandPump, FlowDemand, Kind

UNIT = 1e-4  # m3/s; even multiples of it, so that bounds meet exactly or miss by far


@st.composite
def circuits(
    draw: st.DrawFn, branches: int = 4, greatest: int = 20, all_day: bool = False
) -> DemandCircuit:
    """One or two pumps with a few branches of up to three things, with and without conflicts."""
    count = draw(st.integers(1, branches))
    even = st.integers(0, greatest // 2).map(lambda n: 2 * n)
    made = []
    for number in range(count):
        demands = []
        for place in range(draw(st.integers(0, 3 if branches > 2 else 2))):
            low, target, high = sorted(draw(st.tuples(even, even, even)))
            target = max(target, 2)
            kind: Kind = draw(st.sampled_from(("bed", "box", "lip", "other")))
            demands.append(
                FlowDemand(
                    f"thing {number}.{place}",
                    low * UNIT,
                    max(high, target) * UNIT if draw(st.integers(0, 3)) else None,
                    target * UNIT,
                    kind,
                    draw(st.sampled_from((None, 0.5))),
                    all_day and draw(st.integers(0, 4)) == 0,
                    draw(st.sampled_from(("least", "good"))),
                )
            )
        names = [demand.key for demand in demands]
        bypass = tuple(draw(st.lists(st.sampled_from(names), unique=True))) if names else ()
        made.append(DemandBranch(f"branch {number}", tuple(demands), bypass))
    cut = draw(st.integers(0, count - 1))
    pumps = []
    for number, own in enumerate((made[:cut], made[cut:])):
        if own:
            most = draw(st.none() | even.map(lambda n: (n + 2) * UNIT))
            pumps.append(
                DemandPump(f"pump {number}", tuple(own), most, draw(st.sampled_from((1.0, 0.5))))
            )
    return DemandCircuit(tuple(pumps), draw(even) * 1.5 * UNIT)


def broken_rule(circuit: DemandCircuit, plan: Plan) -> str | None:
    """The first rule that a plan breaks, written from the rules and not from the planner."""
    slack = 1e-8  # of a flow; the planner forgives 1e-9
    if len(plan.pumps) != len(circuit.pumps):
        return "a pump is missing"
    for pump, flows in zip(circuit.pumps, plan.pumps, strict=True):
        if abs(flows.flow - sum(branch.flow for branch in flows.branches)) > 1e-12:
            return f"branches of {pump.name} do not add up"
        if pump.most is not None and flows.flow > pump.most * (1 + slack):
            return f"{pump.name} delivers too much"
        for branch, run in zip(pump.branches, flows.branches, strict=True):
            if run.flow < 0.0:
                return f"{branch.name} flows backwards"
            for demand, thing in zip(branch.demands, run.features, strict=True):
                if abs(thing.through + thing.bypass - run.flow) > 1e-12:
                    return f"water is lost at {demand.name}"
                if thing.bypass != 0.0 and demand.key not in branch.bypass:
                    return f"{demand.name} has no bypass"
                if thing.bypass < 0.0 or thing.through < demand.asked * (1 - slack):
                    return f"{demand.name} is short"
                if demand.high is not None and thing.through > demand.high * (1 + slack):
                    return f"{demand.name} is flooded"
                if demand.all_day and pump.duty < 1.0:
                    return f"{demand.name} falls dry"
    if plan.daily_mean < circuit.turnover * (1 - slack):
        return "the pond's turnover is missed"
    mean = sum(flows.pump.duty * flows.flow for flows in plan.pumps)
    if abs(plan.daily_mean - mean) > 1e-12:
        return "the mean of the day is wrong"
    if abs(plan.total - sum(flows.flow for flows in plan.pumps)) > 1e-12:
        return "the total is wrong"
    return None
