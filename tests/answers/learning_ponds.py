"""Simulated ponds whose pump, hoses and valves are known, and logs of readings there.

What is not as entered is drawn as wide as the rules say it may be; handles stand anywhere, and
fills scatter as in turning.py. Nothing here asks the fit how a circuit changes with time.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import UTC, datetime, timedelta
from functools import cached_property
from math import comb, exp, log
from random import Random

from pondapp.answers.learning.learning import Learning, learn
from pondapp.answers.learning.predictions import (
    FlowTold,
    after_cleaning,
    after_turn,
    flows_in,
    to_turn,
    with_pump,
)
from pondapp.answers.learning.priors import CLEANED, VALVE_TABLE, dirt, wear_rate, worn
from pondapp.answers.plumbing.network import doubt_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumped import Pumped, pumped
from pondapp.answers.pumps.pumps import curve_of
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import NoSolution
from pondapp.core.calibration.learned import Learned, learned_circuit, learned_curve
from pondapp.core.hydraulics.network import operating_point
from pondapp.core.hydraulics.odds import MAIN
from pondapp.core.hydraulics.pump_curve import PumpCurve
from pondapp.core.hydraulics.tuning import turned
from pondapp.core.hydraulics.valve_response import valve_loss
from pondapp.models.circuit import Branch, Jet, Line, Pipe, Pump
from pondapp.models.entry import Cleaning, Entry
from pondapp.models.pond import Pond
from pondapp.models.reading import Bucket, Container, Fill, FillSet, NothingComes, Reading
from pondapp.models.water import TypedVolume

NOW = datetime(2026, 6, 1, 12, 0, tzinfo=UTC)
EVENLY = 3.0**-0.5
RULES = Assumptions()
DRY = 1e-5  # m3/s; nobody times less


@dataclass
class Truth:
    """A pond as entered, as it is, and what was read there."""

    pond: Pond
    noted: bool
    """Whether handles are noted."""
    unlike: float = 1.0
    """How far it is from what was entered, over what the rules say."""
    values: dict[str, float] = field(default_factory=dict)
    opened: dict[tuple[str, int], float] = field(default_factory=dict)
    losses: dict[tuple[str, int], float] = field(default_factory=dict)
    turns: dict[str, list[datetime]] = field(default_factory=dict)
    cleaned: list[datetime] = field(default_factory=list)
    log: list[Reading | Entry] = field(default_factory=list)
    begin: datetime = NOW

    @property
    def line(self) -> Line:
        return self.pond.lines[0]

    @cached_property
    def parts(self) -> Pumped:
        worked = WorkedPond(self.pond)
        return pumped(worked, self.line, branch_places(worked, self.line))

    def learned(self, at: datetime, *, clean: bool = False, own: bool = True) -> Learned:
        """How it really is at a time."""
        v = self.values
        state = bisect_right(self.cleaned, at)
        last = self.cleaned[state - 1] if state else self.begin
        wear = v[f"wear {state}"] - v["rate pump"] * (at - last).total_seconds()
        if clean:  # no cleaning makes a pump weaker
            wear = max(wear, v["wear next"])
        wear = wear if own else 0.0
        name = "own" if own else "other"
        since = (at - self.begin).total_seconds()
        keys = [branch.id for branch in self.line.branches]
        losses = {key: exp(v[f"loss {key}"] + v[f"rate {key}"] * since) for key in keys}
        stand = {
            key: self.losses.get((key, bisect_right(self.turns.get(key, []), at)), 0.0)
            for key in keys
        }
        return Learned(
            {**losses, MAIN: exp(v[f"loss {MAIN}"])},
            {key: v[f"lift {key}"] for key in keys},
            stand,
            exp(v[f"flow {name}"] + wear),
            exp(v[f"head {name}"] + 2.0 * wear),
            v[f"bend {name}"],
        )

    def flows(
        self, at: datetime, *, clean: bool = False, other: PumpCurve | None = None
    ) -> dict[str, float]:
        """All flows [m3/s] at a time; that of the pump under no key."""
        parts = self.parts
        learned = self.learned(at, clean=clean, own=other is None)
        circuit = learned_circuit(parts.circuit, learned, standing=True)
        curve = learned_curve(other or parts.curve, learned)
        try:
            point = operating_point(curve, circuit, parts.viscosity)
        except NoSolution:  # too weak for the lowest end
            return dict.fromkeys(("", *(one.key for one in circuit.branches)), 0.0)
        return {"": point.flow, **{one.key: one.flow for one in point.branches}}


def pond(dice: Random, branches: int) -> Pond:
    """A pond of so many branches, entered whole."""
    jets, ends = [], []
    for number in range(branches):
        wanted = dice.uniform(0.25e-3, 0.6e-3)
        jets.append(Jet(id=f"jet-{number}", name=f"Jet {number}", flow_m3_s=wanted))
        bore = "32 mm" if wanted > 0.4e-3 else "25 mm"
        ends.append(
            Branch(
                id=f"branch-{number}",
                name=f"Branch {number}",
                pipe=Pipe(series="hose, mm", size=bore, length_m=dice.uniform(2.0, 8.0)),
                lift_m=dice.uniform(0.2, 1.2),
                valve=dice.choice(("none", "ball", "gate")),
                feeds=(f"jet-{number}",),
            )
        )
    total = sum(jet.flow_m3_s for jet in jets)
    pumps = tuple(
        Pump(id=name, name=name, max_flow_m3_s=times * total, max_head_m=dice.uniform(3.0, 5.0))
        for name, times in (("own", dice.uniform(1.8, 2.6)), ("other", dice.uniform(1.8, 2.6)))
    )
    main = Pipe(series="hose, mm", size="50 mm", length_m=2.0)
    line = Line(id="line", name="Pump", pump_id="own", main=main, branches=tuple(ends))
    return Pond(
        id="simulated", name="Simulated", water=TypedVolume(volume_m3=5.0), fed=tuple(jets),
        lines=(line,), pumps=pumps,
    )  # fmt: skip


def truth(number: int, *, readings: int = 10, unlike: float = 1.0) -> Truth:
    """The simulated pond of a number, with a log of about so many readings."""
    dice = Random(number)
    made = Truth(pond(dice, 1 + number % 4), noted=number % 8 < 4, unlike=unlike)
    pumps, care = RULES.pumps, RULES
    doubt = doubt_of(made.parts.network)
    v = made.values

    def off(deviation: float) -> float:
        return unlike * dice.gauss(0.0, deviation)

    for name in ("own", "other"):
        v[f"flow {name}"] = off(pumps.flow_tolerance * EVENLY)
        v[f"head {name}"] = off(pumps.head_tolerance * EVENLY)
        middle, half = (
            0.5 * (pumps.bend_low + pumps.bend_high),
            0.5 * (pumps.bend_high - pumps.bend_low),
        )
        v[f"bend {name}"] = min(3.0, max(0.6, middle + off(half * EVENLY)))
    v["rate pump"] = off(wear_rate(care))
    v["wear 0"], v["wear 1"], v["wear next"] = off(0.5 * worn(care)), off(CLEANED), off(CLEANED)
    v[f"loss {MAIN}"] = off(log(doubt.loss[MAIN]) * EVENLY)
    for branch in made.line.branches:
        v[f"loss {branch.id}"] = off(log(doubt.loss[branch.id]) * EVENLY)
        v[f"lift {branch.id}"] = off(doubt.lift[branch.id] * EVENLY)
        v[f"rate {branch.id}"] = off(0.5 * dirt(care) / care.care.clean_every)
        v[f"table {branch.id}"] = off(VALVE_TABLE)
        for state in range(4):
            seen = round(dice.uniform(0.35, 1.0), 1)
            stands = min(1.0, max(0.05, seen + off(0.05 * EVENLY)))
            made.opened[branch.id, state] = seen
            if branch.valve != "none":
                table = valve_loss(branch.valve, stands)
                made.losses[branch.id, state] = table * exp(v[f"table {branch.id}"])
    _read(made, dice, readings)
    return made


def _read(made: Truth, dice: Random, readings: int) -> None:
    """Visits over some weeks; the pump is cleaned once, and valves are turned now and then."""
    size = 0.012
    tub = Container(id="tub", name="Tub", volume_m3=size, tolerance_m3=0.02 * size)
    content = size * (1.0 + made.unlike * dice.gauss(0.0, 0.02 * EVENLY))
    made.values["container tub"] = size / content - 1.0
    branches = made.line.branches
    visits = max(1, round(readings / len(branches)))
    weeks = 10.0 * dice.random()
    made.begin = NOW - timedelta(days=7.0 * weeks)
    times = [made.begin + (NOW - made.begin) * (number / visits) * 0.98 for number in range(visits)]
    if visits > 2 and dice.random() < 0.7:
        half = dice.randrange(1, visits)
        at = times[half] - timedelta(hours=3)
        made.cleaned.append(at)
        made.log.append(Entry(id="clean", pond_id="simulated", when=at, what=Cleaning(part="pump")))

    def fills(at: datetime, key: str) -> tuple[Fill, ...]:
        flow = made.flows(at)[key] * dice.gauss(1.0, 0.01)
        seconds = content / flow
        return tuple(
            Fill(seconds=max(0.3, seconds * dice.gauss(1.0, 0.01) + dice.gauss(0.0, 0.14)))
            for _ in range(3)
        )

    left = readings
    for number, at in enumerate(times):
        for place, branch in enumerate(branches):
            if not left:
                break
            left -= 1
            when = at + timedelta(minutes=20 * place)
            turns = made.turns.setdefault(branch.id, [])
            before: tuple[FillSet, ...] = ()
            state = len(turns)
            noted = made.noted and branch.valve != "none"
            turns_it = branch.valve != "none" and state < 3 and dice.random() < 0.25
            turn = when - timedelta(minutes=5)
            if turns_it and made.flows(turn)[branch.id] > DRY:
                before = (
                    FillSet(
                        fills=fills(turn - timedelta(seconds=1), branch.id), container=tub,
                        opened=made.opened[branch.id, state] if noted else None, until=turn,
                    ),
                )  # fmt: skip
                turns.append(turn)
                state += 1
            dry = made.flows(when)[branch.id] <= DRY
            made.log.append(
                Reading(
                    id=f"r{number}-{place}", pond_id="simulated", place_id=branch.feeds[0],
                    place_name=branch.name, taken_at=when,
                    band=None,
                    method=NothingComes() if dry else Bucket(
                        container=tub, fills=fills(when, branch.id)
                    ),
                    before_turn=before,
                    opened=made.opened[branch.id, state] if noted else None,
                )
            )  # fmt: skip


@dataclass
class Found:
    """What was learned of a simulated pond beside how it is."""

    parameters: list[tuple[str, float]]
    """Kind of each, and how many of its standard uncertainties it is off."""
    predictions: list[tuple[str, float, float, float]]
    """Kind of each, half intervals off, error and error of the plan, as shares of the flow: of all
    that is told."""
    outliers: int


def _halves(told: FlowTold, is_it: float) -> float:
    """How far a flow is off, over the half of its interval on that side."""
    off = told.flow - is_it
    return off / ((told.flow - told.low) if off > 0.0 else (told.high - told.flow))


def _kind(key: str) -> str:
    return key.split()[0]


def _parameters(made: Truth, found: Learning) -> list[tuple[str, float]]:
    told = []
    for place, unknown in enumerate(found.fitted.unknowns):
        kind, _, rest = unknown.key.partition(" ")
        right = made.values.get(unknown.key if rest else f"{kind} {MAIN}")
        if kind == "valve":
            key, state = rest.split()
            right = log(made.losses[key, int(state)])
        if right is not None and kind != "bend":
            told.append(
                (kind, (found.fitted.values[place] - right) / found.fitted.deviation(place))
            )
    return told


def judged(made: Truth) -> Found:
    """A simulated pond, learned and compared with what it is."""
    worked = WorkedPond(made.pond)
    found = learn(worked, made.line, made.log, {}, NOW)
    parts = made.parts
    other = curve_of(made.pond.pumps[1])
    keys = [place.branch.id for place in found.model.places]
    plan = operating_point(parts.curve, parts.circuit, parts.viscosity)
    plan_other = operating_point(other, parts.circuit, parts.viscosity)
    told = []

    def compare(
        kind: str, flows: Sequence[FlowTold], right: dict[str, float], entered: object
    ) -> None:
        for key, one in zip([*keys, ""] if len(keys) > 1 else keys, flows, strict=True):
            is_it = right[key]
            if is_it > DRY and one.flow > 0.0 and one.told:
                by_plan = entered.flow_in(key) if key else entered.flow
                told.append(
                    (kind, _halves(one, is_it), abs(one.flow / is_it - 1.0),
                     abs(by_plan / is_it - 1.0))
                )  # fmt: skip

    compare("now", flows_in(found, found.scene_now), made.flows(NOW), plan)
    compare("cleaned", after_cleaning(found), made.flows(NOW, clean=True), plan)
    compare(
        "other pump", with_pump(found, made.pond.pumps[1]), made.flows(NOW, other=other), plan_other
    )
    place = to_turn(found)
    if place is not None:
        learned = made.learned(NOW)
        circuit = learned_circuit(parts.circuit, learned, standing=True)
        curve, key = learned_curve(parts.curve, learned), place.branch.id
        try:
            after = turned(curve, circuit, key, place.band.target, parts.viscosity).flows
        except NoSolution:  # out of reach of the valve
            after = {}
        rest = [one for one in keys if one != key]
        for one, flow in zip(after_turn(found, place), rest, strict=True):
            if after.get(flow, 0.0) > DRY and one.flow > 0.0 and one.told:
                told.append(("turned", _halves(one, after[flow]), 0.0, 0.0))
    return Found(
        _parameters(made, found), told, sum(one != "fits" for one in found.fitted.verdicts)
    )


def pairs(found: Sequence[Found], kind: str) -> tuple[int, int]:
    """In how many ponds a kind of prediction is nearer than the plan's, and in how many farther.

    By the mean over a pond's flows, since those of one pond are no evidence apart.
    """
    better = worse = 0
    for one in found:
        mine = [(error, by_plan) for is_it, _, error, by_plan in one.predictions if is_it == kind]
        ours, plans = (sum(pair[i] for pair in mine) for i in (0, 1))
        better += ours < plans
        worse += ours > plans
    return better, worse


def chance_of_so_few(better: int, count: int) -> float:
    """Chance of so few better ones or fewer if better and worse were as likely: the sign test."""
    return sum(comb(count, k) for k in range(better + 1)) / 2.0**count
