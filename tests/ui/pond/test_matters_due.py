"""What is due is one list, on the first screen and as the number on the app's icon."""

import asyncio
from datetime import UTC, datetime

import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.entry import Cleaning, Entry
from pondapp.ui.pond.home import HomePage
from pondapp.ui.pond.matters import count_due
from pondapp.ui.pond.pond import PondPage

NOW = datetime.now(UTC)


def _own(screen: Screen, pond_id: str) -> None:
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update={"id": pond_id})))
    asyncio.run(screen.session.logs.read_all())


def test_jobs_of_all_ponds_are_counted_but_those_of_the_example(screen: Screen) -> None:
    assert count_due() == 0
    _own(screen, "mine")
    assert count_due() == 3, "never measured, tested or cleaned"
    _own(screen, "other")
    assert count_due() == 6


def test_what_is_done_leaves_the_number_at_once(screen: Screen) -> None:
    _own(screen, "mine")
    screen.session.deletion.mark_deleted(EXAMPLE)
    screen.open(HomePage)
    due = screen.text().partition("Due: ")[2].partition("\n")[0]
    assert count_due() == len(due.split(", "))
    reading = example_readings(NOW)[0].model_copy(
        update={"id": "new", "pond_id": "mine", "taken_at": NOW}
    )
    asyncio.run(screen.session.logs.save_reading(reading))
    assert count_due() == 2
    done = Entry(id="c", pond_id="mine", when=NOW, what=Cleaning(part="all"))
    asyncio.run(screen.session.logs.save_entry(done))
    assert count_due() == 1


def test_nothing_is_counted_before_every_log_is_read(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    _own(screen, "mine")
    monkeypatch.setattr(screen.session.logs, "is_read", lambda _: False)
    assert count_due() is None


def test_what_needs_the_reader_most_is_in_sight_and_the_rest_is_one_line(screen: Screen) -> None:
    asyncio.run(screen.session.logs.read_all())
    screen.open(PondPage, pond_id=EXAMPLE)
    above = screen.text().partition("Not measured yet")[0]
    assert above.count("Not known yet") == 1
    (line,) = [name for name in screen.buttons() if name.endswith("more, and what is right")]
    screen.press(line)
    assert screen.text().count("Not known yet") > 1
