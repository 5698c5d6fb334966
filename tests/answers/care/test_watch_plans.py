"""The plans of a new filter and of new fish, by their rules."""

from datetime import date, timedelta

from ponds import BARE

from pondapp.answers.care.reminders import day_number
from pondapp.answers.care.watch_plans import watch_plans

TODAY = date(2026, 11, 27)


def test_a_new_filter_is_tested_every_other_day_for_six_weeks() -> None:
    filter_, _ = watch_plans(BARE, TODAY)
    (one,) = filter_.reminders
    assert (one.first, one.unit, one.every, one.times) == (TODAY, "days", 2, 21)
    assert day_number(one, 20) == TODAY + timedelta(days=40)
    own = {"care.new_filter_tested": 3 * 86400.0, "care.new_filter_watched": 30 * 86400.0}
    (changed,) = watch_plans(BARE.model_copy(update={"assumptions": own}), TODAY)[0].reminders
    assert (changed.every, changed.times) == (3, 10)


def test_a_quarantine_is_looked_at_each_day_and_ends() -> None:
    _, quarantine = watch_plans(BARE, TODAY)
    look, end = quarantine.reminders
    assert (look.unit, look.every, look.times) == ("days", 1, 28)
    assert (end.unit, end.first) == ("once", TODAY + timedelta(days=28))
