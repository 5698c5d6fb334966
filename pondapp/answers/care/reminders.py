"""Reminders of one's own: on which days they fall, and which of them is due."""

from calendar import monthrange
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, datetime, timedelta

from pondapp.answers.log.dates import local
from pondapp.answers.log.log import LogItem, until
from pondapp.core.base.messages import Message
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.limits import LATEST
from pondapp.models.pond import Pond, Reminder
from pondapp.words import as_day

_DAYS = {"days": 1, "weeks": 7}
_MONTHS = {"months": 1, "years": 12}


@dataclass(frozen=True, slots=True)
class ReminderState:
    """A reminder as it stands today.

    Attributes:
        reminder: The reminder.
        day: When it is to be done next, or was to be done; none once all of it is done.
        is_due: Whether that day has come.
        sentence: Both in words.
    """

    reminder: Reminder
    day: date | None
    is_due: bool
    sentence: Message


def day_number(reminder: Reminder, number: int) -> date | None:
    """The day on which it falls for the first time (0), the second (1), and so on.

    In a month that is too short it falls on the last day. None after its end.
    """
    if reminder.unit == "once" and number:
        return None
    if reminder.times is not None and number >= reminder.times:
        return None
    first, steps = reminder.first, number * reminder.every
    if reminder.unit in _MONTHS:
        months = first.year * 12 + first.month - 1 + steps * _MONTHS[reminder.unit]
        year, month = months // 12, months % 12 + 1
        if year >= LATEST.year:
            return None
        return date(year, month, min(first.day, monthrange(year, month)[1]))
    days = steps * _DAYS.get(reminder.unit, 0)
    return first + timedelta(days=days) if days <= (LATEST.date() - first).days else None


def last_number(reminder: Reminder, day: date) -> int:
    """The number of the last time that it falls on this day or before; -1 before the first."""
    first, every = reminder.first, reminder.every
    if day < first:
        return -1
    if reminder.unit == "once":
        return 0
    if reminder.unit in _MONTHS:
        months = (day.year - first.year) * 12 + day.month - first.month
        number = months // (every * _MONTHS[reminder.unit])
        falls = day_number(reminder.model_copy(update={"times": None}), number)
        number -= falls is None or falls > day
    else:
        number = (day - first).days // (every * _DAYS[reminder.unit])
    return number if reminder.times is None else min(number, reminder.times - 1)


def next_day(reminder: Reminder, done: Iterable[date]) -> date | None:
    """When it is to be done next, or was to be, by the days on which it was done.

    A tick is for all that was open by then; where nothing was, it is for the next time, once.
    """
    covered = -1
    for day in sorted(set(done)):
        if day >= reminder.first:
            open_by_then = last_number(reminder, day)
            covered = max(open_by_then, min(covered + 1, open_by_then + 1))
    return day_number(reminder, covered + 1)


def reminders(pond: Pond, log: Iterable[LogItem], now: datetime) -> tuple[ReminderState, ...]:
    """Every reminder as it stands now: the earliest first, and last those that are done for good.

    A tick in the log that is dated after now does not count yet.
    """
    done: dict[str, list[date]] = {}
    for item in until(log, now):
        if isinstance(item, Entry) and isinstance(item.what, WorkDone) and item.what.job:
            done.setdefault(item.what.job, []).append(local(item.when).date())
    today = local(now).date()
    found = [_state(one, next_day(one, done.get(one.id, ())), today) for one in pond.reminders]
    return tuple(sorted(found, key=lambda one: one.day or date.max))


def _state(reminder: Reminder, day: date | None, today: date) -> ReminderState:
    if day is None:
        return ReminderState(reminder, None, False, Message("{what}: done.", _what(reminder)))
    if day == today:
        return ReminderState(reminder, day, True, Message("{what}: today.", _what(reminder)))
    words = "{what}: due since {day}." if day < today else "{what}: on {day}."
    told = Message(words, {**_what(reminder), "day": as_day(day)})
    return ReminderState(reminder, day, day < today, told)


def _what(reminder: Reminder) -> dict[str, str]:
    return {"what": reminder.text}


def with_reminder(pond: Pond, reminder: Reminder) -> Pond:
    """The pond with a reminder, in the place of the one with its id."""
    known = [one.id for one in pond.reminders]
    if reminder.id not in known:
        return pond.model_copy(update={"reminders": (*pond.reminders, reminder)})
    kept = (reminder if one.id == reminder.id else one for one in pond.reminders)
    return pond.model_copy(update={"reminders": tuple(kept)})


def without_reminder(pond: Pond, reminder_id: str) -> Pond:
    """The pond without a reminder."""
    kept = tuple(one for one in pond.reminders if one.id != reminder_id)
    return pond.model_copy(update={"reminders": kept})
