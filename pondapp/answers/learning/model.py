"""A line of a pond as what is entered of it, with all that is not known of it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from math import exp, log
from operator import attrgetter

from pondapp.answers.learning.priors import (
    CLEANED,
    LIFT_BEFORE,
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
from pondapp.answers.learning.timeline import Read, Timeline, timeline
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.plumbing.network import doubt_of
from pondapp.answers.plumbing.pump_history import pump_then, rebuilt_since
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_of
from pondapp.answers.pumps.pumped import Pumped, pumped
from pondapp.answers.pumps.pumps import curve_of
from pondapp.answers.tuning.evidence import Evidence, beyond, beyond_together
from pondapp.answers.tuning.flow_sets import BranchPlace, branch_places
from pondapp.core.base.constants import GRAVITY, HOUR
from pondapp.core.base.errors import PondError
from pondapp.core.calibration.scene import End, Scene, Sum, Unknown
from pondapp.core.hydraulics.network import Outlet
from pondapp.core.hydraulics.odds import MAIN
from pondapp.core.hydraulics.pump_curve import LabelCurve, PumpCurve
from pondapp.core.hydraulics.run import velocity_in
from pondapp.models.circuit import Line
from pondapp.models.reading import Reading

SAME_TIME = 6.0 * HOUR
"""Within this, nothing wears: readings of it share one balance."""
ANY_PUMP = LabelCurve(1.0, 1e-3)
"""Stands for other pumps while the unknowns of one are listed."""

BEFORE = "before"
"""Of what was there before hoses were changed."""

Key = tuple[str, ...]


@dataclass(frozen=True, slots=True)
class TooMuch:
    """One reading, or several of one time, that are more than the pump can give."""

    reads: tuple[Read, ...]
    most: float
    """What it can give at no head [m3/s], by its label and its tolerance."""


class Unknowns:
    """The unknowns of a line, each made when it is first asked for."""

    def __init__(self) -> None:
        self.found: list[Unknown] = []
        self._places: dict[Key, int] = {}

    def place(self, key: Key, mean: float, deviation: float, *, nothing: bool = False) -> int:
        """Where an unknown stands."""
        if key not in self._places:
            self._places[key] = len(self.found)
            self.found.append(Unknown(" ".join(key), mean, deviation, nothing))
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
    evidence: Evidence
    """Which of its readings tell how it is now."""

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
            main_loss = ((self._loss(MAIN, at, doubt.loss[MAIN]), 1.0),)
        ends = tuple(
            self._end(outlet, at, doubt.loss[outlet.key], doubt.lift[outlet.key])
            for outlet in circuit.branches
        )
        return Scene(
            curve, flow, head, bend, circuit.main, main_loss, ends, self.parts.viscosity
        )  # fmt: skip

    def state(self, branch_id: str, at: datetime) -> str:
        """Of a branch, or of all that the pump feeds: readings of one state are to agree."""
        times = self.times
        ids = [branch_id] if branch_id else [outlet.key for outlet in self.parts.circuit.branches]
        parts = [(times.valve_state(one, at), times.dirt_state(one, at)) for one in ids]
        built = rebuilt_since(self.line, at)
        return f"{branch_id} {times.pump_state(at)} {pump_then(self.line, at)} {built} {parts}"

    def most(self, at: datetime) -> float | None:
        """What the pump of a time can give at most [m3/s]; None where nobody knows which it was.

        Raises:
            PondError: Its curve is no number somewhere.
        """
        changed, ran = self.times.changed, self._before(at)
        another = pump_then(self.line, at) != self.line.pump_id
        if ran is None and (another or (changed is not None and at < changed)):
            return None
        curve = ran[1] if ran else self.parts.curve
        return most_of(curve, self.worked.rules)

    def too_much(self) -> tuple[TooMuch, ...]:
        """Readings that are more than the pump can give, alone or what was read at one time.

        Raises:
            PondError: The pump's curve is no number somewhere.
        """
        rules = self.worked.rules.measuring
        found, left = list[TooMuch](), list[Read]()
        for read in self.times.reads:
            most = self.most(read.at)
            if most is not None and beyond(read.spread, most, rules):
                found.append(TooMuch((read,), most))
            elif most is not None and read.branch_id:
                left.append(read)
        while left:
            last = left[-1]
            once = [read for read in left if self._at_once(read, last)]
            left = [read for read in left if read not in once]
            reads = tuple({read.branch_id: read for read in once}.values())
            most = self.most(last.at)
            if most is not None and beyond_together([one.spread for one in reads], most, rules):
                found.append(TooMuch(reads, most))
        return tuple(found)

    def _at_once(self, read: Read, last: Read) -> bool:
        """Whether two flows were read so soon after one another, at one setting, that they add."""
        between = (last.at - read.at).total_seconds()
        setting = self.state("", last.at)
        rules = self.worked.rules.measuring
        return between <= rules.same_setting and self.state("", read.at) == setting

    def pump_left(self, at: datetime, values: Sequence[float]) -> float:
        """Share of its speed that dirt has left of the pump [-]."""
        return exp(sum(times * values[place] for place, times in self.pump_speed(at)))

    def pump_speed(self, at: datetime) -> Sum:
        """What the logarithm of that share is made of."""
        flow, _ = self._pump(at, cleaned=False, name="own", before=False)
        return flow[1:]

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
            left = place(("wear", "next"), 0.0, CLEANED)
            since = self._wears("pump", wear_rate(rules), at, at)
        else:
            last = self.times.pump[state - 1] if state else self.begin
            deviation = CLEANED if state else 0.5 * worn(rules)
            changed = self.times.changed
            unlike = changed is not None and state < self.times.pump_state(changed)
            unlike = unlike and name == "own"
            if unlike:
                deviation = OTHER_PUMP
            elif self.parts.adjustable:
                deviation = -log(rules.pumps.slowest_speed) / 2.0
            left = place(("wear", str(state)), 0.0, deviation, nothing=unlike)
            since = self._wears("pump" if name == "own" else name, wear_rate(rules), last, at)
        return (
            ((flow, 1.0), (left, 1.0), *((rate, -time) for rate, time in since)),
            ((head, 1.0), (left, 2.0), *((rate, -2.0 * time) for rate, time in since)),
        )

    def _wears(self, name: str, deviation: float, last: datetime, at: datetime) -> Sum:
        """For how long something wears since it was clean.

        What was learned of how fast is carried on as far as any trend is: of the time after that
        no reading tells, so nobody knows more than before the first one.
        """
        newest = self.times.reads[-1].at if self.times.reads else last
        since = (at - last).total_seconds()
        known = max(0.0, (newest - last).total_seconds())
        told = min(since, known + self.worked.rules.care.trend_horizon)
        found = ((self.unknowns.place(("rate", name), 0.0, deviation), told),)
        if told == since:
            return found
        later = self.unknowns.place(("later", name), 0.0, deviation)
        return (*found, (later, since - told))

    def _loss(self, key: str, at: datetime, times: float) -> int:
        """Of a run; nothing is known of what was there before it was changed."""
        if rebuilt_since(self.line, at):
            return self.unknowns.place(("loss", key, BEFORE), 0.0, VALVE_UNKNOWN)
        return self.unknowns.place(("loss", key), 0.0, loss_deviation(times))

    def _end(self, outlet: Outlet, at: datetime, loss_doubt: float, lift_doubt: float) -> End:
        key, place = outlet.key, self.unknowns.place
        if rebuilt_since(self.line, at):
            lift = place(("lift", key, BEFORE), 0.0, LIFT_BEFORE)
        else:
            lift = place(("lift", key), 0.0, evenly(lift_doubt))
        loss = [(self._loss(key, at, loss_doubt), 1.0)]
        branch = next(one for one in self.line.branches if one.id == key)
        if branch.feeds:
            rules = self.worked.rules
            state = self.times.dirt_state(key, at)
            last = self.times.dirt[key][state - 1] if state else self.begin
            if state:
                loss.append((place(("dirt", key, str(state)), 0.0, dirt(rules)), 1.0))
            loss += self._wears(key, 2.0 * wear_rate(rules), last, at)
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
            valve = place(("valve", key, str(state)), log(wide), VALVE_UNKNOWN, nothing=True)
            return ((valve, 1.0),)
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


def _as_read(worked: WorkedPond, place: BranchPlace, past: Sequence[Reading]) -> BranchPlace:
    """A branch by the place where its water was caught last, as log and picture call it."""
    mine = [reading for reading in past if reading.place_id in place.everywhere]
    if not mine:
        return place
    newest = max(mine, key=attrgetter("taken_at"))
    target = worked.wanted.place(newest.place_id)
    name = target.name if target else newest.place_name
    return replace(place, place_id=newest.place_id, place_name=name)


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
    past = [item for item in until(log, now) if isinstance(item, Reading)]
    places = tuple(_as_read(worked, one, past) for one in branch_places(worked, line))
    parts = pumped(worked, line, places)
    times = timeline(worked, line, log, places, turned_at, now)
    begin = times.reads[0].at if times.reads else now
    evidence = Evidence(worked, log, now, turned_at)
    return Model(worked, line, parts, places, times, begin, Unknowns(), evidence)
