"""The flow that each branch is planned to carry: the same for everyone who asks."""

from collections.abc import Mapping
from dataclasses import dataclass

from pondapp.answers.features.targets import Targets, targets
from pondapp.answers.planning.plan import PondConflict, plan_of
from pondapp.answers.plumbing.path import lines_of
from pondapp.core.base.messages import Message
from pondapp.models.circuit import Branch
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class Planned:
    """Planned flows."""

    flows: Mapping[str, float]
    """Flow [m3/s] of each branch by its id; 0 for one that rests."""
    conflict: Message | None
    """What excludes each other; then each branch has what its most demanding feature asks for."""
    weak: Message | None = None
    """The chosen pumps cannot do it; then these are the flows that other pumps must deliver."""


def _most_asked(branch: Branch, wants: Targets) -> float:
    places = (wants.place(feature_id) for feature_id in branch.feeds)
    return max((place.asked for place in places if place), default=0.0)


def without_pumps(pond: Pond) -> Pond:
    """The pond with every pump still to be chosen."""
    lines = tuple(line.model_copy(update={"pump_id": None}) for line in lines_of(pond))
    return pond.model_copy(update={"lines": lines})


def planned_flows(pond: Pond) -> Planned:
    """The plan's flow of each branch, with the chosen pumps where these can deliver it.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    plan = plan_of(pond)
    if not isinstance(plan, PondConflict):
        return Planned(plan.branches, None)
    without = plan_of(without_pumps(pond))
    if not isinstance(without, PondConflict):
        return Planned(without.branches, None, weak=plan.clashes[0])
    wants = targets(pond)
    flows = {
        branch.id: _most_asked(branch, wants) for line in lines_of(pond) for branch in line.branches
    }
    return Planned(flows, without.clashes[0])
