"""A UV lamp: whether it fits pond and flow, and when to change it."""

from datetime import UTC, date, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.reminders import with_reminder
from pondapp.answers.keeping.uv_lamp import LampAnswer, uv_lamp
from pondapp.answers.log.dates import local, read_date
from pondapp.core.base.constants import HOUR
from pondapp.core.base.errors import PondError
from pondapp.models.base import Limits
from pondapp.models.limits import MOST_REMINDERS
from pondapp.models.pond import Pond, Reminder
from pondapp.state.ids import new_id
from pondapp.ui.parts import cautions, fields, layout, severity
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.form import Form, QuantityField, Texts
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import as_day, t

FLOW = Limits(0.0, 100.0 / HOUR, above=True)
FORM = Form(
    (
        QuantityField("power", "Power of the lamp", "power", Limits(0.0, 1000.0, above=True),
                      needed=True),
        QuantityField("uvc", "Its UV-C light", "power", Limits(0.0, 500.0, above=True),
                      "If its maker says so"),
        QuantityField("flow", "Water through the lamp", "flow", FLOW),
        QuantityField("most", "Most that its maker allows", "flow", FLOW),
        QuantityField("path", "From the glass to the wall", "small", Limits(0.002, 0.5),
                      "Of the chamber that the water passes"),
    ),
    days=("since",),
)  # fmt: skip
LIGHT = (
    "never look into a lit UV-C lamp: it burns eyes and skin in seconds. Unplug it before you open "
    "it, and take a broken lamp, which holds mercury, where such lamps are collected."
)
WANTED = (
    "The dose that is wanted is common practice, no source; water that comes round gets it again."
)
WHEN_OFF = "Turn it off while a medicine or new bacteria work, and in cold water."


def _since(texts: Texts, system: str) -> tuple[date | None, str | None]:
    """The day that is typed, or what is wrong with it."""
    text = texts.get("since", "")
    if not text.strip():
        return None, None
    try:
        return read_date(text, system, local(datetime.now(UTC)).date()), None
    except PondError as problem:
        return None, units.explain(problem, system)


def _change(pond: Pond, day: date) -> list[ft.Control]:
    """When the lamp is to be changed, and the reminder of it."""
    words = t("Change the UV lamp")
    facts: list[ft.Control] = [
        layout.fact(t("Change it by"), as_day(day),
                    t("If it is lit day and night. It still shines then, but hardly in UV-C. "
                      "Common practice, no source."))
    ]  # fmt: skip

    async def remind(_: Any) -> None:
        kept = Reminder(id=new_id(), text=words, first=day)
        await save_change(with_reminder(pond, kept), t("The reminder is saved."))

    if any(one.text == words and one.first == day for one in pond.reminders):
        facts.append(layout.small(t("It is among your reminders.")))
    elif len(pond.reminders) < MOST_REMINDERS:
        facts.append(layout.second_button(t("Remind me of it"), remind))
    return [layout.card(facts)]


def _answer(pond: Pond, found: LampAnswer, system: str) -> list[ft.Control]:
    told = [severity.card(one, units.tell(words, system)) for one, words in found.verdicts]
    lines: list[ft.Control] = [
        ft.Semantics(live_region=True, content=layout.column(told)),
        *(layout.small(units.tell(one, system)) for one in found.remarks),
    ]
    if found.dose is None:
        lines.append(layout.small(t("Flow and the way from the glass to the wall give the dose.")))
    else:
        working = ShowWorking(t("the dose"), lambda: found.steps, system)
        lines += [layout.small(t(WANTED)), layout.card([working])]
    if found.change_on is not None:
        lines += _change(pond, found.change_on)
    return lines


def _screen(pond: Pond, typed: Typed, system: str) -> ft.Control:
    worked = worked_now(pond)
    flow = sum(worked.planned.flows.values())
    begin = FORM.write({"flow": flow if 0.0 < flow <= FLOW.high else None}, system)
    texts = {**begin, **typed.texts}
    read = FORM.read(texts, system)
    since, wrong = _since(texts, system)

    def drawn(key: str, helper: str | None = None) -> ft.Control:
        return FORM.draw(typed, key, read.errors, begin=begin.get(key, ""), helper=helper)

    planned = t("As planned, of all branches together") if "flow" in begin else None
    controls: list[ft.Control] = [
        layout.caution(t(LIGHT)),
        layout.pairs([drawn("power"), drawn("uvc")]),
        layout.pairs([drawn("flow", planned), drawn("most")]),
        drawn("path"),
        fields.text_field(t("Lit since"), typed.text("since"), typed.note("since"), error=wrong),
    ]
    if read.errors or wrong:
        answer: list[ft.Control] = [
            layout.body(t("Correct what is marked, and the answer is back."))
        ]
    elif read.missing:
        answer = [layout.body(t("The power of the lamp gives the answer."))]
    else:
        try:
            known = read.values.get
            found = uv_lamp(worked, power=read.values["power"], uvc=known("uvc"),
                            flow=known("flow"), most=known("most"), path=known("path"),
                            since=since)  # fmt: skip
            answer = _answer(pond, found, system)
        except PondError as problem:
            answer = [severity.card("unknown", units.explain(problem, system))]
    rules = layout.links([(t("Change the rules"), go(f"/pond/{pond.id}/rules"))])
    answer += [layout.small(t(WHEN_OFF)), cautions.mains(), rules]
    return layout.screen(f"/pond/{pond.id}/log/uv", t("UV lamp"), controls, second=answer)


@ft.component
def UvLampPage() -> Any:
    """The lamp's figures in; whether it fits and how long it is good, out."""
    session = session_now()
    pond = use_pond()
    typed = use_draft(draft_name("uv", pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()
    try:
        return _screen(pond, typed, session.system)
    except PondError as problem:
        told = severity.card("unknown", units.explain(problem, session.system))
        return layout.screen(f"/pond/{pond.id}/log/uv", t("UV lamp"), [told])
