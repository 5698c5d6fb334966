"""Edits of what a pond asks of its pumps: each names by key what it changes, and to what.

A resolution is a list of them. A circuit applies them here; a stored pond, whose parts go by the
same keys, applies the same ones.
"""

from collections.abc import Callable, Collection, Iterable
from dataclasses import dataclass, replace

from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import phrase
from pondapp.core.circuit.model import (
    LEAST_FLOW,
    MOST_FLOW,
    Aim,
    DemandBranch,
    DemandCircuit,
    DemandPump,
    FlowDemand,
)


@dataclass(frozen=True, slots=True)
class AddBypass:
    """A way round a feature.

    Attributes:
        branch: Key of its branch.
        feature: Key of the feature.
    """

    branch: str
    feature: str


@dataclass(frozen=True, slots=True)
class SetAim:
    """A feature that is to have its least or its good flow.

    Attributes:
        feature: Key of the feature.
        aim: Which of them.
    """

    feature: str
    aim: Aim


@dataclass(frozen=True, slots=True)
class Resize:
    """A feature made larger or smaller; what flows it demands goes with it in proportion.

    Attributes:
        feature: Key of the feature.
        size: Its new size [m] or [m3], as of its demand.
    """

    feature: str
    size: float


@dataclass(frozen=True, slots=True)
class NewBranch:
    """A branch that is not there yet.

    Attributes:
        key: Its key, unlike any other's.
        name: What to call it.
        features: Keys of the features that are moved to it; none for a straight return.
    """

    key: str
    name: str
    features: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AddBranch:
    """One more branch on a pump.

    Attributes:
        pump: Key of the pump.
        branch: The branch.
    """

    pump: str
    branch: NewBranch


@dataclass(frozen=True, slots=True)
class AddPump:
    """One more pump, yet to be chosen.

    Attributes:
        key: Its key, unlike any other's.
        name: What to call it.
        duty: Share of the day that it runs [-], 0.001 to 1.
        moved: Keys of the branches that are moved to it from other pumps.
        branch: A new branch on it; at least one of these two is given.
    """

    key: str
    name: str
    duty: float
    moved: tuple[str, ...] = ()
    branch: NewBranch | None = None


@dataclass(frozen=True, slots=True)
class ReplacePump:
    """A stronger pump in the place of one.

    Attributes:
        pump: Key of the place.
        most: What it must deliver there at least [m3/s].
    """

    pump: str
    most: float


@dataclass(frozen=True, slots=True)
class SetDuty:
    """Another share of the day that a pump runs.

    Attributes:
        pump: Key of the pump.
        duty: The share [-], 0.001 to 1.
    """

    pump: str
    duty: float


@dataclass(frozen=True, slots=True)
class MergeBranches:
    """The water of one branch led on through what another fed, which goes.

    Attributes:
        first: Key of the branch that stays.
        second: Key of the branch of the same pump that goes; its features come behind.
        bypass: Keys of the features that get a way round for it.
    """

    first: str
    second: str
    bypass: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SetTurnover:
    """Another least flow for the whole pond.

    Attributes:
        turnover: The flow, as the mean of a day [m3/s].
    """

    turnover: float


Edit = (
    AddBypass
    | SetAim
    | Resize
    | AddBranch
    | AddPump
    | ReplacePump
    | SetDuty
    | MergeBranches
    | SetTurnover
)


def apply(circuit: DemandCircuit, edit: Edit) -> DemandCircuit:
    """A circuit with an edit applied; the old one stays as it is.

    Args:
        circuit: The circuit.
        edit: What to change; a size [m] or [m3] only where the feature's is known.

    Returns:
        The new circuit, flows in [m3/s].

    Raises:
        OutOfRange: There is no part of that key, or none whose size is known; a number is outside
            its range; or nothing would be left on a pump.

    Source:
        Common practice: flow over width of a lip and over volume of a bed are fixed by rule.

    Example:
        A lip of 0.3 m made narrower:

        >>> lip = FlowDemand("lip", 5e-4, None, 1e-3, "lip", 0.3)
        >>> circuit = DemandCircuit((DemandPump("pump", (DemandBranch("hose", (lip,)),)),))
        >>> round(apply(circuit, Resize("lip", 0.15)).demands[0].target, 6)
        0.0005
    """
    match edit:
        case AddBypass(key, feature):
            return _on_branch(circuit, key, lambda one: replace(one, bypass=(*one.bypass, feature)))
        case SetAim(key, aim):
            return _on_demand(circuit, key, lambda one: replace(one, aim=aim))
        case Resize(key, size):
            _known(key, [one.key for one in circuit.demands if one.size is not None])
            return _on_demand(circuit, key, lambda one: _resized(one, size))
        case AddBranch(key, new):
            branch = _made(circuit, new)
            return _on_pump(
                _without(circuit, new.features),
                key,
                lambda one: replace(one, branches=(*one.branches, branch)),
            )
        case AddPump():
            return _with_pump(circuit, edit)
        case ReplacePump(key, most):
            return _on_pump(circuit, key, lambda one: replace(one, most=most))
        case SetDuty(key, duty):
            return _on_pump(circuit, key, lambda one: replace(one, duty=duty))
        case MergeBranches():
            return _merged(circuit, edit)
        case SetTurnover(turnover):
            return replace(circuit, turnover=turnover)


def _known(key: str, keys: Collection[str]) -> None:
    if key not in keys:
        raise OutOfRange("there is nothing called {name}", name=key)


def _on_pump(
    circuit: DemandCircuit, key: str, change: Callable[[DemandPump], DemandPump]
) -> DemandCircuit:
    _known(key, [pump.key for pump in circuit.pumps])
    pumps = tuple(change(pump) if pump.key == key else pump for pump in circuit.pumps)
    return replace(circuit, pumps=pumps)


def _each_branch(
    circuit: DemandCircuit, change: Callable[[DemandBranch], DemandBranch]
) -> DemandCircuit:
    pumps = tuple(
        replace(pump, branches=tuple(map(change, pump.branches))) for pump in circuit.pumps
    )
    return replace(circuit, pumps=pumps)


def _on_branch(
    circuit: DemandCircuit, key: str, change: Callable[[DemandBranch], DemandBranch]
) -> DemandCircuit:
    _known(key, [branch.key for branch in circuit.branches])
    return _each_branch(circuit, lambda one: change(one) if one.key == key else one)


def _on_demand(
    circuit: DemandCircuit, key: str, change: Callable[[FlowDemand], FlowDemand]
) -> DemandCircuit:
    _known(key, [demand.key for demand in circuit.demands])

    def changed(branch: DemandBranch) -> DemandBranch:
        return replace(
            branch, demands=tuple(change(one) if one.key == key else one for one in branch.demands)
        )

    return _each_branch(circuit, changed)


def _resized(demand: FlowDemand, size: float) -> FlowDemand:
    factor = size / (demand.size or size)
    high = None if demand.high is None else demand.high * factor
    return replace(
        demand, size=size, low=demand.low * factor, target=demand.target * factor, high=high
    )


def _without(circuit: DemandCircuit, features: Collection[str]) -> DemandCircuit:
    """A circuit whose branches feed some features no more."""
    return _each_branch(
        circuit,
        lambda branch: replace(
            branch,
            demands=tuple(one for one in branch.demands if one.key not in features),
            bypass=tuple(key for key in branch.bypass if key not in features),
        ),
    )


def _made(circuit: DemandCircuit, new: NewBranch) -> DemandBranch:
    demands = {demand.key: demand for demand in circuit.demands}
    for key in new.features:
        _known(key, demands)
    return DemandBranch(new.key, tuple(demands[key] for key in new.features), name=new.name)


def _with_pump(circuit: DemandCircuit, edit: AddPump) -> DemandCircuit:
    branches = {branch.key: branch for branch in circuit.branches}
    for key in edit.moved:
        _known(key, branches)
    own = [branches[key] for key in edit.moved]
    left = circuit
    if edit.branch:
        own.append(_made(circuit, edit.branch))
        left = _without(circuit, edit.branch.features)
    pumps = [
        replace(pump, branches=tuple(one for one in pump.branches if one.key not in edit.moved))
        for pump in left.pumps
    ]
    new = DemandPump(edit.key, tuple(own), duty=edit.duty, name=edit.name)
    return replace(circuit, pumps=(*pumps, new))


def _merged(circuit: DemandCircuit, edit: MergeBranches) -> DemandCircuit:
    branches = {branch.key: branch for branch in circuit.branches}
    for key in (edit.first, edit.second):
        _known(key, branches)
    first, second = branches[edit.first], branches[edit.second]
    merged = replace(
        first,
        demands=(*first.demands, *second.demands),
        bypass=tuple(dict.fromkeys((*first.bypass, *second.bypass, *edit.bypass))),
    )
    pumps = tuple(
        replace(
            pump,
            branches=tuple(
                merged if branch is first else branch
                for branch in pump.branches
                if branch is not second
            ),
        )
        for pump in circuit.pumps
    )
    return replace(circuit, pumps=pumps)


def can_resize(demand: FlowDemand, size: float) -> bool:
    """Whether a feature can be given a size.

    Args:
        demand: What it demands.
        size: The size to give it [m] or [m3].

    Returns:
        False where its size is not known or the new one is beyond what can be built.

    Source:
        Definition of the demand's least and most size.

    Example:
        >>> lip = FlowDemand("lip", 5e-4, None, 1e-3, "lip", 0.3, most_size=2.0)
        >>> can_resize(lip, 1.0), can_resize(lip, 3.0)
        (True, False)
    """
    if demand.size is None or size <= 0.0:
        return False
    factor = size / demand.size
    if demand.target * factor < LEAST_FLOW:
        return False
    if max(demand.target, demand.high or 0.0) * factor > MOST_FLOW:
        return False
    # What is too small or too large already may still come nearer to what can be built.
    return min(demand.size, demand.least_size) <= size <= max(demand.size, demand.most_size)


def free_key(circuit: DemandCircuit) -> str:
    """A key for a new part of a circuit.

    Args:
        circuit: The circuit.

    Returns:
        "new-1" or the first that no pump and no branch has.
    """
    used = {pump.key for pump in circuit.pumps} | {branch.key for branch in circuit.branches}
    number = 1
    while f"new-{number}" in used:
        number += 1
    return f"new-{number}"


def free_name(wanted: str, taken: Iterable[str]) -> str:
    """A name that nothing has yet.

    Args:
        wanted: The name to have if it is free.
        taken: Names in use.

    Returns:
        That name, or that name with the first free number from 2 behind it; capitals make no other
        name.
    """
    used = {name.casefold() for name in taken}
    name, number = wanted, 2
    while name.casefold() in used:
        name, number = phrase("{name} {number}", name=wanted, number=str(number)), number + 1
    return name
