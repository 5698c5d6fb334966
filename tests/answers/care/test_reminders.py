"""When a reminder falls, and what a tick is for."""

from datetime import UTC, date, datetime, timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as some
from ponds import BARE

from pondapp.answers.care.reminders import (
    day_number,
    last_number,
    next_day,
    reminders,
    with_reminder,
    without_reminder,
)
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.pond import Pond, Reminder

FIRST = date(2026, 11, 2)
WEEKLY = Reminder(id="w", text="Rinse", first=FIRST, unit="weeks")
NOW = datetime(2026, 11, 27, 12, tzinfo=UTC)


def day(days: int) -> date:
    return FIRST + timedelta(days=days)


def test_a_short_month_has_its_last_day() -> None:
    monthly = Reminder(id="m", text="x", first=date(2027, 1, 31), unit="months")
    assert [day_number(monthly, one) for one in range(3)] == [
        date(2027, 1, 31), date(2027, 2, 28), date(2027, 3, 31),
    ]  # fmt: skip
    leap = Reminder(id="m", text="x", first=date(2028, 2, 29), unit="years")
    assert day_number(leap, 1) == date(2029, 2, 28)
    assert day_number(leap, 4) == date(2032, 2, 29)


def test_once_comes_once_and_a_plan_ends() -> None:
    once = Reminder(id="o", text="x", first=FIRST)
    assert next_day(once, []) == FIRST
    assert next_day(once, [day(3)]) is None
    assert next_day(once, [day(-1)]) == FIRST, "before its day it was something else"
    plan = Reminder(id="p", text="x", first=FIRST, unit="days", every=2, times=3)
    assert [day_number(plan, one) for one in range(4)] == [day(0), day(2), day(4), None]
    assert next_day(plan, [day(30)]) is None


@pytest.mark.parametrize(
    ("done", "then"),
    [
        ([], 0),
        ([0], 7),
        ([5], 7),  # late, but before the next
        ([9], 14),  # so late that it is for both
        ([0, 6], 14),  # a day early
        ([0, 6, 6], 14),
        ([0, 1, 2, 3], 14),  # ticks more than once are for one time ahead at most
        ([0, 6, 14], 21),
        ([9, 0], 14),  # in any order
        ([-1], 0),
    ],
)
def test_a_tick_is_for_what_was_open_or_else_for_the_next_time(done: list[int], then: int) -> None:
    assert next_day(WEEKLY, [day(one) for one in done]) == day(then)


@given(
    some.builds(
        Reminder, id=some.just("r"), text=some.just("x"),
        first=some.dates(date(1990, 1, 1), date(2190, 1, 1)), every=some.integers(1, 400),
        unit=some.sampled_from(["once", "days", "weeks", "months", "years"]),
        times=some.none() | some.integers(1, 1000),
    ),
    some.dates(date(1970, 1, 1), date(2199, 12, 31)),
)  # fmt: skip
def test_the_last_time_is_the_last(reminder: Reminder, asked: date) -> None:
    number = last_number(reminder, asked)
    if number < 0:
        assert asked < reminder.first
        return
    falls, after = day_number(reminder, number), day_number(reminder, number + 1)
    assert falls is not None
    assert falls <= asked
    assert after is None or after > asked


def test_states_come_in_order_and_say_what_is_due() -> None:
    own = (
        Reminder(id="far", text="Far", first=date(2027, 5, 1), unit="years"),
        Reminder(id="done", text="Done", first=FIRST),
        Reminder(id="now", text="Now", first=NOW.date()),
        WEEKLY,
    )
    pond = BARE.model_copy(update={"reminders": own})
    tick = Entry(id="e", pond_id="p", when=NOW, what=WorkDone(what="x", job="done"))
    ahead = Entry(id="a", pond_id="p", when=NOW + timedelta(days=1),
                  what=WorkDone(what="x", job="now"))  # fmt: skip
    found = reminders(pond, [ahead, tick], NOW)
    assert [one.reminder.id for one in found] == ["w", "now", "far", "done"]
    assert [one.is_due for one in found] == [True, True, False, False]
    said = [str(one.sentence) for one in found]
    assert said[0].startswith("Rinse: due since ")
    assert said[1] == "Now: today."
    assert said[3] == "Done: done."


def test_a_pond_keeps_its_reminders_through_a_file() -> None:
    pond = with_reminder(BARE, WEEKLY)
    assert Pond.model_validate_json(pond.model_dump_json()) == pond
    changed = with_reminder(pond, WEEKLY.model_copy(update={"every": 2}))
    assert [one.every for one in changed.reminders] == [2]
    assert without_reminder(changed, "w").reminders == ()
