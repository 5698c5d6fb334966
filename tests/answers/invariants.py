"""What must hold of the answers about any pond, whatever their numbers are."""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import timedelta
from math import isfinite
from typing import Any

from every_answer import Refused, every_answer, parts_of, told
from random_ponds import NOW, random_pond

from pondapp.answers.care.open_matters import PUMPS
from pondapp.answers.care.severity import WORST_FIRST, Severity
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.fish.stock import Stock, stock
from pondapp.answers.learning.learning import learn
from pondapp.answers.learning.predictions import flows_in
from pondapp.answers.log.log import LogItem
from pondapp.answers.picture.standing_flows import standing_flows
from pondapp.answers.picture.states import CONFLICT, PART_OF_DAY, PASSED, states_of
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.plumbing.path import assumed_of, feature_of, lines_of, pump_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import operating_flow
from pondapp.answers.tuning.evidence import DOUBTS, Evidence
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.answers.tuning.tune import SEVERITY
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.core.hydraulics.bores import sizes
from pondapp.models.circuit import Line, Pipe, Pump
from pondapp.models.entry import Entry, WaterTest
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

ORDER = ("too little", "likely too little", "borderline", "likely enough", "enough")
FEW = 4  # readings of a pond whose calibration is asked for too, which takes long
LATELY = timedelta(days=30)  # by the rules nothing is evidence for longer
ODD_TEXT = re.compile(r"nan|inf\b|None|[{}]|\d\.\d{5}|e[+-]\d\d|  |(?<![\d.])0\.0+[1-9]\d\d")


@dataclass(frozen=True, slots=True)
class Broken:
    """An invariant that does not hold, and what shows it."""

    rule: str
    what: str


@dataclass(frozen=True, slots=True)
class Case:
    """A pond, the answers about it, and all that is in each of them."""

    pond: Pond
    readings: tuple[Reading, ...]
    entries: tuple[Entry, ...]
    answers: dict[str, Any]
    parts: dict[str, list[Any]]
    worked: WorkedPond
    """For what is asked here besides."""

    @property
    def log(self) -> list[LogItem]:
        """All that was written down."""
        return [*self.readings, *self.entries]


Rule = Callable[[Case], Iterator[str]]


def only_numbers(case: Case) -> Iterator[str]:
    """No answer holds a number that is none."""
    for name, parts in case.parts.items():
        if any(isinstance(part, float) and not isfinite(part) for part in parts):
            yield name


def readable(case: Case) -> Iterator[str]:
    """Every sentence fills its places, and no number in it has more digits than anybody reads."""
    for name, parts in case.parts.items():
        for message in (part for part in parts if isinstance(part, Message)):
            for text in told(message):
                if ODD_TEXT.search(text) or (not text.strip() and message.template):
                    yield f"{name}: {text}"


def one_plan(case: Case) -> Iterator[str]:
    """Whoever asks for the flow of a branch gets the plan's."""
    plan = case.answers["plan"]
    if not isinstance(plan, PondPlan):
        return
    flows = WorkedPond(case.pond).planned.flows
    for branch_id, flow in plan.branches.items():
        if abs(flows[branch_id] - flow) > 1e-9 * max(flow, 1e-9):
            yield f"{branch_id}: planned {flows[branch_id]}, plan {flow}"
    for line in lines_of(case.pond):
        for place in branch_places(WorkedPond(case.pond), line):
            flow = flows[place.branch.id]
            if flow < place.band.low * (1 - 1e-9):
                yield f"{place.name}: band begins above the plan"
            if place.band.high is not None and place.band.target > place.band.high:
                yield f"{place.name}: aim above its band"


def one_band(case: Case) -> Iterator[str]:
    """What is wanted of a branch's water is the same while measuring, tuning and in the log."""
    if isinstance(case.answers["planned"], Refused):
        return
    worked = WorkedPond(case.pond)
    for line in lines_of(case.pond):
        for place in branch_places(worked, line):
            there = worked.wanted.place(place.place_id)
            if place.conflict is None and (
                there is None
                or (there.band.low, there.band.high) != (place.band.low, place.band.high)
            ):
                yield f"{place.name}: {there} while measuring, {place.band} while tuning"


def _fits(found: Stock) -> tuple[int, int]:
    return ORDER.index(found.balance.filters), ORDER.index(found.balance.oxygen)


def more_fish(case: Case) -> Iterator[str]:
    """More fish never make a filter or the oxygen enough."""
    before = case.answers["stock"]
    if not isinstance(before, Stock) or not case.pond.fish:
        return
    doubled = tuple(group.model_copy(update={"count": 2 * group.count}) for group in case.pond.fish)
    after = stock(WorkedPond(case.pond.model_copy(update={"fish": doubled})), grown=False)
    if after.good and not before.good:
        yield f"{before.verdict} -> {after.verdict}"


def _wider(pipe: Pipe) -> Pipe | None:
    known = sizes(pipe.series)
    bore = next(one.bore for one in known if one.name == pipe.size)
    wider = [one for one in known if one.bore > bore]
    return pipe.model_copy(update={"size": wider[0].name}) if wider else None


def wider_hose(case: Case) -> Iterator[str]:
    """A wider hose never delivers less."""
    pond = case.pond
    for line in pond.lines:
        pump = pump_of(pond, line)
        before = _delivered(pond, line, pump)
        if pump is None or before is None:
            continue
        changed = (
            [line.model_copy(update={"main": w})] if line.main and (w := _wider(line.main)) else []
        )
        for place, branch in enumerate(line.branches):
            wide = _wider(branch.pipe) if branch.pipe else None
            if wide is not None:
                branches = list(line.branches)
                branches[place] = branch.model_copy(update={"pipe": wide})
                changed.append(line.model_copy(update={"branches": tuple(branches)}))
        for other in changed:
            after = _delivered(pond, other, pump)
            if after is not None and after < before * (1 - 1e-6):
                yield f"{line.id}: {before} -> {after}"


def _delivered(pond: Pond, line: Line, pump: Pump | None) -> float | None:
    if pump is None:
        return None
    try:
        worked = WorkedPond(pond)
        return operating_flow(worked.network(line, worked.planned.flows), pump)
    except PondError:
        return None


def missing_is_not_certain(case: Case) -> Iterator[str]:
    """Nothing is certain while what it needs was not entered."""
    for line in lines_of(case.pond):
        shelf = case.answers.get(f"pumps {line.id}")
        if shelf is None or isinstance(shelf, Refused):
            continue
        missing = [one for one in assumed_of(case.pond, line) if one.what == "run"]
        for one in shelf.answers:
            if one.state == "enough" and (missing or not case.pond.lines):
                yield f"{one.pump.id} is enough while {len(missing)} things are assumed"


def least_below_good(case: Case) -> Iterator[str]:
    """The plan of the least never takes more water than the plan of the good flows."""
    both = case.answers["least and good"]
    if isinstance(both, Refused):
        return
    less, more = both.least.plan, both.good.plan
    if not (isinstance(less, PondPlan) and isinstance(more, PondPlan)):
        return
    if less.daily_mean > more.daily_mean * (1 + 1e-9):
        yield f"{less.daily_mean} > {more.daily_mean}"


def right_only_by_evidence(case: Case) -> Iterator[str]:
    """A pond is right only where water and flows were measured lately and nothing is assumed."""
    found = case.answers["open matters"]
    if found.worst.severity != "right":
        return
    tests = [one for one in case.entries if isinstance(one.what, WaterTest)]
    if not any(NOW - one.when <= LATELY for one in tests):
        yield "right without a test of the water"
    if not any(NOW - one.taken_at <= LATELY for one in case.readings):
        yield "right without a reading"
    if any(assumed_of(case.pond, line) for line in lines_of(case.pond)):
        yield "right on an assumption"


def poison_is_danger(case: Case) -> Iterator[str]:
    """A newest test with poisonous ammonia or nitrite, of late, puts danger on top of the pond."""
    tests = [one for one in case.entries if isinstance(one.what, WaterTest)]
    if not tests or NOW - tests[0].when > LATELY:
        return
    report = case.answers[f"test {tests[0].id}"]
    bad = not isinstance(report, Refused) and any(r.severity == "danger" for r in report.remarks)
    if bad and case.answers["open matters"].worst.severity != "danger":
        yield "danger in the test, and not on top of the pond"


def weak_is_not_right(case: Case) -> Iterator[str]:
    """A pond whose chosen pump is too weak or unknown is not right."""
    severity = case.answers["open matters"].worst.severity
    for line in lines_of(case.pond):
        shelf = case.answers.get(f"pumps {line.id}")
        if shelf is None or isinstance(shelf, Refused):
            continue
        state = next((a.state for a in shelf.answers if a.pump.id == line.pump_id), "unknown")
        if state in ("weak", "unknown") and severity == "right":
            yield f"{line.id}: {state}"


def _better(one: Severity, other: Severity) -> bool:
    return WORST_FIRST.index(one) > WORST_FIRST.index(other)


def picture_is_no_better(case: Case) -> Iterator[str]:
    """The picture calls no place better than tuning or the pond's first screen does."""
    shown = case.answers["picture"]
    if isinstance(shown, Refused):
        return
    parts = {part.key: part for part in shown.parts}
    for line in lines_of(case.pond):
        tuned = case.answers.get(f"tuning {line.id}")
        for one in () if tuned is None or isinstance(tuned, Refused) else tuned:
            part = parts.get(one.place.place_id)
            severity = SEVERITY[one.state]
            if part and _better(part.state.severity, severity):
                yield f"{part.key}: {part.state.word} in the picture, {one.state} while tuning"
    worst = case.answers["open matters"].worst.severity
    for part in shown.parts:
        if _better(worst, part.state.severity):
            yield f"{part.key}: {part.state.word} in the picture, {worst} on top of the pond"


def tiles_are_no_worse(case: Case) -> Iterator[str]:
    """What a tile of the pond's screen calls wrong is among the matters above it."""
    found = case.answers["pump against new"]
    worst = case.answers["open matters"].worst.severity
    if not isinstance(found, Refused) and _better(worst, found.severity):
        yield f"{found.severity}: {found.sentence}, and {worst} on top of the pond"


def plan_is_no_surer_than_its_pumps(case: Case) -> Iterator[str]:
    """A plan is right only where each of its pumps is known to give it, or measured."""
    found = case.answers["open matters"]
    if isinstance(found, Refused):
        return
    doubted = [
        one.sentence for one in found.matters
        if one.sentence.template in {PUMPS[state][1] for state in ("probably", "open", "weak")}
    ]  # fmt: skip
    for one in found.matters:
        if doubted and one.goal == "plan" and one.severity == "right":
            yield f"{one.sentence}, and {doubted[0]}"


def contradicted_is_right_nowhere(case: Case) -> Iterator[str]:
    """What the readings contradict is right on no screen, and counts for no fish."""
    worked, log = case.worked, case.log
    try:
        evidence, seen = Evidence(worked, log, NOW), states_of(worked, log, NOW)
        lines = worked.lines
    except PondError:
        return
    flows = standing_flows(worked, log, NOW)
    for key, state in seen.items():
        if state.reading and not state.summed and evidence.why((state.reading,)):
            if state.severity != "unknown":
                yield f"{key}: {state.word} in the picture"
            if key in flows:
                yield f"{key}: its flow counts for fish"
    for line in lines:
        places = {line.id, *(key for one in line.branches for key in (one.id, *one.feeds))}
        doubted = [one for one in case.readings
                   if one.place_id in places and evidence.why((one,))]  # fmt: skip
        if not doubted or len(case.readings) > FEW:
            continue
        try:
            found = learn(worked, line, log, {}, NOW)
        except PondError:
            continue
        for key, why in found.contradicted.items():
            state = seen.get(key or line.id)
            if state and state.severity == "right" and not state.summed:
                yield f"{key}: right in the picture, and learned says {why}"
        for one in flows_in(found, found.scene_now) if found.reads else ():
            told = one.state is not None and one.state.severity != "unknown"
            if one.key in found.contradicted and told:
                yield f"{one.key}: {one.state} as learned, and contradicted"
            if told and one.state != seen.get(one.key or line.id):
                yield f"{one.key}: {one.state} as learned, another in the picture"


def tuning_says_what_the_picture_says(case: Case) -> Iterator[str]:
    """What does not tell how it is now, or cannot be right, is that in picture and tuning alike."""
    if isinstance(case.answers["picture"], Refused):
        return
    seen = states_of(case.worked, case.log, NOW)
    for line in lines_of(case.pond):
        tuned = case.answers.get(f"tuning {line.id}")
        for one in () if tuned is None or isinstance(tuned, Refused) else tuned:
            state = seen.get(one.place.branch.id)
            word = DOUBTS.get(one.state)
            if word and (state is None or state.word != word):
                yield f"{one.place.name}: {one.state} while tuning, {state} in the picture"
            if state and state.word in PASSED and word is None:
                yield f"{one.place.name}: {one.state} while tuning, {state.word} in the picture"
            if state and (state.word in (CONFLICT, PART_OF_DAY)) != (one.state == "conflict"):
                yield f"{one.place.name}: {one.state} while tuning, {state.word} in the picture"


def at_rest_is_right_for_no_filter(case: Case) -> Iterator[str]:
    """A filter whose pump rests for a part of the day is right in no picture."""
    shown = case.answers["picture"]
    if isinstance(shown, Refused):
        return
    parts = {part.key: part for part in shown.parts}
    for line in lines_of(case.pond):
        fed = [key for one in line.branches for key in one.feeds]
        for key in fed if line.hours_per_day < 24.0 else ():
            feature = feature_of(case.pond, key)
            part = parts.get(key)
            if feature and kind_of(feature).alive and part and part.state.severity == "right":
                yield f"{key}: {part.state.word}"


def says_what_to_do(case: Case) -> Iterator[str]:
    """Whoever is refused an answer is told something to do."""
    for name, answer in case.answers.items():
        if isinstance(answer, Refused) and len(str(answer.message)) < 15:
            yield f"{name}: {answer.message}"


RULES: tuple[Rule, ...] = (
    only_numbers,
    readable,
    one_plan,
    one_band,
    more_fish,
    wider_hose,
    missing_is_not_certain,
    least_below_good,
    right_only_by_evidence,
    poison_is_danger,
    weak_is_not_right,
    picture_is_no_better,
    tiles_are_no_worse,
    plan_is_no_surer_than_its_pumps,
    contradicted_is_right_nowhere,
    tuning_says_what_the_picture_says,
    at_rest_is_right_for_no_filter,
    says_what_to_do,
)


def audit(number: int) -> list[Broken]:
    """What is broken in the answers about the random pond of a number."""
    kept = random_pond(number)
    answers = every_answer(kept)
    parts = {name: parts_of(answer) for name, answer in answers.items()}
    worked = WorkedPond(kept.pond)
    case = Case(kept.pond, kept.readings, kept.entries, answers, parts, worked)
    return [
        Broken((rule.__doc__ or rule.__name__).split(".")[0], what)
        for rule in RULES
        for what in rule(case)
    ]
