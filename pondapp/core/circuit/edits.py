"""Edits of a circuit: each gives a new circuit and leaves the old one alone."""

from dataclasses import replace

from pondapp.core.base.messages import phrase
from pondapp.core.circuit.model import (
    LEAST_FLOW,
    MOST_FLOW,
    Branch,
    Circuit,
    Pump,
    Want,
)


def with_pump(circuit: Circuit, old: Pump, *new: Pump) -> Circuit:
    """A circuit with others in the place of a pump.

    Args:
        circuit: The circuit [any].
        old: The pump to replace [any].
        new: What takes its place [any].

    Returns:
        The new circuit [any].

    Source:
        None needed: no formula.
    """
    pumps: list[Pump] = []
    for pump in circuit.pumps:
        pumps += new if pump.name == old.name else (pump,)
    return replace(circuit, pumps=tuple(pumps))


def with_branch(pump: Pump, old: Branch, *new: Branch) -> Pump:
    """A pump with other branches in the place of one, or without it.

    Args:
        pump: The pump [any].
        old: The branch to replace [any].
        new: What takes its place [any].

    Returns:
        The new pump [any].

    Raises:
        OutOfRange: No branch is left.

    Source:
        None needed: no formula.
    """
    branches: list[Branch] = []
    for branch in pump.branches:
        branches += new if branch.name == old.name else (branch,)
    return replace(pump, branches=tuple(branches))


def without(branch: Branch, want: Want) -> Branch:
    """A branch without one of its things.

    Args:
        branch: The branch [any].
        want: The thing to take away [any].

    Returns:
        The new branch [any].

    Source:
        None needed: no formula.
    """
    return replace(
        branch,
        wants=tuple(other for other in branch.wants if other.name != want.name),
        bypass=tuple(name for name in branch.bypass if name != want.name),
    )


def resized(branch: Branch, want: Want, factor: float) -> tuple[Branch, float] | None:
    """A branch with one of its things made larger or smaller, its wanted flows with it.

    Args:
        branch: The branch [any].
        want: The thing to change [any]; its size must be known.
        factor: New size over old [-], above 0.

    Returns:
        The new branch and the new size [any]; None if the size is not known or the new one is
        beyond what can be built.

    Source:
        Common practice: flow over width of a lip and over volume of a bed are fixed by rule.
    """
    if want.size is None:
        return None
    size, low, target = want.size * factor, want.low * factor, want.target * factor
    high = None if want.high is None else want.high * factor
    if target < LEAST_FLOW or max(target, high or 0.0) > MOST_FLOW or size <= 0.0:
        return None
    # What is too small or too large already may still come nearer to what can be built.
    if not min(want.size, want.least_size) <= size <= max(want.size, want.most_size):
        return None
    new = replace(want, size=size, low=low, target=target, high=high)
    wants = tuple(new if other.name == want.name else other for other in branch.wants)
    return replace(branch, wants=wants), size


def free_name(wish: str, taken: list[str]) -> str:
    """A name that nothing has yet.

    Args:
        wish: The name to have if it is free [any].
        taken: Names in use [any].

    Returns:
        The wish, or the wish with the first free number from 2 behind it [any]; capitals make no
        other name.

    Source:
        None needed: no formula.
    """
    used = {name.casefold() for name in taken}
    name, number = wish, 2
    while name.casefold() in used:
        name, number = phrase("{name} {number}", name=wish, number=str(number)), number + 1
    return name
