"""How often the user wants to be reminded, job by job; reminders of one's own, and the calendar."""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.due import JOBS, Job, days_between, usual_days, with_days
from pondapp.answers.care.lamp_change import lamp_change
from pondapp.answers.care.reminders import ReminderState, reminders
from pondapp.answers.care.watch_plans import WatchPlan, watch_plans
from pondapp.answers.log.dates import local
from pondapp.answers.sharing.calendar_file import calendar_file, events
from pondapp.models.base import limits_of
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.limits import MOST_REMINDERS
from pondapp.models.pond import Pond, Upkeep
from pondapp.state.ids import new_id
from pondapp.store.browser import page
from pondapp.ui.care.reminder import NEW, again
from pondapp.ui.log.entry import save_item
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import draft_name, seen, use_draft
from pondapp.ui.parts.files import file_name, save_file
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

TITLES: dict[Job, str] = {
    "test": "Test the water every",
    "measure": "Measure a flow every",
    "clean": "Clean pump and foam every",
}
FORM = Form(
    tuple(
        QuantityField(job, title, "number", limits_of(Upkeep, "days"), unit="days")
        for job, title in TITLES.items()
    )
)


def read_days(texts: dict[str, str], pond: Pond, system: str) -> tuple[Pond | None, dict[str, str]]:
    """The pond with the intervals that the texts say, or what is wrong."""
    read = FORM.read(texts, system)
    for job in JOBS:
        if job not in read.errors:
            days = read.values.get(job)
            pond = with_days(pond, job, None if days is None else int(days))
    return (None if read.errors else pond), read.errors


def _reminder(pond: Pond, state: ReminderState, system: str) -> ft.Control:
    """One of one's own: when it falls, the tick for the log, and the way to change it."""
    own = state.reminder

    async def done(_: Any) -> None:
        work = WorkDone(what=own.text, job=own.id)
        await save_item(
            Entry(id=new_id(), pond_id=pond.id, when=datetime.now(UTC), what=work), None
        )

    words = units.tell(state.sentence, system)
    parts: list[ft.Control] = [layout.body(words), layout.small(again(own))]
    if state.is_due or (state.day is not None and own.first < local(datetime.now(UTC)).date()):
        parts.append(layout.second_button(t("Done: {what}", what=own.text), done))
    change = go(f"/pond/{pond.id}/log/due/{own.id}")
    parts.append(layout.aside(t("Change: {what}", what=own.text), change))
    return layout.card(parts, strong=state.is_due)


def _own(pond: Pond, system: str) -> list[ft.Control]:
    """All reminders of one's own, and one more."""
    log = session_now().logs.items_of(pond.id)
    found = reminders(pond, log, datetime.now(UTC))
    controls: list[ft.Control] = [
        layout.heading(t("Your own reminders")),
        *(_reminder(pond, one, system) for one in found),
    ]
    change = lamp_change(pond, datetime.now(UTC))
    if change is not None:
        parts = [
            layout.body(units.tell(change.sentence, system)),
            layout.aside(t("To the UV lamp"), go(f"/pond/{pond.id}/log/uv")),
        ]
        controls.append(layout.card(parts, strong=change.is_due))
    if len(pond.reminders) < MOST_REMINDERS:
        add = go(f"/pond/{pond.id}/log/due/{NEW}")
        controls.append(layout.second_button(t("Add a reminder"), add))
    return [*controls, fold("plans", t("New fish, or a new filter"), lambda: _plans(pond))]


def _plans(pond: Pond) -> list[ft.Control]:
    """Ready-made reminders for weeks in which fish are in danger."""

    def set_plan(plan: WatchPlan) -> Callable[[Any], Any]:
        async def press(_: Any) -> None:
            made = tuple(one.model_copy(update={"id": new_id()}) for one in plan.reminders)
            changed = pond.model_copy(update={"reminders": (*pond.reminders, *made)})
            await save_change(changed, t("The reminders are set."))

        return press

    now = datetime.now(UTC)
    states = reminders(pond, session_now().logs.items_of(pond.id), now)
    # One that is done for good stands in no way: more fish come next year.
    open_now = {one.reminder.text for one in states if one.day is not None}
    found: list[ft.Control] = []
    for plan in watch_plans(pond, local(datetime.now(UTC)).date()):
        found.append(layout.heading(t(plan.title)))
        found += [layout.small(t(line)) for line in plan.why]
        for one in plan.reminders:
            found += [layout.body(f"• {one.text}"), layout.small(again(one))]
        if {one.text for one in plan.reminders} & open_now:
            found.append(layout.small(t("It is among your reminders.")))
        elif len(pond.reminders) + len(plan.reminders) <= MOST_REMINDERS:
            words = t("Remind me: {plan}", plan=t(plan.title))
            found.append(layout.second_button(words, set_plan(plan)))
    return found


def _calendar(pond: Pond) -> list[ft.Control]:
    """All that is reminded of, for the calendar of the phone."""

    def as_file() -> tuple[str, bytes]:
        now = datetime.now(UTC)
        found = events(pond, session_now().logs.items_of(pond.id), now)
        return file_name(pond.name, "reminders", "ics"), calendar_file(pond.name, found, now)

    async def save(_: Any) -> None:
        if await save_file(*as_file()):
            say(t("The calendar file is in your downloads. Open it to take it in."))

    async def share(_: Any) -> None:
        name, data = as_file()
        answer = await page.ask("share", title=pond.name, name=name, data=data)
        if answer not in ("done", "cancelled"):
            await save(_)

    return [
        layout.heading(t("In your calendar")),
        layout.small(
            t("The app itself cannot ring. All of these as a file for the calendar of your phone "
              "or computer, which rings at 9 in the morning. Save it again after a change; what "
              "you delete here, delete in the calendar too.")
        ),
        layout.second_button(t("Save for the calendar"), save),
        layout.second_button(t("Share with a calendar"), share),
    ]  # fmt: skip


@ft.component
def CarePage() -> Any:
    """One number a job; an empty field is no reminder."""
    session = session_now()
    system = session.system
    pond_id = ft.use_route_params().get("pond_id", "")
    pond = session.ponds.get(pond_id)
    begin: dict[str, str] = (
        {job: str(days) for job in JOBS if (days := days_between(pond, job)) is not None}
        if pond
        else {}
    )
    begin |= seen(*pond.upkeep) if pond else {}
    typed = use_draft(draft_name("care", pond_id), begin, FORM)
    if pond is None:
        return layout.no_pond()
    made, errors = read_days(typed.texts, pond, system)

    async def keep(_: Any) -> None:
        if made is None:
            return
        await save_change(made, t("The reminders are set."))
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond_id}/log")

    return layout.screen(
        f"/pond/{pond_id}/log/due",
        t("What is due"),
        [
            layout.body(t("The log reminds you of these. Leave a field empty for no reminder.")),
            *[
                FORM.draw(
                    typed, job, errors,
                    helper=t("Usual: {days} days. Common practice, no source.",
                             days=usual_days(pond, job)),
                )
                for job in JOBS
            ],
            *saved_by(
                layout.main_button(t("Set the reminders"), keep, disabled=made is None),
                typed, begin,
            ),
        ],
        second=[*_own(pond, system), *_calendar(pond)],
    )  # fmt: skip
