"""What the calibrated pond lets expect: flows now, after a cleaning or a turn, of another pump."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import timedelta
from math import log, sqrt

from pondapp.answers.learning.intervals import Bounds, bounds, bounds_of_pump
from pondapp.answers.learning.learning import Learning, shut
from pondapp.answers.learning.standing import band_at, ever_read, stands
from pondapp.answers.learning.timeline import usual_share
from pondapp.answers.log.dates import day_text, month_and_year
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.flow import FlowBand
from pondapp.answers.picture.states import WORDS, PlaceState
from pondapp.answers.pumps.pumps import curve_of
from pondapp.answers.tuning.flow_sets import BranchPlace
from pondapp.core.base.constants import DAY
from pondapp.core.base.messages import Amount, Message, Range, Value
from pondapp.core.base.working import Step, Term
from pondapp.core.calibration.calibrated import Predicted
from pondapp.core.calibration.fit import PROPAGATED, SQUARES
from pondapp.core.calibration.scene import Scene
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Kind, decide
from pondapp.models.circuit import Pump

MONTH = 30.0 * DAY
NARROWEST = 0.1
"""Of its aim, that a band counts as wide at least: nobody sets a valve closer."""
HARDLY = 0.2
"""Of what is known of a flow, that readings have to bring for it to be told as theirs, where nobody
caught that water. A rule of thumb."""
WORTH = 0.02
"""Of its uncertainty, that a next reading has to take for it to be worth a walk."""


@dataclass(frozen=True, slots=True)
class FlowTold:
    """A flow that is expected, with its interval."""

    name: str
    flow: float
    low: float
    """Ends of its interval [m3/s]."""
    high: float
    share: float
    """Share of what is known of it that readings brought [-]."""
    steps: tuple[Step, ...]
    told: bool = True
    """Whether it may be told at all; else something speaks against it."""
    open: bool = False
    """Whether readings leave more open there than the fit does."""
    key: str = ""
    """Its branch; none for the pump's."""
    read: bool = True
    """Whether anybody caught that water."""
    stands: Kind | None = None
    """Where the fit has it against what is wanted; None where that cannot be said."""
    state: PlaceState | None = None
    """How the place is in the pond's picture, which is the verdict; None where the above is none,
    or where nothing was measured of it."""
    wanted: FlowBand | None = None

    @property
    def unread(self) -> bool:
        """Whether it hardly rests on readings, since nobody caught that water."""
        return not self.read and (self.share < HARDLY or not self.close)

    @property
    def moved(self) -> bool:
        """Whether the fit has it elsewhere by now than it was measured, which is no verdict yet."""
        return bool(self.state and self.stands and self.state.word != WORDS[self.stands])

    @property
    def half(self) -> float:
        """Half of its interval [m3/s], on the side where that is wider."""
        return max(self.flow - self.low, self.high - self.flow)

    @property
    def close(self) -> bool:
        """Whether it is known closely enough for its figures to say anything."""
        return Bounds(self.low, self.high, self.told).close(self.flow)

    def working(self) -> tuple[Step, ...]:
        """How it was found."""
        return self.steps


@dataclass(frozen=True, slots=True)
class NextReading:
    """Where a reading would tell most."""

    place: BranchPlace
    before: float
    """Half of the interval of the flow there now [m3/s]."""
    after: float
    """The same once it is read; 0 where nobody can say."""
    close: bool
    """Whether the flow there is known closely enough to be told in figures."""


def _told(found: Learning, key: str, name: str, one: Predicted, its: Bounds) -> FlowTold:
    before = sqrt(sum(slope * slope for slope in one.row.values()))
    flow = Term("Q", "flow of the fitted circuit", one.flow, "m3/s")
    prior = Term("u0", "its standard uncertainty by what was entered", before, "m3/s")
    told = Term("u", "its standard uncertainty with all readings", one.uncertainty, "m3/s")
    count = Term("n", "number of readings", float(len(found.fitted.data)), "-")
    steps = (
        Step(flow, "least Σ w r² + Σ x²", (count,), SQUARES),
        Step(told, "u² = Σ Σ (∂Q/∂x) C (∂Q/∂x)", (prior, count), PROPAGATED),
    )
    share = found.fitted.share_from_data(one.row)
    by_fit = stands(found, key, one, its)
    return FlowTold(
        name, one.flow, its.low, its.high, share, steps, its.told, its.differs, key,
        ever_read(found, key), by_fit, found.pictured.get(key or found.model.line.id)
        if by_fit else None, band_at(found, key),
    )  # fmt: skip


def flows_in(found: Learning, scene: Scene, pump: str = "") -> tuple[FlowTold, ...]:
    """The flow at every place in a scene, and that of the pump where it feeds several.

    Args:
        found: The line as its readings say that it is.
        scene: Its circuit at a time.
        pump: Name of another pump that runs there; else it is called by its line.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    ends, whole = found.fitted.predicted(scene)
    by_key = {place.branch.id: place for place in found.model.places}
    keys = [end.outlet.key for end in scene.ends]
    parts = [
        (one, bounds(found, scene, key, one)) for key, one in zip(keys, ends, strict=True)
    ]  # fmt: skip
    told = [
        _told(found, key, by_key[key].place_name, one, its)
        for key, (one, its) in zip(keys, parts, strict=True)
        if key in by_key
    ]
    if len(told) > 1:
        name = pump or found.model.worked.names.lines[found.model.line.id]
        told.append(_told(found, "", name, whole, bounds_of_pump(found, scene, whole, parts)))
    return tuple(told)


def after_cleaning(found: Learning) -> tuple[FlowTold, ...]:
    """Flows once the pump is cleaned, all valves as they stand: never less than now.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    clean = flows_in(found, found.model.scene(found.now, cleaned=True))
    now = flows_in(found, found.scene_now)
    return tuple(_not_below(one, floor) for one, floor in zip(clean, now, strict=True))


def _not_below(one: FlowTold, floor: FlowTold) -> FlowTold:
    """A flow that is at least another: cleaning makes no pump weaker."""
    more = one if one.flow >= floor.flow else replace(floor, steps=one.steps, share=one.share)
    low, high = max(one.low, floor.low), max(one.high, floor.high)
    return replace(more, low=low, high=high, told=one.told and floor.told)


def with_pump(found: Learning, pump: Pump) -> tuple[FlowTold, ...]:
    """Flows with another pump, as good as new, all valves as they stand.

    Raises:
        PondError: Its curve is not known, or the circuit cannot be balanced.
    """
    return flows_in(found, found.model.scene(found.now, other=curve_of(pump)), pump.name)


def after_turn(found: Learning, place: BranchPlace) -> tuple[FlowTold, ...]:
    """The other places once the valve of one is turned until it has its aim.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    scene, aim = shut(found.scene_now, place.branch.id), place.band.target
    ends, _ = found.fitted.predicted(scene, aim)
    return tuple(
        _told(found, key, one.place_name, predicted, bounds(found, scene, key, predicted))
        for end, predicted in zip(scene.ends, ends, strict=True)
        for one in found.model.places
        if (key := one.branch.id) == end.outlet.key != place.branch.id
    )


def _reached(found: Learning, place: BranchPlace, aim: float) -> bool:
    """Whether it is beyond doubt that a branch comes to its aim with its valve wide open."""
    scene = found.scene_now
    ends = tuple(
        replace(end, valve=()) if end.outlet.key == place.branch.id else end for end in scene.ends
    )
    flows, _ = found.fitted.predicted(replace(scene, ends=ends))
    one = next(
        flow for end, flow in zip(ends, flows, strict=True) if end.outlet.key == place.branch.id
    )
    rule = certainty(found.model.worked.rules.measuring)
    return decide(Spread(one.flow, one.uncertainty), aim, None, rule).kind == "within"


def to_turn(found: Learning, aims: Mapping[str, float] | None = None) -> BranchPlace | None:
    """The place with a valve that is farthest from its aim, where that is beyond doubt.

    Args:
        found: The line as its readings say that it is.
        aims: The aims that tuning has of its branches [m3/s], by the branch's id, where they depend
            on what is filled there.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    ends, _ = found.fitted.predicted(found.scene_now)
    rule = certainty(found.model.worked.rules.measuring)
    worst: tuple[float, BranchPlace] | None = None
    for end, one in zip(found.scene_now.ends, ends, strict=True):
        for place in found.model.places:
            key = place.branch.id
            if key != end.outlet.key or place.valve == "none" or not one.flow:
                continue
            if key in found.spans or key in found.model.times.dry:  # first it is read again
                continue
            band = place.band
            aim = (aims or {}).get(key, band.target)
            seen = decide(Spread(one.flow, one.uncertainty), band.low, band.high, rule).kind
            off = abs(one.flow / aim - 1.0)
            if seen not in ("below", "above") or (worst is not None and off <= worst[0]):
                continue
            if seen == "above" or _reached(found, place, aim):
                worst = off, replace(place, band=replace(band, target=aim))
    return worst[1] if worst else None


def next_reading(found: Learning) -> NextReading | None:
    """The place where one more reading would narrow what is known of all flows most.

    What counts is how far each flow of now is known beside how wide its band is: that decides which
    valve is turned.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    model, scene = found.model, found.scene_now
    ends, _ = found.fitted.predicted(scene)
    share = usual_share(model.times.reads)
    by_key = {place.branch.id: place for place in model.places}
    wanted: list[tuple[Predicted, float]] = []
    for end, now in zip(scene.ends, ends, strict=True):
        place = by_key.get(end.outlet.key)
        if place is not None:
            band = place.band
            wide = (band.high - band.low) if band.high is not None else band.target
            wanted.append((now, max(wide, NARROWEST * band.target)))
    best: tuple[bool, float, NextReading] | None = None
    before = sum((one.uncertainty / wide) ** 2 for one, wide in wanted)
    told = {one.name: one for one in flows_in(found, scene)}
    for end, read in zip(scene.ends, ends, strict=True):
        key = end.outlet.key
        place = by_key.get(key)
        if place is None:
            continue
        if read.flow <= 0.0:
            if best is None and not told[place.place_name].told:
                best = False, before, NextReading(place, 0.0, 0.0, close=False)
            continue
        after = sum((found.fitted.narrowed(one, read, share) / wide) ** 2 for one, wide in wanted)
        # What readings leave open, or where none came last, only another one can decide.
        settled = key not in found.spans and key not in model.times.dry
        if settled and after >= before * (1.0 - WORTH):
            continue
        if best is None or (settled, after) < best[:2]:
            known = told[place.place_name]
            half = found.reach * found.fitted.narrowed(read, read, share)
            best = settled, after, NextReading(place, max(known.half, half), half, known.close)
    return best[2] if best else None


def brought(found: Learning) -> Message | None:
    """What the last cleaning of the pump brought, where readings before and after tell it.

    Raises:
        PondError: The circuit cannot be balanced.
    """
    model, times = found.model, found.model.times
    for at in reversed(times.pump):
        state = times.pump_state(at)
        seen = {times.pump_state(read.at) for read in found.reads}
        if not {state, state - 1} <= seen or times.changed == at:
            continue
        _, after = found.fitted.predicted(model.scene(at))
        _, then = found.fitted.predicted(model.scene(at, before=True))
        if then.flow <= 0.0:
            return None
        ratio = after.flow / then.flow
        both = found.fitted.correlated(after, then)
        variance = after.uncertainty**2 + (ratio * then.uncertainty) ** 2 - 2.0 * ratio * both
        change = Spread(ratio, sqrt(max(0.0, variance)) / then.flow)
        rule = certainty(model.worked.rules.measuring)
        values: dict[str, Amount | str] = {
            "day": day_text(at),
            "share": Amount(ratio - 1.0, "share"),
            "half": Amount(found.reach * change.scale, "share"),
        }
        if decide(change, 1.0, 1.0, rule).kind == "above":
            return Message("The cleaning on {day} brought {share} more, give or take {half}.",
                           values)  # fmt: skip
        return Message("The cleaning on {day} brought no more flow that can be told.", values)
    return None


def clean_when(found: Learning) -> Message | None:
    """When the pump's side will have lost so much that it wants cleaning, where it is told to lose.

    Whether readings reach far enough for that is for the trends of its places to say.

    Raises:
        PondError: A changed rule cannot be.
    """
    model, fitted = found.model, found.fitted
    place = model.unknowns.known(("rate", "pump"))
    if place is None:
        return None
    rule = replace(certainty(model.worked.rules.measuring), widest=1.0)
    rate, doubt = fitted.values[place], fitted.deviation(place)
    if rate <= 0.0 or decide(Spread(rate, doubt), 0.0, None, rule).kind != "within":
        return None
    row = fitted.by_deviations(dict(model.pump_speed(found.now)))
    left = model.pump_left(found.now, fitted.values)
    worn = model.worked.rules.pumps.worn_share
    lost = Spread(left, left * sqrt(fitted.fitted.variance(row)))
    if decide(lost, worn, None, rule).kind == "below":
        return Message("By all readings the pump has lost so much that it needs cleaning.")
    further = max(0.0, log(left / worn))
    if further / rate > model.worked.rules.care.trend_horizon:
        return None
    slowest, fastest = (max(0.0, rate + way * found.reach * doubt) for way in (-1.0, 1.0))
    month, year = month_and_year(found.now + timedelta(seconds=further / rate))
    first_month, first_year = month_and_year(found.now + timedelta(seconds=further / fastest))
    values: dict[str, Value] = {
        "range": Range(slowest * MONTH, fastest * MONTH, "share"),
        "month": month,
        "year": year,
    }
    if (first_month, first_year) == (month, year):
        words = "The pump loses {range} of its speed a month: clean it about {month} {year}."
        return Message(words, values)
    return Message(
        "The pump loses {range} of its speed a month: clean it about {month} {year}, at "
        "the earliest in {first_month} {first_year}.",
        {**values, "first_month": first_month, "first_year": first_year},
    )
