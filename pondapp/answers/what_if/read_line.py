"""A line as its readings say that it is, with changes tried on it.

A change moves the calibrated circuit itself: what was learned of pump, hoses and valves stays, and
so do the intervals. So another pump or a cleaning is told here as where the readings are told.
"""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from math import exp, log

from pondapp.answers.learning.intervals import Bounds, bounds, bounds_of_pump
from pondapp.answers.learning.learning import Learning
from pondapp.answers.learning.predictions import flows_in
from pondapp.answers.learning.priors import SOONEST, VALVE_TABLE
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.pumps.pumps import curve_of
from pondapp.answers.what_if.changes import CLEANED, SHUT, Changes
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Message
from pondapp.core.calibration.calibrated import Calibrated, Predicted
from pondapp.core.calibration.learned import learned_circuit, learned_curve
from pondapp.core.calibration.scene import End, Scene, Sum, Unknown, learned_at
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, operating_point
from pondapp.core.hydraulics.valve_response import opening_for, valve_loss
from pondapp.models.circuit import Branch, Line, Pump


@dataclass(frozen=True, slots=True)
class ReadFlows:
    """What a line carries, by all of its readings.

    Attributes:
        branches: The flow of each branch, by its id.
        whole: That of the pump.
        bounds: From where to where each may lie, that of the pump under no key.
        head: Its head [m].
        reach: How many standard uncertainties lie between a flow and the end of its interval.
        reasons: Which ends stay dry, or why nothing flows.
    """

    branches: Mapping[str, Predicted]
    whole: Predicted
    bounds: Mapping[str, Bounds]
    head: float
    reach: float
    reasons: tuple[Message, ...]

    def not_below(self, floor: "ReadFlows") -> "ReadFlows":
        """The same, no flow of it below that of another: as after a cleaning beside before."""
        more = self if self.whole.flow >= floor.whole.flow else floor
        kept = {key: its.not_below(floor.bounds[key]) for key, its in self.bounds.items()}
        return replace(more, bounds=kept)


@dataclass(frozen=True, eq=False)
class ReadLine:
    """A line as its readings say that it is."""

    found: Learning

    @cached_property
    def _known(self) -> Calibrated:
        """The fit with what only a trial moves: by how much a thing is changed, and each valve.

        A change counts exactly as it is made; how far a turn of a handle moves a valve's loss is
        known by a table only.
        """
        named = [("one",), *(("turn", end.outlet.key) for end in self.found.scene_now.ends)]
        means = [1.0, *(0.0 for _ in self.found.scene_now.ends)]
        more = [
            Unknown(" ".join(key), mean, SOONEST**3 if key == ("one",) else VALVE_TABLE)
            for key, mean in zip(named, means, strict=True)
        ]
        return self.found.fitted.beside(more)

    @property
    def _one(self) -> int:
        return len(self.found.fitted.unknowns)

    def _end(self, key: str) -> tuple[int, End]:
        return next(
            (at, end) for at, end in enumerate(self.found.scene_now.ends) if end.outlet.key == key
        )

    @cached_property
    def unread(self) -> frozenset[str]:
        """Keys of what hardly rests on readings, since nobody caught that water."""
        told = flows_in(self.found, self.found.scene_now)
        return frozenset(one.key for one in told if one.unread)

    def opening(self, branch: Branch) -> float:
        """How far a valve is open, as its handle was noted or as its flow says; 0 is shut."""
        _, end = self._end(branch.id)
        if end.outlet.closed:
            return SHUT
        if branch.valve == "none" or not end.valve:
            return 1.0
        by_handle = self.found.model.unknowns.known(("table", branch.id))
        values = self._known.values
        loss = exp(sum(times * values[at] for at, times in end.valve if at != by_handle))
        return opening_for(branch.valve, max(0.0, loss - valve_loss(branch.valve, 1.0)))

    def speed(self, changes: Changes) -> float:
        """The share of its full speed at which a pump that can be set is taken to run [-]."""
        tried = changes.number("speed", self.found.model.line.id)
        return self._begin(changes) if tried is None else tried

    def _begin(self, changes: Changes) -> float:
        """Its speed before anybody sets it: of its own as the readings say, else full."""
        model = self.found.model
        if changes.another_pump(model.line.id) or self._cleaned(changes):
            return 1.0
        left = model.pump_left(self.found.now, self._known.values)
        return min(1.0, max(left, model.worked.rules.pumps.slowest_speed))

    def _cleaned(self, changes: Changes) -> bool:
        return changes.number("clean", self.found.model.line.id) == CLEANED

    def flows(self, line: Line, pump: Pump, network: LineNetwork, changes: Changes) -> ReadFlows:
        """What flows with these changes.

        Args:
            line: The line as it is saved.
            pump: The pump that is tried there.
            network: The circuit that is tried behind it, as entered.
            changes: What is tried.

        Raises:
            PondError: A curve cannot be, or the circuit cannot be balanced.
        """
        found = self._flows(line, pump, network, changes)
        if not self._cleaned(changes) or changes.another_pump(line.id):
            return found
        dirty = changes.put("clean", line.id, None)
        return found.not_below(self._flows(line, pump, network, dirty))

    def _flows(self, line: Line, pump: Pump, network: LineNetwork, changes: Changes) -> ReadFlows:
        scene = self._scene(line, pump, network, changes)
        ends, whole = self._known.predicted(scene)
        learned = learned_at(scene, self._known.values)
        curve = learned_curve(scene.curve, learned)
        circuit = learned_circuit(
            PipeNetwork(scene.main, tuple(end.outlet for end in scene.ends)), learned, standing=True
        )
        reasons: tuple[Message, ...]
        try:
            point = operating_point(curve, circuit, scene.viscosity)
            reasons = tuple(one for one in point.warnings if "lift" in one.values)
        except NoSolution as problem:
            reasons = (problem.message,)
        if self.found.too_old:
            reasons = ()
        branches = dict(zip((end.outlet.key for end in scene.ends), ends, strict=True))
        kept = {key: bounds(self.found, scene, key, one) for key, one in branches.items()}
        parts = [(one, kept[key]) for key, one in branches.items()]
        kept[""] = bounds_of_pump(self.found, scene, whole, parts)
        head = curve.head_at(whole.flow)
        return ReadFlows(branches, whole, kept, head, self.found.reach, reasons)

    def _scene(self, line: Line, pump: Pump, network: LineNetwork, changes: Changes) -> Scene:
        model, now = self.found.model, self.found.now
        if changes.another_pump(line.id):
            scene = model.scene(now, other=curve_of(pump))
        elif self._cleaned(changes):
            scene = model.scene(now, cleaned=True)
        else:
            scene = self.found.scene_now
        slower = log(self.speed(changes) / self._begin(changes)) if pump.adjustable else 0.0
        left = changes.number("clean", line.id) or 1.0
        ends = tuple(
            self._tried(branch, end, outlet, changes)
            for branch, end, outlet in zip(
                line.branches, scene.ends, network.circuit.branches, strict=True
            )
        )
        return replace(
            scene,
            flow=(*scene.flow, *self._times(slower + log(min(left, 1.0)))),
            head=(*scene.head, *self._times(2.0 * slower)),
            main=network.circuit.main,
            ends=ends,
            viscosity=network.viscosity,
        )

    def _times(self, change: float) -> Sum:
        """A change of a logarithm, as a scene counts it."""
        return ((self._one, change),) if change else ()

    def _tried(self, branch: Branch, end: End, outlet: Outlet, changes: Changes) -> End:
        at, _ = self._end(branch.id)
        # A valve stays as wide as it was when its hose is changed.
        wider = 4.0 * log(outlet.run.bore / end.outlet.run.bore)
        foam = -2.0 * log(changes.number("foam", branch.id) or 1.0)
        closed, loss, valve = end.outlet.closed, end.outlet.valve, end.valve
        opened = changes.number("opened", branch.id)
        if opened is not None:
            closed = opened <= SHUT
            if not closed and valve:
                begin = max(self.opening(branch), SOONEST)
                turn = log(valve_loss(branch.valve, opened) / valve_loss(branch.valve, begin))
                doubt = ((self._one + 1 + at, min(1.0, abs(turn))),) if turn else ()
                valve = (*valve, *self._times(turn), *doubt)
            elif not closed:
                loss = max(0.0, valve_loss(branch.valve, opened) - valve_loss(branch.valve, 1.0))
        if valve:
            valve = (*valve, *self._times(wider + foam))
        else:
            loss *= exp(wider + foam)
        closed = closed or bool(changes.number("rest", branch.id))
        tried = replace(outlet, valve=loss, closed=closed)
        return replace(end, outlet=tried, loss=(*end.loss, *self._times(foam)), valve=valve)
