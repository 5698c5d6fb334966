"""Day and time of what goes into a log: now unless one says otherwise."""

from datetime import datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.log.dates import at, day_text, local, read_date, read_time
from pondapp.core.base.errors import PondError
from pondapp.models.limits import FIRST_YEAR
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.shell import theme
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def texts_of_moment(moment: datetime) -> dict[str, str]:
    """A moment as it would be typed."""
    return {"date": day_text(moment), "time": local(moment).strftime("%H:%M")}


def read_moment(
    texts: dict[str, str], system: str, now: datetime, kept: datetime | None = None
) -> tuple[datetime | None, dict[str, str]]:
    """The moment that the texts say (now, where they were left alone), or what is wrong.

    A moment that is kept already and left alone stays exact, to the second, and is not judged: it
    lies in the future if this device's clock was set back.
    """
    if kept is not None and texts_of_moment(kept).items() <= texts.items():
        return kept, {}
    preset = texts_of_moment(now)
    errors: dict[str, str] = {}
    day = clock = None
    try:
        day = read_date(texts.get("date", preset["date"]), system, local(now).date())
    except PondError as problem:
        errors["date"] = units.explain(problem, system)
    try:
        clock = read_time(texts.get("time", preset["time"]))
    except PondError as problem:
        errors["time"] = units.explain(problem, system)
    return (at(day, clock) if day and clock else None), errors


def _day_typed(text: str, today: datetime) -> datetime:
    """The day that a calendar opens at: the one typed, or today while that is not a day."""
    try:
        day = read_date(text, session_now().system, today.date())
    except PondError:
        return today
    return datetime(day.year, day.month, day.day, tzinfo=today.tzinfo)


def moment_fields(typed: Typed, errors: dict[str, str], now: datetime) -> list[ft.Control]:
    """Fields for day and time, and a calendar to pick the day from."""
    preset = texts_of_moment(now)

    def picked(event: Any) -> None:
        if event.control.value is not None:
            typed.note("date")(texts_of_moment(event.control.value)["date"])

    def pick(_: Any) -> None:
        today = local(now)
        page = ft.context.page
        page.show_dialog(
            ft.DatePicker(
                value=_day_typed(typed.text("date", preset["date"]), today),
                first_date=datetime(FIRST_YEAR, 1, 1, tzinfo=today.tzinfo), last_date=today,
                on_change=picked,
            )
        )  # fmt: skip

    entries = [
        layout.pairs(
            [
                fields.text_field(t("Date"), typed.text("date", preset["date"]),
                                  typed.note("date"), error=errors.get("date")),
                fields.text_field(t("Time"), typed.text("time", preset["time"]),
                                  typed.note("time"), error=errors.get("time")),
            ]
        ),
    ]  # fmt: skip
    # The framework's calendar cuts the days off where its letters are large.
    return (
        entries if theme.large_text() else [*entries, layout.quiet_button(t("Pick the day"), pick)]
    )
