"""A line of a pond calibrated by its log: what was entered, corrected by what was read."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property
from math import exp

from pondapp.answers.care.due import taken_lately
from pondapp.answers.learning.model import ANY_PUMP, SAME_TIME, Model, TooMuch, model_of
from pondapp.answers.learning.timeline import Read
from pondapp.answers.log.log import LogItem
from pondapp.answers.picture.states import PlaceState, states_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_of
from pondapp.core.base.messages import Message
from pondapp.core.calibration.calibrated import Calibrated, Datum, calibrated
from pondapp.core.calibration.learned import Learned
from pondapp.core.calibration.scene import Scene, learned_at
from pondapp.core.measuring.student_t import normal_factor
from pondapp.models.circuit import Line

Span = tuple[float, float]
"""Least and most that a flow may be over what the fit says, by readings that do not fit it."""


LATEST = 3
"""Readings that are left open, of which a flow of now spans the newest: of sixty that scatter, the
farthest says nothing of now. A rule of thumb."""


@dataclass(frozen=True, eq=False)
class Learning:
    """A line as its readings say that it is."""

    model: Model
    fitted: Calibrated
    now: datetime
    scene_now: Scene
    too_much: tuple[TooMuch, ...] = ()
    """Readings that are more than the pump can give, which are not fitted."""
    spans: Mapping[str, Span] = field(default_factory=dict)
    """What readings leave open of each branch as it stands now, by its id; empty for the pump."""

    @property
    def learned(self) -> Learned:
        """How it differs from what was entered, now."""
        return learned_at(self.scene_now, self.fitted.values)

    def most(self, scene: Scene) -> float:
        """What the pump of a scene can give at most [m3/s], by its label and its tolerance.

        Raises:
            PondError: Its curve is no number somewhere.
        """
        return most_of(scene.curve, self.model.worked.rules)

    @property
    def reads(self) -> tuple[Read, ...]:
        """The readings that were fitted, oldest first, as the fit counts them."""
        return _without(self.model.times.reads, self.too_much)

    @cached_property
    def contradicted(self) -> Mapping[str, Message]:
        """What contradicts the newest reading of a branch, or with no key of the pump."""
        newest = {read.branch_id: read.reading for read in self.reads}
        why = {key: self.model.evidence.why((reading,)) for key, reading in newest.items()}
        return {key: told for key, told in why.items() if told}

    @cached_property
    def pictured(self) -> Mapping[str, PlaceState]:
        """How each place of the pond is in its picture, by the one rule for all screens.

        Raises:
            PondError: The pond's shape, a changed rule or a reading cannot be.
        """
        return states_of(self.model.worked, self.model.evidence.log, self.now)

    @property
    def read_now(self) -> frozenset[str]:
        """Ids of the branches that were read as they stand now."""
        states = {datum.state for datum in self.fitted.data}
        keys = self.model.times.turns
        return frozenset(key for key in keys if self.model.state(key, self.now) in states)

    @property
    def too_old(self) -> bool:
        """Whether nothing was read lately.

        What wears is carried on from old readings until no water comes, and of no water the fit
        knows no doubt: so they never say that a place is dry now.
        """
        pond, reads = self.model.worked.pond, self.reads
        return bool(reads) and not any(taken_lately(pond, read.at, self.now) for read in reads)

    @property
    def reach(self) -> float:
        """How many standard uncertainties lie between a value and the end of its interval."""
        return normal_factor(self.model.worked.rules.measuring.coverage)


def _without(reads: Sequence[Read], too_much: Sequence[TooMuch]) -> tuple[Read, ...]:
    left_out = {id(read) for one in too_much for read in one.reads}
    return tuple(read for read in reads if id(read) not in left_out)


def shut(scene: Scene, key: str) -> Scene:
    """A scene with one branch shut: what it draws is given."""
    ends = tuple(
        replace(end, outlet=replace(end.outlet, closed=end.outlet.closed or end.outlet.key == key))
        for end in scene.ends
    )
    return replace(scene, ends=ends)


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
    too_much = model.too_much()
    reads = _without(model.times.reads, too_much)
    scenes: list[Scene] = []
    places: dict[tuple[object, ...], int] = {}
    keys = [outlet.key for outlet in model.parts.circuit.branches]
    data = []
    for read in reads:
        state = round(read.at.timestamp() / SAME_TIME), *(model.state(key, read.at) for key in keys)
        if state not in places:
            places[state] = len(scenes)
            scenes.append(model.scene(read.at))
        container = None
        if read.container and read.content > 0.0:
            container = model.unknowns.place(("container", read.container), 0.0, read.content)
        end = keys.index(read.branch_id) if read.branch_id else None
        data.append(
            Datum(read.reading.id, places[state], end, read.flow, read.share, container,
                  read.freedom, model.state(read.branch_id, read.at))
        )  # fmt: skip
    scene_now = model.scene(now)
    chance = worked.rules.measuring.outlier_chance
    fitted = calibrated(model.unknowns.found, scenes, data, chance)
    size = len(fitted.unknowns)
    model.scene(now, cleaned=True)
    model.scene(now, other=ANY_PUMP)
    whole = fitted.beside(model.unknowns.found[size:])
    return Learning(model, whole, now, scene_now, too_much, _spans(model, whole, now))


def _spans(model: Model, fitted: Calibrated, now: datetime) -> dict[str, Span]:
    """What the latest readings of each branch as it stands now leave open beyond the fit."""
    left: dict[str, list[float]] = {}
    states = {model.state(key, now): key for key in ("", *model.times.turns)}
    for which, (datum, verdict) in enumerate(zip(fitted.data, fitted.verdicts, strict=True)):
        if datum.state in states and verdict in ("open", "against"):
            left.setdefault(states[datum.state], []).append(exp(fitted.off(which)))
    found: dict[str, Span] = {}
    for key, times in left.items():
        latest = times[-LATEST:]
        found[key] = min(1.0, *latest), max(1.0, *latest)
    return found
