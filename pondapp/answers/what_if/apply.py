"""What was tried becomes the plan: exactly as it was tried, or not at all and with the reason."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from pondapp.answers.features.targets import Target
from pondapp.answers.planning.on_branch import passed
from pondapp.answers.pond import WorkedPond
from pondapp.answers.what_if.changes import Changes, with_changes
from pondapp.answers.what_if.trial import HARDLY, LABEL_ASKED, Trial
from pondapp.answers.what_if.tried_state import TriedState
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, Message
from pondapp.models.circuit import Branch, WaterFeature
from pondapp.models.limits import MOST_PUMPS
from pondapp.models.pond import Pond
from pondapp.models.reading import Band

SAME = 1e-3  # a share of a flow that no valve is set to
SAME_SPEED = 0.025  # half of a step of its slider: nearer nobody can set it there


@dataclass(frozen=True, slots=True)
class Applied:
    """The pond with what was tried.

    Attributes:
        pond: The pond.
        as_planned: Whether its flows became the aims, so that its plan is what was tried; else its
            plan stays, and so does where a trial of it begins.
    """

    pond: Pond
    as_planned: bool


@dataclass(frozen=True, slots=True)
class Refused:
    """Why a plan cannot hold what was tried."""

    reasons: tuple[Message, ...]


def applied(trial: Trial, changes: Changes) -> Applied | Refused:
    """The pond with what was tried as its plan; conditions are left out, they pass.

    The flows of the usual water become what its owner wants of each place, so that plan, tuning
    and measuring aim for them. What the plan makes of that is compared with what was tried.

    Raises:
        PondError: A shape, a size or a changed rule cannot be; the message says why.
    """
    saved = changes.saved
    if saved.without_label:
        return Refused((LABEL_ASKED,))
    pond, state = with_changes(trial.worked, saved), trial.state(saved)
    if len(pond.pumps) > MOST_PUMPS:
        words = "There are {count} pumps to choose from already: take one away first."
        return Refused((Message(words, {"count": Amount(MOST_PUMPS, "-")}),))
    if trial.read and _moves_no_water(trial, saved, state):
        conflict = state.worked.planned.conflict
        if conflict is not None and trial.worked.planned.conflict is None:
            return Refused((conflict,))
        return Applied(pond, as_planned=False)
    lost = tuple(_lost(trial.now, state))
    if lost:
        return Refused(lost)
    beyond = tuple(_beyond(state))
    if beyond:
        return Refused(beyond)
    bands: dict[str, Band] = {}
    for branch in _branches(state.worked):
        if branch.id in state.flows:
            bands |= _bands(state.worked, branch, state.flows[branch.id])
    # Where the plan has these flows by itself, nothing has to be aimed for.
    for made in (pond, _aimed_at(pond, bands)):
        reasons = _unlike(state, made)
        if not reasons:
            return Applied(made, as_planned=True)
    return Refused(reasons)


def _moves_no_water(trial: Trial, saved: Changes, state: TriedState) -> bool:
    """Whether it changes nothing that the readings were taken with."""
    same = all(
        abs(flow - state.flows.get(key, 0.0)) <= SAME * flow
        for key, flow in trial.now.flows.items()
    )
    return same and not saved.moves_water


def _lost(now: TriedState, tried: TriedState) -> Iterator[Message]:
    """What flowed as anybody could tell, and of which nobody can tell any more."""
    lost = now.branches.keys() - tried.branches.keys()
    for line in tried.lines:
        gone = [one for one in line.line.branches if one.id in lost]
        if gone:
            yield from line.reasons or (_not_known(tried.worked, gone[0]),)


def _branches(worked: WorkedPond) -> Iterator[Branch]:
    for line in worked.lines:
        yield from line.branches


def _targets(worked: WorkedPond, branch: Branch) -> Iterator[Target]:
    for key in passed(branch):
        target = worked.targets.place(key)
        if target is not None:
            yield target


def _bands(worked: WorkedPond, branch: Branch, flow: float) -> Mapping[str, Band]:
    """What each place that the water of a branch passes is to have."""
    found: dict[str, Band] = {}
    for target in _targets(worked, branch):
        low, high = target.band.low, target.band.high
        good = max(low, flow if high is None else min(flow, high))  # by less than anybody can tell
        found[target.place_id] = Band(low_m3_s=low, target_m3_s=good, high_m3_s=high)
    return found


def _aimed_at(pond: Pond, bands: Mapping[str, Band]) -> Pond:
    def aimed(feature: WaterFeature) -> WaterFeature:
        band = bands.get(feature.id)
        return feature if band is None else feature.model_copy(update={"band": band, "aim": "good"})

    return pond.model_copy(update={"fed": tuple(aimed(feature) for feature in pond.fed)})


def _beyond(state: TriedState) -> Iterator[Message]:
    """The places that a flow is too little or too much for."""
    worked = state.worked
    for branch in _branches(worked):
        flow = state.flows.get(branch.id)
        if flow is None or (flow == 0.0 and not worked.planned.flows.get(branch.id)):
            continue
        for target in _targets(worked, branch):
            low, high = target.band.low, target.band.high
            values: dict[str, Amount | str] = {"name": target.name, "flow": Amount(flow, "m3/s")}
            if flow < low * (1.0 - SAME):
                values["least"] = Amount(low, "m3/s")
                yield Message("{name} needs {least} and would get {flow}.", values)
            elif high is not None and flow > high * (1.0 + SAME):
                values["most"] = Amount(high, "m3/s")
                yield Message("{name} can take {most} at most and would get {flow}.", values)


def _unlike(state: TriedState, pond: Pond) -> tuple[Message, ...]:
    """In what the plan of a pond is not what was tried; nothing where it is."""
    worked = WorkedPond(pond)
    try:
        plan = Trial(worked).now
        conflict = worked.planned.conflict or worked.planned.weak
    except PondError as problem:
        return (problem.message,)
    found = list(_other_flows(state, plan))
    for tried, planned in zip(state.lines, plan.lines, strict=True):
        if not found and abs(tried.speed - planned.speed) > SAME_SPEED:
            words = (
                "{pump} would run at {speed} by the plan, which is enough for these flows: try "
                "that speed, or open a valve further."
            )
            name, speed = worked.names.lines[planned.line.id], Amount(planned.speed, "share")
            found.append(Message(words, {"pump": name, "speed": speed}))
    if not found:
        return ()
    return (conflict, *found) if conflict else tuple(found)


def _not_known(worked: WorkedPond, branch: Branch) -> Message:
    words = "Whether the plan can give {name} what was tried is not known."
    return Message(words, {"name": worked.names.branches[branch.id]})


def _other_flows(state: TriedState, plan: TriedState) -> Iterator[Message]:
    names = plan.worked.names.branches
    for branch in _branches(plan.worked):
        tried, planned = state.flows.get(branch.id), plan.flows.get(branch.id)
        if tried is None and planned is None:
            continue
        if tried is None or planned is None:
            yield _not_known(plan.worked, branch)
        elif abs(tried - planned) > HARDLY * max(tried, planned):
            words = (
                "By what is entered of pump and hoses, the plan would give {name} {planned} and "
                "not {flow}."
            )
            yield Message(
                words,
                {
                    "name": names[branch.id],
                    "planned": Amount(planned, "m3/s"),
                    "flow": Amount(tried, "m3/s"),
                },
            )
