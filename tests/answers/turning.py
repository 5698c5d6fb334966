"""Simulated valves, and readers who turn them: by the table and by feel, or by what is said."""

import random
from collections.abc import Callable
from dataclasses import dataclass, field, replace
from math import exp, log, sqrt

from ponds import LINE
from ponds import TWO_BRANCHES as POND

from pondapp.answers.measuring.flow import Measured, measured
from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.flow_sets import BranchPlace, branch_places
from pondapp.answers.tuning.turns import (
    BEYOND,
    FULL_BEYOND,
    SHARES,
    TimedSetting,
    TurnAdvice,
    advice_of_turns,
)
from pondapp.core.filters.bands import FlowBand
from pondapp.core.hydraulics.valve_response import valve_loss
from pondapp.core.hydraulics.valves import VALVES
from pondapp.models.reading import Container, Fill

TUB = Container(id="t", name="Tub", volume_m3=0.012, tolerance_m3=0.0001)
PLACE = branch_places(WorkedPond(POND), LINE)[0]
KINDS = ("gate", "gate, handbook", "ball", "any")
MOST_TURNS = 15
HAND = 0.02  # how well a handle is set to where it is meant to stand, a share of its way
TURN = 0.2  # and how well to a part of another turn
SAID = {str(words): share for share, words in SHARES}


class Valve:
    """A valve with its pipe; no two are alike, and some follow no table at all."""

    def __init__(self, kind: str, dice: random.Random) -> None:
        self.most = dice.uniform(0.4e-3, 1.6e-3)  # m3/s wide open
        self.pipe = exp(dice.uniform(log(5.0), log(80.0)))
        self.kind = kind
        self.off = [exp(dice.gauss(0.0, 0.35)) for _ in range(3)]
        steps = [dice.random() ** 2 + 0.02 for _ in range(6)]
        self.rises = [sum(steps[:n]) / sum(steps) for n in range(7)]

    def flow(self, opened: float) -> float:
        """Flow behind it [m3/s]."""
        if self.kind == "any":
            at = min(5, int(6.0 * opened))
            low, high = self.rises[at], self.rises[at + 1]
            return self.most * (low + (6.0 * opened - at) * (high - low))
        return self.most * sqrt((self.pipe + self._loss(1.0)) / (self.pipe + self._loss(opened)))

    def _loss(self, opened: float) -> float:
        """As in the table, times a smooth error of its own."""
        low, middle, high = self.off
        error = low ** (1.0 - opened) * middle ** (opened * (1.0 - opened)) * high**opened
        return error * valve_loss(self.kind, max(0.002, opened))


@dataclass
class Visit:
    """One valve, from wide open until it is right."""

    place: BranchPlace
    valve: Valve
    dice: random.Random
    opened: float = 1.0
    settings: list[TimedSetting] = field(default_factory=list)
    stood: list[float] = field(default_factory=list)

    def time(self, noted: float | None) -> Measured:
        """Three fills at the setting of now."""
        seconds = min(3600.0, TUB.volume_m3 / self.valve.flow(self.opened))
        times = [
            max(0.3, seconds * self.dice.gauss(1.0, 0.01) + self.dice.gauss(0.0, 0.14))
            for _ in range(3)
        ]
        found = measured(TUB, [Fill(seconds=one) for one in times], self.place.band)
        assert found is not None
        self.settings.append(TimedSetting(found, TUB, noted))
        self.stood.append(self.opened)
        return found

    def read(self) -> float:
        """Where the handle stands, to the tenth."""
        seen = round(10.0 * (self.opened + self.dice.gauss(0.0, HAND))) / 10.0
        return min(1.0, max(0.1, seen))

    def set_to(self, opened: float) -> None:
        """Turn the handle to where it is meant to stand."""
        self.opened = min(1.0, max(0.02, opened + self.dice.gauss(0.0, HAND)))

    def turn_by(self, share: float) -> None:
        """Turn it by a share of the last turn."""
        last = self.stood[-1] - self.stood[-2]
        by = share * last * self.dice.gauss(1.0, TURN) + self.dice.gauss(0.0, 0.005)
        self.opened = min(1.0, max(0.02, self.opened + by))

    def by_table(self) -> None:
        """The first turn: what the circuit as entered and the table make of it."""
        table = self.valve.kind if self.valve.kind in VALVES else "gate"
        entered = self.valve.pipe * exp(self.dice.gauss(0.0, 0.4))
        ratio = self.settings[0].found.flow.flow / self.place.band.target
        wanted = (entered + valve_loss(table, 1.0)) * ratio**2 - entered
        openings = [n / 200.0 for n in range(1, 201)]
        self.set_to(min(openings, key=lambda x: abs(log(valve_loss(table, x) / wanted))))

    def by_feel(self) -> None:
        """Half of the last turn back when the aim was passed, else as far again."""
        aim = self.place.band.target
        was, now = (one.found.flow.flow for one in self.settings[-2:])
        if (was - aim) * (now - aim) < 0.0:
            self.turn_by(-0.5)
        elif (now - aim) * (now - was) < 0.0:
            self.turn_by(1.0)
        else:
            self.turn_by(-2.0)

    def as_told(self, advice: TurnAdvice) -> None:
        """What the words say, and no more."""
        if advice.turn is None:
            return self.by_feel()
        said = advice.turn.template
        share = SAID[str(advice.turn.values["share"])] if "share" in advice.turn.values else 1.0
        beyond = (*BEYOND.values(), *FULL_BEYOND.values())
        if said in beyond:
            share += 1.0
        forwards = "further" in said and said not in beyond
        return self.turn_by(share if forwards else -share)


Reader = Callable[[Visit], None]


def by_table_and_feel(visit: Visit) -> None:
    """What was said before there was anything to learn from."""
    visit.by_feel()


def by_turns(visit: Visit) -> None:
    """What is said of the turns made so far."""
    advice = advice_of_turns(visit.place, visit.settings[:-1], visit.settings[-1])
    if advice is None:
        visit.by_feel()
    else:
        visit.as_told(advice)


def turns_until_right(kind: str, number: int, reader: Reader, *, noted: bool) -> int:
    """How many turns one simulated valve takes from wide open."""
    dice = random.Random(f"{kind} {number}")
    valve = Valve(kind, dice)
    aim, wide = valve.most * dice.uniform(0.3, 0.9), dice.uniform(0.08, 0.25)
    band = FlowBand(aim * (1.0 - wide), aim, aim * (1.0 + wide))
    known = "unknown" if kind == "any" else "gate" if "gate" in kind else "ball"
    place = replace(PLACE, band=band, valve=known)
    visit = Visit(place, valve, dice)
    for turns in range(MOST_TURNS):
        found = visit.time(visit.read() if noted else None)
        if found.kind == "within":
            return turns
        if turns == 0:
            visit.by_table()
        elif found.kind == "undecided":
            visit.by_feel()
        else:
            reader(visit)
    return MOST_TURNS
