"""A line of a pond calibrated by its log: what was entered, corrected by what was read."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from math import exp, log

from pondapp.answers.learning.priors import (
    CLEANED,
    OTHER_PUMP,
    VALVE_TABLE,
    VALVE_UNKNOWN,
    VALVE_USUAL,
    dirt,
    evenly,
    loss_deviation,
    valve_middle,
    wear_rate,
    worn,
)
from pondapp.answers.learning.timeline import Timeline, timeline
from pondapp.answers.log.log import LogItem
from pondapp.answers.plumbing.network import doubt_of
from pondapp.answers.plumbing.pump_history import pump_then
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumped import Pumped, pumped
from pondapp.answers.pumps.pumps import curve_of
from pondapp.answers.tuning.flow_sets import BranchPlace, branch_places
from pondapp.core.base.constants import GRAVITY, HOUR
from pondapp.core.base.errors import PondError
from pondapp.core.calibration.calibrated import Calibrated, Datum, calibrated
from pondapp.core.calibration.learned import Learned
from pondapp.core.calibration.scene import End, Scene, Sum, Unknown, learned_at
from pondapp.core.hydraulics.network import Outlet
from pondapp.core.hydraulics.odds import MAIN
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve
from pondapp.core.hydraulics.run import velocity_in
from pondapp.core.measuring.student_t import normal_factor
from pondapp.models.circuit import Line

SAME_TIME = 6.0 * HOUR
"""Within this, nothing wears: readings of it share one balance."""
ANY_PUMP = LabelCurve(1.0, 1e-3)
"""Stands for other pumps while the unknowns of one are listed."""

Key = tuple[str, ...]


class Unknowns:
    """The unknowns of a line, each made when it is first asked for."""

    def __init__(self) -> None:
        self.found: list[Unknown] = []
        self._places: dict[Key, int] = {}

    def place(self, key: Key, mean: float, deviation: float) -> int:
        """Where an unknown stands."""
        if key not in self._places:
            self._places[key] = len(self.found)
            self.found.append(Unknown(" ".join(key), mean, deviation))
        return self._places[key]

    def known(self, key: Key) -> int | None:
        """Where an unknown stands; None where nothing asked for it."""
        return self._places.get(key)


@dataclass(frozen=True, eq=False)
class Model:
    """A line as what is entered of it, with all that is not known of it."""

    worked: WorkedPond
    line: Line
    parts: Pumped
    places: tuple[BranchPlace, ...]
    times: Timeline
    begin: datetime
    """When the oldest reading was taken."""
    unknowns: Unknowns

    def scene(
        self,
        at: datetime,
        *,
        cleaned: bool = False,
        other: PumpCurve | None = None,
        before: bool = False,
    ) -> Scene:
        """The circuit at a time.

        Args:
            at: When.
            cleaned: Whether the pump was just cleaned then.
            other: Curve of another pump, new, in place of its own.
            before: Whether a pump that was cleaned just then still is as it was before.
        """
        then = None if other or cleaned else self._before(at)
        curve = other or (then and then[1]) or self.parts.curve
        name = "other" if other else then[0] if then else "own"
        flow, head = self._pump(at, cleaned=cleaned, name=name, before=before)
        bend = None
        if isinstance(curve, LabelCurve):
            rules = self.worked.rules.pumps
            middle = 0.5 * (rules.bend_low + rules.bend_high)
            half = 0.5 * abs(rules.bend_high - rules.bend_low)
            bend = self.unknowns.place(("bend", name), middle, evenly(half))
        circuit, doubt = self.parts.circuit, doubt_of(self.parts.network)
        main_loss: Sum = ()
        if circuit.main is not None:
            deviation = loss_deviation(doubt.loss[MAIN])
            main_loss = ((self.unknowns.place(("loss", MAIN), 0.0, deviation), 1.0),)
        ends = tuple(
            self._end(outlet, at, doubt.loss[outlet.key], doubt.lift[outlet.key])
            for outlet in circuit.branches
        )
        return Scene(
            curve, flow, head, bend, circuit.main, main_loss, ends, self.parts.viscosity
        )  # fmt: skip

    def pump_left(self, at: datetime, values: Sequence[float]) -> float:
        """Share of its speed that dirt has left of the pump [-]."""
        flow, _ = self._pump(at, cleaned=False, name="own", before=False)
        return exp(sum(times * values[place] for place, times in flow[1:]))

    def _before(self, at: datetime) -> tuple[str, PumpCurve] | None:
        """Name and curve of another pump that ran then, where it is on the shelf still."""
        ran = pump_then(self.line, at)
        pump = next((one for one in self.worked.pond.pumps if one.id == ran), None)
        if pump is None or ran == self.line.pump_id:
            return None
        try:
            return f"pump {ran}", curve_of(pump)
        except PondError:
            return None

    def _pump(self, at: datetime, *, cleaned: bool, name: str, before: bool) -> tuple[Sum, Sum]:
        rules, place = self.worked.rules, self.unknowns.place
        flow = place(("flow", name), 0.0, evenly(rules.pumps.flow_tolerance))
        head = place(("head", name), 0.0, evenly(rules.pumps.head_tolerance))
        if name == "other":
            return ((flow, 1.0),), ((head, 1.0),)
        state = self.times.pump_state(at) - (1 if before else 0)
        if cleaned:
            left, since = place(("wear", "next"), 0.0, CLEANED), 0.0
        else:
            last = self.times.pump[state - 1] if state else self.begin
            deviation = CLEANED if state else 0.5 * worn(rules)
            changed = self.times.changed
            unlike = changed is not None and state < self.times.pump_state(changed)
            if unlike and name == "own":
                deviation = OTHER_PUMP
            elif self.parts.adjustable:
                deviation = -log(rules.pumps.slowest_speed) / 2.0
            left = place(("wear", str(state)), 0.0, deviation)
            since = (at - last).total_seconds()
        rate = place(("rate", "pump" if name == "own" else name), 0.0, wear_rate(rules))
        return (
            ((flow, 1.0), (left, 1.0), (rate, -since)),
            ((head, 1.0), (left, 2.0), (rate, -2.0 * since)),
        )

    def _end(self, outlet: Outlet, at: datetime, loss_doubt: float, lift_doubt: float) -> End:
        key, place = outlet.key, self.unknowns.place
        lift = place(("lift", key), 0.0, evenly(lift_doubt))
        loss = [(place(("loss", key), 0.0, loss_deviation(loss_doubt)), 1.0)]
        branch = next(one for one in self.line.branches if one.id == key)
        if branch.feeds:
            rules = self.worked.rules
            state = self.times.dirt_state(key, at)
            last = self.times.dirt[key][state - 1] if state else self.begin
            if state:
                loss.append((place(("dirt", key, str(state)), 0.0, dirt(rules)), 1.0))
            rate = place(("rate", key), 0.0, 2.0 * wear_rate(rules))
            loss.append((rate, (at - last).total_seconds()))
        return End(outlet, tuple(loss), ((lift, 1.0),), self._valve(outlet, at))

    def _valve(self, outlet: Outlet, at: datetime) -> Sum:
        key, place = outlet.key, self.unknowns.place
        where = next((one for one in self.places if one.branch.id == key), None)
        if where is None or where.valve == "none":
            return ()
        state = self.times.valve_state(key, at)
        stands = self.times.opened.get((key, state))
        if stands is None:
            wide = self._usual_valve(outlet)
            return ((place(("valve", key, str(state)), log(wide), VALVE_UNKNOWN), 1.0),)
        middle, reading = valve_middle(where.valve, stands)
        return (
            (place(("handle", key, str(state)), middle, reading), 1.0),
            (place(("table", key), 0.0, VALVE_TABLE), 1.0),
        )

    def _usual_valve(self, outlet: Outlet) -> float:
        """Loss of a valve of which nothing is known: some share of what its hose takes."""
        flow = max(1e-6, self.worked.planned.flows.get(outlet.key, 0.0))
        speed = velocity_in(outlet.run.bore, flow)
        lost = outlet.run.loss(flow, self.parts.viscosity)
        return max(0.1, VALVE_USUAL * lost * 2.0 * GRAVITY / speed**2)


@dataclass(frozen=True, eq=False)
class Learning:
    """A line as its readings say that it is."""

    model: Model
    fitted: Calibrated
    now: datetime
    scene_now: Scene

    @property
    def learned(self) -> Learned:
        """How it differs from what was entered, now."""
        return learned_at(self.scene_now, self.fitted.values)

    @property
    def reach(self) -> float:
        """How many standard uncertainties lie between a value and the end of its interval."""
        return normal_factor(self.model.worked.rules.measuring.coverage)

    @property
    def outliers(self) -> tuple[str, ...]:
        """Ids of the readings that do not fit the rest."""
        return tuple(dict.fromkeys(self.fitted.outliers()))


def shut(scene: Scene, key: str) -> Scene:
    """A scene with one branch shut: what it draws is given."""
    ends = tuple(
        replace(end, outlet=replace(end.outlet, closed=end.outlet.closed or end.outlet.key == key))
        for end in scene.ends
    )
    return replace(scene, ends=ends)


def model_of(
    worked: WorkedPond,
    line: Line,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
) -> Model:
    """A line with all that is not known of it.

    Raises:
        PondError: No pump is chosen, or the circuit cannot be counted.
    """
    places = branch_places(worked, line)
    parts = pumped(worked, line, places)
    times = timeline(worked, line, log, places, turned_at, now)
    begin = times.reads[0].at if times.reads else now
    return Model(worked, line, parts, places, times, begin, Unknowns())


def learn(
    worked: WorkedPond,
    line: Line,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
) -> Learning:
    """A line of a pond calibrated by all readings that say something of it.

    Args:
        worked: The pond as entered: with nothing learned.
        line: One of its lines.
        log: The pond's log.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now.

    Raises:
        PondError: No pump is chosen, the circuit cannot be counted, or nothing fits.
    """
    model = model_of(worked, line, log, turned_at, now)
    scenes: list[Scene] = []
    places: dict[tuple[object, ...], int] = {}
    keys = [outlet.key for outlet in model.parts.circuit.branches]
    data = []
    for read in model.times.reads:
        times = model.times
        state = (
            round(read.at.timestamp() / SAME_TIME),
            times.pump_state(read.at),
            *(times.valve_state(key, read.at) for key in keys),
            *(times.dirt_state(key, read.at) for key in keys),
        )
        if state not in places:
            places[state] = len(scenes)
            scenes.append(model.scene(read.at))
        container = None
        if read.container and read.content > 0.0:
            container = model.unknowns.place(("container", read.container), 0.0, read.content)
        end = keys.index(read.branch_id) if read.branch_id else None
        data.append(
            Datum(read.reading.id, places[state], end, read.flow, read.share, container,
                  read.freedom)
        )  # fmt: skip
    scene_now = model.scene(now)
    chance = worked.rules.measuring.outlier_chance
    fitted = calibrated(model.unknowns.found, scenes, data, chance)
    size = len(fitted.unknowns)
    model.scene(now, cleaned=True)
    model.scene(now, other=ANY_PUMP)
    return Learning(model, fitted.beside(model.unknowns.found[size:]), now, scene_now)
