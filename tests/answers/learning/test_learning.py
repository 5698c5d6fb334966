"""A pond learned from its log: the truth lies in the intervals, and states begin where they do."""

from collections.abc import Sequence
from datetime import datetime, timedelta
from statistics import median

import pytest
from learning_ponds import NOW, Found, chance_of_so_few, judged, pairs, truth

from pondapp.answers.learning.learning import Learning, learn
from pondapp.answers.learning.page import Told, told_of
from pondapp.answers.learning.predictions import flows_in, next_reading
from pondapp.answers.log.log import LogItem
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumped import pumped
from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.answers.tuning.flow_sets import branch_places
from pondapp.core.hydraulics.network import operating_point
from pondapp.models.entry import Cleaning, Entry, PumpChange
from pondapp.models.reading import FillSet, Reading

PONDS = 80


@pytest.fixture(scope="module")
def found() -> list[Found]:
    return [judged(truth(number)) for number in range(PONDS)]


def test_parameters_lie_in_their_intervals(found: Sequence[Found]) -> None:
    off = [abs(deviations) for one in found for _, deviations in one.parameters]
    inside = sum(one <= 1.959964 for one in off) / len(off)
    assert 0.93 <= inside <= 0.98
    assert len(off) > 1000


def test_predictions_lie_in_their_intervals(found: Sequence[Found]) -> None:
    off = [abs(halves) for one in found for _, halves, _, _ in one.predictions]
    inside = sum(one <= 1.0 for one in off) / len(off)
    assert 0.93 <= inside <= 0.98


def test_good_readings_are_seldom_called_wrong(found: Sequence[Found]) -> None:
    assert sum(one.outliers > 0 for one in found) <= 0.1 * PONDS


@pytest.fixture(scope="module")
def after_three() -> list[Found]:
    return [judged(truth(number, readings=3)) for number in range(PONDS)]


def test_three_readings_halve_how_far_the_plan_is_off(after_three: Sequence[Found]) -> None:
    errors = [
        (error, by_plan)
        for one in after_three
        for kind, _, error, by_plan in one.predictions
        if kind == "now"
    ]
    assert 2.0 * median(ours for ours, _ in errors) <= median(plans for _, plans in errors)


@pytest.mark.parametrize("kind", ["now", "cleaned", "other pump"])
def test_no_prediction_is_worse_than_the_plan_beyond_chance(
    kind: str, after_three: Sequence[Found]
) -> None:
    better, worse = pairs(after_three, kind)
    assert better + worse > PONDS // 2
    assert chance_of_so_few(better, better + worse) > 0.01


def test_what_is_worse_than_the_plan_would_be_noticed() -> None:
    assert chance_of_so_few(25, 80) < 0.001
    assert chance_of_so_few(40, 80) > 0.5
    assert pairs([Found([], [("now", 0.0, 0.2, 0.1)], 0)], "now") == (0, 1)


def of_example(*more: LogItem, without: str = "") -> Learning:
    pond = example_pond()
    log = [one for one in example_readings(NOW) if not (without and one.id.endswith(without))]
    return learn(WorkedPond(pond), pond.lines[0], [*log, *more], {}, NOW)


def cleaned(days: float, part: str) -> Entry:
    when = NOW - timedelta(days=days)
    return Entry(id="cleaned", pond_id=EXAMPLE, when=when, what=Cleaning(part=part))


def known(found: Learning) -> set[str]:
    return {unknown.key for unknown in found.fitted.unknowns}


def test_a_cleaned_pump_and_a_cleaned_filter_begin_a_state_of_their_own_part() -> None:
    assert "wear 1" not in known(of_example())
    pump = known(of_example(cleaned(20.1, "pump")))
    assert {"wear 0", "wear 1"} <= pump
    assert not any(key.startswith("dirt") for key in pump)
    filters = known(of_example(cleaned(20.1, "filter")))
    assert {"dirt to-bog 1", "dirt to-fall 1"} <= filters
    assert "wear 1" not in filters
    assert {"wear 1", "dirt to-bog 1"} <= known(of_example(cleaned(20.1, "all")))


def test_what_ran_before_a_pump_was_changed_says_next_to_nothing_of_this_one() -> None:
    changed = Entry(
        id="c", pond_id=EXAMPLE, when=NOW - timedelta(days=20.1), what=PumpChange(what="Middle")
    )
    before, after = of_example(cleaned(20.1, "pump")), of_example(changed)
    place = before.model.unknowns.known(("wear", "0"))
    other = after.model.unknowns.known(("wear", "0"))
    assert place is not None
    assert other is not None
    assert after.fitted.unknowns[other].deviation > 5 * before.fitted.unknowns[place].deviation


def test_an_entry_of_tomorrow_is_no_evidence() -> None:
    assert of_example(cleaned(-1.0, "pump")).fitted.values == of_example().fitted.values


def turned(reading: Reading, at: datetime) -> Reading:
    bucket = reading.method
    assert bucket.kind == "bucket"
    sets = (FillSet(fills=bucket.fills, container=bucket.container, until=at),)
    return reading.model_copy(update={"before_turn": sets})


def test_a_turned_valve_begins_a_state_and_what_was_timed_before_counts_for_that_of_then() -> None:
    log = list(example_readings(NOW))
    log[5] = turned(log[5], log[5].taken_at - timedelta(minutes=4))
    pond = example_pond()
    found = learn(WorkedPond(pond), pond.lines[0], log, {}, NOW)
    assert {"valve to-bog 0", "valve to-bog 1"} <= known(found)
    assert len(found.model.times.reads) == len(log) + 1
    again = learn(
        WorkedPond(pond),
        pond.lines[0],
        log,
        {"to-bog": log[5].taken_at - timedelta(minutes=4)},
        NOW,
    )
    assert known(again) == known(found)  # the same turn, noted twice


def test_a_valve_turned_after_the_last_reading_leaves_its_flow_open() -> None:
    pond = example_pond()
    log = [*example_readings(NOW), cleaned(20.1, "pump")]
    just = {"to-bog": NOW - timedelta(hours=1)}
    kept = learn(WorkedPond(pond), pond.lines[0], log, {}, NOW)
    open_now = learn(WorkedPond(pond), pond.lines[0], log, just, NOW)
    (bog, *_), (bog_open, *_) = (
        flows_in(kept, kept.scene_now),
        flows_in(open_now, open_now.scene_now),
    )
    assert bog_open.half > 3.0 * bog.half
    where = next_reading(open_now)
    assert where is not None
    assert where.place.place_id == "bog"


def test_a_reading_far_off_is_told_and_hardly_moves_the_rest() -> None:
    log = list(example_readings(NOW))
    bucket = log[6].method
    assert bucket.kind == "bucket"
    twice = tuple(fill.model_copy(update={"seconds": 2.0 * fill.seconds}) for fill in bucket.fills)
    slip = log[6].model_copy(
        update={
            "id": "slip",
            "taken_at": log[6].taken_at - timedelta(minutes=30),
            "method": bucket.model_copy(update={"fills": twice}),
        }
    )
    without, with_slip = of_example(cleaned(20.1, "pump")), of_example(cleaned(20.1, "pump"), slip)
    odd = zip(with_slip.fitted.data, with_slip.fitted.verdicts, strict=True)
    assert [datum.key for datum, verdict in odd if verdict != "fits"] == ["slip"]
    flows = [flows_in(one, one.scene_now)[1] for one in (without, with_slip)]
    assert flows[1].flow == pytest.approx(flows[0].flow, rel=0.03)


def test_the_worked_pond_takes_what_was_learned_and_says_the_same_flows() -> None:
    found = of_example()
    pond = example_pond()
    worked = WorkedPond(pond, {"line": found.learned})
    line = pond.lines[0]
    parts = pumped(worked, line, branch_places(worked, line))
    circuit = parts.circuit
    stand = found.learned.valves
    outlets = tuple(
        type(one)(one.key, one.run, one.lift, stand[one.key], one.closed, one.name)
        for one in circuit.branches
    )
    point = operating_point(parts.curve, type(circuit)(circuit.main, outlets), parts.viscosity)
    told = flows_in(found, found.scene_now)
    assert [one.flow for one in told[:2]] == pytest.approx(
        [branch.flow for branch in point.branches], rel=1e-9
    )
    assert WorkedPond(pond, {"line": found.learned}).without_pumps.learned


def test_no_reading_leaves_everything_as_it_was_entered() -> None:
    pond = example_pond()
    found = learn(WorkedPond(pond), pond.lines[0], [], {}, NOW)
    assert found.learned.losses == pytest.approx({"": 1.0, "to-bog": 1.0, "to-fall": 1.0})
    assert (found.learned.flow, found.learned.head) == (1.0, 1.0)


def test_the_page_says_what_a_single_branch_cannot_tell() -> None:
    pond = example_pond()
    told: Told = told_of(WorkedPond(pond), pond.lines[0], example_readings(NOW)[:1], {}, NOW)
    assert not any(part.learned for part in told.parts)
    assert told.next is not None
    assert told.cleanings == ()
