"""The flow that each branch is planned to carry: the same for everyone who asks."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field

from pondapp.answers.features.targets import Targets
from pondapp.answers.planning.plan import PondConflict, PondPlan
from pondapp.answers.plumbing.path import lines_of
from pondapp.core.base.messages import Message
from pondapp.models.circuit import Branch, Line
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class Planned:
    """Planned flows."""

    flows: Mapping[str, float]
    """Flow [m3/s] of each branch by its id; 0 for one that rests."""
    conflict: Message | None
    """What excludes each other; then each branch has what its most demanding feature asks for."""
    by_branch: Mapping[str, Message] = field(default_factory=dict)
    """What excludes each other within a branch, by the branch's id."""
    weak: Message | None = None
    """The chosen pumps cannot do it; then these are the flows that other pumps must deliver."""


def _most_asked(branch: Branch, wants: Targets) -> float:
    places = (wants.place(feature_id) for feature_id in branch.feeds)
    return max((place.asked for place in places if place), default=0.0)


def without_pumps(pond: Pond) -> Pond:
    """The pond with every pump still to be chosen."""
    lines = tuple(line.model_copy(update={"pump_id": None}) for line in lines_of(pond))
    return pond.model_copy(update={"lines": lines})


def planned_flows(
    lines: Iterable[Line],
    wants: Targets,
    plan: PondPlan | PondConflict,
    without_pumps: Callable[[], PondPlan | PondConflict],
) -> Planned:
    """The plan's flow of each branch, with the chosen pumps where these can deliver it.

    Args:
        lines: The pond's lines.
        wants: What its places want.
        plan: Its plan.
        without_pumps: Its plan with every pump still to be chosen, asked for in a conflict only.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    if not isinstance(plan, PondConflict):
        return Planned(plan.branches, None)
    without = without_pumps()
    if not isinstance(without, PondConflict):
        return Planned(without.branches, None, weak=plan.conflicts[0])
    flows = {branch.id: _most_asked(branch, wants) for line in lines for branch in line.branches}
    return Planned(flows, without.conflicts[0], without.by_branch)
