"""The calendar's file, read by a library that knows the standard."""

from datetime import UTC, date, datetime, timedelta
from typing import Any

import pytest
from dateutil.rrule import rrulestr
from hypothesis import given
from hypothesis import strategies as some
from icalendar import Calendar
from ponds import BARE

from pondapp.answers.care.reminders import day_number
from pondapp.answers.sharing.calendar_file import Event, calendar_file, events, folded, rule_of
from pondapp.models.entry import Entry, WaterTest, WorkDone
from pondapp.models.pond import Reminder

NOW = datetime(2026, 11, 27, 12, tzinfo=UTC)
TODAY = date(2026, 11, 27)
TEXTS = (
    "Net off", "Größe prüfen, Frösche; zählen \\ notieren", "Zażółć gęślą jaźń " * 4,
    "one\ntwo\r\nthree", "🐟" * 40, "tab\tand: colon", "BEGIN:VALARM\r\nEND:VEVENT", "a" * 80,
    "bell\x07 and \x00 nothing", " leading and trailing ",
)  # fmt: skip


def read(data: bytes) -> list[Any]:
    calendar = Calendar.from_ical(data)
    assert calendar["VERSION"] == "2.0"
    assert not calendar.errors
    found = list(calendar.walk("VEVENT"))
    for one in found:
        assert not one.errors
        assert one["DTSTAMP"].dt == NOW
        assert {"UID", "SEQUENCE", "SUMMARY", "DTSTART"} <= one.keys()
        (alarm,) = one.walk("VALARM")
        assert alarm["ACTION"] == "DISPLAY"
        assert alarm["TRIGGER"].dt == timedelta(hours=9)
    return found


def of(text: str, rule: str = "") -> bytes:
    return calendar_file("Teich", [Event("u", TODAY, text, rule)], NOW)


@pytest.mark.parametrize("text", TEXTS)
def test_any_text_comes_back_whole(text: str) -> None:
    (event,) = read(of(text))
    lines = "\n".join(text.splitlines()).replace("\t", " ")
    plain = "".join(one for one in lines if one == "\n" or one.isprintable())
    assert str(event["SUMMARY"]) == f"Teich: {plain}"


@given(some.text(max_size=80))
def test_no_text_breaks_the_file(text: str) -> None:
    text = text.encode("utf-8", "ignore").decode()
    data = of(text)
    assert len(read(data)) == 1
    assert all(len(line) <= 75 for line in data.split(b"\r\n"))
    assert data.endswith(b"END:VCALENDAR\r\n")
    assert b"\n" not in data.replace(b"\r\n", b"")
    assert b"\r" not in data.replace(b"\r\n", b"")


def test_a_line_is_cut_at_75_bytes_and_never_inside_a_letter() -> None:
    for text in ("x" * 75, "x" * 76, "ü" * 200, "🐟" * 50, "x" * 74 + "ü"):
        pieces = folded(text).removesuffix(b"\r\n").split(b"\r\n")
        assert all(len(one) <= 75 and one.decode() for one in pieces)
        assert pieces[0].decode() + "".join(one.decode()[1:] for one in pieces[1:]) == text
        assert all(one.startswith(b" ") for one in pieces[1:])
    assert folded("x" * 75) == b"x" * 75 + b"\r\n"


reminders = some.builds(
    Reminder, id=some.just("r"), text=some.just("x"),
    first=some.dates(date(1990, 1, 1), date(2060, 12, 31)) | some.sampled_from(
        [date(2024, 2, 29), date(2026, 1, 31), date(2026, 1, 30), date(2026, 8, 31)]
    ),
    unit=some.sampled_from(["days", "weeks", "months", "years"]),
    every=some.integers(1, 14), times=some.none() | some.integers(1, 8),
)  # fmt: skip


@given(reminders)
def test_a_calendar_rings_on_the_days_that_the_app_says(reminder: Reminder) -> None:
    """Compared with the recurrences of a library, day by day."""
    start = datetime.combine(reminder.first, datetime.min.time())
    theirs = []
    for when in rrulestr(rule_of(reminder), dtstart=start):
        theirs.append(when.date())
        if len(theirs) == 10:
            break
    mine = [day_number(reminder, number) for number in range(len(theirs))]
    assert mine == theirs
    if reminder.times is not None:
        assert len(theirs) == min(reminder.times, 10)
        assert day_number(reminder, reminder.times) is None


def test_what_the_pond_reminds_of_is_in_the_file() -> None:
    own = (
        Reminder(id="reeds", text="Cut reeds, please", first=date(2026, 12, 31), unit="months"),
        Reminder(id="late", text="Order liner", first=date(2026, 11, 1)),
        Reminder(id="gone", text="Done for good", first=date(2026, 11, 1)),
    )
    log = [
        Entry(id="d", pond_id="p", when=NOW, what=WorkDone(what="x", job="gone")),
        Entry(id="t", pond_id="p", when=NOW - timedelta(days=2), what=WaterTest(ph=7)),
    ]
    pond = BARE.model_copy(update={"reminders": own})
    found = {
        str(one["UID"]): one for one in read(calendar_file("Teich", events(pond, log, NOW), NOW))
    }
    reeds, late = found["pondapp-p-reeds"], found["pondapp-p-late"]
    assert reeds["DTSTART"].dt == date(2026, 12, 31)
    assert reeds["RRULE"]["BYMONTHDAY"] == [28, 29, 30, 31]
    assert late["DTSTART"].dt == date(2026, 11, 28), "tomorrow: no calendar rings for the past"
    assert "RRULE" not in late
    assert "pondapp-p-gone" not in found
    test = found["pondapp-p-test"]
    assert test["DTSTART"].dt == date(2026, 12, 2)
    assert test["RRULE"]["INTERVAL"] == [7]
    assert found["pondapp-p-measure"]["DTSTART"].dt == date(2026, 11, 28)
    later = NOW + timedelta(hours=1)
    again = Calendar.from_ical(calendar_file("Teich", events(pond, log, NOW), later))
    for one in again.walk("VEVENT"):
        assert one["SEQUENCE"] == found[str(one["UID"])]["SEQUENCE"] + 60


def test_what_comes_back_and_is_overdue_rings_tomorrow_too() -> None:
    own = (
        Reminder(id="net", text="Net over the pond", first=date(2026, 10, 20), unit="years"),
        Reminder(id="look", text="Look at the fish", first=date(2026, 11, 1), unit="days"),
        Reminder(id="next", text="Not yet", first=date(2027, 1, 1), unit="months"),
        Reminder(id="done", text="Done", first=date(2026, 10, 20), unit="years"),
    )
    log = [Entry(id="d", pond_id="p", when=NOW, what=WorkDone(what="x", job="done"))]
    pond = BARE.model_copy(update={"reminders": own})
    found = read(calendar_file("Teich", events(pond, log, NOW), NOW))
    days = {str(one["UID"]): one["DTSTART"].dt for one in found}
    assert days["pondapp-p-net"] == date(2026, 10, 20), "its rule counts from there"
    assert days["pondapp-p-net-due"] == date(2026, 11, 28), "else it rings in eleven months"
    assert sum("look" in key for key in days) == 1, "it rings tomorrow by itself"
    assert not {"pondapp-p-next-due", "pondapp-p-done-due"} & set(days)
    assert len(days) == len(found), "no name is given twice"
