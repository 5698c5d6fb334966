"""Reminders as a file that a phone's calendar takes in: iCalendar, RFC 5545.

Days have no time and no time zone, so that none has to be described; the alarm rings in the
morning wherever the phone is.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import UTC, date, datetime, timedelta

from pondapp.answers.care.due import Job, days_between, due
from pondapp.answers.care.lamp_change import lamp_change
from pondapp.answers.care.reminders import day_number, last_number, reminders
from pondapp.answers.log.dates import local
from pondapp.answers.log.log import LogItem
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond, Reminder
from pondapp.words import t

LINE = 75
"""Bytes of a line, without its end; what follows goes on behind a space."""
ALARM = "PT9H"
"""From the beginning of the day."""
COUNTED_FROM = datetime(2020, 1, 1, tzinfo=UTC)
ESCAPED = str.maketrans({"\\": "\\\\", ";": "\\;", ",": "\\,", "\n": "\\n"})
FREQUENCY = {"days": "DAILY", "weeks": "WEEKLY", "months": "MONTHLY", "years": "YEARLY"}
SHORTEST_MONTH = 28
SUMMARIES: dict[Job, str] = {
    "clean": "Clean pump and foam",
    "measure": "Measure a flow",
    "test": "Test the water",
}


@dataclass(frozen=True, slots=True)
class Event:
    """What falls on a day, and again by its rule."""

    uid: str
    day: date
    text: str
    rule: str = ""


def events(pond: Pond, log: Iterable[LogItem], now: datetime) -> tuple[Event, ...]:
    """What a calendar is to ring for: one's own reminders, the jobs of the log, and the lamp.

    What should have been done by now falls on tomorrow: a calendar does not ring for the past.
    """
    return (*_own(pond, log, now), *_jobs(pond, log, now), *_lamp(pond, now))


def _own(pond: Pond, log: Iterable[LogItem], now: datetime) -> Iterator[Event]:
    tomorrow = local(now).date() + timedelta(days=1)
    for one in reminders(pond, log, now):
        if one.day is None:
            continue
        again = one.reminder.unit != "once"
        day = one.reminder.first if again else max(one.day, tomorrow) if one.is_due else one.day
        yield Event(_uid(pond, one.reminder.id), day, one.reminder.text, rule_of(one.reminder))
        if again and one.is_due and not _rings_by(one.reminder, tomorrow):
            # Its rule may next ring in months, and what is open is due now.
            yield Event(_uid(pond, f"{one.reminder.id}-due"), tomorrow, one.reminder.text)


def _rings_by(reminder: Reminder, tomorrow: date) -> bool:
    """Whether a reminder that comes back falls on this very day by itself."""
    return day_number(reminder, last_number(reminder, tomorrow)) == tomorrow


def _jobs(pond: Pond, log: Iterable[LogItem], now: datetime) -> Iterator[Event]:
    tomorrow = local(now).date() + timedelta(days=1)
    try:
        jobs = due(pond, log, now)
    except PondError:  # a changed rule cannot be: the log's own screen says so
        return
    for one in jobs:
        days = days_between(pond, one.job)
        if days is None:
            continue
        next_time = local(one.last).date() + timedelta(days=days) if one.last else tomorrow
        rule = f"FREQ=DAILY;INTERVAL={days}"
        yield Event(_uid(pond, one.job), max(next_time, tomorrow), t(SUMMARIES[one.job]), rule)


def _lamp(pond: Pond, now: datetime) -> Iterator[Event]:
    tomorrow = local(now).date() + timedelta(days=1)
    try:
        change = lamp_change(pond, now)
    except PondError:  # as above
        return
    if change is not None:
        day = max(change.day, tomorrow) if change.is_due else change.day
        yield Event(_uid(pond, "lamp"), day, t("Change the UV lamp"))


def _uid(pond: Pond, key: str) -> str:
    """The same each time, so that a calendar changes what it took in before."""
    return f"pondapp-{pond.id}-{key}"


def rule_of(reminder: Reminder) -> str:
    """How a reminder comes back, as a recurrence rule; empty for one that does not.

    A day that short months do not have becomes their last: without the rule's set of days a
    calendar would leave these months out.
    """
    if reminder.unit == "once":
        return ""
    parts = [f"FREQ={FREQUENCY[reminder.unit]}", f"INTERVAL={reminder.every}"]
    if reminder.times is not None:
        parts.append(f"COUNT={reminder.times}")
    day = reminder.first.day
    leap = reminder.first.month == 2 and day > SHORTEST_MONTH
    if day > SHORTEST_MONTH and (reminder.unit == "months" or (reminder.unit == "years" and leap)):
        if reminder.unit == "years":
            parts.append("BYMONTH=2")
        days = ",".join(str(one) for one in range(SHORTEST_MONTH, day + 1))
        parts += [f"BYMONTHDAY={days}", "BYSETPOS=-1"]
    return ";".join(parts)


def calendar_file(name: str, found: Iterable[Event], now: datetime) -> bytes:
    """The file: a calendar of this name."""
    lines = [
        "BEGIN:VCALENDAR",
        "VERSION:2.0",
        "PRODID:-//pondapp//pondapp//EN",
        "CALSCALE:GREGORIAN",
        "METHOD:PUBLISH",
        f"X-WR-CALNAME:{escaped(name)}",
    ]
    for one in found:
        lines += _lines(one, name, now)
    lines.append("END:VCALENDAR")
    return b"".join(folded(line) for line in lines)


def _lines(event: Event, name: str, now: datetime) -> Iterator[str]:
    summary = escaped(f"{name}: {event.text}")
    yield "BEGIN:VEVENT"
    yield f"UID:{event.uid}"
    yield f"DTSTAMP:{now.astimezone(UTC):%Y%m%dT%H%M%SZ}"
    # A file that was made later takes the place of what an earlier one said.
    yield f"SEQUENCE:{max(0, int((now - COUNTED_FROM) / timedelta(minutes=1)))}"
    yield f"DTSTART;VALUE=DATE:{event.day:%Y%m%d}"
    if event.rule:
        yield f"RRULE:{event.rule}"
    yield f"SUMMARY:{summary}"
    yield "TRANSP:TRANSPARENT"
    yield "BEGIN:VALARM"
    yield "ACTION:DISPLAY"
    yield f"DESCRIPTION:{summary}"
    yield f"TRIGGER:{ALARM}"
    yield "END:VALARM"
    yield "END:VEVENT"


def escaped(text: str) -> str:
    """Text as a value: without what would end it, and without letters that no file may hold."""
    lines = "\n".join(text.splitlines())
    plain = "".join(one for one in lines if one == "\n" or one.isprintable() or one.isspace())
    return plain.replace("\t", " ").translate(ESCAPED)


def folded(line: str) -> bytes:
    """A line with its end, cut to what is allowed, and never inside a letter."""
    pieces, size = [bytearray()], 0
    for letter in line:
        byte = letter.encode()
        if size + len(byte) > LINE:
            pieces.append(bytearray(b" "))
            size = 1
        pieces[-1] += byte
        size += len(byte)
    return b"\r\n".join(pieces) + b"\r\n"
