"""Readings taken with a pump say nothing of the one that took its place, on any screen."""

from collections.abc import Sequence
from datetime import UTC, datetime, timedelta

import pytest

from pondapp.answers.care.glance import pump_against_new
from pondapp.answers.care.open_matters import open_matters
from pondapp.answers.learning.learning import learn
from pondapp.answers.learning.predictions import FlowTold, flows_in, with_pump
from pondapp.answers.picture.states import states_of
from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.plumbing.pump_history import by_other_pump, with_changes_noted
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.lost_since import baseline
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.tuning.flow_sets import flow_set
from pondapp.answers.tuning.line_flow import line_flow
from pondapp.answers.tuning.tune import states
from pondapp.answers.what_if.start import as_read
from pondapp.models.pond import Pond

NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)
LATER = NOW + timedelta(hours=1)
READINGS = example_readings(NOW)


def changed(pond: Pond, pump: str | None, when: datetime = NOW) -> Pond:
    """The pond with another pump, as it is saved."""
    return with_changes_noted(with_line(pond, "line", pump_id=pump), pond, when)


def told(pond: Pond) -> set[str]:
    found = open_matters(WorkedPond(pond), READINGS, LATER)
    return {one.sentence.template for one in found.matters}


def test_no_screen_counts_them_as_of_the_new_pump() -> None:
    pond = changed(example_pond(), "large")
    worked = WorkedPond(pond)
    assert "Measured with the old pump: {names}." in told(pond)
    assert "{name} is enough, as measured." not in told(pond)
    assert "Every flow is as wanted." not in told(pond)
    seen = states_of(worked, READINGS, LATER)
    assert {one.word for one in seen.values()} == {"Measured with the old pump"}
    assert {one.severity for one in seen.values()} == {"unknown"}
    glance = pump_against_new(worked, READINGS, LATER)
    assert (glance.severity, glance.sentence.template) == ("unknown", "Measured with the old pump")
    assert {one.state for one in states(worked, pond.lines[0], READINGS, {}, LATER)} == {"replaced"}
    assert as_read(worked, READINGS, {}, LATER).seen == {}


def test_the_new_pump_is_expected_to_give_what_was_foretold_of_it() -> None:
    before, pond = example_pond(), changed(example_pond(), "large")

    def flows(told: Sequence[FlowTold]) -> list[float]:
        return [one.flow for one in told]

    was = learn(WorkedPond(before), before.lines[0], READINGS, {}, NOW)
    foretold = with_pump(was, next(one for one in before.pumps if one.id == "large"))
    found = learn(WorkedPond(pond), pond.lines[0], READINGS, {}, LATER)
    now = flows_in(found, found.scene_now)
    assert flows(now) == pytest.approx(flows(foretold), rel=0.01)
    assert now[-1].share < 0.5, "nobody measured it"
    assert now[-1].half >= foretold[-1].half


def test_the_same_pump_put_back_has_its_readings_again() -> None:
    tried = changed(example_pond(), "large")
    back = changed(tried, "middle", NOW + timedelta(minutes=5))
    assert not any(by_other_pump(back, one.place_id, one.taken_at) for one in READINGS)
    assert by_other_pump(back, "line", NOW + timedelta(minutes=1))
    assert told(back) == told(example_pond())


def test_a_pump_taken_away_for_a_while_is_no_other_and_one_in_its_place_is() -> None:
    away = changed(example_pond(), None)
    assert not told(changed(away, "middle", LATER)) - told(example_pond())
    assert "Measured with the old pump: {names}." in told(changed(away, "large", LATER))


def test_what_was_kept_of_the_old_pump_is_no_measure_of_the_new_one() -> None:
    pond = example_pond()
    line = pond.lines[0]
    flow = line_flow(WorkedPond(pond), line, READINGS)
    assert flow
    kept = pond.model_copy(update={"clean": (flow_set(line, flow.seen, flow.at),)})
    assert baseline(kept, line)
    assert baseline(kept, changed(kept, "large").lines[0]) is None
