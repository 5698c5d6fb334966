"""A circuit at one time, with what is not known of it: all flows, and how each unknown moves them.

The flows are those of network.operating_point. Their slopes come from the balance itself: where
an unknown moves the balance, the head at the tee follows until pump and branches agree again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from math import exp, log, pi, ulp

from pondapp.core.base.constants import GRAVITY
from pondapp.core.base.errors import NoSolution
from pondapp.core.calibration.fit import Row
from pondapp.core.calibration.learned import LEAST_BEND, MOST_BEND, Learned, scaled_run
from pondapp.core.hydraulics.network import Outlet
from pondapp.core.hydraulics.odds import MAIN
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve, ScaledCurve
from pondapp.core.hydraulics.run import Run, flow_and_slope, loss_and_slope
from pondapp.core.hydraulics.solve import rising_root

Sum = tuple[tuple[int, float], ...]
"""Unknowns by their place, each with the times that it counts."""

MOST_TIMES = 100.0
"""Times that a loss, or what a pump gives, may be what was entered, or that part of it: beyond,
nothing of it is left."""
MOST_VALVE = 1e9
"""Loss coefficient of a valve, at most: hardly a drop passes."""
_LOW_BEND, _HIGH_BEND = 0.4, 1.0  # from there on it nears its limit ever more slowly
_LAST_STEP = 1e-10
_TWO_G = 2.0 * GRAVITY


@dataclass(frozen=True, slots=True)
class Unknown:
    """Something that is known only so far.

    Attributes:
        key: What it goes by.
        mean: What was entered, or what is usual.
        deviation: Standard deviation of that, above 0.
        open: Whether nothing was entered, so that no reading can be against it.
    """

    key: str
    mean: float
    deviation: float
    open: bool = False


@dataclass(frozen=True, slots=True)
class End:
    """A branch at one time.

    Attributes:
        outlet: As entered, with the loss of its valve where that is known.
        loss: What the logarithm of its loss over that of its pipe is the sum of.
        lift: What its height over what was entered is the sum of [m].
        valve: What the logarithm of its valve's loss is the sum of; empty where it is known.
    """

    outlet: Outlet
    loss: Sum = ()
    lift: Sum = ()
    valve: Sum = ()


@dataclass(frozen=True, slots=True)
class Scene:
    """A pump and all behind it at one time.

    Attributes:
        curve: The pump's curve as entered.
        flow: What the logarithm of its flow over that of the curve is the sum of.
        head: What the logarithm of its head is the sum of.
        bend: Place of the bend among the unknowns; None where it is known.
        main: The main run, if there is one.
        main_loss: What the logarithm of its loss is the sum of.
        ends: The branches.
        viscosity: Kinematic viscosity of the water [m2/s].
    """

    curve: PumpCurve
    flow: Sum
    head: Sum
    bend: int | None
    main: Run | None
    main_loss: Sum
    ends: tuple[End, ...]
    viscosity: float


@dataclass(frozen=True, slots=True)
class Moved:
    """A flow and how it moves with each unknown.

    Attributes:
        flow: Flow [m3/s].
        row: Its slope over each unknown, by place.
        lack: Of a dry branch, what would run back through it by the head that it lacks [m3/s].
        lack_row: The same for that.
    """

    flow: float
    row: Row
    lack: float = 0.0
    lack_row: Row = field(default_factory=dict)


def _sum(parts: Sum, values: Sequence[float]) -> float:
    return sum(times * values[place] for place, times in parts)


def _times(parts: Sum, values: Sequence[float], most: float = MOST_TIMES) -> float:
    """What a logarithm stands for, kept to what the parts of a circuit can be."""
    return min(max(exp(_sum(parts, values)), 1.0 / most), most)


def _add(row: dict[int, float], parts: Sum, slope: float) -> None:
    for place, times in parts:
        row[place] = row.get(place, 0.0) + slope * times


def learned_at(scene: Scene, values: Sequence[float]) -> Learned:
    """What a scene makes of the unknowns, as a value for others.

    Args:
        scene: The scene.
        values: Value of each unknown, as its own kind is counted [-].

    Returns:
        Factors [-], lifts [m] and valves [-].

    Raises:
        OutOfRange: A factor is outside its range.

    Source:
        Definition.

    Example:
        >>> end = End(Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0), lift=((0, 1.0),))
        >>> scene = Scene(LabelCurve(4.0, 2e-3), (), (), None, None, (), (end,), 1e-6)
        >>> learned_at(scene, [0.1]).lifts["fall"]
        0.1
    """
    losses = {one.outlet.key: _times(one.loss, values) for one in scene.ends}
    if scene.main is not None:
        losses[MAIN] = _times(scene.main_loss, values)
    return Learned(
        losses,
        {one.outlet.key: _sum(one.lift, values) for one in scene.ends},
        {
            one.outlet.key: _times(one.valve, values, MOST_VALVE) if one.valve else one.outlet.valve
            for one in scene.ends
        },
        _times(scene.flow, values),
        _times(scene.head, values),
        None if scene.bend is None else _bend(values[scene.bend]),
    )


def _bend(value: float) -> float:
    """A bend that never gets to its limits, so that a fit never stands at one with no slope."""
    if value < LEAST_BEND + _LOW_BEND:
        return LEAST_BEND + _LOW_BEND * exp((value - LEAST_BEND) / _LOW_BEND - 1.0)
    if value > MOST_BEND - _HIGH_BEND:
        return MOST_BEND - _HIGH_BEND * exp((MOST_BEND - value) / _HIGH_BEND - 1.0)
    return value


def _curve(scene: Scene, values: Sequence[float]) -> ScaledCurve:
    curve = scene.curve
    if scene.bend is not None and isinstance(curve, LabelCurve):
        curve = replace(curve, bend=_bend(values[scene.bend]))
    return ScaledCurve(curve, _times(scene.flow, values), _times(scene.head, values))


def _end(one: End, values: Sequence[float]) -> Outlet:
    outlet = one.outlet
    return replace(
        outlet,
        run=scaled_run(outlet.run, _times(one.loss, values)),
        lift=outlet.lift + _sum(one.lift, values),
        valve=_times(one.valve, values, MOST_VALVE) if one.valve else outlet.valve,
    )


def moved_flows(
    scene: Scene, values: Sequence[float], fixed: float = 0.0
) -> tuple[tuple[Moved, ...], Moved]:
    """The flow of every branch, that of the pump, and how the unknowns move them.

    Args:
        scene: The scene.
        values: Value of each unknown, as its own kind is counted [-].
        fixed: A flow that is drawn at the tee besides, whatever the head there [m3/s], 0 to 10.

    Returns:
        Flows [m3/s] and their slopes [m3/s]; nothing flows where the pump does not lift so high.

    Raises:
        OutOfRange: An unknown takes a part outside its range.
        NoSolution: No balance was found.

    Source:
        One head at the tee for all branches, H_t = z + h(Q_b), and flows that add; any textbook of
        hydraulics. Slopes by the implicit function theorem, dH_t/dθ = (H' Σ∂Q_b/∂θ + ∂H/∂θ) / (1 -
        H' ΣdQ_b/dH_t), with H the pump's head less the loss of the main run.

    Example:
        How the flow changes with a lift that is not known:

        >>> end = End(Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0), lift=((0, 1.0),))
        >>> scene = Scene(LabelCurve(4.0, 2e-3), (), (), None, None, (), (end,), 1e-6)
        >>> (fall,), _ = moved_flows(scene, [0.0])
        >>> round(1e3 * fall.flow, 3), round(1e3 * fall.row[0], 3)  # L/s, L/s per m
        (1.51, -0.324)
    """
    nu = scene.viscosity
    curve = _curve(scene, values)
    main = scene.main and scaled_run(scene.main, _times(scene.main_loss, values))
    ends = [_end(one, values) for one in scene.ends]
    open_ends = [one for one in ends if not one.closed]
    low = min((one.lift for one in open_ends), default=0.0)
    start = curve.head_at(fixed) - (main.loss(fixed, nu) if main else 0.0)

    def excess(over: float) -> tuple[float, float]:
        head = low + over
        total, rise = fixed, 0.0
        for one in open_ends:
            if head > one.lift:
                flow, slope = flow_and_slope(one.run, head - one.lift, nu, one.valve)
                total += flow
                rise += slope
        need, steepness = head, -curve.slope(total)
        if main:
            loss, steeper = loss_and_slope(main, total, nu)
            need += loss
            steepness += steeper
        return need - curve.head_at(total), 1.0 + steepness * rise

    span = start - low
    if span <= 0.0 or not open_ends:
        return _slopes(scene, curve, main, ends, start, fixed)
    over = rising_root(excess, 0.0, span, 0.5 * span, _LAST_STEP, ulp(abs(low) + span))
    return _slopes(scene, curve, main, ends, low + over, fixed)


def _slopes(
    scene: Scene,
    curve: ScaledCurve,
    main: Run | None,
    ends: Sequence[Outlet],
    head: float,
    fixed: float,
) -> tuple[tuple[Moved, ...], Moved]:
    """Flows and slopes at the head where all agree."""
    nu = scene.viscosity
    rows: list[dict[int, float]] = []
    flows: list[float] = []
    rises: list[float] = []
    sums: dict[int, float] = {}  # how the flow of all branches moves while the head stays
    for one, end in zip(scene.ends, ends, strict=True):
        row: dict[int, float] = {}
        flow = rise = 0.0
        if not end.closed and head > end.lift:
            flow, rise = flow_and_slope(end.run, head - end.lift, nu, end.valve)
            speed = flow / (0.25 * pi * end.run.bore**2)
            at_valve = end.valve * speed * speed / _TWO_G
            _add(row, one.lift, -rise)
            _add(row, one.loss, -rise * (head - end.lift - at_valve))
            _add(row, one.valve, -rise * at_valve)
        for place, slope in row.items():
            sums[place] = sums.get(place, 0.0) + slope
        rows.append(row)
        flows.append(flow)
        rises.append(rise)
    total = fixed + sum(flows)
    made, steepness = curve.head_at(total), curve.slope(total)
    pushes: dict[int, float] = {}  # how the head at the tee moves while the flow stays
    _add(pushes, scene.flow, -total * steepness)
    _add(pushes, scene.head, made)
    if scene.bend is not None and isinstance(curve.full, LabelCurve):
        pushes[scene.bend] = _bent(curve, curve.full, total)
    if main:
        loss, steeper = loss_and_slope(main, total, nu)
        _add(pushes, scene.main_loss, -loss)
        steepness -= steeper
    rise_of_all = sum(rises)
    heads = {
        place: (steepness * sums.get(place, 0.0) + pushes.get(place, 0.0))
        / (1.0 - steepness * rise_of_all)
        for place in sums.keys() | pushes.keys()
    }
    whole: dict[int, float] = {
        place: sums.get(place, 0.0) + rise_of_all * up for place, up in heads.items()
    }
    moved = []
    for one, end, flow, rise, row in zip(scene.ends, ends, flows, rises, rows, strict=True):
        if rise:
            for place, up in heads.items():
                row[place] = row.get(place, 0.0) + rise * up
        moved.append(Moved(flow, row) if rise else _lacking(one, end, head, heads, nu))
    return tuple(moved), Moved(total, whole)


def _lacking(one: End, end: Outlet, head: float, heads: Row, nu: float) -> Moved:
    """A dry branch, and how far from running it is: a fit that sees only 0 finds no way out."""
    if end.closed or head >= end.lift:
        return Moved(0.0, {})
    lack, rise = flow_and_slope(end.run, end.lift - head, nu, end.valve)
    row: dict[int, float] = {}
    _add(row, one.lift, rise)
    for place, up in heads.items():
        row[place] = row.get(place, 0.0) - rise * up
    return Moved(0.0, {}, lack, row)


def has_head(scene: Scene, values: Sequence[float]) -> bool:
    """Whether a curve has head enough left at the flow of now for a share of it to say something.

    Args:
        scene: The scene.
        values: Value of each unknown, as its own kind is counted [-].

    Returns:
        Whether it has a tenth of what it has with no flow: nearer its end little flow is much head.

    Raises:
        NoSolution: No balance was found.

    Source:
        The tenth is our own rule of thumb.

    Example:
        >>> end = End(Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0))
        >>> has_head(Scene(LabelCurve(4.0, 2e-3), (), (), None, None, (), (end,), 1e-6), [])
        True
    """
    flow = moved_flows(scene, values)[1].flow
    return flow > 0.0 and scene.curve.head_at(flow) > 0.1 * scene.curve.head_at(0.0)


def moved_head(scene: Scene, values: Sequence[float]) -> tuple[float, Row]:
    """Head of the pump over what its curve says at the flow that it gives.

    Args:
        scene: The scene.
        values: Value of each unknown, as its own kind is counted [-].

    Returns:
        The ratio [-], and the slope of its logarithm over what is unknown of the pump.

    Raises:
        NoSolution: The pump gives no flow, or its curve is at its end there.

    Source:
        Definition.

    Example:
        A pump of nine tenths of its head:

        >>> end = End(Outlet("fall", Run(4.0, 0.040, 4e-5, 3.0), 1.0))
        >>> scene = Scene(LabelCurve(4.0, 2e-3), (), ((0, 1.0),), None, None, (), (end,), 1e-6)
        >>> round(moved_head(scene, [log(0.9)])[0], 3)
        0.9
    """
    flow = moved_flows(scene, values)[1].flow
    curve = _curve(scene, values)
    made, said = curve.head_at(flow), scene.curve.head_at(flow)
    if not (flow > 0.0 and made > 0.0 and said > 0.0):
        raise NoSolution("the readings say more than the curve of this pump holds")
    row: dict[int, float] = {}
    _add(row, scene.flow, -flow * curve.slope(flow) / made)
    _add(row, scene.head, 1.0)
    if scene.bend is not None and isinstance(curve.full, LabelCurve):
        row[scene.bend] = _bent(curve, curve.full, flow) / made
    return made / said, row


def _bent(curve: ScaledCurve, label: LabelCurve, flow: float) -> float:
    """Slope of the head over the bend of a label's curve."""
    share = flow / (curve.flow * label.max_flow)
    if share <= 0.0:
        return 0.0
    bent: float = share**label.bend * log(share)
    near = min(1.0, (label.bend - LEAST_BEND) / _LOW_BEND, (MOST_BEND - label.bend) / _HIGH_BEND)
    return -curve.head * label.max_head * bent * near
