"""The care of a pond on the built site: each calculator with real presses, and the calendar."""

import re
from pathlib import Path

import pytest
from icalendar import Calendar
from phones import (
    Phone,
    choose,
    go,
    load_again,
    open_app,
    press,
    shows,
    type_into,
    unfold,
    wait_true,
)

from pondapp.answers.sharing.example import EXAMPLE

LOG = f"/pond/{EXAMPLE}/log"
pytestmark = pytest.mark.slow


def begin(phone: Phone, address: str) -> None:
    open_app(phone.page, address)
    press(phone.page, "Look round an example pond")
    phone.page.wait_for_url(f"**/pond/{EXAMPLE}")


def test_every_calculator_answers_what_is_typed(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    begin(used_phone, site_address)
    go(page, LOG)
    unfold(page, "Care and calculators")
    press(page, re.compile("^Water change"))
    wait_true(page, "location.hash.endsWith('/log/change')")
    shows(page, "Against chlorine")
    shows(page, re.compile("4 mg/L is counted, a limit by law"))

    go(page, f"{LOG}/evaporation")
    shows(page, "In a week")
    type_into(page, re.compile("^Open water"), "5000")
    shows(page, re.compile("does not fit"))
    choose(page, "Is it a leak?")
    type_into(page, re.compile("^The pond fell by"), "30")
    type_into(page, re.compile("^The bucket fell by"), "3")
    type_into(page, re.compile("^In so many hours"), "10")
    shows(page, re.compile("It leaks"))

    go(page, f"{LOG}/pump-off")
    type_into(page, re.compile("^Oxygen now"), "3")
    shows(page, re.compile("in danger now: bring in air at once"))

    go(page, f"{LOG}/dose")
    shows(page, re.compile("Salt"))


def test_the_season_asks_once_and_a_tick_outlives_a_reload(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    begin(used_phone, site_address)
    go(page, f"{LOG}/season")
    type_into(page, re.compile("^Water"), "3")
    choose(page, "North of the equator")
    shows(page, re.compile("never break ice with blows"))
    press(page, "Done: Pump raised for the winter")
    shows(page, "Saved in the log")
    load_again(page)
    shows(page, re.compile(r"^Done: \d"))
    shows(page, "North of the equator")


def test_a_reminder_comes_into_the_calendar(
    used_phone: Phone, site_address: str, tmp_path: Path
) -> None:
    page = used_phone.page
    begin(used_phone, site_address)
    go(page, f"{LOG}/due/new")
    type_into(page, "What to do", "Größe prüfen, dann warten")
    type_into(page, "First on", "2026-01-31")
    choose(page, "Every so many months")
    press(page, "Save the reminder")
    wait_true(page, "location.hash.endsWith('/log/due')")
    shows(page, re.compile("due since"))
    with page.expect_download() as got:
        press(page, "Save for the calendar")
    got.value.save_as(tmp_path / "reminders.ics")
    calendar = Calendar.from_ical((tmp_path / "reminders.ics").read_bytes())
    # What is overdue rings tomorrow too, by an event of its own.
    (own,) = [
        one for one in calendar.walk("VEVENT")
        if str(one["SUMMARY"]).endswith("Größe prüfen, dann warten") and "RRULE" in one
    ]  # fmt: skip
    assert own["RRULE"]["BYMONTHDAY"] == [28, 29, 30, 31]
    press(page, re.compile("^Done: Größe"))
    shows(page, "Saved in the log")
