"""The invented pond must be one that a beginner can learn from."""

from datetime import UTC, datetime

from pondapp.answers.learning.page import told_of
from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pumps import shelf
from pondapp.answers.sharing.example import EXAMPLE, example_entries, example_pond, example_readings

NOW = datetime(2025, 6, 1, 12, tzinfo=UTC)


def test_it_says_that_it_is_invented() -> None:
    assert "invented" in example_pond().name


def test_its_demands_go_together_and_its_own_pump_is_enough() -> None:
    pond = example_pond()
    planned = WorkedPond(pond).planned
    assert planned.conflict is None
    first, *rest = shelf(WorkedPond(pond), pond.lines[0], planned.flows).answers
    assert first.pump.id == pond.lines[0].pump_id
    assert first.state == "enough"
    assert any(answer.state == "weak" for answer in rest)


def test_its_readings_belong_to_it_and_show_a_filter_that_clogs() -> None:
    readings = example_readings(NOW)
    assert {reading.pond_id for reading in readings} == {EXAMPLE}
    assert all(reading.taken_at < NOW for reading in readings)
    assert len({reading.id for reading in readings}) == len(readings)
    found = [measured_reading(reading) for reading in readings if reading.place_id == "box"]
    assert [part.kind for part in found if part] == [
        "within", "undecided", "below", "within", "within"
    ]  # fmt: skip


def test_its_cleaning_lies_between_the_readings_that_show_what_it_brought() -> None:
    log = (*example_readings(NOW), *example_entries(NOW))
    worked = WorkedPond(example_pond())
    (cleaned,) = example_entries(NOW)
    assert cleaned.pond_id == EXAMPLE
    thin, after = (one for one in example_readings(NOW) if one.note in (
        "The fall looks thin", "After cleaning the pump"))  # fmt: skip
    assert thin.taken_at < cleaned.when < after.taken_at
    told = told_of(worked, worked.lines[0], log, {}, NOW)
    assert any("brought {share} more" in one.template for one in told.cleanings)
    without = told_of(worked, worked.lines[0], example_readings(NOW), {}, NOW)
    assert len(told.misfits) < len(without.misfits)
