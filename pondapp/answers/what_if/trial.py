"""A pond as it is saved and as it is tried, both worked out in one way."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property

from pondapp.answers.care.due import flow_stands
from pondapp.answers.care.severity import Severity
from pondapp.answers.features.targets import FlowBand
from pondapp.answers.fish.stock import Stock, stock
from pondapp.answers.log.log import until
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.picture.states import PlaceState, feeds_life
from pondapp.answers.planning.on_branch import passed
from pondapp.answers.plumbing.network import LineNetwork, doubt_of
from pondapp.answers.plumbing.path import feature_of, pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import curve_of
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.tuning.flow_sets import newest_at
from pondapp.answers.waterfall.water_sheet import Sheet, sheet_of
from pondapp.answers.what_if.changes import NOTHING, Changes, with_changes
from pondapp.core.base.errors import NoSolution, PondError
from pondapp.core.base.messages import Message
from pondapp.core.calibration.learned import NOTHING as NOTHING_LEARNED
from pondapp.core.calibration.learned import Learned, learned_curve
from pondapp.core.hydraulics.clogging import clogged_branch, clogged_pump
from pondapp.core.hydraulics.energy import costs
from pondapp.core.hydraulics.network import (
    Outlet,
    PipeNetwork,
    operating_flow,
    operating_point,
)
from pondapp.core.hydraulics.odds import Case, circuit_in, curve_in
from pondapp.core.hydraulics.pump_curve import PumpCurve, at_speed, power_at_speed
from pondapp.core.hydraulics.tuning import as_found
from pondapp.core.hydraulics.valve_response import opening_for, valve_loss
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import decide
from pondapp.models.circuit import Branch, Line, Lip, Pump
from pondapp.models.reading import Reading

WEAKEST = Case(bend=0.0, strength=0.0, wear=0.0, lift=1.0, loss=1.0)
STRONGEST = Case(bend=1.0, strength=1.0, wear=0.0, lift=0.0, loss=0.0)
CASES = (None, WEAKEST, STRONGEST)
"""The two ends of what a pump and its hoses may be, by label, print and what was entered."""
SHUT = 0.0
DECIDED: Mapping[str, tuple[Severity, str]] = {
    "below": ("wrong", "Too little"),
    "above": ("wrong", "Too much"),
}
"""What can be told of a calculated flow for sure: never that it is right, nobody has seen it."""
LIKELY: Mapping[str, str] = {
    "within": "Likely right",
    "below": "Likely too little",
    "above": "Likely too much",
    "undecided": "Could go either way",
}
"""Where it lies by its chances alone."""
NOTHING_WANTED: tuple[Severity, str] = ("unknown", "Calculated")
RESTS: tuple[Severity, str] = ("unknown", "At rest")


@dataclass(frozen=True, slots=True)
class CalculatedFlow:
    """A flow as the circuit gives it, and how far it may be off."""

    flow: float
    low: float
    high: float

    @property
    def spread(self) -> Spread:
        """What is known of it: anything between its ends."""
        half = max(self.high - self.flow, self.flow - self.low)
        return Spread(self.flow, tolerance=half)


@dataclass(frozen=True, slots=True)
class LineState:
    """A pump and what it gives.

    Attributes:
        line: Its line.
        pump: The pump; None while none is chosen.
        speed: Share of its full speed [-].
        flow: What it gives; None where that cannot be told.
        head: Its head [m].
        power: What it takes from the mains [W]; None while its watts are not entered.
        per_year: What that costs in a year, in the owner's currency.
        network: The circuit behind it.
        reasons: Why a flow cannot be told, or which ends stay dry.
    """

    line: Line
    pump: Pump | None
    speed: float
    flow: CalculatedFlow | None
    head: float | None
    power: float | None
    per_year: float | None
    network: LineNetwork | None
    reasons: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class TriedState:
    """Everything about a pond in one state.

    Attributes:
        worked: The pond in that state.
        lines: Each pump.
        branches: The flow of each branch, by its id; none where it cannot be told.
        sheets: The water over each lip that has any, by the lip's id.
        places: How each part of the picture is, by its id.
        stock: Fish, filter and oxygen; None without fish, or where that cannot be reckoned.
        opened: How far each valve is open, as a share of its handle's way, by branch.
    """

    worked: WorkedPond
    lines: tuple[LineState, ...]
    branches: Mapping[str, CalculatedFlow]
    sheets: Mapping[str, Sheet]
    places: Mapping[str, PlaceState]
    stock: Stock | None
    opened: Mapping[str, float]

    @property
    def flows(self) -> dict[str, float]:
        """The flow of each branch [m3/s], by id."""
        return {key: one.flow for key, one in self.branches.items()}

    @property
    def power(self) -> float | None:
        """Watts of all pumps; None unless all are known."""
        return _whole(line.power for line in self.lines)

    @property
    def per_year(self) -> float | None:
        """Money of all pumps in a year; None unless all are known."""
        return _whole(line.per_year for line in self.lines)

    def flow_at(self, key: str) -> CalculatedFlow | None:
        """The flow at a pump, a branch or a feature; None where it cannot be told."""
        for line in self.lines:
            if line.line.id == key:
                return line.flow
            for branch in line.line.branches:
                if key == branch.id or key in branch.feeds:
                    return self.branches.get(branch.id)
        return None


def _whole(amounts: Iterator[float | None]) -> float | None:
    found = list(amounts)
    known = [one for one in found if one is not None]
    return sum(known) if known and len(known) == len(found) else None


@dataclass(frozen=True, slots=True)
class _Valve:
    """How a valve stands: its loss on the speed in the hose that it was fitted to."""

    loss: float
    closed: bool
    bore: float


@dataclass(frozen=True, eq=False)
class Trial:
    """A saved pond on which changes are tried; `now` is the one without any."""

    worked: WorkedPond
    measured: Mapping[str, CalculatedFlow] = field(default_factory=dict)
    """The newest flow of each branch that was measured lately, by its id: the valves stand so that
    it flows. Without it, a valve stands as the plan sets it."""

    @cached_property
    def now(self) -> TriedState:
        """The pond as it is saved, its valves as they stand.

        Raises:
            PondError: The pond's shape or a changed rule cannot be; the message says why.
        """
        return self.state(NOTHING)

    @cached_property
    def _speeds(self) -> Mapping[str, float]:
        """The share of its full speed at which the plan has each pump run."""
        found: dict[str, float] = {}
        for line in self.worked.lines:
            pump, network = pump_of(self.worked.pond, line), self._network(self.worked, line)
            known = pump is not None and network is not None and curve_of(pump) is not None
            if pump is not None and network is not None and known and pump.adjustable:
                (answer,) = answers_for(network, (pump,))
                found[line.id] = answer.speed
        return found

    @cached_property
    def _stands(self) -> tuple[Mapping[str, _Valve], ...]:
        """The valve of each branch, for each of the cases.

        A valve takes what it must for its branch to have the flow that was measured or planned
        there; where even that is less, it is wide open. So what is not known of pump and hoses
        is in doubt only as far as it tells on what is changed.
        """
        return tuple(dict(self._valves(case)) for case in CASES)

    def _valves(self, case: Case | None) -> Iterator[tuple[str, _Valve]]:
        planned = self.worked.planned.flows
        for line in self.worked.lines:
            pump, network = pump_of(self.worked.pond, line), self._network(self.worked, line)
            if network is None:
                continue
            plain = curve_of(pump) if pump else None
            circuit = _in_case(network.circuit, network, case)
            set_to = {one.id: planned[one.id] for one in line.branches if one.valve != "none"}
            set_to |= {one.id: self.measured[one.id].flow for one in line.branches
                       if one.id in self.measured}  # fmt: skip
            if plain is not None and set_to:
                learned = self.worked.learned_of(line)
                curve = _curve(plain, network, case, self.speed(line.id), learned)
                circuit = as_found(curve, circuit, set_to, network.viscosity).circuit
            for outlet in circuit.branches:
                yield outlet.key, _Valve(outlet.valve, outlet.closed, outlet.run.bore)

    def _network(self, worked: WorkedPond, line: Line) -> LineNetwork | None:
        """The circuit behind a line; none while no flow is planned there."""
        flows = self.worked.planned.flows
        if sum(flows.get(branch.id, 0.0) for branch in line.branches) <= 0.0:
            flows = {**flows, **{branch.id: 1e-6 for branch in line.branches}}
        try:
            return worked.network(line, flows)
        except NoSolution:
            return None

    def speed(self, line_id: str) -> float:
        """The share of its full speed at which the plan has a pump run."""
        return self._speeds.get(line_id, 1.0)

    def opening(self, branch: Branch, changes: Changes) -> float:
        """How far the valve of a branch is open, as a share of its handle's way; 0 is shut."""
        tried = changes.number("opened", branch.id)
        if tried is not None:
            return tried
        valve = self._stands[0].get(branch.id)
        if valve is None or branch.valve == "none":
            return 1.0
        return SHUT if valve.closed else opening_for(branch.valve, valve.loss)

    def state(self, changes: Changes) -> TriedState:
        """The pond with these changes.

        Raises:
            PondError: A shape, a size or a changed rule cannot be; the message says why.
        """
        worked = self._changed(changes)
        branches: dict[str, CalculatedFlow] = {}
        lines = []
        for line in worked.lines:
            state, flows = self._line(worked, line, changes)
            lines.append(state)
            branches |= flows
        at_features = {
            key: branches[branch.id].flow
            for line in worked.lines
            for branch in line.branches
            if branch.id in branches
            for key in branch.feeds
        }
        sheets = dict(_sheets(worked, branches))
        found = TriedState(
            worked=worked, lines=tuple(lines), branches=branches, sheets=sheets, places={},
            stock=_stock(worked, at_features),
            opened={
                branch.id: self.opening(branch, changes)
                for line in worked.lines for branch in line.branches if branch.valve != "none"
            },
        )  # fmt: skip
        return replace(found, places=dict(_places(found, changes)))

    def _changed(self, changes: Changes) -> WorkedPond:
        pond = with_changes(self.worked, changes)
        return self.worked if pond == self.worked.pond else WorkedPond(pond, self.worked.learned)

    def _line(
        self, worked: WorkedPond, line: Line, changes: Changes
    ) -> tuple[LineState, dict[str, CalculatedFlow]]:
        pump = pump_of(worked.pond, line)
        speed = self.speed(line.id)
        tried_speed = changes.number("speed", line.id)
        if pump is None or not pump.adjustable:
            speed = 1.0
        elif tried_speed is not None:
            speed = tried_speed
        elif changes.word("pump", line.id):
            speed = 1.0  # another pump: nobody has set it yet
        network = self._network(worked, line)
        if pump is None or network is None:
            words = Message("choose a pump first, and this can be worked out")
            return LineState(line, pump, speed, None, None, None, None, network, (words,)), {}
        power = per_year = None
        rules = network.rules.pumps
        if pump.power_w is not None:
            power = power_at_speed(pump.power_w, speed, rules.power_kept)
            per_year = costs(
                0.0, power, rules.running_time, rules.tariff, rules.cost_years
            ).per_year  # fmt: skip
        known = LineState(line, pump, speed, None, None, power, per_year, network)
        try:
            plain = curve_of(pump)
        except PondError as problem:
            return replace(known, reasons=(problem.message,)), {}
        if plain is None:
            words = Message("enter the largest flow and the largest head from its label")
            return replace(known, reasons=(words,)), {}
        left = changes.number("clean", line.id) or 1.0

        # Of another pump, no reading has told anything.
        learned = NOTHING_LEARNED if changes.word("pump", line.id) else worked.learned_of(line)
        solved = []
        for case, valves in zip(CASES, self._stands, strict=True):
            curve = clogged_pump(_curve(plain, network, case, speed, learned), left)
            circuit = self._circuit(network, line, changes, case, valves)
            solved.append(_solved(curve, circuit, network.viscosity))
        likely, weak, strong = solved
        if likely.flows is None:
            return replace(known, reasons=likely.reasons), {}
        flows = {
            key: self._as_measured(key, _between(flow, weak.at(key), strong.at(key)))
            for key, flow in likely.flows.items()
        }
        whole = _between(likely.flow, weak.whole, strong.whole)
        return (
            replace(known, flow=whole, head=likely.head, reasons=likely.reasons),
            flows,
        )

    def _as_measured(self, key: str, found: CalculatedFlow) -> CalculatedFlow:
        """A flow, known no better than the measured one that it is reckoned from."""
        seen = self.measured.get(key)
        if seen is None or seen.flow <= 0.0:
            return found
        low, high = (found.flow * end / seen.flow for end in (seen.low, seen.high))
        return CalculatedFlow(found.flow, min(found.low, low), max(found.high, high))

    def _circuit(
        self,
        network: LineNetwork,
        line: Line,
        changes: Changes,
        case: Case | None,
        valves: Mapping[str, _Valve],
    ) -> PipeNetwork:
        """The circuit with its valves as they stand or are turned, its foam, and what rests."""
        circuit = _in_case(network.circuit, network, case)
        outlets = [
            _outlet(branch, outlet, changes, valves.get(branch.id))
            for branch, outlet in zip(line.branches, circuit.branches, strict=True)
        ]
        return replace(circuit, branches=tuple(outlets))


def _curve(
    plain: PumpCurve, network: LineNetwork, case: Case | None, speed: float, learned: Learned
) -> PumpCurve:
    """A pump's curve in one case, as readings corrected it, at a speed."""
    if case is None:
        curve = learned_curve(plain, learned)
    else:
        curve = curve_in(plain, case, network.rules.pumps, as_new=True)
        curve = learned_curve(curve, replace(learned, bend=None))
    return curve if speed == 1.0 else at_speed(curve, speed)


def _in_case(circuit: PipeNetwork, network: LineNetwork, case: Case | None) -> PipeNetwork:
    return circuit if case is None else circuit_in(circuit, doubt_of(network), case)


def _outlet(branch: Branch, outlet: Outlet, changes: Changes, valve: _Valve | None) -> Outlet:
    loss, closed = (valve.loss, valve.closed) if valve else (0.0, False)
    opened = changes.number("opened", branch.id)
    if opened is not None:
        closed = opened <= SHUT
        loss = 0.0 if closed else valve_loss(branch.valve, opened)
        loss = max(0.0, loss - valve_loss(branch.valve, 1.0))
    if valve is not None:  # it stays as wide as it was when the hose is changed
        loss *= (outlet.run.bore / valve.bore) ** 4
    if changes.number("rest", branch.id):
        closed = True
    foam = changes.number("foam", branch.id) or 1.0
    return clogged_branch(replace(outlet, valve=loss, closed=closed), foam)


@dataclass(frozen=True, slots=True)
class _Solved:
    """Where a pump and a circuit settle; no flows where that is beyond the pump's known curve."""

    flow: float
    head: float
    flows: Mapping[str, float] | None
    reasons: tuple[Message, ...] = ()

    @property
    def whole(self) -> float | None:
        """The flow of the pump [m3/s], where it can be told."""
        return None if self.flows is None else self.flow

    def at(self, key: str) -> float | None:
        """The flow of a branch [m3/s], where it can be told."""
        return None if self.flows is None else self.flows[key]


def _solved(curve: PumpCurve, circuit: PipeNetwork, viscosity: float) -> _Solved:
    dry = {outlet.key: 0.0 for outlet in circuit.branches}
    try:
        point = operating_point(curve, circuit, viscosity)
    except NoSolution as problem:
        reasons = (problem.message,)
        shut = all(outlet.closed for outlet in circuit.branches)
        if shut or operating_flow(curve, circuit, viscosity) == 0.0:
            return _Solved(0.0, curve.head_at(0.0), dry, reasons)
        return _Solved(0.0, 0.0, None, reasons)
    flows = {one.key: one.flow for one in point.branches}
    dry_ends = tuple(one for one in point.warnings if "lift" in one.values)
    return _Solved(point.flow, point.head, flows, dry_ends)


def _between(flow: float, weak: float | None, strong: float | None) -> CalculatedFlow:
    """A flow with the ends of what it may be; what the strongest gives is open where not known."""
    low = 0.0 if weak is None else weak
    high = 2.0 * flow if strong is None else strong
    return CalculatedFlow(flow, min(low, high, flow), max(low, high, flow))


def _sheets(
    worked: WorkedPond, branches: Mapping[str, CalculatedFlow]
) -> Iterator[tuple[str, Sheet]]:
    for line in worked.lines:
        for branch in line.branches:
            found = branches.get(branch.id)
            if found is None or found.flow <= 0.0:
                continue
            for key in branch.feeds:
                lip = feature_of(worked.pond, key)
                target = worked.wanted.place(key)
                if isinstance(lip, Lip) and key not in branch.bypass and target is not None:
                    yield key, sheet_of(
                        lip.width_m, found.flow, worked.rules, found.spread, target.band
                    )  # fmt: skip


def _stock(worked: WorkedPond, flows: Mapping[str, float]) -> Stock | None:
    if not worked.pond.fish:
        return None
    try:
        return stock(worked, grown=False, flows=flows).usual
    except PondError:  # its own screen says what is wrong
        return None


def _places(found: TriedState, changes: Changes) -> Iterator[tuple[str, PlaceState]]:
    """How each part is: by the one rule of decision, and never right, since nobody measured it."""
    worked = found.worked
    for state in found.lines:
        if state.flow is not None:
            yield state.line.id, _judged(worked, state.line.id, state.flow)
        for branch in state.line.branches:
            flow = found.branches.get(branch.id)
            if flow is None:
                continue
            for key in (branch.id, *branch.feeds):
                alive = feeds_life(worked.pond, (key,) if key in branch.feeds else branch.feeds)
                planned = worked.planned.flows.get(branch.id, 0.0)
                if flow.flow <= 0.0:
                    rests = changes.number("rest", branch.id) or not planned
                    word = RESTS[1] if rests else "Dry"
                    severity: Severity = "unknown" if rests else "wrong"
                    yield key, PlaceState("danger" if alive else severity, word)
                elif key in branch.bypass:
                    yield key, PlaceState(*NOTHING_WANTED)
                else:
                    yield key, _judged(worked, key, flow)


def _judged(worked: WorkedPond, key: str, flow: CalculatedFlow) -> PlaceState:
    band = band_at(worked, key)
    if band is None:
        return PlaceState(*NOTHING_WANTED)
    decided = decide(flow.spread, band.low, band.high, certainty(worked.rules.measuring))
    if decided.kind in DECIDED:
        return PlaceState(*DECIDED[decided.kind])
    return PlaceState("unknown", LIKELY[decided.likely])


def measured_flows(
    worked: WorkedPond, readings: Sequence[Reading], now: datetime
) -> dict[str, CalculatedFlow]:
    """The newest flow of each branch that was measured, and that still stands.

    Args:
        worked: The pond.
        readings: Its readings. Those dated after now are no evidence.
        now: The time of now.

    Raises:
        PondError: A changed rule or the numbers of a reading cannot be.
    """
    log, rules = until(readings, now), worked.rules.measuring
    found: dict[str, CalculatedFlow] = {}
    for branch in (one for line in worked.lines for one in line.branches):
        seen = newest_at(log, (branch.id, *passed(branch)), rules)
        if seen is not None and flow_stands(worked.pond, branch.id, seen.reading.taken_at, now):
            half = seen.doubt
            found[branch.id] = CalculatedFlow(seen.flow, max(0.0, seen.flow - half),
                                              seen.flow + half)  # fmt: skip
    return found


def band_at(worked: WorkedPond, key: str) -> FlowBand | None:
    """What is wanted at a part; None where nothing is."""
    target = worked.wanted.place(key)
    return target.band if target else None
