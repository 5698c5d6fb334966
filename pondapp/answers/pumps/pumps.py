"""The pumps on the shelf in this pond's circuit: enough or not, watts, money, and the order."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.plumbing.network import LineNetwork as LineNetwork
from pondapp.answers.plumbing.network import doubt_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import curve_of as known_curve
from pondapp.answers.rules.beyond import beyond_power
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import NoSolution, NotEnoughReadings, OutOfRange, PondError
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Step
from pondapp.core.hydraulics.candidates import DOES_IT, ORDER, Candidate, Ranked, State, ranking
from pondapp.core.hydraulics.energy import power_for
from pondapp.core.hydraulics.network import OperatingPoint, operating_point, system_head
from pondapp.core.hydraulics.pump_curve import ESTIMATED as ESTIMATED
from pondapp.core.hydraulics.pump_curve import PumpCurve, at_speed
from pondapp.models.circuit import Branch, Line, Pump
from pondapp.models.pond import Pond
from pondapp.words import t

TARIFF = "pumps.tariff"
YEARS = "pumps.cost_years"
FALL_SHARE = "pumps.waterfall_share"
CURVE_STEPS = 16


@dataclass(frozen=True, slots=True)
class PumpAnswer:
    """One pump in its place among the others."""

    pump: Pump
    place: int
    state: State
    delivered: float
    """Flow [m3/s] with all valves open, likely and when clean; 0 if none."""
    reason: Message
    notes: tuple[Message, ...] = ()
    ranked: Ranked | None = None
    """None where its curve is not known."""

    @property
    def does_it(self) -> bool:
        """Whether it is enough, surely or probably."""
        return self.state in ("enough", "probably")

    @property
    def span(self) -> tuple[float, float]:
        """Flow [m3/s] that it gives at least and at most until its next cleaning."""
        return (self.ranked.given.low, self.ranked.given.high) if self.ranked else (0.0, 0.0)

    @property
    def speed(self) -> float:
        """Share of full speed that is enough [-]."""
        return self.ranked.speed if self.ranked else 1.0

    @property
    def power(self) -> float | None:
        """Watts at that speed."""
        return self.ranked.costs.power if self.ranked and self.pump.power_w else None

    @property
    def per_year(self) -> float | None:
        """Energy costs in a year, in the owner's currency."""
        return self.ranked.costs.per_year if self.ranked and self.pump.power_w else None

    @property
    def total(self) -> float | None:
        """Purchase and energy over the years counted."""
        return self.ranked.costs.total if self.ranked and self.pump.power_w else None

    def steps(self) -> tuple[Step, ...]:
        """The working of its odds, and of its costs where its watts are known."""
        if self.ranked is None:
            return ()
        return self.ranked.steps() if self.pump.power_w else self.ranked.given.steps()


@dataclass(frozen=True, slots=True)
class PumpRanking:
    """All pumps to choose from, best first, and what is asked of them."""

    network: LineNetwork
    power_low: float
    power_high: float
    """Watts [W] that a usual small pump takes for this."""
    answers: tuple[PumpAnswer, ...]
    beyond: Message | None = None
    """A remark where even the lowest of these is beyond a garden pond."""


def curve_of(pump: Pump) -> PumpCurve:
    """The pump's curve: through its printed points if there are any, else by its label.

    Raises:
        PondError: Too little is known of it, or its points do not fall.
    """
    curve = known_curve(pump)
    if curve is None:
        raise NotEnoughReadings("enter the largest flow and the largest head from its label")
    return curve


def _judged(network: LineNetwork, pumps: Sequence[tuple[Pump, PumpCurve]]) -> list[PumpAnswer]:
    """Pumps with a curve, in core's order; places are given later."""
    by_key = {pump.id: pump for pump, _ in pumps}
    doubt = doubt_of(network)
    found = ranking(
        [
            Candidate(
                pump.id, curve, pump.power_w or 0.0, pump.price or 0.0, pump.adjustable, pump.name
            )
            for pump, curve in pumps
        ],
        network.circuit,
        network.flows,
        network.viscosity,
        network.density,
        network.rules.pumps,
        doubt,
        held=all(branch.valve for branch in network.branches if branch.flow > 0.0),
    )
    answers = []
    for ranked in found:
        pump = by_key[ranked.candidate.key]
        reason, notes = ranked.reason, list(ranked.warnings)
        if not pump.power_w:
            # With no watts there is nothing to say of power and costs.
            notes = [note for note in notes if "power" not in note.values]
            if ranked.state in ("enough", "probably"):
                if "total" not in reason.values and "more" not in reason.values:
                    notes.insert(0, reason)
                reason = Message("enter its watts to see what it costs")
        elif beyond := beyond_power(pump.power_w, network.rules):
            notes.append(beyond)
        if pump.power_w and pump.price is None:
            notes.append(Message("its price is not entered: only its energy is counted"))
        if doubt.assumed and ranked.given.odds == "enough" and ranked.state == "probably":
            notes.insert(0, Message("lift or hose is only assumed: enter it to be sure"))
        answers.append(
            PumpAnswer(pump, 0, ranked.state, ranked.delivered, reason, tuple(notes), ranked)
        )
    return answers


def answers_for(network: LineNetwork, pumps: Sequence[Pump]) -> tuple[PumpAnswer, ...]:
    """All pumps, best first: by how sure they are enough, then by cost or by what they bring."""
    known, unknown = [], []
    for pump in pumps:
        try:
            known.append((pump, curve_of(pump)))
        except PondError as problem:
            unknown.append(PumpAnswer(pump, 0, "unknown", 0.0, problem.message))
    # Ranked apart: a pump whose watts are not known would seem to run for nothing.
    answers = _judged(network, [item for item in known if item[0].power_w])
    answers += _judged(network, [item for item in known if not item[0].power_w])
    answers.sort(key=_merit)
    return tuple(
        replace(answer, place=place) for place, answer in enumerate([*answers, *unknown], 1)
    )


def _merit(answer: PumpAnswer) -> tuple[int, float]:
    """Sorts the best state first, and what is not enough by the water that it brings."""
    brings = 0.0 if answer.state in DOES_IT or not answer.ranked else answer.ranked.useful
    return ORDER.index(answer.state), -brings


def shelf(worked: WorkedPond, line: Line, flows: Mapping[str, float]) -> PumpRanking:
    """The pond's pumps in a line's circuit at its planned flows [m3/s], given by branch id.

    Raises:
        PondError: The circuit cannot be counted; the message says why.
    """
    network = worked.network(line, flows)
    head = max(0.0, network.needs.head)
    rules = network.rules.pumps
    low, high = (
        power_for(network.needs.flow, head, network.density, share)
        for share in (rules.efficiency_high, rules.efficiency_low)
    )
    beyond = beyond_power(low, network.rules)
    return PumpRanking(network, low, high, answers_for(network, worked.pond.pumps), beyond)


@dataclass(frozen=True, slots=True)
class Curves:
    """A pump against its circuit, as points to draw: flow [m3/s] and head [m]."""

    pump: tuple[tuple[float, float], ...]
    system: tuple[tuple[float, float], ...]
    wanted: tuple[float, float]
    settles: tuple[float, float] | None
    """Where they meet; none where they do not."""
    slowed: tuple[tuple[float, float], ...] = ()
    """The pump at a lower speed."""
    trouble: Message | None = None
    point: OperatingPoint | None = None

    def steps(self) -> tuple[Step, ...]:
        """The working of where they meet."""
        return self.point.steps() if self.point else ()


def _points(curve: PumpCurve) -> tuple[tuple[float, float], ...]:
    span = curve.most_flow - curve.least_flow
    flows = (curve.least_flow + span * step / CURVE_STEPS for step in range(CURVE_STEPS + 1))
    return tuple((flow, curve.head_at(flow)) for flow in flows)


def curves(network: LineNetwork, pump: Pump, speed: float = 1.0) -> Curves:
    """Points of both curves, with the valves open; also at a lower speed if there is one.

    Raises:
        PondError: Too little is known of the pump, or the speed is out of range.
    """
    curve = curve_of(pump)
    wanted = (network.needs.flow, network.needs.head)
    of_pump = _points(curve)
    slowed = _points(at_speed(curve, speed)) if speed < 1.0 else ()
    top = max(of_pump[0][1], wanted[1]) * 1.1
    most = max(curve.most_flow, wanted[0] * 1.1)
    of_system: list[tuple[float, float]] = []
    for step in range(CURVE_STEPS + 1):
        flow = most * step / CURVE_STEPS
        head = system_head(network.circuit, flow, network.viscosity)
        of_system.append((flow, head))
        if head > top:
            break
    try:
        point = operating_point(curve, network.circuit, network.viscosity)
    except NoSolution as problem:
        return Curves(of_pump, tuple(of_system), wanted, None, slowed, problem.message)
    meet = (point.flow, point.head)
    return Curves(of_pump, tuple(of_system), wanted, meet, slowed, point=point)


@dataclass(frozen=True, slots=True)
class Option:
    """One way to set up pumps, and what it costs."""

    pumps: tuple[Pump, ...]
    purchase: float
    per_year: float
    total: float
    energy_per_year: float
    """Energy [J]."""


@dataclass(frozen=True, slots=True)
class PumpComparison:
    """One pump for all, against two with the waterfall on a timer."""

    one: Option | Message
    two: Option | Message
    on_timer: tuple[str, ...]
    """Names of the branches that rest."""
    hours: float
    years: float
    rest_flow: float
    """Flow [m3/s] that goes round while they rest."""
    short_of: float
    """Flow [m3/s] by which the mean of the day falls when they rest."""
    notes: tuple[Message, ...]

    @property
    def saved_per_year(self) -> float | None:
        """What two pumps save in a year against one; below 0 if they cost more."""
        if isinstance(self.one, Message) or isinstance(self.two, Message):
            return None
        return self.one.per_year - self.two.per_year

    @property
    def saved_in_all(self) -> float | None:
        """The same with both purchases, over the years counted."""
        if isinstance(self.one, Message) or isinstance(self.two, Message):
            return None
        return self.one.total - self.two.total


def _option(parts: Sequence[PumpAnswer]) -> Option:
    found = [part.ranked.costs for part in parts if part.ranked]
    return Option(
        tuple(part.pump for part in parts),
        sum(money.purchase for money in found),
        sum(money.per_year for money in found),
        sum(money.total for money in found),
        sum(money.energy_per_year for money in found),
    )


def _all_day(pond: Pond, feeds: Sequence[str]) -> bool:
    """Whether something with living bacteria, or the pond itself, needs this water all day."""
    here = [feature for feature in pond.fed if feature.id in feeds]
    return not here or any(kind_of(feature).alive for feature in here)


def _fed_by(pond: Pond, branches: Sequence[Branch]) -> str:
    """The names of what some branches feed."""
    fed = {item for branch in branches for item in branch.feeds}
    return t(" and ").join(feature.name for feature in pond.fed if feature.id in fed)


def _none_enough(what: str, network: LineNetwork) -> Message:
    return Message(
        "none of your pumps is enough for {what}, or its watts are not known: it takes {flow} "
        "at {head}",
        {
            "what": what,
            "flow": Amount(network.needs.flow, "m3/s"),
            "head": Amount(network.needs.head, "m"),
        },
    )


def compare(worked: WorkedPond, line: Line, flows: Mapping[str, float]) -> PumpComparison | Message:
    """One pump round the clock against two, of which one feeds what may rest, on a timer.

    A sentence instead where there is nothing to put on a timer, or nothing else.

    Raises:
        PondError: The circuit cannot be counted; the message says why.
    """
    pond, rules = worked.pond, worked.rules.pumps
    falls = [b for b in line.branches if not _all_day(pond, b.feeds) and flows[b.id] > 0.0]
    others = [b for b in line.branches if b not in falls and flows[b.id] > 0.0]
    if not falls:
        return Message(
            "nothing here can rest: each branch feeds a filter or the pond. A waterfall needs a "
            "branch of its own before it can go on a timer."
        )
    if not others:
        return Message("nothing here needs water day and night, so one pump on a timer is enough")
    hours = min(24.0 * rules.waterfall_share, line.hours_per_day)
    parts = (
        ("all of it", line.branches, line.hours_per_day),
        ("the filters", tuple(others), line.hours_per_day),
        (_fed_by(pond, falls), tuple(falls), hours),
    )
    found: list[PumpAnswer | Message] = []
    for what, branches, time in parts:
        part = line.model_copy(update={"branches": branches, "hours_per_day": time})
        network = worked.network(part, flows)
        answers = answers_for(network, pond.pumps)
        best = next((a for a in answers if a.does_it and a.pump.power_w), None)
        found.append(best or _none_enough(what, network))
    whole, filters, fall = found
    one = whole if isinstance(whole, Message) else _option([whole])
    if isinstance(filters, Message):
        two: Option | Message = filters
    elif isinstance(fall, Message):
        two = fall
    else:
        two = _option([filters, fall])
    chosen = [answer for answer in found if isinstance(answer, PumpAnswer)]
    notes = []
    if any(answer.pump.price is None for answer in chosen):
        notes.append(Message("a price is missing: only its energy is counted"))
    resting = sum(flows[b.id] for b in falls)
    return PumpComparison(
        one=one,
        two=two,
        on_timer=tuple(b.name for b in falls),
        hours=hours,
        years=rules.cost_years,
        rest_flow=sum(flows[b.id] for b in others),
        short_of=resting * (line.hours_per_day - hours) / 24.0,
        notes=tuple(notes),
    )


def tariff_of(pond: Pond) -> float:
    """Price of energy in the owner's currency [1/J]."""
    return Assumptions().with_overrides(pond.assumptions).pumps.tariff


def years_counted(pond: Pond) -> float:
    """Years over which costs are counted."""
    return Assumptions().with_overrides(pond.assumptions).pumps.cost_years


def fall_time(pond: Pond) -> float:
    """Time in a day [s] that a waterfall on a timer runs."""
    return Assumptions().with_overrides(pond.assumptions).pumps.waterfall_share * DAY


def limits(key: str) -> tuple[float, float]:
    """Least and largest value that makes sense for an assumption, in SI.

    Raises:
        OutOfRange: There is no assumption of that key.
    """
    for item in Assumptions().known():
        if item.key == key:
            return item.low, item.high
    raise OutOfRange("there is no assumption called {key}", key=key)


def fall_times() -> tuple[float, float]:
    """Least and largest time in a day [s] that a waterfall on a timer may run."""
    least, most = limits(FALL_SHARE)
    return least * DAY, most * DAY


def with_assumption(pond: Pond, key: str, value: float) -> Pond:
    """The pond with one assumption changed, in SI.

    Raises:
        OutOfRange: There is no such assumption, or the value is not one that makes sense.
    """
    changed = {**pond.assumptions, key: value}
    Assumptions().with_overrides(changed)
    return pond.model_copy(update={"assumptions": changed})


def with_fall_time(pond: Pond, seconds: float) -> Pond:
    """The pond with its waterfall on a timer for so long in a day [s].

    Raises:
        OutOfRange: It is no part of a day.
    """
    return with_assumption(pond, FALL_SHARE, seconds / DAY)


def put_pump(pond: Pond, pump: Pump) -> Pond:
    """The pond with a pump to choose from added, or changed if it has its id already."""
    if any(old.id == pump.id for old in pond.pumps):
        pumps = tuple(pump if old.id == pump.id else old for old in pond.pumps)
    else:
        pumps = (*pond.pumps, pump)
    return Pond.model_validate(pond.model_copy(update={"pumps": pumps}).model_dump())


def without_pump(pond: Pond, pump_id: str) -> Pond:
    """The pond with a pump taken off the shelf, and out of every line."""
    lines = tuple(
        line.model_copy(update={"pump_id": None}) if line.pump_id == pump_id else line
        for line in pond.lines
    )
    pumps = tuple(pump for pump in pond.pumps if pump.id != pump_id)
    return pond.model_copy(update={"pumps": pumps, "lines": lines})
