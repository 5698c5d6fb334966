"""What follows from a feature at its pond, whatever its kind."""

from collections.abc import Mapping

from pondapp.answers.features.kind import Site, Told
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.picture.states import PASSED, PlaceState
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.pond import WorkedPond
from pondapp.answers.water.volume import volume_of, water_volume
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import WaterFeature


def flows_of(worked: WorkedPond) -> Mapping[str, float]:
    """The flow [m3/s] through each feature, by id: the plan's, or else its good one."""
    plan, found = worked.plan, {}
    for feature in worked.pond.fed:
        planned = plan.at(feature.id) if isinstance(plan, PondPlan) else None
        target = worked.targets.place(feature.id)
        if flow := planned or (target.band.target if target else None):
            found[feature.id] = flow
    return found


def told_of(
    worked: WorkedPond, feature: WaterFeature, states: Mapping[str, PlaceState] | None = None
) -> tuple[Told, ...]:
    """What follows from a feature, as far as it can be worked out; then why no further.

    Args:
        worked: The pond.
        feature: One of it, as it is stored or typed.
        states: How each place is by its newest reading, as the picture shows it.

    Raises:
        PondError: The pond's shape, a changed rule or its circuit cannot be.
    """
    pond = worked.pond
    volume = pond.measured_volume.volume_m3 if pond.measured_volume else None
    measured = {
        key: state.found.flow.high
        for key, state in (states or {}).items()
        if state.found and state.word not in PASSED
    }
    water = volume_of(pond.water, volume)
    site = Site(pond.fed, flows_of(worked), water.area, measured, water_volume(pond))
    found: list[Told] = []
    try:
        for one in kind_of(feature).told(feature, site, worked.rules):
            found.append(one)
    except PondError as problem:
        found.append(Told("", problem.message, severity="unknown"))
    return tuple(found)
