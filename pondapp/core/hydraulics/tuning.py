"""Valves turned one after the other: how they stand, which comes first, what one does to the rest.

All branches start at one tee, so a valve acts on the others only through the head there: what a
branch takes less, the pump pushes a little harder into the rest.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import NoSolution, OutOfRange, require_within
from pondapp.core.base.messages import Amount, phrase
from pondapp.core.base.working import Step, Term
from pondapp.core.hydraulics.network import BALANCE, Outlet, PipeNetwork
from pondapp.core.hydraulics.pump_curve import PumpCurve, SlowedCurve
from pondapp.core.hydraulics.run import (
    MOST_FLOW,
    Run,
    check_viscosity,
    flow_and_slope,
    velocity_in,
)
from pondapp.core.hydraulics.solve import root

_MOST_VALVE = 1e12
_ROUNDING = 1e-9  # m; head that is lost in rounding
_SLOWEST = 0.05  # of full speed


@dataclass(frozen=True, slots=True)
class AsFound:
    """How the valves of a circuit stand, as far as measured flows tell.

    Attributes:
        circuit: The circuit with the loss of each valve [-].
        head: Head at the tee [m].
        flows: Flow of each branch by the model [m3/s]; as measured, but for those beyond.
        beyond: Branches in which more was measured than the model gives with the valve wide open.
    """

    circuit: PipeNetwork
    head: float
    flows: Mapping[str, float]
    beyond: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Turned:
    """A circuit after one valve was turned until its branch had a wanted flow.

    Attributes:
        key: The branch whose valve was turned, by its key.
        circuit: The circuit with that valve as it stands then.
        valve: Loss coefficient of that valve [-].
        flows: Flow of every branch then [m3/s].
        head: Head at the tee then [m].
    """

    key: str
    circuit: PipeNetwork
    valve: float
    flows: Mapping[str, float]
    head: float

    def steps(self) -> tuple[Step, ...]:
        """The working: the head that all share, and what each branch takes at it."""
        head = Term("H_t", "head at the T-piece", self.head, "m")
        return tuple(
            Step(
                Term(
                    "Q_b",
                    phrase("flow in {name}", name=outlet.name),
                    self.flows[outlet.key],
                    "m3/s",
                ),
                "h(Q_b) = H_t - z, 0 if below 0",
                (head, Term("z", phrase("lift of {name}", name=outlet.name), outlet.lift, "m")),
                BALANCE,
            )
            for outlet in self.circuit.branches
        )


@dataclass(frozen=True, slots=True)
class Turn:
    """One valve in the order in which to set them.

    Attributes:
        branch: The branch.
        before: Its flow [m3/s] when its turn comes, its own valve still wide open.
        wanted: Its wanted flow [m3/s].
        after: Its flow [m3/s] once all valves were set one time.
    """

    branch: Outlet
    before: float
    wanted: float
    after: float

    @property
    def key(self) -> str:
        """Key of the branch."""
        return self.branch.key

    @property
    def throttles(self) -> bool:
        """Whether its valve has anything to take away."""
        return self.before > self.wanted


def _loss(main: Run | None, flow: float, nu: float) -> float:
    return main.loss(flow, nu) if main else 0.0


def _drawn(outlet: Outlet, head: float, nu: float) -> float:
    if outlet.closed:
        return 0.0
    return flow_and_slope(outlet.run, head - outlet.lift, nu, outlet.valve)[0]


def _head_at_tee(
    curve: PumpCurve, main: Run | None, free: Sequence[Outlet], fixed: float, nu: float
) -> float:
    """Head at the tee where the pump gives just what some ends draw besides a fixed flow."""
    top = curve.head_at(fixed) - _loss(main, fixed, nu)
    low = min((outlet.lift for outlet in free if not outlet.closed), default=top)
    if top <= low:
        return top  # the free ends stay dry, or there are none

    def excess(head: float) -> float:
        total = fixed + sum(_drawn(outlet, head, nu) for outlet in free)
        return curve.head_at(total) - _loss(main, total, nu) - head

    return root(excess, low, top, 1e-9)


def _valve(outlet: Outlet, flow: float, head: float, nu: float) -> float:
    """Loss coefficient with which a branch takes this flow at this head; below 0 if none does."""
    speed = velocity_in(outlet.run.bore, flow)
    spare = head - outlet.lift - outlet.run.loss(flow, nu)
    if -_ROUNDING < spare < 0.0:
        return 0.0
    return min(_MOST_VALVE, 2.0 * GRAVITY * spare / speed**2)


def _with(circuit: PipeNetwork, outlets: Iterable[Outlet]) -> PipeNetwork:
    return PipeNetwork(circuit.main, tuple(outlets))


def _require_keys(outlets: Sequence[Outlet], flows: Mapping[str, float], what: str) -> None:
    names = {outlet.key: outlet.name for outlet in outlets}
    for key, flow in flows.items():
        if key not in names:
            raise OutOfRange("there is no end called {name}", name=key)
        require_within(
            phrase("{what} of {name}", what=what, name=names[key]), flow, 0.0, MOST_FLOW, "m3/s"
        )


def as_found(
    curve: PumpCurve, circuit: PipeNetwork, measured: Mapping[str, float], viscosity: float
) -> AsFound:
    """How the valves stand, from the flows that were measured behind them.

    A branch that was not measured keeps the valve that it has in the circuit.

    Args:
        curve: The pump's curve.
        circuit: Main run and branches.
        measured: Measured flow by branch [m3/s], 0 to 10; 0 for one that is shut.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Loss coefficient of each valve [-] and the head at the tee [m]. What the model does not
        know of the circuit or the pump is put down to the valves.

    Raises:
        OutOfRange: A number is outside its range, or a key is unknown.

    Source:
        One head at the tee for all branches, H_t = z + h(Q_b), and flows that add; K = 2 g (H_t - z
        - h(Q_b)) / v². Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any textbook of hydraulics;
        bracketed root.

    Example:
        Less comes out of the bog than with its valve open, so that is partly shut:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> found = as_found(pump, circuit, {"fall": 5.0 / 3600, "bog": 1.0 / 3600}, 1.0034e-6)
        >>> [round(branch.valve, 1) for branch in found.circuit.branches]
        [13.2, 106.4]
    """
    check_viscosity(viscosity)
    outlets = circuit.branches
    _require_keys(outlets, measured, "measured flow")
    free = [outlet for outlet in outlets if outlet.key not in measured]
    head = _head_at_tee(curve, circuit.main, free, sum(measured.values()), viscosity)
    found: list[Outlet] = []
    beyond: list[str] = []
    for outlet in outlets:
        flow = measured.get(outlet.key)
        if flow is None:
            found.append(outlet)
        elif flow == 0.0:
            found.append(replace(outlet, closed=True))
        else:
            valve = _valve(outlet, flow, head, viscosity)
            if valve < 0.0:
                beyond.append(outlet.key)
            found.append(replace(outlet, valve=max(0.0, valve), closed=False))
    if beyond:
        head = _head_at_tee(curve, circuit.main, found, 0.0, viscosity)
    flows = {outlet.key: _drawn(outlet, head, viscosity) for outlet in found}
    return AsFound(_with(circuit, found), head, flows, tuple(beyond))


def least_speed(
    curve: PumpCurve, circuit: PipeNetwork, measured: Mapping[str, float], viscosity: float
) -> float:
    """The slowest that the pump can be and still give the measured flows.

    Flows alone do not tell a strong pump behind half shut valves from a weak one behind open
    valves. The pump as entered is one end of what may be; this is the other, where the neediest of
    the measured branches has its valve wide open.

    Args:
        curve: The pump's curve.
        circuit: Main run and branches.
        measured: Measured flow by branch [m3/s], 0 to 10, at least one above 0.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Share of the pump's speed [-]; 1 where even the whole pump is not enough.

    Raises:
        OutOfRange: A number is outside its range, or a key is unknown.
        NoSolution: No flow was measured.

    Source:
        n² H(Q / n) = max(z + h(Q_b)) + h_m(Q): affinity laws, Q ~ n and H ~ n²; any textbook of
        pumps.

    Example:
        >>> measured = {"fall": 4.0 / 3600, "bog": 1.0 / 3600}
        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> round(least_speed(pump, circuit, measured, 1.0034e-6), 2)
        0.78
    """
    check_viscosity(viscosity)
    outlets = circuit.branches
    _require_keys(outlets, measured, "measured flow")
    needs = [
        outlet.lift + outlet.run.loss(flow, viscosity)
        for outlet in outlets
        if (flow := measured.get(outlet.key, 0.0))
    ]
    if not needs:
        raise NoSolution("no flow was measured")
    head = max(needs)
    free = [outlet for outlet in outlets if outlet.key not in measured]
    total = sum(measured.values()) + sum(_drawn(outlet, head, viscosity) for outlet in free)
    wanted = head + _loss(circuit.main, total, viscosity)

    def excess(speed: float) -> float:
        return SlowedCurve(curve, speed).head_at(total) - wanted

    if excess(1.0) <= 0.0 or excess(_SLOWEST) >= 0.0:
        return 1.0
    return root(excess, _SLOWEST, 1.0, 0.0)


def turned(
    curve: PumpCurve, circuit: PipeNetwork, key: str, wanted: float, viscosity: float
) -> Turned:
    """What all branches carry once one valve is turned until its branch has a wanted flow.

    Args:
        curve: The pump's curve.
        circuit: Main run and branches, valves as they stand.
        key: The branch whose valve is turned, by its key.
        wanted: Its wanted flow [m3/s], above 0 to 10.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Loss coefficient of the valve [-] and all flows [m3/s].

    Raises:
        OutOfRange: A number is outside its range, or there is no such branch.
        NoSolution: The branch does not get so much even with its valve wide open.

    Source:
        One head at the tee for all branches, H_t = z + h(Q_b), and flows that add. Darcy-Weisbach,
        h = (f L / D + ΣK) v² / 2g; any textbook of hydraulics; bracketed root.

    Example:
        What the fall gains when the bog is throttled to 1 m³/h:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> found = turned(pump, circuit, "bog", 1.0 / 3600, 1.0034e-6)
        >>> {key: round(3.6e6 * flow, -1) for key, flow in found.flows.items()}  # L/h
        {'fall': 6310.0, 'bog': 1000.0}
    """
    check_viscosity(viscosity)
    outlets = circuit.branches
    _require_keys(outlets, {key: wanted}, "wanted flow")
    mine = next(outlet for outlet in outlets if outlet.key == key)
    what = phrase("wanted flow of {name}", name=mine.name)
    require_within(what, wanted, 1e-9, MOST_FLOW, "m3/s")
    others = [outlet for outlet in outlets if outlet is not mine]
    head = _head_at_tee(curve, circuit.main, others, wanted, viscosity)
    valve = _valve(mine, wanted, head, viscosity)
    if valve < 0.0:
        wide = [replace(o, valve=0.0, closed=False) if o is mine else o for o in outlets]
        most = _head_at_tee(curve, circuit.main, wide, 0.0, viscosity)
        raise NoSolution(
            "even with its valve wide open {name} gets only {most}: close another branch a little",
            name=mine.name,
            most=Amount(_drawn(replace(mine, valve=0.0, closed=False), most, viscosity), "m3/s"),
        )
    after = [replace(o, valve=valve, closed=False) if o is mine else o for o in outlets]
    flows = {outlet.key: _drawn(outlet, head, viscosity) for outlet in after}
    flows[key] = wanted
    return Turned(key, _with(circuit, after), valve, flows, head)


def order_of_setting(
    curve: PumpCurve, circuit: PipeNetwork, wanted: Mapping[str, float], viscosity: float
) -> tuple[Turn, ...]:
    """In which order to set the valves, and how far the first ones drift while the last are set.

    The branch that takes most beyond its demand comes first, since it keeps the most from the
    others; the one that is left at the end needs its valve wide open, or is short of water.

    Args:
        curve: The pump's curve.
        circuit: Main run and branches; all valves count as open.
        wanted: Wanted flow by branch [m3/s], 0 to 10; one that is not given, or wants 0, is shut.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Each branch that wants water, in order, with its flows [m3/s].

    Raises:
        OutOfRange: A number is outside its range, or a key is unknown.

    Source:
        Each valve set in turn to its demand with the model of as_found; the order is this project's
        own: the largest excess first.

    Example:
        The branch that takes most beyond its demand comes first:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> wanted = {"fall": 4.5 / 3600, "bog": 1.0 / 3600}
        >>> [turn.key for turn in order_of_setting(pump, circuit, wanted, 1.0034e-6)]
        ['bog', 'fall']
    """
    check_viscosity(viscosity)
    outlets = circuit.branches
    _require_keys(outlets, wanted, "wanted flow")
    state = {
        outlet.key: replace(outlet, valve=0.0, closed=not wanted.get(outlet.key))
        for outlet in outlets
    }
    waiting = [key for key, outlet in state.items() if not outlet.closed]
    done: list[tuple[str, float]] = []
    while waiting:
        head = _head_at_tee(curve, circuit.main, tuple(state.values()), 0.0, viscosity)
        flows = {key: _drawn(state[key], head, viscosity) for key in waiting}
        first = max(waiting, key=lambda key: flows[key] / wanted[key])
        waiting.remove(first)
        done.append((first, flows[first]))
        if flows[first] > wanted[first]:
            now = _with(circuit, state.values())
            after = turned(curve, now, first, wanted[first], viscosity).circuit
            state = {outlet.key: outlet for outlet in after.branches}
    head = _head_at_tee(curve, circuit.main, tuple(state.values()), 0.0, viscosity)
    return tuple(
        Turn(state[key], before, wanted[key], _drawn(state[key], head, viscosity))
        for key, before in done
    )
