"""A pond as it is saved and as it is tried, both worked out in one way."""

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property

from pondapp.answers.picture.states import PlaceState
from pondapp.answers.plumbing.network import LineNetwork, doubt_of
from pondapp.answers.plumbing.path import pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import curve_of
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.tuning.flow_sets import conflicts_of
from pondapp.answers.what_if.changes import NOTHING, SHUT, Changes, with_changes
from pondapp.answers.what_if.judging import band_at, places_of, sheets_of, stock_of
from pondapp.answers.what_if.read_line import ReadFlows, ReadLine
from pondapp.answers.what_if.tried_state import CalculatedFlow, LineState, TriedState
from pondapp.core.base.errors import NoSolution, PondError
from pondapp.core.base.messages import Message
from pondapp.core.calibration.calibrated import Predicted
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
from pondapp.models.circuit import Branch, Line, Pump

WEAKEST = Case(bend=0.0, strength=0.0, wear=0.0, lift=1.0, loss=1.0)
STRONGEST = Case(bend=1.0, strength=1.0, wear=0.0, lift=0.0, loss=0.0)
CASES = (None, WEAKEST, STRONGEST)
"""The two ends of what a pump and its hoses may be, by label, print and what was entered."""

LABEL_ASKED = Message("enter the largest flow and the largest head from its label")
HARDLY = 0.005
"""A share of a flow that nobody can tell."""


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
    """The pond as it is entered."""
    read: Mapping[str, ReadLine] = field(default_factory=dict)
    """Its lines as their readings say that they are, by id; the rest is as entered and planned."""
    seen: Mapping[str, PlaceState] = field(default_factory=dict)
    """What was measured of its places and still stands, by id, as its picture says it."""

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

        A valve takes what it must for its branch to have the flow that is planned there; where
        even that is less, it is wide open. So what is not known of pump and hoses is in doubt only
        as far as it tells on what is changed.
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
            if plain is not None and set_to:
                curve = _curve(plain, network, case, self.speed(line.id))
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
        """The share of its full speed at which the readings or the plan have a pump run."""
        read = self.read.get(line_id)
        return read.speed(NOTHING) if read else self._speeds.get(line_id, 1.0)

    def _read_of(self, branch: Branch) -> ReadLine | None:
        lines = self.worked.lines
        line = next(line for line in lines if any(one.id == branch.id for one in line.branches))
        return self.read.get(line.id)

    def opening(self, branch: Branch, changes: Changes) -> float:
        """How far the valve of a branch is open, as a share of its handle's way; 0 is shut."""
        tried = changes.number("opened", branch.id)
        if tried is not None:
            return tried
        read = self._read_of(branch)
        if read is not None:
            return read.opening(branch)
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
        found = TriedState(
            worked=worked, lines=tuple(lines), branches=branches,
            sheets=dict(sheets_of(worked, branches)), places={}, stock=None, stock_doubts=(),
            opened={
                branch.id: self.opening(branch, changes)
                for line in worked.lines for branch in line.branches if branch.valve != "none"
            },
        )  # fmt: skip
        calculated = dict(places_of(found, changes))
        seen = self._still_seen(found, changes)
        stock, doubts = stock_of(worked, branches, self._lacking(found, changes))
        places = {**calculated, **seen}
        return replace(found, places=places, stock=stock, stock_doubts=doubts)

    def _lacking(self, found: TriedState, changes: Changes) -> Mapping[str, float]:
        """What share of the calculated flow was seen to come, where that is less.

        What is changed moves a flow from what came, and not from what should have come.
        """
        base = self.now if changes.values else found
        shares: dict[str, float] = {}
        for key, state in self.seen.items():
            flow = base.flow_at(key)
            if state.found and flow and flow.flow > 0.0:
                shares[key] = min(1.0, state.found.flow.flow / flow.flow)
        return shares

    def _still_seen(self, found: TriedState, changes: Changes) -> dict[str, PlaceState]:
        """What was measured of each place where nothing that matters to it is changed."""
        if not changes.values:
            return dict(self.seen)
        moved = changes.moves_water
        were, are = conflicts_of(self.worked), conflicts_of(found.worked)
        return {
            key: state
            for key, state in self.seen.items()
            if (key in were) == (key in are)
            and _same_flow(self.now.flow_at(key), found.flow_at(key), moved=moved)
            and _limits(self.worked, key) == _limits(found.worked, key)
        }

    def _changed(self, changes: Changes) -> WorkedPond:
        pond = with_changes(self.worked, changes)
        return self.worked if pond == self.worked.pond else WorkedPond(pond)

    def _line(
        self, worked: WorkedPond, line: Line, changes: Changes
    ) -> tuple[LineState, dict[str, CalculatedFlow]]:
        pump = pump_of(worked.pond, line)
        speed = self._speed_in(line, pump, changes)
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
        read = self.read.get(line.id)
        try:
            plain = curve_of(pump)
            if plain is None:
                return replace(known, reasons=(LABEL_ASKED,)), {}
            if read is not None:
                found = read.flows(line, pump, network, changes)
                return _as_read(known, found, changes, read.unread)
            return self._as_entered(known, plain, network, changes)
        except PondError as problem:
            return replace(known, reasons=(problem.message,)), {}

    def _speed_in(self, line: Line, pump: Pump | None, changes: Changes) -> float:
        """The share of its full speed at which a pump runs."""
        if pump is None or not pump.adjustable:
            return 1.0
        read, tried = self.read.get(line.id), changes.number("speed", line.id)
        if read is not None:
            return read.speed(changes)
        if tried is not None:
            return tried
        # Another pump: nobody has set it yet.
        return 1.0 if changes.another_pump(line.id) else self.speed(line.id)

    def _as_entered(
        self, known: LineState, plain: PumpCurve, network: LineNetwork, changes: Changes
    ) -> tuple[LineState, dict[str, CalculatedFlow]]:
        """A line by what was entered of it alone, in each of the cases."""
        line = known.line
        left = min(1.0, changes.number("clean", line.id) or 1.0)
        solved = []
        for case, valves in zip(CASES, self._stands, strict=True):
            curve = clogged_pump(_curve(plain, network, case, known.speed), left)
            circuit = self._circuit(network, line, changes, case, valves)
            solved.append(_solved(curve, circuit, network.viscosity))
        likely, weak, strong = solved
        if likely.flows is None:
            return replace(known, reasons=likely.reasons), {}
        flows = {
            key: _between(flow, weak.at(key), strong.at(key)) for key, flow in likely.flows.items()
        }
        whole = _between(likely.flow, weak.whole, strong.whole)
        return (
            replace(known, flow=whole, head=likely.head, reasons=likely.reasons),
            flows,
        )

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


def _limits(worked: WorkedPond, key: str) -> tuple[float, float | None] | None:
    """What a flow is judged by at a part; its aim is no part of that."""
    band = band_at(worked, key)
    return None if band is None else (band.low, band.high)


def _same_flow(
    one: CalculatedFlow | None, other: CalculatedFlow | None, *, moved: bool
) -> bool:  # fmt: skip
    """Whether two flows are one; of what nobody can tell, where no water is moved."""
    if one is None or other is None:
        return one is other and not moved
    return abs(one.flow - other.flow) <= HARDLY * max(one.flow, other.flow)


def _as_read(
    known: LineState, found: ReadFlows, changes: Changes, unread: Collection[str]
) -> tuple[LineState, dict[str, CalculatedFlow]]:  # fmt: skip
    """A line by all of its readings; without the flows that these do not tell closely enough.

    Nor is a flow told by readings whose water nobody caught.
    """

    def told(key: str, one: Predicted) -> CalculatedFlow | None:
        its = found.bounds[key]
        if key and changes.shuts(key):
            return CalculatedFlow(0.0, 0.0, 0.0)
        if key in unread:
            return None
        if not its.close(one.flow) and not (its.told and one.flow == 0.0):
            return None
        # What readings leave open, beyond the fit, is no better known for a verdict.
        half = max(one.flow - its.low, its.high - one.flow) / found.reach
        doubt = max(one.uncertainty, half)
        return CalculatedFlow(one.flow, its.low, its.high, doubt, its.differs)

    whole = told("", found.whole)
    state = replace(known, read=True, flow=whole, reasons=found.reasons)
    flows = {key: told(key, one) for key, one in found.branches.items()}
    return (
        replace(state, head=None if whole is None else found.head),
        {key: one for key, one in flows.items() if one is not None},
    )


def _curve(plain: PumpCurve, network: LineNetwork, case: Case | None, speed: float) -> PumpCurve:
    """A pump's curve in one case, at a speed."""
    curve = plain
    if case is not None:
        curve = curve_in(plain, case, network.rules.pumps, as_new=True)
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
