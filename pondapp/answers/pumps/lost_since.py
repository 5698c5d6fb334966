"""What a pump lost since it was clean or tuned, and where that went."""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import Literal

from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.methods import rules_for
from pondapp.answers.plumbing.pump_history import pump_then, rebuilt_since
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumped import Pumped
from pondapp.answers.tuning.flow_sets import (
    BranchPlace,
    Change,
    FlowSet,
    branch_places,
    change_of,
    newest_at,
    set_of,
)
from pondapp.answers.tuning.line_flow import LineFlow
from pondapp.core.base.errors import PondError
from pondapp.core.base.working import Step
from pondapp.core.hydraulics.lost_flow import LostFlow, lost_flow
from pondapp.core.hydraulics.pump_curve import SlowedCurve
from pondapp.core.hydraulics.tuning import as_found, least_speed
from pondapp.core.measuring.spread import Spread, spread_of_half_width
from pondapp.core.measuring.verdict import Certainty
from pondapp.models.circuit import Line
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

Where = Literal["nowhere", "pump side", "branch", "both", "either", "unclear"]


@dataclass(frozen=True, slots=True)
class Since:
    """What is left of an earlier flow."""

    kept: FlowSet
    clean: bool
    """Whether that was the clean pump; else it was as tuned."""
    change: Change
    where: Where | None
    """Where flow was lost; none where the branches were not measured one by one."""
    blocked: str
    """What the branches that are blocked are called; empty where none is."""
    working: tuple[Step, ...]


def _like_now(line: Line, at: datetime) -> bool:
    """Whether pump and hoses were those of now."""
    return pump_then(line, at) == line.pump_id and not rebuilt_since(line, at)


def baseline(pond: Pond, line: Line) -> tuple[FlowSet, bool] | None:
    """The newest set of this pump to compare with, and whether it was clean; else as tuned."""
    clean, tuned = (
        kept if kept is None or _like_now(line, kept.at) else None
        for kept in (set_of(pond.clean, line), set_of(pond.tuned, line))
    )
    if clean and (tuned is None or clean.at >= tuned.at):
        return clean, True
    return (tuned, False) if tuned else None


def missing_places(
    worked: WorkedPond, line: Line, log: Sequence[Reading]
) -> tuple[BranchPlace, ...]:
    """The branches that were never measured.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    places = branch_places(worked, line)
    return tuple(place for place in places if newest_at(log, place.everywhere, place.rules) is None)


def _where(
    parts: Pumped,
    was: Mapping[str, float],
    now: Mapping[str, Spread],
    less: Collection[str],
    rule: Certainty,
) -> tuple[Where, tuple[str, ...], tuple[Step, ...]]:
    """Where flow was lost, as far as it holds for a strong pump and for a weak one alike."""
    weak = SlowedCurve(
        parts.curve, least_speed(parts.curve, parts.circuit, was, parts.viscosity)
    )  # fmt: skip
    found: list[LostFlow] = []
    for curve in (parts.curve, weak):
        stand = as_found(curve, parts.circuit, was, parts.viscosity)
        found.append(lost_flow(curve, stand.circuit, now, parts.viscosity, rule))
    # A branch that only lags behind the others did not lose: a valve elsewhere was turned.
    blocked = tuple(key for key in found[0].blocked if key in found[1].blocked and key in less)
    sides = [one.where for one in found]
    steps = found[0].steps()
    where: Where = "unclear"
    if "either" in sides:
        where = "either" if sides == ["either", "either"] else "unclear"
    elif sides == ["nowhere", "nowhere"]:
        where = "nowhere"
    elif all(side in ("pump side", "both") for side in sides):
        where = "both" if blocked else "pump side"
    elif blocked:
        where = "branch"
    return where, blocked, steps


def is_baseline(pond: Pond, line: Line, now: LineFlow) -> bool:
    """Whether a reading of now is one of the baseline itself."""
    found = baseline(pond, line)
    kept = {place.reading_id for place in found[0].places} if found else set()
    return any(one.reading.id in kept for one in now.seen)


def since(
    pond: Pond, line: Line, now: LineFlow, parts: Pumped | None, places: Sequence[BranchPlace]
) -> Since | None:
    """What is left since the newest baseline, where that is older than the flow of now."""
    found = baseline(pond, line)
    if found is None or found[0].at >= now.at:
        return None
    kept, clean = found
    if is_baseline(pond, line, now):
        return None
    then, doubt = (
        sum(place.flow_m3_s for place in kept.places),
        sum(place.half_width_m3_s for place in kept.places),
    )
    rule = certainty(rules_for(pond).measuring)
    change = change_of(line.name, then, doubt, now.flow, now.doubt, rule)
    was = {place.place_id: place for place in kept.places}
    here = {one.reading.place_id: one for one in now.seen}
    dry = any(one.found.dry for one in now.seen)  # that says enough about where to look
    if parts is None or not now.summed or dry or was.keys() != here.keys():
        return Since(kept, clean, change, None, "", ())
    branch_at = {place.place_id: place.branch.id for place in places}
    flows: dict[str, Spread] = {}
    less: set[str] = set()
    for place_id, one in here.items():
        old = was[place_id]
        each = change_of("", old.flow_m3_s, old.half_width_m3_s, one.flow, one.doubt, rule)
        if each.told and each.share < 1.0:
            less.add(branch_at[place_id])
        half = old.flow_m3_s * (each.high - each.share)
        flows[branch_at[place_id]] = spread_of_half_width(one.flow, half, rule.coverage)
    try:
        before = {branch_at[place_id]: place.flow_m3_s for place_id, place in was.items()}
        where, blocked, steps = _where(parts, before, flows, less, rule)
    except PondError:
        return Since(kept, clean, change, None, "", ())
    return Since(kept, clean, change, where, parts.names(blocked), steps)
