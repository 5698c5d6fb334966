"""What a pond is made of, as things to buy: how many, how long, how large, and why."""

from collections import Counter
from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.plumbing.network import TEES, VALVE_PARTS, bore
from pondapp.answers.plumbing.path import line_name, pump_of
from pondapp.answers.plumbing.pipe_names import pipe_size, pipe_title
from pondapp.answers.pond import WorkedPond
from pondapp.answers.rules.working import Working
from pondapp.answers.shopping.needed import Needed, named, planted
from pondapp.answers.shopping.valves import valves_to_add
from pondapp.answers.water.liner import basin_liner
from pondapp.answers.water.volume import found_basin
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message, Value, counted, phrase
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.hydraulics.fittings import FITTINGS
from pondapp.core.materials.plants import plants_for_area, shaded_area
from pondapp.models.circuit import Line, Pipe
from pondapp.models.pond import Pond
from pondapp.models.water import Drawn

# Counted as a loss of head, but nothing that a shop sells.
NOT_SOLD = frozenset({"inlet", "outlet"})


@dataclass(frozen=True, slots=True)
class _Bought:
    """A run of pipe with the parts that are bought for it."""

    pipe: Pipe
    name: str
    assumed: bool
    parts: Mapping[str, int]


def _pumps(worked: WorkedPond) -> Iterator[Needed]:
    for line in worked.lines:
        pump = pump_of(worked.pond, line)
        if pump is not None:
            yield Needed(f"pump.{pump.id}", "pump", named(pump.name), 1.0, price=pump.price)
            continue
        name = named(line_name(worked.pond, line))
        needs = worked.network(line, worked.planned.flows).needs
        remark = Message(
            "One that gives {flow} at a head of {head}.",
            {"flow": Amount(needs.flow, "m3/s"), "head": Amount(needs.head, "m")},
        )
        yield Needed(f"pump-for.{line.id}", "pump", name, 1.0, remark=remark)


def _entered(line: Line) -> list[_Bought]:
    """The runs that have a pipe, where none can be assumed for the others."""
    runs = [_Bought(line.main, "Main run", False, line.main.fittings)] if line.main else []
    for branch in line.branches:
        if branch.pipe:
            valve = dict.fromkeys(VALVE_PARTS[branch.valve], 1)
            parts = {**branch.pipe.fittings, **valve}
            runs.append(_Bought(branch.pipe, branch.name, False, parts))
    return runs


def _runs(worked: WorkedPond, line: Line) -> list[_Bought]:
    try:
        network = worked.network(line, worked.planned.flows)
    except PondError:
        return _entered(line)
    return [
        _Bought(run.pipe, run.name, run.assumed, {**run.own, **run.valve}) for run in network.runs
    ]


def _tees_to_add(line: Line, runs: list[_Bought]) -> int:
    """A line that divides needs a T-piece less than it has branches; those entered count."""
    entered = sum(count for run in runs for key, count in run.parts.items() if key in TEES)
    return max(0, len(line.branches) - 1 - entered)


def _pipes(worked: WorkedPond) -> Iterator[Needed]:
    lengths: dict[tuple[str, str], list[tuple[str, float]]] = {}
    assumed: set[tuple[str, str]] = set()
    for line in worked.lines:
        for run in _runs(worked, line):
            sort = run.pipe.series, run.pipe.size
            if run.pipe.length_m > 0:
                lengths.setdefault(sort, []).append((run.name, run.pipe.length_m))
                assumed |= {sort} if run.assumed else set()
    for (series, size), parts in lengths.items():
        total = sum(length for _, length in parts)
        remark = Message(
            "Partly assumed: enter what you really need under Hose, lift and fittings."
        )
        yield Needed(
            f"pipe.{series}.{size}",
            "pipe",
            Message(
                "{series}, {size}", {"series": pipe_title(series), "size": _size(series, size)}
            ),
            total,
            "m",
            remark=remark if (series, size) in assumed else None,
            working=_sum_of("length", parts),
        )


def _size(series: str, size: str) -> Value:
    return pipe_size(Pipe(series=series, size=size, length_m=0.0))


def _sum_of(what: str, parts: Iterable[tuple[str, float]]) -> Working:
    terms = tuple(Term("L", name, length, "m") for name, length in parts)
    total = Term("Σ", phrase("{what} in all", what=what), sum(term.value for term in terms), "m")
    return lambda: (Step(total, "Σ = sum of the runs", terms, ARITHMETIC),)


# A part is not sold as it stands in the circuit.
SOLD_AS = {
    "tee_branch": "T-piece",
    "wye_branch": "Wye",
    "ball_valve": "Ball valve",
    "gate_valve": "Gate valve",
    "globe_valve": "Globe valve",
    "strainer": "Strainer",
    "foot_valve": "Foot valve with strainer and flap",
    "foot_valve_disc": "Foot valve with strainer and spring",
}


def _fittings(worked: WorkedPond) -> Iterator[Needed]:
    counts: Counter[tuple[str, str, str]] = Counter()
    for line in worked.lines:
        runs = _runs(worked, line)
        for run in runs:
            for key, count in run.parts.items():
                if key not in NOT_SOLD:
                    counts[(key, run.pipe.series, run.pipe.size)] += count
        tees = _tees_to_add(line, runs)
        if tees and runs:
            widest = max((run.pipe for run in runs), key=bore)
            counts[("tee_branch", widest.series, widest.size)] += tees
    for (key, series, size), count in counts.items():
        known = FITTINGS.get(key)  # a part that this version does not know goes by its own name
        label = SOLD_AS.get(key) or (known.label if known else key)
        name = Message("{part}, for {size}", {"part": label, "size": _size(series, size)})
        yield Needed(f"part.{key}.{series}.{size}", "parts", name, float(count))


def _features(worked: WorkedPond) -> Iterator[Needed]:
    for feature in worked.pond.fed:
        yield from kind_of(feature).to_buy(feature, worked.rules)


def _liners(worked: WorkedPond) -> Iterator[Needed]:
    pond, rules = worked.pond, worked.rules
    if not isinstance(pond.water, Drawn):
        return
    for basin in pond.water.basins:
        sheet = basin_liner(basin, rules)
        remark = Message(
            "A sheet of {length} by {width}.",
            {"length": Amount(sheet.length, "m"), "width": Amount(sheet.width, "m")},
        )
        for key, name in (("liner", "Liner for {basin}"), ("underlay", "Underlay for {basin}")):
            yield Needed(
                f"{key}.{basin.id}", "liner", Message(name, {"basin": basin.name}), sheet.area,
                "m2", remark=remark, working=sheet.steps,
            )  # fmt: skip


def _plants(worked: WorkedPond) -> Iterator[Needed]:
    pond, rules = worked.pond, worked.rules
    materials = rules.materials
    if isinstance(pond.water, Drawn) and not _plants_are_eaten(pond, materials.plant_eater_length):
        for basin in pond.water.basins:
            surface = found_basin(basin).area
            open_water = (
                surface - shaded_area(surface, materials.cover_min, materials.cover_max).low
            )
            if open_water <= 0.0:
                continue
            name = Message("Bunches of submerged plants for {basin}", {"basin": basin.name})
            bunches = plants_for_area(open_water, materials.bunches_per_area)
            several = counted(
                "{count} bunch of submerged plants for {basin}",
                "{count} bunches of submerged plants for {basin}",
                bunches.count,
                {"basin": basin.name},
            )
            words = "For the {area} that floating leaves leave open; fewer will do."
            yield planted(f"bunches.{basin.id}", name, several, bunches, words)


def _plants_are_eaten(pond: Pond, length: float) -> bool:
    """Whether koi or other large fish would eat what grows under water."""
    return any((group.grown_length_m or group.length_m) >= length for group in pond.fish)


SOURCES: tuple[Callable[[WorkedPond], Iterator[Needed]], ...] = (
    _pumps, _pipes, _fittings, valves_to_add, _features, _liners, _plants,
)  # fmt: skip


def needed(worked: WorkedPond) -> tuple[tuple[Needed, ...], tuple[Message, ...]]:
    """Everything that a pond asks for, and why some of it could not be worked out."""
    found: list[Needed] = []
    troubles: list[Message] = []
    try:
        _ = worked.rules
    except PondError as problem:
        return (), (problem.message,)
    for source in SOURCES:
        try:
            found += source(worked)
        except PondError as problem:
            if problem.message not in troubles:
                troubles.append(problem.message)
    return tuple(found), tuple(troubles)
