"""The screen of what the readings tell, drawn: with no reading, with some, and with no pump."""

import asyncio
from datetime import UTC, datetime, timedelta

import pytest
from drawn import Screen

from pondapp.answers.sharing.example import EXAMPLE, example_pond, example_readings
from pondapp.models.entry import Cleaning, Entry
from pondapp.ui.learning.learned import LearnedPage

NOW = datetime.now(UTC)


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def told(screen: Screen) -> str:
    screen.open(LearnedPage, pond_id=EXAMPLE)
    return screen.text()


def read(screen: Screen) -> None:
    for reading in example_readings(NOW):
        asyncio.run(screen.session.logs.save_reading(reading))


def test_with_no_reading_it_says_where_to_begin_and_nothing_else(screen: Screen) -> None:
    text = told(screen)
    assert "No flow behind this pump is in the log yet." in text
    assert "Time a fill at Bog filter" in text
    assert "by all readings" not in text
    screen.press("Time a fill at Bog filter")
    assert screen.went == [f"/pond/{EXAMPLE}/measure/bog"]


def test_flows_have_intervals_and_what_does_not_fit_is_told(screen: Screen) -> None:
    read(screen)
    text = told(screen)
    assert "Flow now, by all readings" in text
    assert "(95 % interval)" in text
    assert "nothing in the log explains it, so these count less." in text
    assert "put that in the log with its day" in text


def test_a_cleaning_in_the_log_explains_what_did_not_fit(screen: Screen) -> None:
    read(screen)
    before = told(screen)
    assert "What does not fit" in before
    when = NOW - timedelta(days=20, hours=4)
    cleaned = Entry(id="cleaned", pond_id=EXAMPLE, when=when, what=Cleaning(part="pump"))
    asyncio.run(screen.session.logs.save_entry(cleaned))
    after = told(screen)
    assert "What does not fit" not in after
    assert "brought" in after
    assert "of its speed a month" not in after  # too few readings since for any trend


def test_without_a_pump_it_says_so(screen: Screen) -> None:
    line = example_pond().lines[0].model_copy(update={"pump_id": None})
    asyncio.run(screen.session.ponds.save(example_pond().model_copy(update={"lines": (line,)})))
    read(screen)
    text = told(screen)
    assert "Not known yet" in text
    assert "Choose a pump first, and this can be worked out" in text
    assert "Caution" not in text
    screen.press("Choose a pump")
    assert screen.went == [f"/pond/{EXAMPLE}/pumps"]


def test_what_is_said_of_the_pump_says_what_it_assumes_of_the_valves(screen: Screen) -> None:
    read(screen)
    text = told(screen)
    assert "times the head that its curve says" in text
    assert "Nobody noted how far a valve is open: To the bog, To the waterfall." in text


def read_at(screen: Screen, number: int, times: float, hours: float) -> None:
    """A reading of the example once more, its fills so many times as long, so long ago."""
    reading = example_readings(NOW)[number]
    bucket = reading.method
    assert bucket.kind == "bucket"
    fills = tuple(
        fill.model_copy(update={"seconds": fill.seconds * times}) for fill in bucket.fills
    )
    again = reading.model_copy(
        update={
            "id": f"again-{number}-{round(10 * hours)}",
            "taken_at": NOW - timedelta(hours=hours),
            "method": bucket.model_copy(update={"fills": fills}),
        }
    )
    asyncio.run(screen.session.logs.save_reading(again))


def test_what_is_a_year_old_is_asked_for_again_and_not_told_in_figures(screen: Screen) -> None:
    read_at(screen, 1, 1.0, 24.0 * 365)
    text = told(screen)
    assert "Not known closely enough: read it again." in text
    assert "its flow is hardly known" in text


def test_more_than_the_pump_gives_is_told_and_nothing_is_made_of_it(screen: Screen) -> None:
    read_at(screen, 1, 0.3, 2.0)
    text = told(screen)
    assert "No reading can be used yet." in text
    assert "is more than this pump can give" in text
    assert "by all readings" not in text


def test_two_that_contradict_each_other_ask_for_a_third(screen: Screen) -> None:
    read_at(screen, 1, 1.0, 3.0)
    read_at(screen, 1, 2.0, 2.0)
    text = told(screen)
    assert "Nobody can tell which holds: time it once more." in text
    assert "Its readings do not agree" in text or "Not known closely enough" in text
