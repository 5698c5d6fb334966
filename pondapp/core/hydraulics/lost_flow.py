"""Flow that was lost since the valves were set: at the pump's side of the tee, or in a branch?

With its valve untouched, the flow of a branch gives the head at the tee. A blocked branch gives
too low a head, an open one the right one, so the highest of them is taken. Pump and main run
both act on that head and on nothing else, so flows behind the tee cannot distinguish the two.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from pondapp.core.base.errors import NoSolution, OutOfRange, require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Step, Term
from pondapp.core.hydraulics.network import BALANCE, PipeNetwork
from pondapp.core.hydraulics.pump_curve import SPEED, PumpCurve, SlowedCurve
from pondapp.core.hydraulics.run import MOST_FLOW, check_viscosity
from pondapp.core.hydraulics.solve import root

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
    now: Mapping[str, tuple[float, float]],
    viscosity: float,
) -> LostFlow:
    """Where the flow went that was there when the valves were set.

    Args:
        curve: The pump's curve as it was then.
        circuit: Main run and branches, valves as they were set.
        now: Flow of now [m3/s], above 0 to 10, and its expanded uncertainty [m3/s], 0 to 10, of
            each branch that is not shut.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Where, with heads [m] and the share of the pump's speed [-].

    Raises:
        OutOfRange: A number is outside its range, or a branch is missing or unknown.
        NoSolution: The flows are so far from the pump's curve that something was entered wrong.

    Source:
        One head at the tee for all branches, H_t = z + h(Q_b), and flows that add; affinity laws, Q
        ~ n and H ~ n²; any textbook of pumps. A difference counts where the intervals do not touch
        (this project's own).

    Example:
        A single branch that gives a fifth less does not tell whether it is clogged or the pump is:

        >>> from pondapp.core.hydraulics.network import Outlet
        >>> from pondapp.core.hydraulics.run import Run
        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> circuit = PipeNetwork(None, (Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0),))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> from pondapp.core.hydraulics.network import operating_flow
        >>> was = operating_flow(pump, circuit, 1.0034e-6)
        >>> lost_flow(pump, circuit, {"fall": (0.8 * was, 0.01 * was)}, 1.0034e-6).where
        'either'
    """
    check_viscosity(viscosity)
    outlets = [outlet for outlet in circuit.branches if not outlet.closed]
    names = {outlet.key: outlet.name for outlet in outlets}
    for key in sorted(names.keys() ^ now.keys()):
        raise OutOfRange("{name} was not measured, or is not there", name=names.get(key, key))
    if not outlets:
        raise NoSolution("every valve is closed: there is nothing to compare")
    for key, (flow, doubt) in now.items():
        name = names[key]
        require_above(phrase("flow of {name}", name=name), flow, 0.0, MOST_FLOW, "m3/s")
        require_within(
            phrase("uncertainty of the flow of {name}", name=name), doubt, 0.0, MOST_FLOW, "m3/s"
        )

    found: dict[str, tuple[float, float, float]] = {}
    for outlet in outlets:
        flow, doubt = now[outlet.key]
        least = max(_LEAST_SHARE * flow, flow - doubt)
        low, middle, high = (
            outlet.lift + outlet.run.loss(q, viscosity, outlet.valve)
            for q in (least, flow, flow + doubt)
        )
        found[outlet.key] = (low, middle, high)
    head = max(middle for _, middle, _ in found.values())
    low = max(low for low, _, _ in found.values())
    high = max(high for _, _, high in found.values())
    total = sum(flow for flow, _ in now.values())
    doubt = sqrt(sum(doubt * doubt for _, doubt in now.values()))

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

    blocked = tuple(key for key, (_, _, most) in found.items() if most < low)
    slower = speed(high, total + doubt) < 1.0
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
        tuple((names[key], middle) for key, (_, middle, _) in found.items()),
        head,
        curve.head_at(total) - on_main(total),
        speed(head, total),
    )
