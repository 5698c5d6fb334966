"""How often the user wants to be reminded, job by job."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.due import JOBS, Job, days_between, usual_days, with_days
from pondapp.models.pond import Pond
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.change import keep_change
from pondapp.ui.parts.draft import draft_name, seen, use_draft
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

TITLES: dict[Job, str] = {
    "test": "Test the water every",
    "measure": "Measure a flow every",
    "clean": "Clean pump and foam every",
}
MOST_DAYS = 3650.0


def read_days(texts: dict[str, str], pond: Pond, system: str) -> tuple[Pond | None, dict[str, str]]:
    """The pond with the intervals that the texts say, or what is wrong."""
    errors: dict[str, str] = {}
    for job in JOBS:
        text = texts.get(job, "")
        value, error = fields.read_quantity(text, "number", system, 1.0, MOST_DAYS)
        if error or (value is not None and value % 1):
            errors[job] = t("Write a whole number of days, up to {most}", most=int(MOST_DAYS))
        else:
            pond = with_days(pond, job, None if value is None else int(value))
    return (None if errors else pond), errors


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
    typed = use_draft(draft_name("care", pond_id), begin)
    if pond is None:
        return layout.no_pond()
    made, errors = read_days(typed.texts, pond, system)

    async def keep(_: Any) -> None:
        if made is None:
            return
        await keep_change(made, t("The reminders are set."))
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond_id}/log")

    return layout.screen(
        f"/pond/{pond_id}/log/due",
        t("What is due"),
        [
            layout.body(t("The log reminds you of these. Leave a field empty for no reminder.")),
            *[
                fields.quantity_field(
                    t(TITLES[job]), typed.text(job), typed.note(job),
                    unit=units.unit_for("days", system), error=errors.get(job),
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
    )  # fmt: skip
