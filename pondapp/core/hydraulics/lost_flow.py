"""Flow that was lost since the valves were set: at the pump's side of the tee, or in a branch?

With its valve untouched, the flow of a branch gives the head at the tee. A blocked branch gives
too low a head, an open one the right one, so the highest of them is taken. Pump and main run
both act on that head and on nothing else, so flows behind the tee cannot distinguish the two.
"""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from math import hypot
from typing import Literal

from pondapp.core.base.errors import NoSolution, OutOfRange, require_above
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Step, Term
from pondapp.core.hydraulics.network import BALANCE, PipeNetwork
from pondapp.core.hydraulics.pump_curve import SPEED, PumpCurve, SlowedCurve
from pondapp.core.hydraulics.run import MOST_FLOW, check_viscosity
from pondapp.core.hydraulics.solve import root
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Certainty, decide

Where = Literal["nowhere", "pump side", "branch", "both", "either"]

_SLOWEST, _FASTEST = 0.01, 3.0
_LEAST_SHARE = 1e-3
"""A flow that is not distinguished from none counts as so much of itself: it must stay above 0."""


@dataclass(frozen=True, slots=True)
class LostFlow:
    """Where flow was lost since the valves were set.

    Attributes:
        where: "nowhere" if it may be none, "either" if one branch is all there is.
        blocked: Keys of the branches that take more head than they did.
        heads: Head at the tee by the flow of each branch [m], by its name for the working.
        head: The head to believe [m].
        head_before: Head there by the pump as it was, at the flow of now [m].
        speed_left: Speed at which the pump as it was would give the flow of now, as a share of its
            speed [-]: how much is left of the pump's side.
    """

    where: Where
    blocked: tuple[str, ...]
    heads: tuple[tuple[str, float], ...]
    head: float
    head_before: float
    speed_left: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        heads = tuple(
            Term("H_b", phrase("head at the T-piece as {name} tells it", name=name), head, "m")
            for name, head in self.heads
        )
        head = Term("H_t", "head at the T-piece, the highest told", self.head, "m")
        before = Term("H_0", "head there by the pump as it was", self.head_before, "m")
        left = Term("n", "share of the pump's speed that is left", self.speed_left, "-")
        return (
            Step(head, "H_t = largest of z + h(Q_b)", heads, BALANCE),
            Step(left, "n² H(Q / n) - h_m(Q) = H_t", (head, before), SPEED),
        )


def lost_flow(
    curve: PumpCurve,
    circuit: PipeNetwork,
    now: Mapping[str, Spread],
    viscosity: float,
    rule: Certainty,
) -> LostFlow:
    """Where the flow went that was there when the valves were set.

    Args:
        curve: The pump's curve as it was then.
        circuit: Main run and branches, valves as they were set.
        now: What is known of the flow of now [m3/s], above 0 to 10, of each branch that is not
            shut.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.
        rule: What it takes to decide: a branch is blocked, or the pump's side weaker, where that is
            as likely as the rule asks, and where its flow is known as well as the rule asks.

    Returns:
        Where, with heads [m] and the share of the pump's speed [-].

    Raises:
        OutOfRange: A number is outside its range, or a branch is missing or unknown.
        NoSolution: The flows are so far from the pump's curve that something was entered wrong.

    Source:
        One head at the tee for all branches, H_t = z + h(Q_b), and flows that add; affinity laws, Q
        ~ n and H ~ n²; any textbook of pumps. Uncertainties of heads and of the speed from those of
        the flows: JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2; a
        difference counts by its probability, as every flow does.

    Example:
        A single branch that gives a fifth less does not tell whether it is clogged or the pump is:

        >>> from pondapp.core.hydraulics.network import Outlet
        >>> from pondapp.core.hydraulics.run import Run
        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> from pondapp.core.hydraulics.network import operating_flow
        >>> was = operating_flow(pump, circuit, 1.0034e-6)
        >>> rule = Certainty(sure=0.95, widest=0.10, coverage=0.95)
        >>> now = {"fall": Spread(0.8 * was, 0.005 * was)}
        >>> lost_flow(pump, circuit, now, 1.0034e-6, rule).where
        'either'
    """
    check_viscosity(viscosity)
    outlets = [outlet for outlet in circuit.branches if not outlet.closed]
    names = {outlet.key: outlet.name for outlet in outlets}
    for key in sorted(names.keys() ^ now.keys()):
        raise OutOfRange("{name} was not measured, or is not there", name=names.get(key, key))
    if not outlets:
        raise NoSolution("every valve is closed: there is nothing to compare")
    for key, known in now.items():
        require_above(
            phrase("flow of {name}", name=names[key]), known.centre, 0.0, MOST_FLOW, "m3/s"
        )

    by_key = {outlet.key: outlet for outlet in outlets}
    flows = {key: known.centre for key, known in now.items()}
    doubts = {key: known.normal_scale(rule.coverage) for key, known in now.items()}

    def head_by(key: str, flow: float) -> float:
        outlet = by_key[key]
        return outlet.lift + outlet.run.loss(flow, viscosity, outlet.valve)

    heads = {outlet.key: head_by(outlet.key, flows[outlet.key]) for outlet in outlets}
    highest = max(heads, key=lambda key: heads[key])
    head, total = heads[highest], sum(flows.values())

    def on_main(flow: float) -> float:
        return circuit.main.loss(flow, viscosity) if circuit.main else 0.0

    def speed(at_tee: float, flow: float) -> float:
        def excess(share: float) -> float:
            return SlowedCurve(curve, share).head_at(flow) - on_main(flow) - at_tee

        if excess(_FASTEST) < 0.0 or excess(_SLOWEST) > 0.0:
            raise NoSolution(
                "these flows do not fit this pump at all: check its curve, the lifts and the hoses"
            )
        return root(excess, _SLOWEST, _FASTEST, 0.0)

    def spread_of(about: Callable[[Mapping[str, float]], float]) -> Spread:
        """What is known of what follows from the flows, from its change with each of them."""
        middle, by_each = about(flows), []
        for key, doubt in doubts.items():
            moved = {**flows, key: max(_LEAST_SHARE * flows[key], flows[key] - doubt)}
            by_each.append(about(moved) - middle)
        return Spread(middle, hypot(*by_each))

    def is_less(about: Callable[[Mapping[str, float]], float], known: Spread) -> bool:
        """Whether it is less than it was, which is 1; nothing is told by a flow hardly known."""
        rough = known.half_width(rule.coverage) > rule.widest * known.centre
        return not rough and decide(spread_of(about), 1.0, None, rule).likely == "below"

    def head_left(key: str) -> Callable[[Mapping[str, float]], float]:
        def share(at: Mapping[str, float]) -> float:
            return head_by(key, at[key]) / head_by(highest, at[highest])

        return share

    def speed_left(at: Mapping[str, float]) -> float:
        return speed(head_by(highest, at[highest]), sum(at.values()))

    blocked = tuple(key for key in heads if key != highest and is_less(head_left(key), now[key]))
    slower = is_less(speed_left, Spread(total, hypot(*doubts.values())))
    where: Where = "nowhere"
    if len(outlets) == 1:
        where = "either" if slower else "nowhere"
    elif slower:
        where = "both" if blocked else "pump side"
    elif blocked:
        where = "branch"
    return LostFlow(
        where,
        blocked,
        tuple((names[key], heads[key]) for key in heads),
        head,
        curve.head_at(total) - on_main(total),
        speed(head, total),
    )
