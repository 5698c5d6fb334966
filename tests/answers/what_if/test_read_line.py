"""What if on ponds with readings: the same flows and intervals as where the readings are told."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, datetime, timedelta
from math import isclose

import learning_ponds
import pytest

from pondapp.answers.learning.kept import learned_once
from pondapp.answers.learning.learning import Learning
from pondapp.answers.learning.predictions import (
    FlowTold,
    after_cleaning,
    flows_in,
    with_pump,
)
from pondapp.answers.log.log import LogItem
from pondapp.answers.picture.states import states_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.what_if.changes import CLEANED, NOTHING, POND, Changes, with_changes
from pondapp.answers.what_if.start import as_entered, as_read
from pondapp.answers.what_if.trial import Trial
from pondapp.answers.what_if.tried_state import CalculatedFlow, TriedState
from pondapp.models.circuit import Line, Lip
from pondapp.models.reading import MeterReading

NOW = datetime(2026, 6, 1, 12, tzinfo=UTC)
BOG, FALL, LINE = "to-bog", "to-fall", "line"


@dataclass(frozen=True)
class ReadPond:
    """A pond with readings, as both screens see it."""

    worked: WorkedPond
    line: Line
    log: Sequence[LogItem]
    found: Learning
    trial: Trial


def _pond(worked: WorkedPond, line: Line, log: Sequence[LogItem], now: datetime) -> ReadPond:
    found = learned_once(worked, line, log, {}, now)
    return ReadPond(worked, line, log, found, as_read(worked, log, {}, now))


def example() -> ReadPond:
    worked = WorkedPond(example_pond())
    return _pond(worked, worked.lines[0], example_readings(NOW), NOW)


def ponds() -> Iterator[ReadPond]:
    """The example, and simulated ones whose valves are turned and whose pump is cleaned."""
    yield example()
    for number in range(12):
        made = learning_ponds.truth(number, readings=4 + number % 7)
        yield _pond(WorkedPond(made.pond), made.line, made.log, learning_ponds.NOW)


def same(told: Sequence[FlowTold], one: ReadPond, state: TriedState) -> int:
    """Hold each flow of what the readings tell against the trial's; how many there were.

    What is known too loosely for figures there has none here either.
    """
    by_place = {place.place_name: place.branch.id for place in one.found.model.places}
    pump = one.worked.names.lines[one.line.id]
    for flow in told:
        tried = state.flow_at(by_place.get(flow.name, one.line.id))
        figures = flow.close or (flow.told and flow.flow == 0.0)
        assert figures or tried is None, (flow.name, pump)
        if tried is None:
            continue
        assert isclose(tried.flow, flow.flow, rel_tol=0.01, abs_tol=1e-9), flow.name
        assert isclose(tried.high, flow.high, rel_tol=0.01, abs_tol=1e-9), flow.name
        assert isclose(tried.low, flow.low, rel_tol=0.01, abs_tol=1e-9), flow.name
    return len(told)


def test_nothing_changed_it_is_the_flow_of_now_by_all_readings() -> None:
    for one in ponds():
        assert same(flows_in(one.found, one.found.scene_now), one, one.trial.now)


def test_a_cleaned_pump_brings_what_the_readings_let_expect() -> None:
    for one in ponds():
        state = one.trial.state(NOTHING.put("clean", one.line.id, CLEANED))
        assert same(after_cleaning(one.found), one, state)


def test_another_pump_brings_what_the_readings_let_expect() -> None:
    compared = 0
    for one in ponds():
        for pump in one.worked.pond.pumps:
            if pump.id != one.line.pump_id:
                state = one.trial.state(NOTHING.put("pump", one.line.id, pump.id))
                compared += same(with_pump(one.found, pump), one, state)
    assert compared > 10


def changed_by(one: ReadPond) -> Iterator[tuple[str, Changes]]:
    """A change of each sort on a line."""
    branch = one.line.branches[0]
    yield "clean", NOTHING.put("clean", one.line.id, 0.8)
    yield "foam", NOTHING.put("foam", branch.id, 0.6)
    yield "lift", NOTHING.put("lift", branch.id, 2.5)
    yield "rest", NOTHING.put("rest", branch.id, 1.0)
    if branch.valve != "none":
        opened = one.trial.opening(branch, NOTHING)
        yield "opened", NOTHING.put("opened", branch.id, 0.5 * opened)


def test_what_hinders_a_branch_never_brings_it_more() -> None:
    for one in ponds():
        key = one.line.branches[0].id
        before = one.trial.now.branches.get(key)
        for name, changes in changed_by(one):
            after = one.trial.state(changes).branches.get(key)
            if before is None or after is None:
                continue
            assert after.low <= after.flow <= after.high
            assert after.flow <= before.flow * (1 + 1e-9), name
            assert before.flow == 0.0 or after.flow < before.flow, name


def test_a_valve_turned_to_where_it_stands_changes_nothing() -> None:
    for one in ponds():
        for branch in one.line.branches:
            if branch.valve == "none":
                continue
            stands = one.trial.opening(branch, NOTHING)
            state = one.trial.state(NOTHING.put("opened", branch.id, stands))
            assert state.branches.keys() == one.trial.now.branches.keys()
            for key, before in one.trial.now.branches.items():
                assert isclose(state.branches[key].flow, before.flow, rel_tol=1e-3, abs_tol=1e-9)


def test_a_turn_is_known_by_its_table_only() -> None:
    one = example()
    branch = one.line.branches[0]
    less = 0.95 * one.trial.opening(branch, NOTHING)
    before = one.trial.now.branches[BOG]
    after = one.trial.state(NOTHING.put("opened", BOG, less)).branches[BOG]

    def share(found: CalculatedFlow) -> float:
        return (found.high - found.flow) / found.flow

    assert share(after) > share(before)


def test_warm_water_flows_a_little_easier_and_a_slower_pump_gives_less() -> None:
    one = example()
    warm = one.trial.state(NOTHING.put("warmth", POND, 30.0))
    assert warm.branches[FALL].flow > one.trial.now.branches[FALL].flow
    pumps = tuple(pump.model_copy(update={"adjustable": True}) for pump in one.worked.pond.pumps)
    worked = WorkedPond(one.worked.pond.model_copy(update={"pumps": pumps}))
    trial = _pond(worked, worked.lines[0], one.log, NOW).trial
    speed = trial.now.line(LINE).speed
    assert 0.3 < speed <= 1.0
    slow = trial.state(NOTHING.put("speed", LINE, 0.8 * speed))
    assert slow.line(LINE).speed == 0.8 * speed
    assert slow.branches[FALL].flow < trial.now.branches[FALL].flow
    assert slow.power is not None
    assert trial.now.power is not None
    assert slow.power < trial.now.power
    same_speed = trial.state(NOTHING.put("speed", LINE, speed))
    assert same_speed.flows == pytest.approx(trial.now.flows)


def words(states: Mapping[str, object]) -> dict[str, str]:
    return {key: str(getattr(one, "word", "")) for key, one in states.items()}


def test_now_says_of_each_place_what_its_picture_says() -> None:
    one = example()
    pictured = states_of(one.worked, example_readings(NOW), NOW)
    assert {"Right", "Too little"} & {state.word for state in pictured.values()}
    for key, state in pictured.items():
        assert one.trial.now.places[key] == state, key


def test_a_measured_word_stands_until_something_that_matters_is_changed() -> None:
    one = example()
    for idle in (NOTHING.put("lift", FALL, 0.9), NOTHING.put("warmth", POND, 21.0)):
        assert words(one.trial.state(idle).places) == words(one.trial.now.places)
    tried = one.trial.state(NOTHING.put("opened", BOG, 0.3)).places
    assert tried["bog"].reading is None
    assert tried["bog"].word != "Right"
    lip = one.trial.state(NOTHING.put("width", "lip", 0.8)).places
    assert lip["lip"].reading is None, "another lip wants another flow"


def test_old_readings_still_teach_and_say_nothing_of_now() -> None:
    worked = WorkedPond(example_pond())
    late = NOW + timedelta(days=400)
    trial = as_read(worked, example_readings(NOW), {}, late)
    assert trial.seen == {}
    assert trial.read.keys() == {LINE}
    assert as_read(worked, example_readings(NOW), {}, NOW).now.branches.keys() == {BOG, FALL}
    assert trial.now.branches == {}


def test_without_readings_it_is_the_pond_as_entered() -> None:
    worked = WorkedPond(example_pond())
    trial = as_read(worked, (), {}, NOW)
    assert (trial.read, trial.seen) == ({}, {})
    assert trial.now.flows == as_entered(worked).now.flows


def test_a_line_without_pump_or_curve_is_not_known_whatever_was_read() -> None:
    pond = example_pond()
    bare = tuple(pump.model_copy(update={"max_head_m": None}) for pump in pond.pumps)
    without = tuple(line.model_copy(update={"pump_id": None}) for line in pond.lines)
    for odd in (
        pond.model_copy(update={"pumps": bare}), pond.model_copy(update={"lines": without})
    ):  # fmt: skip
        state = as_read(WorkedPond(odd), example_readings(NOW), {}, NOW).now
        assert state.branches == {}
        assert state.lines[0].reasons


def test_what_is_changed_brings_the_fish_no_more_than_its_share_of_what_came() -> None:
    one = example()
    wide = NOTHING.put("lift", FALL, 0.6)
    less = {}
    for key, state in one.trial.seen.items():
        assert state.found is not None
        half = replace(state.found.flow, flow=0.5 * state.found.flow.flow)
        less[key] = replace(state, found=replace(state.found, flow=half))
    weak = Trial(one.worked, one.trial.read, less)
    for changes in (NOTHING, wide):
        full, halved = one.trial.state(changes).stock, weak.state(changes).stock
        assert full is not None
        assert halved is not None
        assert halved.oxygen_supply.likely < full.oxygen_supply.likely


def test_a_flow_that_is_contradicted_feeds_no_fish() -> None:
    worked = WorkedPond(example_pond())
    (fall, *_) = (one for one in example_readings(NOW) if one.place_id == "box")
    hour = timedelta(hours=1)
    method = MeterReading(flow_m3_s=0.5 * 5490 / 3.6e6, tolerance=0.03)
    again = fall.model_copy(update={"id": "again", "taken_at": NOW, "method": method})
    before = fall.model_copy(update={"id": "before", "taken_at": NOW - hour})
    bog = next(one for one in example_readings(NOW) if one.place_id == "bog")
    found = as_read(worked, [again, before, bog], {}, NOW).now
    assert found.stock is None
    assert any("cannot be told" in one.template for one in found.stock_doubts)


def test_a_branch_whose_water_nobody_caught_has_no_flow_by_readings() -> None:
    worked = WorkedPond(example_pond())
    log = [one for one in example_readings(NOW) if one.place_id == "bog"][:1]
    one = _pond(worked, worked.lines[0], log, NOW)
    unread = {told.key for told in flows_in(one.found, one.found.scene_now) if told.unread}
    assert FALL in unread
    assert one.trial.now.flow_at(FALL) is None


def test_a_trial_settles_a_conflict_of_demands_or_makes_one_as_the_picture_tells_it() -> None:
    pond = example_pond()
    bog = pond.fed[[one.kind for one in pond.fed].index("bog")]
    lip = Lip(id="edge", name="Edge", width_m=0.6)
    row = pond.lines[0].branches[0].model_copy(update={"feeds": (bog.id, "edge"), "bypass": ()})
    line = pond.lines[0].model_copy(update={"branches": (row,)})
    pond = pond.model_copy(update={"fed": (bog, lip), "lines": (line,)})
    reading = example_readings(NOW)[-1].model_copy(
        update={"place_id": "edge", "method": MeterReading(flow_m3_s=4e-4, tolerance=0.02)}
    )
    worked = WorkedPond(pond)
    trial = as_read(worked, (reading,), {}, NOW)
    conflict = "This can't all work"
    assert {trial.now.places[key].word for key in (LINE, bog.id, "edge", row.id)} == {conflict}
    narrow = trial.state(NOTHING.put("width", "edge", 0.1))
    assert conflict not in {one.word for one in narrow.places.values()}
    warm = trial.state(NOTHING.put("warmth", POND, 25.0))
    assert warm.places["edge"].word == conflict
    settled = with_changes(worked, NOTHING.put("width", "edge", 0.1))
    back = as_read(WorkedPond(settled), (reading,), {}, NOW)
    wide = back.state(NOTHING.put("width", "edge", 0.6))
    assert conflict not in {one.word for one in back.now.places.values()}
    assert {wide.places[key].word for key in (LINE, bog.id, "edge", row.id)} == {conflict}
