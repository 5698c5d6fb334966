"""What a pond's pumps and its lamp cost to run, each by itself, and what would save."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil
from typing import Literal

from pondapp.answers.planning.evaluation import evaluation
from pondapp.answers.plumbing.network import LineNetwork
from pondapp.answers.plumbing.path import line_name, pump_of
from pondapp.answers.plumbing.pipe_names import pipe_size
from pondapp.answers.plumbing.plumbing import line_answer
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import PumpAnswer, answers_for
from pondapp.answers.rules.beyond import beyond_power
from pondapp.core.base.constants import DAY
from pondapp.core.base.messages import Message, counted
from pondapp.core.base.working import Step
from pondapp.core.hydraulics.energy import costs
from pondapp.models.circuit import Line, Pump

Way = Literal["pump", "plan", "pipe"]
"""Where a saving is made: by another pump, in the flow plan, or with another hose."""
A_YEAR = 365.0 * DAY  # s
WORTH = 0.02
"""Of what a pump costs, that a change has to save for it to be told."""


@dataclass(frozen=True, slots=True)
class PumpCost:
    """What one pump takes, at the speed that the plan has it run."""

    line: Line
    pump: Pump
    network: LineNetwork
    answer: PumpAnswer
    power: float
    per_year: float
    """In the owner's currency."""
    beyond: Message | None
    """A remark where its watts are beyond a garden pond."""

    @property
    def energy(self) -> float:
        """In a year [J]."""
        return self.answer.ranked.costs.energy_per_year if self.answer.ranked else 0.0

    def steps(self) -> tuple[Step, ...]:
        """The working of its costs."""
        return self.answer.ranked.costs.steps() if self.answer.ranked else ()


@dataclass(frozen=True, slots=True)
class LampCost:
    """What the UV lamp that is kept with the pond takes, lit day and night."""

    power: float
    energy: float
    """In a year [J]."""
    per_year: float
    """In the owner's currency."""
    steps: tuple[Step, ...]


@dataclass(frozen=True, slots=True)
class Saving:
    """A change that makes the pond cheaper to run; never added to others, since they overlap."""

    way: Way
    line: Line
    what: Message
    low: float
    """Least that it saves in a year, in the owner's currency."""
    high: float
    notes: tuple[Message, ...] = ()


@dataclass(frozen=True, slots=True)
class RunningCosts:
    """All chosen pumps, and the lamp if one is kept with the pond."""

    pumps: tuple[PumpCost, ...]
    missing: tuple[Message, ...]
    """What is lacking for the rest; while anything is, no sum is told."""
    lamp: LampCost | None = None

    @property
    def of_pumps(self) -> float | None:
        """All pumps in a year; None while one is not known."""
        if self.missing or not self.pumps:
            return None
        return sum(one.per_year for one in self.pumps)

    @property
    def per_year(self) -> float | None:
        """All together in a year; None while a part is not known."""
        pumps = self.of_pumps
        return pumps if pumps is None or self.lamp is None else pumps + self.lamp.per_year

    @property
    def energy(self) -> float:
        """In a year [J]."""
        return sum(one.energy for one in self.pumps) + (self.lamp.energy if self.lamp else 0.0)

    @property
    def beyond(self) -> Message | None:
        """A remark where a pump's watts are beyond a garden pond."""
        return next((one.beyond for one in self.pumps if one.beyond), None)


def running_costs(worked: WorkedPond) -> RunningCosts:
    """What a pond's chosen pumps cost in a year with the flow plan, and its lamp.

    Raises:
        PondError: The pond's shape or a changed rule cannot be, or a circuit cannot be counted.
    """
    pumps, missing = [], []
    for line in worked.lines:
        if not line.branches:
            continue
        pump = pump_of(worked.pond, line)
        if pump is None and len(worked.lines) == 1:
            missing.append(Message("choose a pump first, and this can be worked out"))
        elif pump is None:
            name = line_name(worked.pond, line)
            missing.append(Message("{name}: choose a pump first.", {"name": name}))
        elif pump.power_w is None:
            missing.append(Message("{pump}: its watts are not entered", {"pump": pump.name}))
        else:
            network = worked.network(line, worked.planned.flows)
            (answer,) = answers_for(network, (pump,))
            if answer.per_year is None or answer.power is None:
                missing.append(Message("Not known yet"))
                continue
            beyond = beyond_power(pump.power_w, worked.rules)
            pumps.append(
                PumpCost(line, pump, network, answer, answer.power, answer.per_year, beyond)
            )
    if not pumps and not missing:
        missing.append(Message("Not known yet"))
    return RunningCosts(tuple(pumps), tuple(missing), _lamp(worked))


def _lamp(worked: WorkedPond) -> LampCost | None:
    lamp, rules = worked.pond.lamp, worked.rules.pumps
    if lamp is None:
        return None
    found = costs(0.0, lamp.power_w, A_YEAR, rules.tariff, rules.cost_years)
    return LampCost(lamp.power_w, found.energy_per_year, found.per_year, found.steps())


def _cheaper_pumps(worked: WorkedPond, now: PumpCost) -> Iterator[Saving]:
    others = [pump for pump in worked.pond.pumps if pump.id != now.pump.id and pump.power_w]
    for answer in answers_for(now.network, others):
        if not answer.does_it or answer.per_year is None:
            continue
        saved = now.per_year - answer.per_year
        names = {"other": answer.pump.name, "pump": now.pump.name}
        notes = []
        if answer.state == "probably":
            notes.append(Message("It is only probably enough."))
        if not now.answer.does_it:
            notes.append(Message("It is enough here, and {pump} is not.", names))
        elif answer.pump.price and saved > 0.0:
            years = ceil(answer.pump.price / saved)
            notes.append(
                counted(
                    "Its price is back within a year.",
                    "Its price is back within {count} years.",
                    years,
                )
            )
        what = Message("{other} in place of {pump}", names)
        yield Saving("pump", now.line, what, saved, saved, tuple(notes))


def _least(worked: WorkedPond, found: RunningCosts) -> Iterator[Saving]:
    """Every place at its least flow, where the pumps that are there can be slowed to it."""
    least, now = evaluation(worked, "least"), found.of_pumps
    if now is None or least.running is None or least.weak or None in least.by:
        return
    saved = now - least.running.per_year_high
    what = Message("The least flow for everything, with the pump turned down to it")
    yield Saving("plan", found.pumps[0].line, what, saved, saved)


def _wider_pipes(worked: WorkedPond, now: PumpCost) -> Iterator[Saving]:
    for run in line_answer(worked, now.line, worked.planned.flows).runs:
        if run.wider is None:
            continue
        pipe = run.counted.pipe
        what = Message(
            "{run}: {wider} in place of {pipe}",
            {
                "run": run.counted.name,
                "wider": pipe_size(run.wider.of(pipe)),
                "pipe": pipe_size(pipe),
            },
        )
        note = Message("Only with a smaller pump: this one cannot be turned down.")
        if run.wider.saves == "slower":
            note = Message("With the pump turned down by as much.")
        yield Saving("pipe", now.line, what, run.wider.money_low, run.wider.money_high, (note,))


def savings(worked: WorkedPond, found: RunningCosts) -> tuple[Saving, ...]:
    """Changes that would make a pond cheaper to run, most first.

    Args:
        worked: The pond.
        found: What its pumps cost now.

    Raises:
        PondError: A circuit cannot be counted.
    """
    every = [*_least(worked, found)]
    for now in found.pumps:
        every += [*_cheaper_pumps(worked, now), *_wider_pipes(worked, now)]
    whole = sum(one.per_year for one in found.pumps)
    worth = [one for one in every if one.high >= WORTH * whole > 0.0]
    return tuple(sorted(worth, key=lambda one: -one.low - one.high))
