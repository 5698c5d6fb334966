"""What each run of pipe takes from the pump, and what a wider one would save."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import inf
from typing import Literal

from pondapp.answers.plumbing.network import ALL_SERIES as ALL_SERIES
from pondapp.answers.plumbing.network import MAIN as MAIN
from pondapp.answers.plumbing.network import CountedRun as CountedRun
from pondapp.answers.plumbing.network import LineNetwork, assumed_pipe, bore, network_of
from pondapp.answers.plumbing.network import like_size as like_size
from pondapp.answers.plumbing.network import size_names as size_names
from pondapp.answers.plumbing.path import lines_of, pump_of
from pondapp.answers.plumbing.path_edits import with_branch, with_line
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message, phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.hydraulics.energy import costs, power_for
from pondapp.core.hydraulics.fittings import FITTINGS, fittings_loss
from pondapp.core.hydraulics.run import RunLoss, run_loss, velocity_in
from pondapp.models.circuit import Line
from pondapp.models.circuit import Pipe as Pipe
from pondapp.models.pond import Pond

PartKind = Literal["lift", "wall", "fittings", "valve", "ends"]

# Counted without being asked for (outlet), or asked for in another way (valves).
NOT_OFFERED = frozenset({"outlet", "ball_valve", "gate_valve"})
USUAL = ("elbow_90", "elbow_45", "elbow_90_long", "tee_through", "tee_branch", "check_valve")
"""Fittings that most ponds have, shown first."""
ALL_FITTINGS = (*USUAL, *(key for key in FITTINGS if key not in NOT_OFFERED | set(USUAL)))
FITTING_NAMES: Mapping[str, str] = {key: part.label for key, part in FITTINGS.items()}
FITTING_GROUPS: Mapping[str, tuple[str, ...]] = {
    group: tuple(key for key in ALL_FITTINGS if FITTINGS[key].group == group)
    for group in ("bends", "tees", "valves", "joints")
}
"""What can be entered, by what it stands with on a shelf."""


LITTLE = 1e-6  # m3/s; where no flow is planned the least hose is assumed


@dataclass(frozen=True, slots=True)
class Part:
    """Something that takes head, and its share in what the run takes."""

    kind: PartKind
    head: float
    share: float


Saves = Literal["slower", "smaller", "any"]
"""Who saves the money: the pump turned down, only a smaller one, or any yet to choose."""


@dataclass(frozen=True, slots=True)
class WiderPipe:
    """The size in which the water is slow enough, or else the next one up, at the planned flow."""

    size: str
    velocity: float
    run_head: float
    """Head [m] that it saves in this run."""
    pump_head: float
    """Head [m] that it saves at the pump: nothing where another branch sets the head."""
    money_low: float
    money_high: float
    """Energy costs that it saves in a year, in the owner's currency; never more than the share of
    the chosen pump's bill that the saved head is of all its head."""
    saves: Saves

    def of(self, pipe: Pipe) -> Pipe:
        """The pipe in this size."""
        return pipe.model_copy(update={"size": self.size})


@dataclass(frozen=True, slots=True)
class RunAnswer:
    """One run at its planned flow."""

    counted: CountedRun
    loss: RunLoss
    parts: tuple[Part, ...]
    neediest: bool
    """Whether this branch sets the head that the pump must make."""
    wider: WiderPipe | None

    @property
    def head(self) -> float:
        """Lift and losses [m]."""
        return self.counted.lift + self.loss.total

    @property
    def warnings(self) -> tuple[Message, ...]:
        """Water that is too fast, or a regime that is uncertain."""
        return self.loss.warnings

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        lift = Term("z", phrase("lift of {name}", name=self.counted.name), self.counted.lift, "m")
        loss = Term("h", "loss of the run", self.loss.total, "m")
        head = Term("H", phrase("head of {name}", name=self.counted.name), self.head, "m")
        return (*self.loss.steps(), Step(head, "H = z + h", (lift, loss), ARITHMETIC))


@dataclass(frozen=True, slots=True)
class LineAnswer:
    """All runs behind a pump, and what they ask of it."""

    network: LineNetwork
    runs: tuple[RunAnswer, ...]

    @property
    def flow(self) -> float:
        """Planned flow [m3/s] of the pump."""
        return self.network.needs.flow

    @property
    def head(self) -> float:
        """Head [m] that the pump must make at that flow."""
        return self.network.needs.head

    def run(self, key: str) -> RunAnswer | None:
        """The answer for one run by its key; none where it has no pipe."""
        return next((run for run in self.runs if run.counted.key == key), None)

    def steps(self) -> tuple[Step, ...]:
        """The working: every run, then the neediest way back to the pump."""
        found = [step for run in self.runs for step in run.steps()]
        at_tee = Term(
            "H_b", phrase("head of {name}", name=self.network.needs.neediest.name),
            self.network.needs.at_start[self.network.needs.neediest.key], "m",
        )  # fmt: skip
        main = self.run(MAIN)
        lost = Term("h_m", "loss in the main run", main.head if main else 0.0, "m")
        head = Term("H", "head at the pump", self.head, "m")
        return (*found, Step(head, "H = h_m + H_b", (lost, at_tee), ARITHMETIC))


def _parts(counted: CountedRun, loss: RunLoss) -> tuple[Part, ...]:
    """Who takes how much; what takes nothing is left out."""
    coefficients: tuple[tuple[PartKind, float], ...] = (
        ("fittings", fittings_loss(counted.own)),
        ("valve", fittings_loss(counted.valve)),
        ("ends", fittings_loss(counted.added)),
    )
    per_unit = loss.fittings / counted.run.fittings if counted.run.fittings else 0.0
    heads: list[tuple[PartKind, float]] = [("lift", counted.lift), ("wall", loss.wall)]
    heads += [(kind, k * per_unit) for kind, k in coefficients]
    total = sum(head for _, head in heads)
    return tuple(Part(kind, head, head / total) for kind, head in heads if head > 0.0)


def put_pipe(pond: Pond, line_id: str, key: str, pipe: Pipe | None) -> Pond:
    """The pond with another pipe in a line's main run or in one branch."""
    if key == MAIN:
        return with_line(pond, line_id, main=pipe)
    return with_branch(pond, key, pipe=pipe)


def line_of(pond: Pond, line_id: str) -> Line | None:
    """The line of that id."""
    return next((line for line in lines_of(pond) if line.id == line_id), None)


def assumed_pipe_of(worked: WorkedPond, line: Line, key: str) -> Pipe:
    """What to assume of a run while nothing is entered.

    The least hose where nothing can be planned: then the answer below the form says why.

    Raises:
        PondError: A changed rule cannot be; the message says why.
    """
    try:
        flows = worked.planned.flows
    except PondError:
        flows = {}
    total = sum(flows.get(branch.id, 0.0) for branch in line.branches)
    flow = (total if key == MAIN else flows.get(key, 0.0)) or total
    return assumed_pipe(flow or LITTLE, worked.rules.plumbing)


def _fitting_size(network: LineNetwork, counted: CountedRun) -> str | None:
    """The narrowest wider size in which the water is slow enough; the next if it is so already."""
    names = size_names(counted.pipe.series)
    wider = names[names.index(counted.pipe.size) + 1 :]
    if not wider or counted.flow == 0.0:
        return None
    if velocity_in(bore(counted.pipe), counted.flow) <= network.rules.plumbing.velocity_max:
        return wider[0]
    for name in wider:
        inside = bore(counted.pipe.model_copy(update={"size": name}))
        if velocity_in(inside, counted.flow) <= network.rules.plumbing.velocity_max:
            return name
    return wider[-1]


def _wider(pond: Pond, network: LineNetwork, counted: CountedRun, now: RunLoss) -> WiderPipe | None:
    size = _fitting_size(network, counted)
    if size is None:
        return None
    pipe = counted.pipe.model_copy(update={"size": size})
    flows = {branch.key: branch.flow for branch in network.branches}
    alone = pond.model_copy(update={"lines": (network.line,)})
    tried_pond = put_pipe(alone, network.line.id, counted.key, pipe)
    tried = network_of(tried_pond, tried_pond.lines[0], flows)
    run = next(run for run in tried.runs if run.key == counted.key).run
    rules = network.rules
    then = run_loss(run, counted.flow, network.viscosity, rules.plumbing.velocity_max)
    saved = max(0.0, network.needs.head - tried.needs.head)
    pump, p = pump_of(pond, network.line), rules.pumps

    def yearly(power: float) -> float:
        return costs(0.0, power, p.running_time, p.tariff, p.cost_years).per_year

    most = inf
    if pump is not None and pump.power_w and saved > 0.0:
        most = yearly(pump.power_w) * min(1.0, saved / network.needs.head)

    def money(efficiency: float) -> float:
        power = power_for(network.needs.flow, saved, network.density, efficiency)
        return min(most, yearly(power))

    saves: Saves = "any"
    if pump is not None:
        saves = "slower" if pump.adjustable else "smaller"
    return WiderPipe(
        size=size,
        velocity=then.velocity,
        run_head=now.total - then.total,
        pump_head=saved,
        money_low=money(p.efficiency_high),
        money_high=money(p.efficiency_low),
        saves=saves,
    )


def line_answer(worked: WorkedPond, line: Line, flows: Mapping[str, float]) -> LineAnswer:
    """What the runs of a line take at their planned flows [m3/s], given by branch id.

    Raises:
        PondError: A size is not known, no flow is planned, or a number is out of range.
    """
    network = worked.network(line, flows)
    limit = network.rules.plumbing.velocity_max
    runs = []
    for counted in network.runs:
        loss = run_loss(counted.run, counted.flow, network.viscosity, limit)
        runs.append(
            RunAnswer(
                counted,
                loss,
                _parts(counted, loss),
                counted.key == network.needs.neediest.key,
                _wider(worked.pond, network, counted, loss),
            )
        )
    return LineAnswer(network, tuple(runs))
