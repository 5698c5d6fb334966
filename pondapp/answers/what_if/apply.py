"""What was tried becomes the plan: its pump, hoses, lifts and lips, and its flows as the aims."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pondapp.answers.features.targets import Target
from pondapp.answers.planning.on_branch import passed
from pondapp.answers.pond import WorkedPond
from pondapp.answers.what_if.changes import Changes, with_changes
from pondapp.answers.what_if.trial import Trial
from pondapp.core.base.messages import Amount, Message
from pondapp.models.circuit import Branch, WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.reading import Band

SAME = 1e-3  # a share of a flow that no valve is set to


@dataclass(frozen=True, slots=True)
class Applied:
    """The pond with what was tried as its plan, and what of that a plan cannot hold."""

    pond: Pond
    kept_back: tuple[Message, ...]


def applied(trial: Trial, changes: Changes) -> Applied:
    """The pond with what was tried as its plan; conditions are left out, they pass.

    The flows of the clean pump and foam in the usual water become what its owner wants of each
    place, so that the plan, tuning and measuring aim for them.

    Raises:
        PondError: A shape, a size or a changed rule cannot be; the message says why.
    """
    saved = changes.saved
    pond = with_changes(trial.worked, saved)
    state = trial.state(saved)
    planned = WorkedPond(pond).planned.flows
    branches = [branch for line in state.worked.lines for branch in line.branches]
    flows = state.flows
    moved = any(
        abs(flows[branch.id] - planned.get(branch.id, 0.0)) > SAME * flows[branch.id]
        for branch in branches
        if branch.id in flows
    )
    if not moved:
        return Applied(pond, ())
    bands: dict[str, Band] = {}
    kept_back: list[Message] = []
    for branch in branches:
        flow = flows.get(branch.id)
        if flow is not None:
            bands |= _bands(state.worked, branch, flow)
            kept_back += _kept_back(state.worked, branch, flow)
    fed = tuple(_aimed(feature, bands) for feature in pond.fed)
    return Applied(pond.model_copy(update={"fed": fed}), tuple(kept_back))


def _targets(worked: WorkedPond, branch: Branch) -> Iterator[Target]:
    for key in passed(branch):
        target = worked.targets.place(key)
        if target is not None:
            yield target


def _bands(worked: WorkedPond, branch: Branch, flow: float) -> Mapping[str, Band]:
    """What each place that the water of a branch passes is to have, inside what it can take."""
    found: dict[str, Band] = {}
    for target in _targets(worked, branch):
        low, high = target.band.low, target.band.high
        good = max(low, flow if high is None else min(flow, high))
        found[target.place_id] = Band(low_m3_s=low, target_m3_s=good, high_m3_s=high)
    return found


def _kept_back(worked: WorkedPond, branch: Branch, flow: float) -> Iterator[Message]:
    """A flow that is less or more than a place is content with."""
    for target in _targets(worked, branch):
        low, high = target.band.low, target.band.high
        if flow < low * (1.0 - SAME):
            yield Message(
                "{name} needs {least}: the plan keeps to that.",
                {"name": target.name, "least": Amount(low, "m3/s")},
            )
        elif high is not None and flow > high * (1.0 + SAME):
            yield Message(
                "{name} can take {most} at most: the plan keeps to that.",
                {"name": target.name, "most": Amount(high, "m3/s")},
            )


def _aimed(feature: WaterFeature, bands: Mapping[str, Band]) -> WaterFeature:
    band = bands.get(feature.id)
    return feature if band is None else feature.model_copy(update={"band": band, "aim": "good"})
