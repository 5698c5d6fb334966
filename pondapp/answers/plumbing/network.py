"""A pump's line as a circuit to count with: bores, losses, lifts and planned flows."""

from collections.abc import Mapping
from dataclasses import dataclass, replace

from pondapp.answers.plumbing.path import assumed_lift, lift_conflict, names_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.plumbing import PlumbingAssumptions
from pondapp.core.base.constants import DAY, HOUR, ZERO_CELSIUS
from pondapp.core.base.errors import NoSolution
from pondapp.core.calibration.learned import NOTHING, Learned, learned_circuit
from pondapp.core.hydraulics.bores import SERIES, bore_of, size_for, sizes
from pondapp.core.hydraulics.fittings import FITTINGS, fittings_loss
from pondapp.core.hydraulics.network import Outlet, PipeNetwork, PumpDuty, duty_for
from pondapp.core.hydraulics.odds import MAIN as MAIN_RUN
from pondapp.core.hydraulics.odds import Doubt
from pondapp.core.hydraulics.run import Run, bore_for
from pondapp.core.hydraulics.water import density, kinematic_viscosity
from pondapp.models.circuit import Branch, Line, Pipe
from pondapp.models.pond import Pond
from pondapp.words import t

MAIN = "main"
RIBBED = "ribbed "
ASSUMED_SERIES = "hose, mm"

# Hose comes smooth or ribbed in the same sizes; pipe is always smooth.
ALL_SERIES = (*SERIES, *(f"{RIBBED}{series}" for series in SERIES if series.startswith("hose")))
VALVE_PARTS = {"none": (), "ball": ("ball_valve",), "gate": ("gate_valve",)}
TEES = frozenset(key for key in FITTINGS if key.startswith(("tee", "wye")))


@dataclass(frozen=True, slots=True)
class CountedRun:
    """One run of pipe as it is counted."""

    key: str
    """MAIN, or the branch's id."""
    name: str
    pipe: Pipe
    assumed: bool
    """Whether the pipe is only assumed, since none is entered."""
    own: Mapping[str, int]
    """Fittings that were entered."""
    added: Mapping[str, int]
    """Parts that are counted without being entered: the outlet, and the T-piece before it."""
    valve: Mapping[str, int]
    run: Run
    lift: float
    flow: float
    lift_assumed: bool = False
    """Whether the lift is only assumed, since none is entered or a fall contradicts it."""


@dataclass(frozen=True, slots=True)
class LineNetwork:
    """Everything behind one pump, and what its planned flows ask of the pump."""

    line: Line
    main: CountedRun | None
    branches: tuple[CountedRun, ...]
    circuit: PipeNetwork
    flows: Mapping[str, float]
    """Planned flow [m3/s] of each branch by its id."""
    needs: PumpDuty
    viscosity: float
    density: float
    rules: Assumptions
    """The rules in force, with the time that this line runs in a year."""

    @property
    def runs(self) -> tuple[CountedRun, ...]:
        """The main run, if there is one, and the branches."""
        return (self.main, *self.branches) if self.main else self.branches


def plain_series(series: str) -> str:
    """The series of sizes that a ribbed hose comes in."""
    return series.removeprefix(RIBBED)


def bore(pipe: Pipe) -> float:
    """Inner diameter [m] of a pipe by its printed size.

    Raises:
        OutOfRange: There is no such series or size.
    """
    return bore_of(plain_series(pipe.series), pipe.size)


def size_names(series: str) -> tuple[str, ...]:
    """Printed sizes of a series, narrow to wide.

    Raises:
        OutOfRange: There is no such series.
    """
    return tuple(size.name for size in sizes(plain_series(series)))


def like_size(pipe: Pipe, series: str) -> str:
    """The printed size of another series that comes next to a pipe's bore, rather wider.

    Raises:
        OutOfRange: There is no such series or size.
    """
    try:
        return size_for(plain_series(series), bore(pipe)).name
    except NoSolution:
        return size_names(series)[-1]


def assumed_pipe(flow: float, rules: PlumbingAssumptions) -> Pipe:
    """A short hose, just wide enough for the water to stay slow in it."""
    try:
        size = size_for(ASSUMED_SERIES, bore_for(flow, rules.velocity_max))
    except NoSolution:
        size = sizes(ASSUMED_SERIES)[-1]
    return Pipe(series=ASSUMED_SERIES, size=size.name, length_m=rules.assumed_length)


def _run(pipe: Pipe, parts: Mapping[str, int], rules: PlumbingAssumptions) -> Run:
    inside = bore(pipe)
    rough = rules.smooth_roughness / inside
    if pipe.series.startswith(RIBBED):
        rough = rules.ribbed_relative_roughness
    return Run(pipe.length_m, inside, rough, fittings_loss(parts))


def _counted_branch(
    pond: Pond, branch: Branch, name: str, total: float, flow: float, divides: bool
) -> CountedRun:
    rules = Assumptions().with_overrides(pond.assumptions).plumbing
    pipe = branch.pipe or assumed_pipe(flow or total, rules)
    own = dict(pipe.fittings)
    added: dict[str, int] = {}
    if divides and not TEES & own.keys():
        added["tee_branch"] = 1
    if "outlet" not in own:
        added["outlet"] = 1
    valve = dict.fromkeys(VALVE_PARTS[branch.valve], 1)
    parts = {
        key: own.get(key, 0) + added.get(key, 0) + valve.get(key, 0)
        for key in (*own, *added, *valve)
    }
    run = _run(pipe, parts, rules)
    assumed = branch.pipe is None
    lift, guessed = assumed_lift(pond, branch)
    guessed = guessed or lift_conflict(pond, branch) is not None
    return CountedRun(
        branch.id, name, pipe, assumed, own, added, valve, run, lift, flow, guessed
    )  # fmt: skip


def network_of(
    pond: Pond, line: Line, flows: Mapping[str, float], learned: Learned = NOTHING
) -> LineNetwork:
    """The circuit behind a line's pump.

    Args:
        pond: The pond, for its water and its rules.
        line: The line; not necessarily one of the pond's, so that changes can be tried.
        flows: Planned flow [m3/s] of each branch by its id; 0 for one that rests.
        learned: How its losses and lifts differ from what was entered.

    Raises:
        PondError: A size is not known, no flow is planned, or a number is out of range.
    """
    rules = Assumptions().with_overrides(pond.assumptions)
    share = line.hours_per_day * HOUR / DAY
    pumps = replace(rules.pumps, running_time=rules.pumps.running_time * share)
    rules = replace(rules, pumps=pumps)
    total = sum(flows[branch.id] for branch in line.branches)
    if total <= 0.0:
        raise NoSolution(
            "no flow is planned here: add what the pump feeds, or a flow for the whole pond"
        )
    names = names_of(pond.model_copy(update={"lines": (line,)})).branches
    divides = len(line.branches) > 1
    branches = tuple(
        _counted_branch(pond, branch, names[branch.id], total, flows[branch.id], divides)
        for branch in line.branches
    )  # fmt: skip
    main = None
    if line.main is not None:
        own = dict(line.main.fittings)
        run = _run(line.main, own, rules.plumbing)
        main = CountedRun(MAIN, t("Main run"), line.main, False, own, {}, {}, run, 0.0, total)
    circuit = PipeNetwork(
        main.run if main else None,
        tuple(Outlet(b.key, b.run, b.lift, name=b.name) for b in branches),
    )
    circuit = learned_circuit(circuit, learned, standing=False)
    temperature = ZERO_CELSIUS + pond.water_temperature_c
    viscosity = kinematic_viscosity(temperature)
    wanted = {b.key: b.flow for b in branches}
    needs = duty_for(circuit, wanted, viscosity)
    return LineNetwork(
        line, main, branches, circuit, wanted, needs, viscosity, density(temperature), rules
    )  # fmt: skip


def doubt_of(network: LineNetwork) -> Doubt:
    """How far lifts and losses may be off: more where they are only assumed."""
    rules = network.rules.pumps
    lift, loss = {}, {}
    for counted in network.branches:
        lift[counted.key] = rules.assumed_lift_doubt if counted.lift_assumed else rules.lift_doubt
        loss[counted.key] = rules.assumed_loss_doubt if counted.assumed else rules.loss_doubt
    loss[MAIN_RUN] = rules.loss_doubt
    assumed = tuple(run.key for run in network.branches if run.assumed or run.lift_assumed)
    return Doubt(lift, loss, assumed)
