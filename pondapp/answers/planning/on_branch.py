"""What is wanted of the water of a branch: the same at every place that all of it passes."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import replace

from pondapp.answers.features.targets import FlowBand, Target, Targets
from pondapp.core.base.messages import Message
from pondapp.core.circuit.bounds import ROUNDING
from pondapp.models.circuit import Branch, Line

BRANCH = "branch"
"""The kind of the end of a branch that feeds nothing with all of its water."""
RULE = Message("By the plan of its branch.")


def passed(branch: Branch) -> tuple[str, ...]:
    """The features that all the water of a branch passes."""
    return tuple(item for item in branch.feeds if item not in branch.bypass)


def branch_band(branch: Branch, planned: float, wants: Targets) -> FlowBand | None:
    """What everything on a branch is content with, the plan's flow as the good one.

    None where one feature asks, by its aim, for more than another can take.

    Args:
        branch: The branch.
        planned: Its planned flow [m3/s], above 0.
        wants: What the places of the pond want.
    """
    on_it = [(place, place.place_id in branch.bypass)
             for item in branch.feeds if (place := wants.place(item))]  # fmt: skip
    low = max((place.band.low for place, _ in on_it), default=planned)
    high = min(
        (place.band.high for place, past in on_it if place.band.high is not None and not past),
        default=None,
    )
    asked = max((place.asked for place, _ in on_it), default=planned)
    if high is not None and asked > high * (1.0 + ROUNDING):
        return None
    best = max(low, planned)
    return FlowBand(low, best if high is None else min(best, high), high)


def on_branches(
    found: Targets,
    wants: Targets,
    lines: Sequence[Line],
    flows: Mapping[str, float],
    names: Mapping[str, str],
) -> Targets:
    """What is wanted at each place, where all on its branch is to be content with one water.

    Args:
        found: What is wanted at each place alone.
        wants: The same by the rules or by the owner's band.
        lines: The pond's lines.
        flows: The planned flow of each branch [m3/s], by its id.
        names: What the branches are called, by id.
    """
    whole: dict[str, FlowBand] = {}
    ends: list[Target] = []
    for branch in (branch for line in lines for branch in line.branches):
        planned = flows.get(branch.id, 0.0)
        band = branch_band(branch, planned, wants) if planned > 0.0 else None
        if band is None:
            continue
        whole |= dict.fromkeys(passed(branch), band)
        if not any(wants.place(item) for item in passed(branch)):
            ends.append(Target(branch.id, names[branch.id], BRANCH, band, RULE))
    features = len(wants.places) - 1  # the last one is the pump's
    return Targets(
        found.volume,
        (*_content(found.places[:features], whole), *ends, *found.places[features:]),
    )


def _content(places: Sequence[Target], whole: Mapping[str, FlowBand]) -> Iterator[Target]:
    """Each feature with the band of its water, where that is narrower than its own."""
    for place in places:
        own, band = place.band, whole.get(place.place_id, place.band)
        if (own.low, own.high) == (band.low, band.high):
            yield place
        else:
            good = max(band.low, own.target)
            good = good if band.high is None else min(good, band.high)
            yield replace(place, band=replace(band, target=good), rule=RULE)
