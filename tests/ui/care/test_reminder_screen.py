"""Reminders of one's own: typed, ticked, changed, undone, and handed to the calendar."""

import asyncio
from datetime import UTC, datetime, timedelta
from typing import Any

import flet as ft
import pytest
from drawn import Screen
from icalendar import Calendar

from pondapp.answers.log.dates import local
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.pond import Reminder
from pondapp.models.preferences import Draft
from pondapp.ui.care import care
from pondapp.ui.care.care import CarePage
from pondapp.ui.care.reminder import ReminderPage, read_reminder
from pondapp.ui.log.log import LogPage
from pondapp.ui.parts import fold
from pondapp.ui.pond.home import HomePage
from pondapp.ui.pond.pond import PondPage
from pondapp.words import as_day

ID = "invented-example"
TODAY = local(datetime.now(UTC)).date()
LATE = TODAY - timedelta(days=3)


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    return Screen(monkeypatch)


def typed(screen: Screen, **texts: str) -> None:
    screen.session.drafts.hold(Draft(id=f"reminder-{ID}-new", texts=texts))
    screen.open(ReminderPage, pond_id=ID, reminder_id="new")


def have(screen: Screen, *own: Reminder) -> None:
    pond = screen.session.ponds[ID].model_copy(update={"reminders": own})
    asyncio.run(screen.session.ponds.save(pond))


def test_what_is_missing_or_wrong_is_said(screen: Screen) -> None:
    screen.open(ReminderPage, pond_id=ID, reminder_id="new")
    assert "It needs words and a day." in screen.text()
    for texts, said in (
        ({"text": "x", "first": "nonsense"}, "is no date"),
        ({"text": "x", "first": "2200-01-01"}, "Write a year before 2200"),
        ({"text": "x" * 81, "first": "2027-01-01"}, "at most 80 letters"),
        ({"text": "x", "first": "2027-01-01", "unit": "weeks", "every": "0"}, "is nothing"),
        ({"text": "x", "first": "2027-01-01", "unit": "weeks", "every": "1.5"}, "a whole number"),
        ({"text": "x", "first": "2027-01-01", "unit": "weeks", "every": "401"}, "at most 400"),
    ):
        typed(screen, **texts)
        assert said in screen.text()
        assert screen.buttons()["Save the reminder"].disabled


def test_an_interval_that_does_not_count_is_not_judged() -> None:
    made, errors = read_reminder(
        {"text": "x", "first": "2027-01-01", "unit": "once", "every": "0"}, None, "metric", TODAY
    )
    assert not errors
    assert made is not None
    assert made.every == 1


def test_a_reminder_is_saved_and_taken_back(screen: Screen) -> None:
    typed(screen, text="Cut the reeds", first="2027-03-01", unit="years", every="1")
    screen.press("Save the reminder")
    (made,) = screen.session.ponds[ID].reminders
    assert (made.text, made.unit, str(made.first)) == ("Cut the reeds", "years", "2027-03-01")
    assert made.id != "unsaved"
    assert screen.went[-1] == f"/pond/{ID}/log/due"
    screen.open(CarePage, pond_id=ID)
    assert "Every year" in screen.text()
    screen.undo()
    assert screen.session.ponds[ID].reminders == ()


def test_one_that_is_there_is_changed_and_deleted(screen: Screen) -> None:
    have(screen, Reminder(id="a", text="Rinse", first=LATE, unit="weeks", every=2, times=9))
    screen.session.drafts.hold(
        Draft(id=f"reminder-{ID}-a", texts={"text": "Rinse foam", "first": str(LATE),
                                            "unit": "weeks", "every": "3"})
    )  # fmt: skip
    screen.open(ReminderPage, pond_id=ID, reminder_id="a")
    screen.press("Save the reminder")
    (made,) = screen.session.ponds[ID].reminders
    assert (made.id, made.text, made.every, made.times) == ("a", "Rinse foam", 3, 9)
    screen.open(ReminderPage, pond_id=ID, reminder_id="a")
    screen.press("Delete this reminder")
    assert screen.session.ponds[ID].reminders == ()
    screen.undo()
    assert screen.session.ponds[ID].reminders == (made,)
    screen.open(ReminderPage, pond_id=ID, reminder_id="gone")
    assert "This reminder is gone." in screen.text()


def test_what_is_due_shows_everywhere_until_it_is_ticked(screen: Screen) -> None:
    have(screen, Reminder(id="a", text="Order liner", first=LATE))
    asyncio.run(screen.session.logs.read_all())
    screen.open(CarePage, pond_id=ID)
    assert f"Order liner: due since {as_day(LATE)}." in screen.text()
    for page, params in ((LogPage, {"pond_id": ID}), (HomePage, {})):
        screen.open(page, **params)
        assert "Order liner" in screen.text()
    screen.open(PondPage, pond_id=ID)
    screen.press("more, and what is right")
    assert "Order liner" in screen.text()
    screen.open(CarePage, pond_id=ID)
    screen.press("Done: Order liner")
    assert "Order liner: done." in screen.text()
    screen.open(HomePage)
    assert "Order liner" not in screen.text()
    screen.undo()
    screen.open(HomePage)
    assert "Order liner" in screen.text()


def test_the_file_for_the_calendar_holds_all_of_it(
    screen: Screen, monkeypatch: pytest.MonkeyPatch
) -> None:
    have(screen, Reminder(id="a", text="Rinse, then wait", first=TODAY, unit="weeks"))
    saved: list[tuple[str, bytes]] = []

    async def save(name: str, data: bytes) -> bool:
        saved.append((name, data))
        return True

    monkeypatch.setattr(care, "save_file", save)
    screen.open(CarePage, pond_id=ID)
    screen.press("Save for the calendar")
    screen.press("Share with a calendar")  # no browser here: it is saved as well
    assert [name.endswith("-reminders.ics") for name, _ in saved] == [True, True]
    told = [str(one["SUMMARY"]) for one in Calendar.from_ical(saved[0][1]).walk("VEVENT")]
    assert any(one.endswith(": Rinse, then wait") for one in told)
    assert any(one.endswith(": Test the water") for one in told)
    assert "in your downloads" in screen.notes[-1][0]


def test_a_plan_is_set_once_and_taken_back(screen: Screen, monkeypatch: pytest.MonkeyPatch) -> None:
    unfolded: Any = lambda _, controls, *__, **___: ft.Column(list(controls()))  # noqa: E731
    monkeypatch.setattr(fold, "Fold", unfolded)
    screen.open(CarePage, pond_id=ID)
    assert "A sick fish belongs to a vet" in screen.text()
    screen.press("Remind me: Quarantine of new fish")
    own = screen.session.ponds[ID].reminders
    assert len({one.id for one in own}) == 2
    assert "It is among your reminders." in screen.text()
    assert not [name for name in screen.buttons() if "Remind me: Quarantine" in name]
    screen.press("Remind me: The first weeks of a filter")
    assert len(screen.session.ponds[ID].reminders) == 3
    screen.undo()
    assert screen.session.ponds[ID].reminders == own
    # More fish come when all of it is done.
    begun = datetime.now(UTC) - timedelta(days=60)
    past = tuple(one.model_copy(update={"first": begun.date()}) for one in own)
    pond = screen.session.ponds[ID].model_copy(update={"reminders": past})
    asyncio.run(screen.session.ponds.save(pond))
    screen.open(CarePage, pond_id=ID)
    assert not [name for name in screen.buttons() if "Remind me: Quarantine" in name]
    for one in past:
        work = WorkDone(what=one.text, job=one.id)
        done = Entry(id=f"done-{one.id}", pond_id=ID, when=datetime.now(UTC), what=work)
        asyncio.run(screen.session.logs.save_entry(done))
    screen.open(CarePage, pond_id=ID)
    screen.press("Remind me: Quarantine of new fish")
    assert len(screen.session.ponds[ID].reminders) == 4
