"""The flow that each branch is planned to carry, whatever pump there is."""

from collections.abc import Mapping
from dataclasses import dataclass

from pondapp.core.messages import Message
from pondapp.models.circuit import Branch
from pondapp.models.pond import Pond
from pondapp.sizing.path import lines_of
from pondapp.sizing.plan import PondConflict, plan_of
from pondapp.sizing.targets import Targets, targets


@dataclass(frozen=True, slots=True)
class Planned:
    """Planned flows."""

    flows: Mapping[str, float]
    """Flow [m3/s] of each branch by its id; 0 for one that rests."""
    conflict: Message | None
    """The wishes that exclude each other; then each branch has what its neediest thing wants."""


def _neediest(branch: Branch, wants: Targets) -> float:
    places = (wants.place(thing_id) for thing_id in branch.feeds)
    return max((place.band.low for place in places if place), default=0.0)


def planned_flows(pond: Pond) -> Planned:
    """The plan's flow of each branch, as if the pump had still to be chosen.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    lines = tuple(line.model_copy(update={"pump_id": None}) for line in lines_of(pond))
    plan = plan_of(pond.model_copy(update={"lines": lines}))
    if not isinstance(plan, PondConflict):
        return Planned(plan.branches, None)
    wants = targets(pond)
    flows = {branch.id: _neediest(branch, wants) for line in lines for branch in line.branches}
    return Planned(flows, plan.clashes[0])
