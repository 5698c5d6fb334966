from contextlib import suppress
from datetime import date, time, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.answers.log.dates import at, local, read_date, read_time
from pondapp.core.base.errors import PondError

TODAY = date(2025, 6, 15)


@given(st.dates(date(1990, 1, 1), TODAY), st.sampled_from(["metric", "us", "imperial"]))
def test_a_day_is_read_in_every_way_of_writing_it(day: date, system: str) -> None:
    slashed = "{0.month}/{0.day}/{0.year}" if system == "us" else "{0.day}/{0.month}/{0.year}"
    for text in (day.isoformat(), f" {day:%d.%m.%Y}", "{0.day}.{0.month}.{0.year}", slashed):
        assert read_date(text.format(day), system, TODAY) == day


def test_a_short_year_is_of_this_century() -> None:
    assert read_date("1.6.25", "metric", TODAY) == date(2025, 6, 1)


@pytest.mark.parametrize(
    "text", ["", "soon", "31.6.2025", "2025-13-01", "1.6.", "0.0.2000", "1980-01-01", "2025-06-17"]
)
def test_no_day_gets_a_sentence(text: str) -> None:
    with pytest.raises(PondError) as raised:
        read_date(text, "metric", TODAY)
    assert len(str(raised.value)) > 15


@given(st.text(max_size=12))
def test_nothing_typed_escapes_as_another_error(text: str) -> None:
    for read in (lambda: read_date(text, "metric", TODAY), lambda: read_time(text)):
        with suppress(PondError):
            read()


def test_a_clock_ahead_of_this_one_is_borne() -> None:
    assert read_date("2025-06-16", "metric", TODAY) == TODAY + timedelta(days=1)


@pytest.mark.parametrize(
    ("text", "clock"),
    [("9:30", time(9, 30)), ("21.05", time(21, 5)), ("9:30 pm", time(21, 30)),
     ("12:00 am", time(0, 0)), ("12:15pm", time(12, 15)), ("07h45", time(7, 45))],
)  # fmt: skip
def test_times_of_day(text: str, clock: time) -> None:
    assert read_time(text) == clock


@pytest.mark.parametrize("text", ["", "24:00", "9:75", "13:00 pm", "0:30 am", "noon"])
def test_no_time_of_day_gets_a_sentence(text: str) -> None:
    with pytest.raises(PondError, match="no time of day"):
        read_time(text)


def test_a_moment_shows_the_clock_of_this_device() -> None:
    moment = at(TODAY, time(9, 30))
    assert moment.tzinfo is not None
    assert local(moment).strftime("%Y-%m-%d %H:%M") == "2025-06-15 09:30"
