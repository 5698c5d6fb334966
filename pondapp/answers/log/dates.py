"""Dates and times of day as people type them."""

import re
from datetime import date, datetime, time, timedelta

from pondapp.core.base.errors import PondError
from pondapp.models.limits import FIRST_YEAR, LATEST
from pondapp.words import as_day

_ISO = re.compile(r"(\d{4})[-./](\d{1,2})[-./](\d{1,2})")
_DOTTED = re.compile(r"(\d{1,2})[.\s](\d{1,2})[.\s](\d{2,4})")
_SLASHED = re.compile(r"(\d{1,2})/(\d{1,2})/(\d{2,4})")
_TIME = re.compile(r"(\d{1,2})[:.h](\d{2})\s*([ap])?\.?(?:m\.?)?", re.IGNORECASE)
_MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
CENTURY = 2000


def read_date(text: str, system: str, today: date, *, ahead: bool = False) -> date:
    """A day as typed: 2025-06-01, 1.6.2025, 1/6/2025 (6/1/2025 with US units).

    Raises:
        PondError: It is no day, before 1990 or after 2199, or still to come, unless it may.
    """
    text = text.strip()
    if found := _ISO.fullmatch(text):
        year, month, day = (int(part) for part in found.groups())
    elif found := _DOTTED.fullmatch(text):
        day, month, year = (int(part) for part in found.groups())
    elif found := _SLASHED.fullmatch(text):
        first, second, year = (int(part) for part in found.groups())
        month, day = (first, second) if system == "us" else (second, first)
    else:
        raise PondError("{text} is no date; write for example {example}",
                        text=text or "-", example=as_day(today))  # fmt: skip
    if year < 100:
        year += CENTURY
    try:
        made = date(year, month, day)
    except ValueError as error:
        raise PondError("there is no such day; write for example {example}",
                        example=as_day(today)) from error  # fmt: skip
    if made.year < FIRST_YEAR:
        raise PondError("write a year from {first} on", first=str(FIRST_YEAR))
    if made.year >= LATEST.year:
        raise PondError("write a year before {last}", last=str(LATEST.year))
    if made > today + timedelta(days=1) and not ahead:  # a clock may be set to another zone
        raise PondError("that day is still to come; today is {today}", today=as_day(today))
    return made


def read_time(text: str) -> time:
    """A time of day as typed: 9:30, 21.05, 9:30 pm.

    Raises:
        PondError: It is no time of day.
    """
    found = _TIME.fullmatch(text.strip())
    hour, minute = (int(found[1]), int(found[2])) if found else (99, 99)
    if found and found[3]:
        hour = hour % 12 + (12 if found[3].lower() == "p" else 0) if 1 <= hour <= 12 else 99
    if hour > 23 or minute > 59:
        raise PondError("{text} is no time of day; write for example {example}",
                        text=text.strip() or "-", example="09:30")  # fmt: skip
    return time(hour, minute)


def day_text(moment: datetime) -> str:
    """The day of a moment on the clock of this device, as the reader would write it."""
    return as_day(local(moment))


def moment_text(moment: datetime) -> str:
    """Day and time of a moment on the clock of this device, as the reader would write them."""
    return f"{day_text(moment)} {local(moment).strftime('%H:%M')}"


def local(moment: datetime) -> datetime:
    """The moment on the clock of this device."""
    return moment.astimezone()


def at(day: date, clock: time) -> datetime:
    """The moment at which the clock of this device shows so."""
    return datetime.combine(day, clock).astimezone()


MONTH_STEPS = (1, 2, 3, 6, 12, 24, 60, 120, 240)
DAY_STEPS = (1, 2, 7, 14)


def calendar_marks(start: datetime, end: datetime, most: int) -> list[tuple[datetime, str, str]]:
    """Moments to mark on an axis of time, each with its month's name and its day or year.

    They are beginnings of days on this device's clock, of months where the time is long, and at
    most so many.
    """
    days = (end - start) / timedelta(days=1)
    step = next((step for step in DAY_STEPS if days / step < most), None)
    first = local(start).replace(hour=0, minute=0, second=0, microsecond=0)
    found: list[tuple[datetime, str, str]] = []
    if step is not None:
        day = first.date()
        while (mark := at(day, time())) <= end:
            if mark >= start:
                found.append((mark, _MONTHS[day.month - 1], str(day.day)))
            day += timedelta(days=step)
        return found
    months = days / 30.4
    step = next((step for step in MONTH_STEPS if months / step < most), MONTH_STEPS[-1])
    number = first.year * 12 + first.month - 1
    number += -number % step
    while (mark := at(date(number // 12, number % 12 + 1, 1), time())) <= end:
        if mark >= start:
            found.append((mark, _MONTHS[mark.month - 1], str(mark.year)))
        number += step
    return found[:most]


def month_and_year(moment: datetime) -> tuple[str, str]:
    """The month's name and the year, for a sentence."""
    here = local(moment)
    return _MONTHS[here.month - 1], str(here.year)
