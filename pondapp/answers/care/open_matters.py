"""What is open about a pond, worst first: the one place that says how a pond is.

Tests, readings, plan, pumps, fish and due work are asked by the modules that answer for each; here
stands only how bad an answer is, and how old evidence may be. Nothing is right by default: what
was not read, or was read too long ago, is not known.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property, partial
from typing import Literal

from pondapp.answers.care.due import DAY, days_between, days_text, due
from pondapp.answers.care.glance import health_now
from pondapp.answers.care.lamp_change import lamp_change
from pondapp.answers.care.reminders import reminders
from pondapp.answers.care.severity import WORST_FIRST, Severity
from pondapp.answers.features.at_pond import told_of
from pondapp.answers.fish.stock import stock
from pondapp.answers.log.log import LogItem, moment, until
from pondapp.answers.log.log_names import WATER_VALUES
from pondapp.answers.log.water_tests import NEEDED, Standing, standing
from pondapp.answers.picture.standing_flows import standing_flows
from pondapp.answers.picture.states import CONFLICT, PlaceState, feeds_life, states_of
from pondapp.answers.planning.plan import PondConflict
from pondapp.answers.planning.verdict import verdict_of
from pondapp.answers.plumbing.path import feature_of, left_dry, line_name, pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.health import has_valves
from pondapp.answers.pumps.label_doubt import LABEL_DOUBTED, contradicts_label
from pondapp.answers.pumps.pumps import answers_for
from pondapp.answers.tuning.evidence import Doubt, Evidence
from pondapp.answers.tuning.flow_sets import BranchPlace, LatestReading, branch_places, newest_at
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message, Value
from pondapp.core.hydraulics.candidates import State as PumpState
from pondapp.core.measuring.timed_flow import TimedFlow
from pondapp.models.circuit import Line, Pump
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.words import t

Goal = Literal[
    "new_test", "new_cleaning", "log_item", "log", "plan", "path", "measure", "place", "pumps",
    "health", "fish", "water", "reminders", "lamp",
]  # fmt: skip
NAMED = 2
"""Places that are named of many of which nothing is known."""


@dataclass(frozen=True, slots=True)
class Matter:
    """One thing about a pond.

    Attributes:
        severity: How bad it is.
        sentence: What it is.
        goal: The screen where it is put right, or where it shows.
        at: The place or the item of the log that the screen is about.
    """

    severity: Severity
    sentence: Message
    goal: Goal
    at: str = ""


@dataclass(frozen=True, slots=True)
class OpenMatters:
    """All matters of a pond, worst first; never empty."""

    matters: tuple[Matter, ...]

    @property
    def worst(self) -> Matter:
        """What needs its owner most."""
        return self.matters[0]

    @property
    def open(self) -> tuple[Matter, ...]:
        """All that is not right."""
        return tuple(one for one in self.matters if one.severity != "right")


def open_matters(worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> OpenMatters:
    """What is open about a pond.

    Args:
        worked: The pond.
        log: Its whole log, newest first. What is dated after now is no evidence.
        now: The time of now.
    """
    of = _Known(worked, until(log, now), now)
    ahead = [item for item in log if moment(item) > now]
    parts: tuple[Callable[[], Iterator[Matter]], ...] = (
        partial(_water, of),
        partial(_flows, of),
        partial(_plan, of),
        partial(_pumps, of),
        partial(_features, of),
        partial(_fish, of),
        partial(_work, of),
        partial(_dated_ahead, ahead),
    )
    if not of.log:  # a pond that is still planned: its water comes after its pump
        parts = (*parts[1:6], parts[0], *parts[6:])
    found: list[Matter] = []
    for part in parts:
        try:
            found += part()
        except PondError as problem:
            matter = Matter("unknown", problem.message, "water")
            if matter not in found:  # what one part cannot work out, mostly the next cannot either
                found.append(matter)
    return OpenMatters(tuple(sorted(found, key=lambda one: WORST_FIRST.index(one.severity))))


def _days(count: int) -> dict[str, Value]:
    return {"age": days_text(count)}


def _age(when: datetime, now: datetime) -> int:
    return (now - when) // DAY


@dataclass(frozen=True, slots=True)
class Measured:
    """What readings that still stand say of a pond's lines, by their ids.

    Attributes:
        proved: Those whose branches were all measured as wanted.
        short: Those whose pump was measured to give less than is wanted of it in all.
        doubted: Those of all others whose readings do not go with their pump's label.
    """

    proved: frozenset[str]
    short: frozenset[str]
    doubted: frozenset[str]


def measured(worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> Measured:
    """What was measured of each line.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    known = _Known(worked, until(log, now), now)
    return Measured(known.proved, known.short, known.doubted)


class _Known:
    """A pond with what is known of it; what several parts ask is worked out once."""

    def __init__(self, worked: WorkedPond, log: list[LogItem], now: datetime) -> None:
        self.worked, self.log, self.now = worked, log, now
        self.pond = worked.pond

    @cached_property
    def evidence(self) -> Evidence:
        return Evidence(self.worked, self.log, self.now)

    @property
    def readings(self) -> list[Reading]:
        return self.evidence.readings

    @cached_property
    def water(self) -> Standing:
        return standing(self.pond, self.log, self.now)

    @cached_property
    def measured(self) -> list[tuple[Line, list["_Measured"]]]:
        """The branches of each line that are to carry water, each with its newest reading."""
        found = []
        for line in self.worked.lines:
            every = []
            for place in branch_places(self.worked, line):
                seen = newest_at(self.readings, place.everywhere, place.rules, place.band)
                doubt = self.evidence.doubt(seen.reading) if seen else None
                every.append(_Measured(place, seen, doubt))
            found.append((line, every))
        return found

    @property
    def proved(self) -> frozenset[str]:
        """Ids of the lines whose branches were all measured as wanted, and still stand.

        One whose pump as a whole was measured otherwise is none of them.
        """
        return frozenset(
            line.id
            for line, every in self.measured
            if every and all(one.right for one in every) and not self.contradicted(line)
        )

    @property
    def short(self) -> frozenset[str]:
        """Ids of the lines whose pump was measured to give less than is wanted of it in all."""
        return frozenset(line.id for line in self.worked.lines if self._gives_too_little(line))

    @cached_property
    def doubted(self) -> frozenset[str]:
        """Ids of the lines whose readings do not go with their pump's label, which has to decide.

        What was measured as wanted, or as too little, is known without a label.
        """
        told = self.proved | self.short
        return frozenset(
            line.id
            for line in self.worked.lines
            if line.id not in told and contradicts_label(self.evidence, line)
        )

    def _gives_too_little(self, line: Line) -> bool:
        whole = self.places.get(line.id)
        if whole is None or whole.found is None or whole.severity not in ("danger", "wrong"):
            return False
        if whole.word == CONFLICT:  # of what cannot all be, less is not told to come
            return False
        return whole.found.dry or whole.found.kind == "below"

    def contradicted(self, line: Line) -> bool:
        """Whether the pump as a whole was measured as wrong, which no branch tells by itself."""
        whole = self.places.get(line.id)
        if whole is None or line.id in self.told_by_branches:
            return False
        return whole.severity in ("danger", "wrong")

    @cached_property
    def told_by_branches(self) -> frozenset[str]:
        """Ids of the lines whose sum is off because a branch is, which is told there."""
        return frozenset(
            line.id
            for line, every in self.measured
            if line.id in self.places
            and self.places[line.id].summed
            and not all(one.right for one in every)
        )

    @cached_property
    def places(self) -> Mapping[str, PlaceState]:
        """How each place is by the newest reading of its water, as the picture shows it."""
        return states_of(self.worked, self.log, self.now)

    def stands(self, reading: Reading) -> bool:
        """Whether a flow reading tells how it is now."""
        return self.evidence.doubt(reading) is None


def _water(of: _Known) -> Iterator[Matter]:
    """What the tests say that still hold, and what they leave open."""
    pond, now, found = of.pond, of.now, of.water
    remarks = found.remarks(pond)
    for remark in remarks:
        if not remark.good:
            yield Matter(remark.severity, remark.sentence, "log_item", found.items[remark.key])
    if not pond.fish and days_between(pond, "test") is None:
        return
    missing = [key for key in NEEDED if key not in found.items]
    if missing:
        yield _untested(found, missing, now)
    elif all(remark.good for remark in remarks):
        age = _age(min(found.read_at[key] for key in NEEDED), now)
        words = "Water: nothing is off in the tests of the last {age}." if age else (
            "Water: nothing is off in the tests of today."
        )  # fmt: skip
        yield Matter("right", Message(words, _days(age)), "log")


def _untested(found: Standing, missing: Sequence[str], now: datetime) -> Matter:
    """What of the water nobody knows."""
    if found.last is None:
        sentence = Message("The water was never tested.")
    elif found.test is None:
        ago = _days(_age(found.last, now))
        sentence = Message("The last water test is {age} old, too old to go by.", ago)
    else:
        names = ", ".join(t(WATER_VALUES[key][0]) for key in missing)
        sentence = Message("Not tested, or too long ago: {names}.", {"names": names})
    return Matter("unknown", sentence, "new_test")


@dataclass(frozen=True, slots=True)
class _Measured:
    """A branch with its newest reading, and whether that still stands."""

    place: BranchPlace
    seen: LatestReading | None
    doubt: Doubt | None
    """Why that does not tell how it is now."""

    @property
    def stands(self) -> bool:
        """Whether a reading tells how it is now."""
        return self.seen is not None and self.doubt is None

    @property
    def right(self) -> bool:
        """Whether a reading that stands is within what is wanted."""
        return (
            self.place.conflict is None
            and self.seen is not None
            and self.doubt is None
            and self.seen.found.kind == "within"
        )


def _flows(of: _Known) -> Iterator[Matter]:
    """Each place where water comes out, by its newest reading."""
    every = [one for _, branches in of.measured for one in branches]
    yield from _unread(
        "Not measured yet: {names}.",
        "Not measured yet: {names} and {count} more.",
        [one for one in every if one.seen is None],
    )
    for doubt, (all_of, some_of) in DOUBTED.items():
        yield from _unread(all_of, some_of, [one for one in every if one.doubt == doubt])
    told: list[Message] = []
    for one in every:
        why = of.evidence.why((one.seen.reading,)) if one.seen else None
        if why and why not in told:
            told.append(why)
            yield Matter("unknown", why, "measure", one.place.place_id)
    for one in every:
        if one.seen is None or not one.stands or one.right:
            continue
        # While demands conflict no flow is right, which the plan says; but no water is worse.
        if one.place.conflict is None or one.seen.found.dry:
            yield _off(of.pond, one.place, one.seen)
    elsewhere = list(_elsewhere(of))
    yield from elsewhere
    if every and all(one.right for one in every) and not elsewhere:
        yield Matter("right", Message("Every flow is as wanted."), "log")


def _unread(all_of: str, some_of: str, places: Sequence[_Measured]) -> Iterator[Matter]:
    """Places that nothing is known of, by name; of many only some are named."""
    if not places:
        return
    names = [one.place.place_name for one in places]
    values: dict[str, Value] = {"names": ", ".join(names)}
    if more := len(names) - NAMED if len(names) > NAMED + 1 else 0:
        values = {"names": ", ".join(names[:NAMED]), "count": str(more)}
    sentence = Message(some_of if more else all_of, values)
    yield Matter("unknown", sentence, "measure", places[0].place.place_id)


def _off(pond: Pond, place: BranchPlace, seen: LatestReading) -> Matter:
    """A reading that is outside what is wanted, or says nothing yet."""
    values: dict[str, Value] = {"name": place.place_name, "flow": Amount(seen.flow, "m3/s")}
    found = seen.found
    if found.dry:
        alive = feeds_life(pond, place.branch.feeds)
        return _dry(place.place_name, alive=alive, goal=_seen_at(pond, place), at=place.place_id)
    if found.kind in OFF:
        sentence = Message(OFF[found.kind], values)
        return Matter("wrong", sentence, _seen_at(pond, place), place.place_id)
    words = (
        "{name}: {flow}, not decided yet: time more fills."
        if isinstance(found.flow, TimedFlow)
        else "{name}: {flow}, not decided yet: measure more closely, or another way."
    )
    return Matter(
        "unknown",
        Message(words, values),
        "measure",
        place.place_id,
    )


def _dry(name: str, *, alive: bool, goal: Goal, at: str) -> Matter:
    """A place where no water comes out; a danger where bacteria live behind it."""
    words = (
        "{name}: no water comes out. A filter that stands still dies within hours, and then "
        "poisons the pond."
        if alive
        else "{name}: no water comes out."
    )
    return Matter("danger" if alive else "wrong", Message(words, {"name": name}), goal, at)


def _elsewhere(of: _Known) -> Iterator[Matter]:
    """What was measured at a pump as a whole, or where only a part of a branch's water passes."""
    names = of.worked.names
    bypassed = {item for line in of.worked.lines for one in line.branches for item in one.bypass}
    every = [one.seen.reading for _, branches in of.measured for one in branches if one.seen]
    told = [of.evidence.why((reading,)) for reading in every]
    for key, state in of.places.items():
        name = names.lines.get(key) or (names.features.get(key) if key in bypassed else None)
        if name is None or state.found is None or key in of.told_by_branches:
            continue
        if state.why and state.severity == "unknown" and not state.summed and state.why not in told:
            yield Matter("unknown", state.why, "measure", key)
        if state.severity not in ("danger", "wrong"):
            continue
        if state.found.dry:
            yield _dry(name, alive=state.severity == "danger", goal="place", at=key)
        elif state.found.kind in OFF and state.word != CONFLICT:  # which the plan says
            values: dict[str, Value] = {"name": name, "flow": Amount(state.found.flow.flow, "m3/s")}
            yield Matter("wrong", Message(OFF[state.found.kind], values), "place", key)


def _features(of: _Known) -> Iterator[Matter]:
    """What follows from a feature at its pond and is not right; of several alike once."""
    said: set[str] = set()
    for feature in of.worked.pond.fed:
        for one in told_of(of.worked, feature, of.places):
            if one.severity in ("danger", "wrong") and one.value.template not in said:
                said.add(one.value.template)
                yield Matter(one.severity, one.value, "place", feature.id)


def _seen_at(pond: Pond, place: BranchPlace) -> Goal:
    """Where a place shows: a feature has a screen of its own, a branch is only measured."""
    return "place" if feature_of(pond, place.place_id) else "measure"


DOUBTED: Mapping[Doubt, tuple[str, str]] = {  # what differs is told place by place
    "old": (
        "Measured too long ago: {names}.",
        "Measured too long ago: {names} and {count} more.",
    ),
    "replaced": (
        "Measured with the old pump: {names}.",
        "Measured with the old pump: {names} and {count} more.",
    ),
    "rebuilt": (
        "Measured before the water path was changed: {names}.",
        "Measured before the water path was changed: {names} and {count} more.",
    ),
    "cleaned": (
        "Measured before the cleaning: {names}.",
        "Measured before the cleaning: {names} and {count} more.",
    ),
    "too much": (
        "More than this pump can give was measured: {names}. Check the container, the time, and "
        "which pump ran.",
        "More than this pump can give was measured: {names} and {count} more. Check the "
        "containers, the times, and which pump ran.",
    ),
}
"""Places whose flow does not tell how it is now, all of them and some of many."""
OFF = {
    "below": "{name}: {flow} is too little.",
    "above": "{name}: {flow} is too much.",
}


def _plan(of: _Known) -> Iterator[Matter]:
    """Whether everything can work together."""
    for feature in left_dry(of.pond):
        words = Message("{name}: no branch brings it water.", {"name": feature.name})
        yield Matter("wrong", words, "path")
    plan = of.worked.plan
    if isinstance(plan, PondConflict):
        yield from (Matter("wrong", conflict, "plan") for conflict in plan.conflicts)
    else:
        severity, told = verdict_of(of.worked, plan, of.proved, of.short, of.doubted)
        if severity != "wrong":  # what does not arrive is told with the pumps
            yield Matter(severity, told, "plan")


def _pumps(of: _Known) -> Iterator[Matter]:
    """Whether each pump is enough, and whether it wants cleaning."""
    pond = of.pond
    notes = list(of.worked.plan.notes)
    for line, every in of.measured:
        if every:
            pump = pump_of(pond, line)
            proved = line.id in of.proved
            if pump is None and not proved:
                words = Message("{name}: choose a pump first.", {"name": line_name(pond, line)})
                yield Matter("unknown", words, "pumps")
            elif pump is not None and not of.contradicted(line):
                of_pump = [note for note in notes if note.values.get("pump") == pump.name]
                notes = [note for note in notes if note not in of_pump]
                if line.id in of.short and not of_pump:
                    yield Matter("unknown", Message(SHORT, {"name": pump.name}), "pumps")
                elif line.id in of.doubted and not of_pump:
                    yield Matter("unknown", Message(LABEL_DOUBTED, {"name": pump.name}), "pumps")
                elif proved or not of_pump:
                    yield _pump(of.worked, line, pump, proved=proved)
                else:  # the plan says it with numbers
                    yield from (Matter("wrong", note, "pumps") for note in of_pump)
        yield from _health(of, line)
    yield from (Matter("wrong", note, "plan") for note in notes)


# By its curve; what is measured is better evidence than any curve.
PUMPS: Mapping[PumpState, tuple[Severity, str]] = {
    "enough": ("right", "{name} is enough."),
    "probably": ("unknown", "{name} is probably enough: measure to be sure."),
    "open": ("unknown", "{name} may be too weak: measure to be sure."),
    "strong": ("wrong", "{name} is too strong: turn it down, or take a smaller one."),
    "weak": ("wrong", "{name} is too weak."),
    "unknown": ("unknown", "{name}: whether it is enough is not known yet."),
}


SHORT = "{name} gave less than is wanted: look at its valves, at dirt and at the hose."


def _pump(worked: WorkedPond, line: Line, pump: Pump, *, proved: bool) -> Matter:
    """One pump, by what was measured or else by the odds of its curve."""
    if proved:
        words = Message("{name} is enough, as measured.", {"name": pump.name})
        return Matter("right", words, "pumps")
    (answer,) = answers_for(worked.network(line, worked.planned.flows), (pump,))
    severity, template = PUMPS[answer.state]
    return Matter(severity, Message(template, {"name": pump.name}), "pumps")


def _health(of: _Known, line: Line) -> Iterator[Matter]:
    """What the newest flow says of the pump's wear; behind valves only against a day before."""
    found, doubt = health_now(of.evidence, line)
    if found is None or doubt or found.now.dry:
        return
    if found.verdict.state not in ("clean it", "look"):
        return
    if found.since is None and has_valves(of.pond, line):
        return
    yield Matter(found.severity, found.verdict.sentence, "health")


def _fish(of: _Known) -> Iterator[Matter]:
    """Whether filter and oxygen carry the fish, in the warmest week too."""
    if of.pond.fish:
        flows = standing_flows(of.worked, of.log, of.now)
        found = stock(of.worked, grown=False, flows=flows)
        yield Matter(found.severity, found.verdict, "fish")


def _work(of: _Known) -> Iterator[Matter]:
    """Work that is due. Old readings are told place by place, so they are left out here."""
    for job in due(of.pond, of.log, of.now):
        if job.job == "measure" or not job.is_due:
            continue
        if job.job == "test" and of.water.test is None:
            continue  # told with the water
        severity: Severity = "wrong" if job.job == "clean" and job.last is not None else "unknown"
        goal: Goal = "new_test" if job.job == "test" else "new_cleaning"
        yield Matter(severity, job.sentence, goal)
    for one in reminders(of.pond, of.log, of.now):
        if one.is_due:
            yield Matter("wrong", one.sentence, "reminders")
    lamp = lamp_change(of.pond, of.now)
    if lamp is not None and lamp.is_due:
        yield Matter("wrong", lamp.sentence, "lamp")


def _dated_ahead(items: Sequence[LogItem]) -> Iterator[Matter]:
    """Entries with a date that has not come: a slip of the finger or a clock that was wrong."""
    for item in items[:1]:
        words = Message("An entry of the log is dated in the future and does not count yet.")
        yield Matter("unknown", words, "log_item", item.id)
