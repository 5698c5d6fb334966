"""A pump, its main run and the branches behind it: which flow goes where.

Heads count from the pond's water surface, to which all water returns. Outlets are open: where the
head does not reach an outlet it runs dry, and nothing flows back. The loss of the T-piece is a
fitting of each branch, fixed whatever the split, which keeps every loss growing with its flow: so
there is always one answer and bracketing always finds it.
"""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import inf, pi, ulp

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import NoSolution, OutOfRange, require_within
from pondapp.core.base.messages import Amount, Message, phrase
from pondapp.core.base.working import ARITHMETIC, Source, Step, Term
from pondapp.core.hydraulics.pump_curve import (
    ESTIMATED,
    SPEED,
    PumpCurve,
    SlowedCurve,
)
from pondapp.core.hydraulics.run import (
    MINOR,
    MOST_FLOW,
    MOST_LOSS,
    Run,
    check_viscosity,
    flow_and_slope,
    loss_and_slope,
    velocity_in,
)
from pondapp.core.hydraulics.solve import rising_root, root

_LAST_STEP = 1e-10
"""Last step of a root as a share of it [-]; small, since the balance bends sharply where an end is
hardly wet."""
_ROUNDING = 1e-9
"""Head [m] that is lost in rounding, so that a pump set to be just enough is enough."""

LITTLE_HEAD = 1e-3
"""A head below this is told as this [m]: nobody measures less."""
BALANCE = Source("the same head at a T-piece for all its branches; flows add", "published")


@dataclass(frozen=True, slots=True)
class Outlet:
    """A branch that ends over the pond.

    Attributes:
        key: What it goes by, unlike any other's.
        run: Pipe and fittings from the tee to the end, the exit loss among them.
        lift: Height of its end, or of the water it lets out into, over the pond's [m], -5 to 200.
        valve: Loss coefficient of its valve on the speed in its run [-], 0 to 1e12.
        closed: Whether its valve is shut.
        name: What sentences call it; its key where none is given.
    """

    key: str
    run: Run
    lift: float
    valve: float = 0.0
    closed: bool = False
    name: str = ""

    def __post_init__(self) -> None:
        object.__setattr__(self, "name", self.name or self.key)
        require_within(phrase("lift of {name}", name=self.name), self.lift, -5.0, 200.0, "m")
        require_within(phrase("valve loss of {name}", name=self.name), self.valve, 0.0, 1e12, "-")
        if self.run.length == 0.0 and self.run.fittings + self.valve == 0.0:
            raise OutOfRange(
                "{name} needs a length or a fitting: nothing holds the water back", name=self.name
            )


@dataclass(frozen=True, slots=True)
class PipeNetwork:
    """Everything behind one pump.

    Attributes:
        main: Run from the pump to the tee, or None if the tee sits on the pump.
        branches: What the main run divides into, at least one.
    """

    main: Run | None
    branches: tuple[Outlet, ...]

    def __post_init__(self) -> None:
        if not self.branches:
            raise OutOfRange("the main run leads nowhere: it has no branch")
        for one, other in pairwise(sorted(self.branches, key=lambda branch: branch.key)):
            if one.key == other.key:
                raise OutOfRange("two branches are called {name}", name=one.name)


@dataclass(frozen=True, slots=True)
class BranchFlow:
    """What happens in one branch.

    Attributes:
        branch: The branch.
        flow: Flow [m3/s].
        velocity: Speed of the water [m/s].
        head: Head where the branch starts [m].
        loss: Head lost in its run and valve [m].
    """

    branch: Outlet
    flow: float
    velocity: float
    head: float
    loss: float

    @property
    def key(self) -> str:
        """Key of the branch."""
        return self.branch.key

    @property
    def lift(self) -> float:
        """Height of its end [m]."""
        return self.branch.lift


@dataclass(frozen=True, slots=True)
class OperatingPoint:
    """Where a pump and a circuit settle.

    Attributes:
        flow: Flow of the pump [m3/s].
        head: Head of the pump [m].
        main_loss: Head lost in the main run [m].
        branches: What happens in each branch.
        warnings: Dry outlets, an estimated curve; mostly empty.
        source: Where the pump's curve is from.
    """

    flow: float
    head: float
    main_loss: float
    branches: tuple[BranchFlow, ...]
    warnings: tuple[Message, ...]
    source: Source

    def flow_in(self, key: str) -> float:
        """Flow [m3/s] in a branch by its key.

        Raises:
            OutOfRange: There is no such branch.
        """
        for found in self.branches:
            if found.key == key:
                return found.flow
        raise OutOfRange("there is no branch called {name}", name=key)

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow = Term("Q", "flow of the pump", self.flow, "m3/s")
        head = Term("H", "head of the pump", self.head, "m")
        main = Term("h_m", "loss in the main run", self.main_loss, "m")
        at_tee = Term("H_t", "head at the T-piece", self.head - self.main_loss, "m")
        found = [
            Step(head, "H of the pump's curve at Q", (flow,), self.source),
            Step(at_tee, "H_t = H - h_m", (head, main), ARITHMETIC),
        ]
        for one in self.branches:
            name = one.branch.name
            end = Term("z", phrase("lift of {name}", name=name), one.lift, "m")
            start = Term("H_b", phrase("head at the start of {name}", name=name), one.head, "m")
            result = Term("Q_b", phrase("flow in {name}", name=name), one.flow, "m3/s")
            found.append(Step(result, "h(Q_b) = H_b - z, 0 if below 0", (start, end), BALANCE))
        return tuple(found)


def _drawn(branches: Sequence[Outlet], head: float, nu: float) -> tuple[float, float]:
    """Flow that all branches take from the tee at this head, and its slope; rises with the head."""
    total = slope = 0.0
    for branch in branches:
        if not branch.closed and head > branch.lift:
            flow, rise = flow_and_slope(branch.run, head - branch.lift, nu, branch.valve)
            total += flow
            slope += rise
    return total, slope


def _root_of_head(excess: Callable[[float], tuple[float, float]], low: float, high: float) -> float:
    """Head [m] over the lowest open end at which a balance closes; nearly straight, so quick."""
    span = high - low
    return rising_root(excess, 0.0, span, 0.5 * span, _LAST_STEP, ulp(abs(low) + span))


def _branch_flow(branch: Outlet, head: float, nu: float) -> BranchFlow:
    """What a branch takes from the tee at this head."""
    flow = loss = 0.0
    if not branch.closed and head > branch.lift:
        loss = head - branch.lift
        flow = flow_and_slope(branch.run, loss, nu, branch.valve)[0]
    speed = 4.0 * flow / (pi * branch.run.bore**2)
    return BranchFlow(branch, flow, speed, head, loss)


def _require_open(circuit: PipeNetwork) -> float:
    """Least lift of the open ends, or an error if there is none."""
    low = min((branch.lift for branch in circuit.branches if not branch.closed), default=inf)
    if low == inf:
        raise NoSolution("every valve is closed: the pump runs against a wall; open one")
    return low


def _dry(circuit: PipeNetwork, found: Sequence[BranchFlow]) -> list[Message]:
    """A word for each open end that stays dry."""
    return [
        Message(
            "{name} stays dry: its end is {lift} up, and the head there is only {head}; throttle "
            "the others or lower it",
            {
                "name": outlet.name,
                "lift": Amount(outlet.lift, "m"),
                "head": Amount(max(branch.head, LITTLE_HEAD), "m"),
            },
        )
        for outlet, branch in zip(circuit.branches, found, strict=True)
        if not outlet.closed and branch.flow == 0.0
    ]


def _balance(curve: PumpCurve, circuit: PipeNetwork, low: float, nu: float) -> tuple[float, float]:
    """Flow where the pump's curve meets that of the circuit, and the head at the tee there."""
    main = circuit.main

    def excess(over: float) -> tuple[float, float]:
        flow, rise = _drawn(circuit.branches, low + over, nu)
        need = low + over
        steepness = -curve.slope(flow)
        if main:
            loss, steeper = loss_and_slope(main, flow, nu)
            need += loss
            steepness += steeper
        return need - curve.head_at(flow), 1.0 + steepness * rise

    at_tee = low + _root_of_head(excess, low, curve.head_at(0.0))
    return _drawn(circuit.branches, at_tee, nu)[0], at_tee


def operating_flow(curve: PumpCurve, circuit: PipeNetwork, viscosity: float) -> float:
    """Flow of a pump in a circuit, also where there is no operating point on its known curve.

    Args:
        curve: The pump's curve.
        circuit: Everything behind the pump.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Flow [m3/s]: 0 where the pump cannot lift so high; the end of its known curve where it
        would run beyond that, since it gives at least as much.

    Raises:
        OutOfRange: The viscosity is outside its range.
        NoSolution: All valves are closed.

    Source:
        As operating_point; a falling curve meets a rising one where it is looked for.

    Example:
        A pump of 10 m³/h and 4 m on a fall and a bog:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> round(3.6e6 * operating_flow(pump, circuit, 1.0034e-6), -1)  # L/h
        7760.0
    """
    check_viscosity(viscosity)
    low = _require_open(circuit)
    if curve.head_at(0.0) <= low:
        return 0.0
    return min(curve.most_flow, _balance(curve, circuit, low, viscosity)[0])


def operating_point(curve: PumpCurve, circuit: PipeNetwork, viscosity: float) -> OperatingPoint:
    """Where a pump and a circuit settle, with the flow in each branch.

    Args:
        curve: The pump's curve.
        circuit: Everything behind the pump.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Flows [m3/s] and heads [m]; a warning for each open end that stays dry.

    Raises:
        OutOfRange: The viscosity is outside its range.
        NoSolution: All valves are closed, the pump is too weak for the lift, or it would settle
            beyond the known part of its curve.

    Source:
        One head at the tee for all branches, H_t = z + h(Q_b), and flows that add; the pump's curve
        equals H_t and the loss of the main run. Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any
        textbook of hydraulics. Bracketed roots, so that nothing depends on a first estimate.

    Example:
        A pump of 10 m³/h and 4 m on a fall and a bog:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> point = operating_point(LabelCurve(4.0, 10.0 / 3600), circuit, 1.0034e-6)
        >>> [round(3.6e6 * branch.flow, -1) for branch in point.branches], round(point.head, 2)
        ([4510.0, 3250.0], 1.26)
    """
    check_viscosity(viscosity)
    low = _require_open(circuit)
    shutoff = curve.head_at(0.0)
    if shutoff <= low:
        lowest = min((o for o in circuit.branches if not o.closed), key=lambda outlet: outlet.lift)
        raise NoSolution(
            "this pump is too weak: it lifts water {head} at most, and {name} ends {lift} above "
            "the pond; take a pump that lifts more, or let it end lower",
            head=Amount(shutoff, "m"),
            name=lowest.name,
            lift=Amount(low, "m"),
        )
    flow, at_tee = _balance(curve, circuit, low, viscosity)
    found = tuple(_branch_flow(branch, at_tee, viscosity) for branch in circuit.branches)
    # A root is good to the last bits, so a point on the very end of the curve still counts.
    slack = 1e-9 * curve.most_flow
    if flow > curve.most_flow + slack:
        raise NoSolution(
            "the pump would run at {flow}, beyond the end of its known curve at {end}: throttle a "
            "valve, or add points of the curve",
            flow=Amount(flow, "m3/s"),
            end=Amount(curve.most_flow, "m3/s"),
        )
    if flow < curve.least_flow - slack:
        raise NoSolution(
            "the pump would run at {flow}, before the start of its known curve at {start}: open a "
            "valve, or add points of the curve",
            flow=Amount(flow, "m3/s"),
            start=Amount(curve.least_flow, "m3/s"),
        )
    main_loss = circuit.main.loss(flow, viscosity) if circuit.main else 0.0
    warnings: list[Message] = []
    if any(branch.flow == 0.0 for branch in found):
        warnings += _dry(circuit, found)
    if curve.estimate:
        warnings.append(ESTIMATED)
    return OperatingPoint(flow, at_tee + main_loss, main_loss, found, tuple(warnings), curve.source)


def system_head(circuit: PipeNetwork, flow: float, viscosity: float) -> float:
    """Head that a circuit wants for a total flow, its valves as they are.

    Args:
        circuit: Everything behind the pump.
        flow: Total flow [m3/s], above 0 to 10; at 0 the head of the lowest open end.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Head at the pump [m].

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: All valves are closed, or the flow would need more than 1e4 m of head.

    Source:
        H = H_t + h_m(Q), with one head at the tee for all branches, H_t = z + h(Q_b), and flows
        that add. Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any textbook of hydraulics.

    Example:
        What 6 m³/h through both of them take:

        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> round(system_head(circuit, 6.0 / 3600, 1.0034e-6), 2)
        1.12
    """
    check_viscosity(viscosity)
    require_within("total flow", flow, 0.0, MOST_FLOW, "m3/s")
    low = _require_open(circuit)
    if flow == 0.0:
        return low
    span = 1.0
    while (most := _drawn(circuit.branches, low + span, viscosity)[0]) < flow:
        span *= 4.0
        if low + span > MOST_LOSS:
            raise NoSolution(
                "{flow} does not fit through these branches: open a valve or take a wider hose",
                flow=Amount(flow, "m3/s"),
            )

    def excess(over: float) -> tuple[float, float]:
        # The square of the flow is nearly straight over the head.
        found, rise = _drawn(circuit.branches, low + over, viscosity)
        return found * found - flow * flow, 2.0 * found * rise

    guess = span * (flow / most) ** 2
    over = rising_root(excess, 0.0, span, guess, _LAST_STEP, ulp(abs(low) + span))
    return low + over + (circuit.main.loss(flow, viscosity) if circuit.main else 0.0)


@dataclass(frozen=True, slots=True)
class PumpDuty:
    """What wanted flows ask of a pump.

    Attributes:
        flow: Total flow [m3/s].
        head: Least head at the pump [m]: what the neediest end takes with its valve open.
        neediest: The end that sets the head.
        at_start: Head [m] that each branch would need at its start, by key.
    """

    flow: float
    head: float
    neediest: Outlet
    at_start: Mapping[str, float]


def duty_for(circuit: PipeNetwork, targets: Mapping[str, float], viscosity: float) -> PumpDuty:
    """The least head with which every end gets its wanted flow, the neediest one's valve open.

    Args:
        circuit: Everything behind the pump; its valve settings do not matter.
        targets: Wanted flow of every end by key [m3/s], 0 to 10, one of them above 0.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Total flow [m3/s] and head [m] that the pump must give.

    Raises:
        OutOfRange: A number is outside its range, or an end is missing or unknown.
        NoSolution: No flow is wanted anywhere.

    Source:
        H = max(z + h(Q_b)) + h_m(Q). Darcy-Weisbach, h = (f L / D + ΣK) v² / 2g; any textbook of
        hydraulics.

    Example:
        4 m³/h over the fall and 1 m³/h through the bog:

        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> need = duty_for(circuit, {"fall": 4.0 / 3600, "bog": 1.0 / 3600}, 1.0034e-6)
        >>> round(need.head, 2), need.neediest.key
        (1.21, 'fall')
    """
    check_viscosity(viscosity)
    ends = {branch.key: branch for branch in circuit.branches}
    for key in sorted(ends.keys() ^ set(targets)):
        if key in ends:
            raise OutOfRange("no flow is given for {name}", name=ends[key].name)
        raise OutOfRange("there is no end called {name}", name=key)
    for key, flow in targets.items():
        what = phrase("wanted flow of {name}", name=ends[key].name)
        require_within(what, flow, 0.0, MOST_FLOW, "m3/s")
    at_start = {
        key: branch.lift + branch.run.loss(targets[key], viscosity)
        for key, branch in ends.items()
        if targets[key]
    }
    flow = sum(targets.values())
    if flow == 0.0:
        raise NoSolution("no flow is wanted anywhere")
    require_within("total flow", flow, 0.0, MOST_FLOW, "m3/s")
    neediest = max(at_start, key=lambda key: at_start[key])
    main_loss = circuit.main.loss(flow, viscosity) if circuit.main else 0.0
    return PumpDuty(flow, at_start[neediest] + main_loss, ends[neediest], at_start)


@dataclass(frozen=True, slots=True)
class ValveSetting:
    """How far to shut the valve of one end.

    Attributes:
        branch: The end.
        flow: Its wanted flow [m3/s].
        loss: Loss coefficient its valve must have on the speed in its run [-]; 0 wide open.
        head: Head the valve must take [m].
        velocity: Speed in the run [m/s].
        closed: Whether it is to be shut, since no flow is wanted.
    """

    branch: Outlet
    flow: float
    loss: float
    head: float
    velocity: float
    closed: bool

    @property
    def key(self) -> str:
        """Key of the end."""
        return self.branch.key

    def steps(self) -> tuple[Step, ...]:
        """The working; empty for a shut valve."""
        if self.closed:
            return ()
        name = self.branch.name
        head = Term("h_V", phrase("head the valve of {name} must take", name=name), self.head, "m")
        speed = Term("v", "speed of the water", self.velocity, "m/s")
        gravity = Term("g", "gravity", GRAVITY, "m/s2")
        k = Term("K", phrase("loss coefficient of the valve of {name}", name=name), self.loss, "-")
        return (Step(k, "K = 2 g h_V / v²", (head, speed, gravity), MINOR),)


def valve_settings(
    curve: PumpCurve, circuit: PipeNetwork, targets: Mapping[str, float], viscosity: float
) -> tuple[ValveSetting, ...]:
    """How far to shut the valve of each end so that all get their wanted flow.

    Args:
        curve: The pump's curve.
        circuit: Everything behind the pump; its valve settings do not matter.
        targets: Wanted flow of every end by key [m3/s], 0 to 10.
        viscosity: Kinematic viscosity of the water [m2/s], 1e-7 to 1e-5.

    Returns:
        Loss coefficient [-] for each valve.

    Raises:
        OutOfRange: A number is outside its range, or an end is missing or unknown.
        NoSolution: The pump cannot give the total flow at the head that the neediest end takes.

    Source:
        K = 2 g (H_t - z - h(Q_b)) / v²: what is left over at each end is lost in its valve; any
        textbook of hydraulics.

    Example:
        How much head each valve has to take:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> fall = Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0)
        >>> bog = Outlet("bog", Run(3.0, 0.025, 6e-5, 3.0), 0.3)
        >>> circuit = PipeNetwork(None, (fall, bog))
        >>> pump = LabelCurve(4.0, 10.0 / 3600)
        >>> wanted = {"fall": 4.0 / 3600, "bog": 1.0 / 3600}
        >>> found = valve_settings(pump, circuit, wanted, 1.0034e-6)
        >>> [(valve.key, round(valve.head, 2)) for valve in found]
        [('fall', 1.38), ('bog', 2.18)]
    """
    wanted = duty_for(circuit, targets, viscosity)
    if not curve.least_flow <= wanted.flow <= curve.most_flow:
        raise NoSolution(
            "{flow} is wanted in all; the pump's known curve goes from {start} to {end}",
            flow=Amount(wanted.flow, "m3/s"),
            start=Amount(curve.least_flow, "m3/s"),
            end=Amount(curve.most_flow, "m3/s"),
        )
    given = curve.head_at(wanted.flow)
    if given < wanted.head - _ROUNDING:
        raise NoSolution(
            "the pump is too weak: at {flow} it makes {given}, and {name} takes {need} with its "
            "valve open; {missing} are missing",
            flow=Amount(wanted.flow, "m3/s"),
            given=Amount(given, "m"),
            name=wanted.neediest.name,
            need=Amount(wanted.head, "m"),
            missing=Amount(wanted.head - given, "m"),
        )
    at_tee = given - (circuit.main.loss(wanted.flow, viscosity) if circuit.main else 0.0)
    found: list[ValveSetting] = []
    for branch in circuit.branches:
        flow = targets[branch.key]
        if flow == 0.0:
            found.append(ValveSetting(branch, 0.0, 0.0, 0.0, 0.0, True))
            continue
        left = max(0.0, at_tee - wanted.at_start[branch.key])
        speed = velocity_in(branch.run.bore, flow)
        loss = 2.0 * GRAVITY * left / speed**2
        found.append(ValveSetting(branch, flow, loss, left, speed, False))
    return tuple(found)


@dataclass(frozen=True, slots=True)
class SpeedSetting:
    """The speed at which an adjustable pump just gives the wanted flow.

    Attributes:
        speed: Share of full speed [-].
        flow: Total flow [m3/s].
        head: Head at the pump [m].
    """

    speed: float
    flow: float
    head: float

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow = Term("Q", "wanted flow", self.flow, "m3/s")
        head = Term("H", "head the pipes take", self.head, "m")
        speed = Term("n", "share of full speed", self.speed, "-")
        return (Step(speed, "n² H_full(Q / n) = H", (flow, head), SPEED),)


def speed_for(curve: PumpCurve, flow: float, head: float, slowest: float) -> SpeedSetting:
    """The least speed at which an adjustable pump makes a head at a flow.

    Args:
        curve: Curve at full speed.
        flow: Wanted flow [m3/s], above 0 to 10.
        head: Head that the circuit takes at that flow [m], 0 to 500.
        slowest: Slowest setting as a share of full speed [-], 0.05 to 1.

    Returns:
        Speed as a share of full speed [-]; the slowest setting if even that gives more.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: The pump is too weak at full speed, or the point is off its known curve.

    Source:
        n² H(Q / n) = H_wanted: affinity laws, Q ~ n and H ~ n²; any textbook of pumps; bracketed
        root.

    Example:
        At half its speed a pump of 4 m makes 1 m:

        >>> from pondapp.core.hydraulics.pump_curve import LabelCurve
        >>> round(speed_for(LabelCurve(4.0, 10.0 / 3600), 1e-6, 1.0, 0.3).speed, 2)
        0.5
    """
    require_within("wanted flow", flow, 1e-9, MOST_FLOW, "m3/s")
    require_within("head of the pipes", head, 0.0, 500.0, "m")
    require_within("slowest setting", slowest, 0.05, 1.0, "-")

    def excess(speed: float) -> float:
        return speed * speed * curve.head_at(flow / speed) - head

    if flow > curve.most_flow or excess(1.0) < 0.0:
        raise NoSolution(
            "even at full speed the pump does not give {flow} at {head}",
            flow=Amount(flow, "m3/s"),
            head=Amount(head, "m"),
        )
    speed = slowest if excess(slowest) >= 0.0 else root(excess, slowest, 1.0, 0.0)
    slowed = SlowedCurve(curve, speed)
    if not slowed.least_flow <= flow <= slowed.most_flow * (1.0 + 1e-9):
        raise NoSolution(
            "{flow} at {head} is off the known part of the pump's curve: add points of it",
            flow=Amount(flow, "m3/s"),
            head=Amount(head, "m"),
        )
    return SpeedSetting(speed, flow, head)
