"""In the shop, with no pond drawn: which numbers to look for on a pump's box, and what a box gives.

The label is turned round with all its doubt: who buys what is told here gets the flow with the
same odds that the forward answer asks for its tick.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil, floor, inf, log10

from pondapp import units
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount
from pondapp.core.hydraulics.bores import Size, size_for, sizes
from pondapp.core.hydraulics.fittings import fittings_loss
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, duty_for
from pondapp.core.hydraulics.odds import (
    CASE_LIST,
    Delivery,
    Doubt,
    Odds,
    circuit_in,
    delivery,
    label_flow_for,
    needed_heads,
)
from pondapp.core.hydraulics.pump_curve import LabelCurve
from pondapp.core.hydraulics.run import Run, bore_for
from pondapp.core.hydraulics.water import kinematic_viscosity
from pondapp.words import t

# Heights of a first guess: half metres, and about as much in feet.
LIFT_STEPS: Mapping[str, tuple[float, ...]] = {
    "m": (0.0, 0.5, 1.0, 1.5, 2.0, 2.5, 3.0, 4.0),
    "ft": tuple(feet * 0.3048 for feet in (0, 2, 3, 5, 7, 8, 10, 13)),
}
STEP_DOUBT = 0.25  # m; half of the way from one step to the next
MOST_TIMES = 3.0  # a label of more than so many times the wanted flow has too little head
MOST_BOX_HEAD = 50.0  # m; no pump for a pond has more
HEAD_STEP = 0.5  # m; boxes print half and whole metres
HEAD_TIMES, HEAD_MORE = 1.6, 1.0  # of the head that is needed, and metres more


@dataclass(frozen=True, slots=True)
class Way:
    """From the pump up to the outlet, as far as somebody in a shop knows it."""

    lift: float
    """Height [m] of the outlet above the water."""
    bore: float
    """Inner diameter [m] of the hose."""
    length: float
    """Length [m] of the hose."""
    ribbed: bool
    lift_off: float
    """How far the lift may be off either way [m]."""
    lift_assumed: bool
    size: str
    """Printed size of the hose to buy; empty where its bore was typed."""

    @property
    def assumed(self) -> bool:
        """Whether its lift was not chosen or its hose not typed."""
        return self.lift_assumed or bool(self.size)

    def odds(self, given: Delivery) -> Odds:
        """The verdict in a word: no tick while anything is assumed."""
        return "probably" if given.odds == "enough" and self.assumed else given.odds


END = "the hose"
"""The one end of the circuit; its name is never shown."""


def lift_steps(system: str) -> tuple[float, ...]:
    """Lifts [m] to choose from, in the reader's round numbers."""
    return LIFT_STEPS["ft" if units.unit_for("head", system) == "ft" else "m"]


def _to_buy(flow: float, series: str) -> Size:
    """The least hose in which the water stays slow, or the widest there is."""
    try:
        return size_for(series, bore_for(flow, Assumptions().plumbing.velocity_max))
    except NoSolution:
        return sizes(series)[-1]


def way(
    lift: float | None,
    bore: float | None,
    length: float | None,
    ribbed: bool,
    flow: float,
    system: str,
) -> Way:
    """The way of the water; what is not typed is a usual lift, and the hose to buy.

    Args:
        lift: Height [m], or None where it is not chosen.
        bore: Inner diameter [m], or None.
        length: Length [m], or None.
        ribbed: Whether the hose that was typed is ribbed inside.
        flow: Flow [m3/s] that the hose to buy is wide enough for.
        system: The reader's units, which hose is sold by.

    Raises:
        PondError: The flow is outside its range.
    """
    rules = Assumptions()
    up = rules.plumbing.assumed_lift if lift is None else lift
    off = rules.pumps.assumed_lift_doubt
    if lift is not None:
        steps = (step for unit in LIFT_STEPS.values() for step in unit)
        by_step = any(abs(lift - step) < 1e-3 for step in steps)
        off = STEP_DOUBT if by_step else rules.pumps.lift_doubt
    hose = None
    if bore is None:
        metric = units.unit_for("bore", system) == "mm"
        hose = _to_buy(flow, "hose, mm" if metric else "hose, in")
        bore = hose.bore
    usual_length = rules.plumbing.assumed_length + up
    return Way(
        lift=up,
        bore=bore,
        length=usual_length if length is None else length,
        ribbed=ribbed and hose is None,
        lift_off=off,
        lift_assumed=lift is None,
        size=hose.name if hose else "",
    )


def circuit_of(way: Way) -> PipeNetwork:
    """One hose with an open end as a circuit."""
    plumbing = Assumptions().plumbing
    rough = plumbing.smooth_roughness / way.bore
    if way.ribbed:
        rough = plumbing.ribbed_relative_roughness
    run = Run(way.length, way.bore, rough, fittings_loss({"outlet": 1}))
    return PipeNetwork(None, (Outlet(END, run, way.lift),))


class Judge:
    """What labels give on one way at one wanted flow; the cases of the way are worked out once."""

    def __init__(self, way: Way, flow: float) -> None:
        self._rules = Assumptions()
        pumps = self._rules.pumps
        self._viscosity = kinematic_viscosity(self._rules.plumbing.water_temperature)
        circuit = circuit_of(way)
        # A hose that is not typed is the one to buy, so it is no less sure than a typed one.
        doubt = Doubt({END: way.lift_off}, {END: pumps.loss_doubt})
        self._targets = {END: flow}
        self._cases = tuple(circuit_in(circuit, doubt, case) for case in CASE_LIST)
        self._heads = needed_heads(self._cases, self._targets, self._viscosity)
        self.head = duty_for(circuit, self._targets, self._viscosity).head

    def of(self, max_flow: float, max_head: float) -> Delivery:
        """What a pump of this label [m3/s], [m] gives, and how sure that is."""
        return delivery(
            LabelCurve(max_head, max_flow), self._cases, self._heads, self._targets,
            self._viscosity, self._rules.pumps,
        )  # fmt: skip

    def label_flow(self, max_head: float, odds: float) -> float:
        """Least flow [m3/s] on a label of this head [m] that is enough by these odds, or inf."""
        flow, pumps = self._targets[END], self._rules.pumps
        return label_flow_for(flow, self._heads, max_head, odds, pumps)


@dataclass(frozen=True, slots=True)
class BoxNumbers:
    """What to look for on a box, for one flow at the outlet."""

    flow: float
    """Wanted flow [m3/s] up there."""
    head: float
    """Head [m] that lift and hose take at that flow."""
    label_head: float
    """Least head [m] on the box."""
    label_flow: float
    """Least flow [m3/s] on a box of that head to be sure."""
    probable_flow: float
    """Least flow [m3/s] on a box of that head that is probably enough."""


def box_numbers(way: Way, flow: float, system: str) -> BoxNumbers:
    """The label to look for, in round numbers of the reader's units.

    The head is well above what lift and hose take, so that the pump works in the middle of its
    curve, and higher still where not even a large label of that head would be sure.

    Raises:
        PondError: A number is outside its range, or no pump for a pond can do it.
    """
    judge, rules = Judge(way, flow), Assumptions().pumps
    head = _up_to_step(HEAD_TIMES * max(0.0, judge.head) + HEAD_MORE, system)
    sure = inf
    while (
        head <= MOST_BOX_HEAD
        and (sure := judge.label_flow(head, rules.sure_odds)) > MOST_TIMES * flow
    ):
        head = _up_to_step(head + HEAD_STEP, system)
    if head > MOST_BOX_HEAD:
        raise NoSolution(
            "lift and hose take {head} at {flow}, more than any pump for a pond has: take a wider "
            "or shorter hose",
            head=Amount(judge.head, "m"),
            flow=Amount(flow, "m3/s"),
        )
    probable = judge.label_flow(head, rules.probable_odds)
    return BoxNumbers(flow, judge.head, head, _round_up(sure, system), _round_up(probable, system))


def _up_to_step(head: float, system: str) -> float:
    one = units.value_in(1.0, "head", system)
    step = HEAD_STEP if one == 1.0 else 1.0
    return ceil(head * one / step - 1e-9) * step / one


def _round_up(flow: float, system: str) -> float:
    """The next round flow in the reader's units: to two digits, from 1 to 2 by halves."""
    one = units.value_in(1.0, "flow", system)
    decade = 10.0 ** floor(log10(flow * one))
    step = decade / (20.0 if flow * one < 2.0 * decade else 10.0)
    return ceil(flow * one / step - 1e-9) * step / one


def hose_text(way: Way, system: str) -> str:
    """The hose that counts: the one typed, or the one to buy."""
    return t(
        "{length} of {size} hose",
        length=units.show(way.length, "length", system, 2),
        size=way.size or units.show(way.bore, "bore", system, 3),
    )
