"""A reminder of one's own: what, from which day, and how often again."""

from datetime import UTC, date, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.reminders import with_reminder, without_reminder
from pondapp.answers.log.dates import local, read_date
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.pond import Reminder
from pondapp.state.ids import new_id
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.shell import theme
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.words import as_day, t, tn

NEW = "new"
UNSAVED = "unsaved"  # takes an id of its own when it is saved
LONGEST = 80
"""Letters of what it is about."""
UNITS: dict[str, str] = {
    "once": "Once",
    "days": "Every so many days",
    "weeks": "Every so many weeks",
    "months": "Every so many months",
    "years": "Every so many years",
}
NAMES = {"days": "days", "weeks": "weeks", "months": "months", "years": "years"}
FORMS = {
    unit: Form(
        (QuantityField("every", "Every", "number", limits_of(Reminder, "every"), needed=True,
                       unit=NAMES.get(unit, "")),),
        days=("first",),
    )
    for unit in UNITS
}  # fmt: skip


def again(reminder: Reminder) -> str:
    """How often it comes back, in words."""
    count = reminder.every
    told = {
        "once": lambda: t("Once, on {day}", day=as_day(reminder.first)),
        "days": lambda: tn("Every day", "Every {count} days", count),
        "weeks": lambda: tn("Every week", "Every {count} weeks", count),
        "months": lambda: tn("Every month", "Every {count} months", count),
        "years": lambda: tn("Every year", "Every {count} years", count),
    }[reminder.unit]()
    if reminder.times is None:
        return told
    return t("{how_often}, {times} times from {day} on", how_often=told, times=reminder.times,
             day=as_day(reminder.first))  # fmt: skip


def read_reminder(
    texts: dict[str, str], before: Reminder | None, system: str, today: date
) -> tuple[Reminder | None, dict[str, str]]:
    """The reminder that the texts describe, or none and what is wrong, by field."""
    errors: dict[str, str] = {}
    text, unit = texts.get("text", "").strip(), _unit(texts)
    if len(text) > LONGEST:
        errors["text"] = t("Write at most {most} letters", most=LONGEST)
    first = None
    if texts.get("first", "").strip():
        try:
            first = read_date(texts["first"], system, today, ahead=True)
        except PondError as problem:
            errors["first"] = units.explain(problem, system)
    read = FORMS[unit].read({"every": "1", **texts}, system)
    if unit != "once":
        errors |= read.errors
    every = 1.0 if unit == "once" else read.values.get("every")
    if errors or not text or first is None or every is None:
        return None, errors
    made: dict[str, Any] = {"text": text, "first": first, "unit": unit, "every": int(every)}
    if before is not None:
        return Reminder.model_validate({**before.model_dump(), **made}), {}
    return Reminder(id=UNSAVED, **made), {}


def _unit(texts: dict[str, str]) -> str:
    unit = texts.get("unit", "once")
    return unit if unit in UNITS else "once"


def _begin(before: Reminder | None) -> dict[str, str]:
    if before is None:
        return {}
    texts = {"text": before.text, "first": as_day(before.first), "unit": before.unit,
             "every": str(before.every)}  # fmt: skip
    return {**texts, **seen(before)}


def _pick_day(typed: Typed) -> list[ft.Control]:
    """A calendar to pick the day from; its letters are cut off where text is large."""
    if theme.large_text():
        return []

    def picked(event: Any) -> None:
        if event.control.value is not None:
            typed.note("first")(as_day(local(event.control.value)))

    def pick(_: Any) -> None:
        today = local(datetime.now(UTC))
        last = today.replace(year=today.year + 20, day=1)
        dialog = ft.DatePicker(value=today, first_date=today, last_date=last, on_change=picked)
        ft.context.page.show_dialog(dialog)

    return [layout.quiet_button(t("Pick the day"), pick)]


@ft.component
def ReminderPage() -> Any:
    """One reminder: a new one, or one that is there."""
    session = session_now()
    system = session.system
    pond = use_pond()
    asked = ft.use_route_params().get("reminder_id", NEW)
    known = pond.reminders if pond else ()
    before = next((one for one in known if one.id == asked), None)
    begin = _begin(before)
    unit_form = FORMS["weeks"]
    typed = use_draft(draft_name("reminder", pond.id if pond else "", asked), begin, unit_form)
    if pond is None:
        return layout.no_pond()
    route, back = f"/pond/{pond.id}/log/due/{asked}", f"/pond/{pond.id}/log/due"
    if before is None and asked != NEW:
        return layout.screen(route, t("Reminder"), [layout.body(t("This reminder is gone."))])
    today = local(datetime.now(UTC)).date()
    made, errors = read_reminder(typed.texts, before, system, today)
    unit = _unit(typed.texts)

    async def keep(_: Any) -> None:
        if made is None:
            return
        kept = made if before else made.model_copy(update={"id": new_id()})
        await save_change(with_reminder(session.ponds.get(pond.id) or pond, kept),
                          t("The reminder is saved."))  # fmt: skip
        await typed.drop()
        ft.context.page.navigate(back)

    async def remove(_: Any) -> None:
        await typed.drop()
        ft.context.page.navigate(back)
        await save_change(without_reminder(session.ponds.get(pond.id) or pond, asked),
                          t("The reminder is deleted."))  # fmt: skip

    controls: list[ft.Control] = [
        fields.text_field(t("What to do"), typed.text("text"), typed.note("text"),
                          error=errors.get("text")),
        fields.text_field(t("First on"), typed.text("first"), typed.note("first"),
                          error=errors.get("first"),
                          helper=t("For example {day}", day=as_day(today))),
        *_pick_day(typed),
        layout.choice(t("How often"), [(key, t(words)) for key, words in UNITS.items()], unit,
                      typed.note("unit")),
    ]  # fmt: skip
    if unit != "once":
        controls.append(FORMS[unit].draw(typed, "every", errors, begin="1"))
    controls += saved_by(
        layout.main_button(t("Save the reminder"), keep, disabled=made is None), typed, begin
    )
    if made is None and not errors:
        controls.append(layout.small(t("It needs words and a day.")))
    if before is not None:
        controls.append(layout.quiet_button(t("Delete this reminder"), remove))
    return layout.screen(route, t("Reminder"), controls)
