"""What a pump gives when label, lift, hose and dirt are known only so far: odds over the spread.

The same hundred cases count each time: spread evenly over all that is not known, without chance.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from math import ceil, inf
from typing import Literal

from pondapp.core.assumptions.pumps import PumpAssumptions
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.hydraulics.network import (
    Outlet,
    PipeNetwork,
    duty_for,
    operating_flow,
)
from pondapp.core.hydraulics.pump_curve import (
    LabelCurve,
    PointCurve,
    PumpCurve,
    ScaledCurve,
    SlowedCurve,
)
from pondapp.core.hydraulics.run import Run
from pondapp.core.hydraulics.solve import root

Odds = Literal["enough", "probably", "open", "weak"]

CASES = 100
MAIN = ""
"""Stands for the main run among the keys of the ends."""
_FEW = 20
"""Cases that are solved one by one where none of all is enough."""
_SPREAD = 1.0 / 1.1347241384  # the root of x⁶ = x + 1: its powers fill five directions evenly
_STEPS = tuple(_SPREAD**number for number in range(1, 6))

SPREAD = Source(
    "a hundred cases, evenly over what is not known (H. Weyl, Math. Ann. 77 (1916) 313-352)",
    "published",
)


@dataclass(frozen=True, slots=True)
class Case:
    """One of the cases that may be, each number the share of its own range [-], 0 to 1."""

    bend: float
    strength: float
    wear: float
    lift: float
    loss: float


CASE_LIST: tuple[Case, ...] = tuple(
    Case(*((0.5 + number * step) % 1.0 for step in _STEPS)) for number in range(CASES)
)


@dataclass(frozen=True, slots=True)
class Doubt:
    """How far a circuit may be from what was entered.

    Attributes:
        lift: How far the lift of an end may be off either way [m], by key; 0 if not given.
        loss: Times by which the loss of a run may be more or less [-], 1 to 10, by the end's key
            or MAIN; 1 if not given.
        assumed: Keys of the ends of which lift or hose was not entered at all.
    """

    lift: Mapping[str, float] = field(default_factory=dict)
    loss: Mapping[str, float] = field(default_factory=dict)
    assumed: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        for name, off in self.lift.items():
            require_within(phrase("doubt of the lift of {name}", name=name), off, 0.0, 10.0, "m")
        for name, times in self.loss.items():
            require_within(phrase("doubt of the loss of {name}", name=name), times, 1.0, 10.0, "-")


NO_DOUBT = Doubt()


def _run(run: Run, times: float, share: float) -> Run:
    """A run whose loss is by so much more or less: its length and fittings count for it."""
    factor = times ** (2.0 * share - 1.0)
    return replace(run, length=run.length * factor, fittings=run.fittings * factor)


def circuit_in(circuit: PipeNetwork, doubt: Doubt, case: Case) -> PipeNetwork:
    """The circuit as it may be in one case.

    Args:
        circuit: As entered.
        doubt: How far each lift [m] and loss [-] may be off.
        case: The case.

    Returns:
        The circuit with other lifts [m] and losses [-]. All lifts are off the same way, and all
        losses, which is the widest that may be.

    Raises:
        OutOfRange: A lift would be outside its range.

    Source:
        Definition.

    Example:
        The case in the middle is the circuit as it was entered:

        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),))
        >>> doubt = Doubt(lift={"fall": 0.2}, loss={"fall": 1.5})
        >>> circuit_in(circuit, doubt, Case(0.5, 0.5, 0.5, 1.0, 0.5)).branches[0].lift
        1.2
    """
    return PipeNetwork(
        _run(circuit.main, doubt.loss.get(MAIN, 1.0), case.loss) if circuit.main else None,
        tuple(_branch(branch, doubt, case) for branch in circuit.branches),
    )


def _branch(branch: Outlet, doubt: Doubt, case: Case) -> Outlet:
    off = doubt.lift.get(branch.key, 0.0) * (2.0 * case.lift - 1.0)
    run = _run(branch.run, doubt.loss.get(branch.key, 1.0), case.loss)
    # A lift below the water would be another pond than the one that was entered.
    return replace(branch, run=run, lift=max(min(0.0, branch.lift), branch.lift + off))


def curve_in(
    curve: PumpCurve, case: Case, rules: PumpAssumptions, *, as_new: bool = False
) -> PumpCurve:
    """A pump's curve as it may be in one case.

    Args:
        curve: By its label or its printed points.
        case: The case.
        rules: How far curves bend, pumps differ from print, and dirt takes flow until cleaned.
        as_new: Whether to leave dirt out.

    Returns:
        Head [m] over flow [m3/s].

    Raises:
        OutOfRange: A rule is outside its range.

    Source:
        ISO 9906:1999, Rotodynamic pumps: Hydraulic performance acceptance tests, tolerances of
        class 2 on flow and head; bend and dirt as the rules say.

    Example:
        Of a print that is good to a few per cent, the weakest pump:

        >>> weak = Case(0.5, 0.0, 0.0, 0.5, 0.5)
        >>> curve = curve_in(LabelCurve(4.0, 2e-3), weak, PumpAssumptions(), as_new=True)
        >>> round(curve.head_at(0.0), 2)
        3.8
    """
    if isinstance(curve, SlowedCurve):
        return replace(curve, full=curve_in(curve.full, case, rules, as_new=as_new))
    flow, head, bend = _differs(case, rules, as_new)
    if isinstance(curve, LabelCurve):
        return LabelCurve(curve.max_head * head, curve.max_flow * flow, bend)
    return ScaledCurve(curve, flow, head)


def _differs(case: Case, rules: PumpAssumptions, as_new: bool) -> tuple[float, float, float]:
    """Times the flow and the head of the print that a pump has in a case, and a label's bend."""
    off = 2.0 * case.strength - 1.0
    left = 1.0 if as_new else 1.0 - case.wear * (1.0 - rules.worn_share)
    return (
        (1.0 + off * rules.flow_tolerance) * left,
        1.0 + off * rules.head_tolerance,
        rules.bend_low + case.bend * (rules.bend_high - rules.bend_low),
    )


def label_flow_for(
    flow: float, heads: Sequence[float], max_head: float, odds: float, rules: PumpAssumptions
) -> float:
    """The least flow that a label of a given head must promise to be enough by these odds.

    Args:
        flow: Wanted flow [m3/s], above 0 to 10.
        heads: Head that it takes in each case [m], by needed_heads.
        max_head: Largest head on the label [m], above 0 to 500.
        odds: Share of the cases in which it is to be enough [-], 0.01 to 1.
        rules: How far curves, pumps and dirt differ.

    Returns:
        Largest flow on the label [m3/s], infinite where no flow makes up for the head.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        LabelCurve solved for its largest flow, Qmax = Q / (1 - H/H0)^(1/n), in every case.

    Example:
        What a label of 4 m must promise for 5 m³/h at 2 m, to be enough in 90 of 100 cases:

        >>> found = label_flow_for(5.0 / 3600, [2.0] * CASES, 4.0, 0.9, PumpAssumptions())
        >>> round(3.6e6 * found, -2)  # L/h
        10900.0
    """
    require_above("wanted flow", flow, 0.0, 10.0, "m3/s")
    require_above("largest head of the pump", max_head, 0.0, 500.0, "m")
    require_within("odds", odds, 0.01, 1.0, "-")
    needed = []
    for case, need in zip(CASE_LIST, heads, strict=True):
        times, head, bend = _differs(case, rules, as_new=False)
        left = 1.0 - max(0.0, need) / (head * max_head)
        needed.append(inf if left <= 0.0 else flow / times * left ** (-1.0 / bend))
    return sorted(needed)[ceil(odds * CASES - 1e-9) - 1]


@dataclass(frozen=True, slots=True)
class Delivery:
    """What a pump gives in a circuit, as far as it can be known.

    Attributes:
        wanted: Wanted flow in all [m3/s].
        share: Share of the cases in which every end gets what it wants [-].
        low: Flow [m3/s] that it gives at least, shared out as wanted, but for the rarest cases.
        high: Flow [m3/s] that it gives at most, likewise.
        odds: In a word.
    """

    wanted: float
    share: float
    low: float
    high: float
    odds: Odds

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        wanted = Term("Q", "wanted flow", self.wanted, "m3/s")
        cases = Term("N", "cases tried", float(CASES), "-")
        share = Term("p", "share of the cases in which it is enough", self.share, "-")
        return (
            Step(share, "p = cases with H(Q) above the head that the pipes take / N",
                 (wanted, cases), SPREAD),
        )  # fmt: skip


def needed_heads(
    circuits: Sequence[PipeNetwork], targets: Mapping[str, float], viscosity: float
) -> tuple[float, ...]:
    """Head at the pump that the wanted flows take in each case.

    Args:
        circuits: The circuit in each case.
        targets: Wanted flow of every end by key [m3/s], 0 to 10.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Heads [m], as duty_for.

    Raises:
        OutOfRange: A number is outside its range, or an end is missing or unknown.
        NoSolution: No flow is wanted anywhere.

    Source:
        As duty_for, in each case.

    Example:
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(0.0, 0.050, 0.0, 4.0), 0.5),))
        >>> [round(head, 2) for head in needed_heads([circuit], {"fall": 1.94444e-3}, 1e-6)]
        [0.7]
    """
    return tuple(duty_for(one, targets, viscosity).head for one in circuits)


def shared_flow(
    curve: PumpCurve, circuit: PipeNetwork, targets: Mapping[str, float], viscosity: float
) -> float:
    """Most that a pump gives with valves set so that all ends get the same share of their demand.

    Args:
        curve: The pump's curve.
        circuit: Everything behind the pump; its valve settings do not matter.
        targets: Wanted flow of every end by key [m3/s], 0 to 10, one of them above 0.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Flow in all [m3/s]: 0 where the pump does not reach the highest of the wanted ends; the end
        of its known curve where it could go on beyond that.

    Raises:
        OutOfRange: A number is outside its range, or an end is missing or unknown.
        NoSolution: No flow is wanted anywhere.

    Source:
        Head of the curve equals that of duty_for; bracketed root.

    Example:
        A pump that gives 1.94 L/s at 0.7 m, on a fall that takes just that:

        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(0.0, 0.050, 0.0, 4.0), 0.5),))
        >>> pump = LabelCurve(1.4, 2.0**0.5 * 1.94444e-3, 2.0)
        >>> round(1e3 * shared_flow(pump, circuit, {"fall": 1.94444e-3}, 1e-6), 2)  # L/s
        1.94
    """
    total = sum(targets.values())

    def spare(share: float) -> float:
        part = {name: share * flow for name, flow in targets.items()}
        return curve.head_at(share * total) - duty_for(circuit, part, viscosity).head

    least, most = 1e-6, curve.most_flow / total if total else 1.0
    if spare(least) <= 0.0:
        return 0.0
    if spare(most) >= 0.0:
        return curve.most_flow
    return total * root(spare, least, most, 1e-6)


def delivery(
    curve: PumpCurve,
    circuits: Sequence[PipeNetwork],
    heads: Sequence[float],
    targets: Mapping[str, float],
    viscosity: float,
    rules: PumpAssumptions,
    read_at: float | None = None,
) -> Delivery:
    """Odds that a pump gives the wanted flows until its next cleaning.

    Args:
        curve: By its label or its printed points.
        circuits: The circuit in each case.
        heads: Head that the wanted flows take in each case [m].
        targets: Wanted flow of every end by key [m3/s], 0 to 10, one of them above 0.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.
        rules: How far curves, pumps and dirt differ, and the odds from which a pump is enough.
        read_at: Flow [m3/s] at which the curve is read in place of the wanted one: the end of its
            points, whose head is a bound of that at the wanted flow.

    Returns:
        Odds [-] and what it gives [m3/s].

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: No flow is wanted anywhere.

    Source:
        Share of the cases, all of one weight; the flow in the case at either end of them.

    Example:
        A pump that is far too weak, and one that is strong:

        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(0.0, 0.050, 0.0, 4.0), 0.5),))
        >>> wanted, rules = {"fall": 1.94444e-3}, PumpAssumptions()
        >>> heads = needed_heads([circuit] * CASES, wanted, 1e-6)
        >>> pumps = LabelCurve(0.4, 4e-3), LabelCurve(4.0, 8e-3)
        >>> found = [delivery(one, [circuit] * CASES, heads, wanted, 1e-6, rules) for one in pumps]
        >>> [one.odds for one in found]
        ['weak', 'enough']
    """
    flow = sum(targets.values())
    curves = [curve_in(curve, case, rules) for case in CASE_LIST]
    at = flow if read_at is None else read_at
    spare = [one.head_at(at) - head for one, head in zip(curves, heads, strict=True)]
    share = sum(over >= 0.0 for over in spare) / CASES
    order = sorted(range(CASES), key=spare.__getitem__)
    tried, rare = order, int((1.0 - rules.sure_odds) * CASES + 1e-9)
    if share == 0.0:
        # Far beyond its curves the head tells nothing of what a pump gives: some are solved all.
        tried, rare = order[:: CASES // _FEW], int((1.0 - rules.sure_odds) * _FEW + 1e-9)
        ends: Sequence[int] = range(_FEW)
    else:
        ends = (rare, CASES - 1 - rare)
    flows = sorted(
        shared_flow(curves[i], circuits[i], targets, viscosity) for i in (tried[n] for n in ends)
    )
    low, high = (flows[rare], flows[-1 - rare]) if share == 0.0 else (flows[0], flows[-1])
    return Delivery(flow, share, low, high, _odds(share, rules))


def _odds(share: float, rules: PumpAssumptions) -> Odds:
    if share >= rules.sure_odds:
        return "enough"
    if share >= rules.probable_odds:
        return "probably"
    return "weak" if share <= 1.0 - rules.sure_odds else "open"


def bounds_as_new(
    curve: PumpCurve, circuit: PipeNetwork, doubt: Doubt, viscosity: float, rules: PumpAssumptions
) -> tuple[float, float]:
    """Least and most that a clean new pump gives in a circuit, but for the rarest cases.

    Args:
        curve: By its label or its printed points.
        circuit: Everything behind the pump, valves as they stand.
        doubt: How far each lift [m] and loss [-] may be off.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.
        rules: How far curves bend and pumps differ from print.

    Returns:
        Flows [m3/s].

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: All valves are closed.

    Source:
        As delivery.

    Example:
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),))
        >>> pump, rules = LabelCurve(4.0, 2e-3), PumpAssumptions()
        >>> low, high = bounds_as_new(pump, circuit, Doubt(), 1e-6, rules)
        >>> round(3.6e6 * low, -1), round(3.6e6 * high, -1)  # L/h
        (4790.0, 6070.0)
    """
    few = CASE_LIST[:: CASES // _FEW]
    flows = sorted(
        operating_flow(
            curve_in(curve, case, rules, as_new=True), circuit_in(circuit, doubt, case), viscosity
        )
        for case in few
    )
    rare = int((1.0 - rules.sure_odds) * _FEW + 1e-9)
    return flows[rare], flows[-1 - rare]


def printed_gap(curve: PumpCurve, flow: float) -> tuple[Literal["before", "beyond"], float] | None:
    """Whether a flow lies outside the printed points of a curve.

    Args:
        curve: The pump's curve.
        flow: Flow [m3/s], 0 to 10.

    Returns:
        On which side, and the flow of the point at that end [m3/s]; none within the points, and
        for a label.

    Raises:
        OutOfRange: The flow is outside its range.

    Source:
        Definition.

    Example:
        The print ends at 2 L/s:

        >>> from pondapp.core.hydraulics.pump_curve import curve_through
        >>> curve = curve_through([(0.0, 4.0), (1e-3, 3.0), (2e-3, 1.0)])
        >>> printed_gap(curve, 1e-3), printed_gap(curve, 3e-3)
        (None, ('beyond', 0.002))
    """
    require_within("flow", flow, 0.0, 10.0, "m3/s")
    if not isinstance(curve, PointCurve):
        return None
    if flow < curve.sure_from:
        return "before", curve.sure_from
    return ("beyond", curve.sure_to) if flow > curve.sure_to else None
