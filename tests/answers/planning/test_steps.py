"""Steps of building: nothing is done that is only assumed, and no pond is without its steps."""

from datetime import UTC, datetime

import pytest

from pondapp import units
from pondapp.answers.planning.steps import Step, building_steps
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.shopping.shopping import bill, with_tick
from pondapp.models.circuit import BogFilter
from pondapp.models.pond import Pond
from pondapp.models.water import MeasuredVolume, TypedVolume

NOW = datetime.now(UTC)
POND = example_pond()
BARE = Pond(id="bare", name="Bare", water=TypedVolume(volume_m3=2.0))
LOG = sorted(example_readings(NOW), key=lambda one: one.taken_at, reverse=True)


def steps(pond: Pond, log: list[object] | None = None) -> dict[str, Step]:
    found = building_steps(WorkedPond(pond), log or [], NOW)  # type: ignore[arg-type]
    return {step.part: step for step in found}


def told(step: Step) -> str:
    return units.tell(step.sentence, "metric")


def test_a_pond_of_which_only_the_water_is_known_has_one_step_done() -> None:
    found = steps(BARE)
    assert [part for part, step in found.items() if step.state == "done"] == ["water"]
    assert told(found["water"]) == "2,000 L, as entered"
    assert {told(found[part]) for part in ("fish", "things", "path", "plumbing")} == {"Not entered"}


def test_what_is_assumed_is_said_and_not_done() -> None:
    pond = BARE.model_copy(update={"fed": (BogFilter(id="bog", name="Bog", bed_volume_m3=0.1),)})
    found = steps(pond)
    assert told(found["path"]) == "Assumed: one pump for everything"
    assert "assuming" in told(found["plumbing"])
    assert told(found["pumps"]).endswith("choose a pump first.")
    assert {found[part].state for part in ("path", "plumbing", "pumps", "tune")} == {"open"}


def test_water_says_where_its_number_is_from() -> None:
    assert told(steps(POND)["water"]) == "2,580 L, from its drawing"
    found = MeasuredVolume(volume_m3=2.4, how="meter")
    measured = POND.model_copy(update={"measured_volume": found})
    assert told(steps(measured)["water"]) == "2,400 L, measured"


def test_a_filter_that_no_branch_feeds_is_wrong() -> None:
    (line,) = POND.lines
    branches = tuple(
        branch.model_copy(update={"feeds": tuple(one for one in branch.feeds if one != "bog")})
        for branch in line.branches
    )
    dry = POND.model_copy(update={"lines": (line.model_copy(update={"branches": branches}),)})
    found = steps(dry)["path"]
    assert found.state == "wrong"
    assert told(found) == "Bog filter: no branch brings it water."


def test_valves_are_tuned_by_readings_alone() -> None:
    assert told(steps(POND)["tune"]) == "Right so far: 0 of 2 branches."
    assert steps(POND)["tune"].state == "open"
    found = steps(POND, list(LOG))["tune"]
    assert (found.state, told(found)) == ("done", "Right so far: 2 of 2 branches.")


def test_what_is_bought_is_counted() -> None:
    pond = POND
    items = bill(WorkedPond(POND)).items
    for item in items[:3]:
        pond = with_tick(pond, item.key, True)
    assert told(steps(pond)["shopping"]) == f"3 of {len(items)} bought"
    for item in items:
        pond = with_tick(pond, item.key, True)
    assert steps(pond)["shopping"].state == "done"


@pytest.mark.parametrize("share", [1e9, -1.0])
def test_a_rule_that_cannot_be_leaves_every_step_with_a_sentence(share: float) -> None:
    pond = POND.model_copy(update={"assumptions": {"filters.bog_share": share}})
    found = steps(pond)
    assert len(found) == 9
    assert all(told(step) for step in found.values())
