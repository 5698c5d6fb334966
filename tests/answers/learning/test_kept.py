"""A fit is kept while nothing that it rests on has changed, and no longer."""

from datetime import timedelta

from learning_ponds import NOW

from pondapp.answers.learning import kept
from pondapp.answers.learning.kept import learned_once
from pondapp.answers.learning.page import told_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond, example_readings
from pondapp.answers.what_if.start import as_read


def test_what_if_starts_from_the_fit_that_the_readings_were_told_from() -> None:
    worked = WorkedPond(example_pond())
    log, line = example_readings(NOW), worked.lines[0]
    told_of(worked, line, log, {}, NOW)
    found = learned_once(worked, line, log, {}, NOW)
    trial = as_read(worked, log, {}, NOW + timedelta(minutes=20))
    assert trial.read[line.id].found is found
    assert learned_once(worked, line, log, {}, NOW + timedelta(minutes=59)) is found


def test_another_reading_turn_hour_or_pond_is_another_fit() -> None:
    worked = WorkedPond(example_pond())
    log, line = example_readings(NOW), worked.lines[0]
    found = learned_once(worked, line, log, {}, NOW)
    assert learned_once(worked, line, log[1:], {}, NOW) is not found
    assert learned_once(worked, line, log, {"to-bog": NOW}, NOW) is not found
    assert learned_once(worked, line, log, {}, NOW + timedelta(hours=1)) is not found
    assert learned_once(WorkedPond(example_pond()), line, log, {}, NOW) is not found
    assert len(kept._kept) <= kept.MOST_KEPT


def test_what_was_dated_ahead_counts_from_its_time_on() -> None:
    worked = WorkedPond(example_pond())
    log, line = list(example_readings(NOW)), worked.lines[0]
    soon = log[0].model_copy(update={"id": "soon", "taken_at": NOW + timedelta(minutes=10)})
    before = learned_once(worked, line, [*log, soon], {}, NOW)
    after = learned_once(worked, line, [*log, soon], {}, NOW + timedelta(minutes=20))
    assert len(after.model.times.reads) == len(before.model.times.reads) + 1
