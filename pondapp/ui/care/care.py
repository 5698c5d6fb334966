"""How often the user wants to be reminded, job by job."""

from typing import Any

import flet as ft

from pondapp.answers.care.due import JOBS, Job, days_between, usual_days, with_days
from pondapp.models.base import limits_of
from pondapp.models.pond import Pond, Upkeep
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import draft_name, seen, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.revert import saved_by
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
    )  # fmt: skip
