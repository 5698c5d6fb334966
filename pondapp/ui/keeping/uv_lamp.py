"""A UV lamp: whether it fits pond and flow, and when to change it."""

from datetime import UTC, date, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.keeping.uv_lamp import LampAnswer, uv_lamp
from pondapp.answers.log.dates import local, read_date
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.lamp import UvLamp
from pondapp.models.pond import Pond
from pondapp.ui.keeping.answered import answered, shown
from pondapp.ui.parts import cautions, fields, layout, severity
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, seen, use_draft
from pondapp.ui.parts.form import Form, QuantityField, Texts
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import as_day, t

FLOW = limits_of(UvLamp, "flow_m3_s")
FORM = Form(
    (
        QuantityField("power", "Power of the lamp", "power", limits_of(UvLamp, "power_w"),
                      needed=True),
        QuantityField("uvc", "Its UV-C light", "power", limits_of(UvLamp, "uvc_w"),
                      "If its maker says so"),
        QuantityField("flow", "Water through the lamp", "flow", FLOW),
        QuantityField("most", "Most that its maker allows", "flow", FLOW),
        QuantityField("path", "From the glass to the wall", "small", limits_of(UvLamp, "path_m"),
                      "Of the chamber that the water passes"),
        QuantityField("life", "Hours by its label", "hours", limits_of(UvLamp, "life_s")),
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


def _change(found: date, today: date) -> ft.Control:
    """When the lamp is to be changed, or that it should have been."""
    if found <= today:
        words = t("UV lamp: to be changed since {day}.", day=as_day(found))
        return severity.row("wrong", words)
    why = t("If it is lit day and night. It still shines then, but hardly in UV-C. Common "
            "practice, no source.")  # fmt: skip
    return layout.card([layout.fact(t("Change it by"), as_day(found), why)])


def _texts(lamp: UvLamp | None, system: str) -> Texts:
    """The lamp that is kept, as the texts to edit."""
    if lamp is None:
        return {}
    values = {
        "power": lamp.power_w,
        "uvc": lamp.uvc_w,
        "flow": lamp.flow_m3_s,
        "most": lamp.most_flow_m3_s,
        "path": lamp.path_m,
        "life": lamp.life_s,
    }
    since = {"since": as_day(lamp.lit_since)} if lamp.lit_since else {}
    return FORM.write(values, system) | since


def _kept(pond: Pond, made: UvLamp | None, typed: Typed, saved: Texts) -> list[ft.Control]:
    """What keeps the lamp with the pond, notes that it is new, and forgets it."""

    async def put(lamp: UvLamp | None, words: str) -> None:
        now = session_now().ponds.get(pond.id) or pond
        await save_change(now.model_copy(update={"lamp": lamp}), words)
        if made is not None or lamp is None:  # what is typed is in it, or is of no use any more
            await typed.drop()

    async def keep(_: Any) -> None:
        await put(made, t("The lamp is kept with the pond."))

    today = local(datetime.now(UTC)).date()

    async def renew(_: Any) -> None:
        new = made or pond.lamp  # what is typed is of the new one
        if new is not None:
            await put(new.model_copy(update={"lit_since": today}), t("The new lamp is noted."))

    async def forget(_: Any) -> None:
        await put(None, t("The lamp is forgotten."))

    words = t("Keep this lamp with the pond")
    controls = saved_by(
        layout.main_button(words, keep, disabled=made is None or made == pond.lamp), typed, saved
    )
    if pond.lamp is None:
        return controls
    controls.append(layout.small(t("The log, the season and the calendar tell when it is due.")))
    if pond.lamp.lit_since != today:
        controls.append(layout.second_button(t("It has a new lamp since today"), renew))
    return [*controls, layout.quiet_button(t("There is no UV lamp any more"), forget)]


def _answer(found: LampAnswer, system: str) -> list[ft.Control]:
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
        lines.append(_change(found.change_on, local(datetime.now(UTC)).date()))
    return lines


def _screen(pond: Pond, typed: Typed, saved: Texts, system: str) -> ft.Control:
    worked = worked_now(pond)
    flow = sum(worked.planned.flows.values())
    begin = FORM.write({"flow": flow if 0.0 < flow <= FLOW.high else None}, system)
    if "flow" in typed.texts:
        begin = {}
    read = FORM.read({**begin, **typed.texts}, system)
    own = FORM.read(typed.texts, system).values
    since, wrong = _since(typed.texts, system)
    light, power = read.values.get("uvc"), read.values.get("power")
    if light is not None and power is not None and light > power:
        read.errors["uvc"] = t("No lamp gives more light than it takes power")
    errors = {**read.errors, **({"since": wrong} if wrong else {})}

    def drawn(key: str, helper: str | None = None) -> ft.Control:
        return FORM.draw(typed, key, read.errors, begin=begin.get(key, ""), helper=helper)

    planned = t("As planned, of all branches together") if "flow" in begin else None
    today = as_day(local(datetime.now(UTC)).date())
    controls: list[ft.Control] = [
        layout.caution(t(LIGHT)),
        layout.pairs([drawn("power"), drawn("uvc")]),
        layout.pairs([drawn("flow", planned), drawn("most")]),
        layout.pairs([drawn("path"), drawn("life", _usual_life(pond, system))]),
        fields.text_field(t("Lit since"), typed.text("since"), typed.note("since"), error=wrong,
                          helper=t("For example {day}", day=today)),
    ]  # fmt: skip

    def work_out() -> list[ft.Control]:
        if read.missing:
            return [layout.body(t("The power of the lamp gives the answer."))]
        known = read.values.get
        found = uv_lamp(worked, power=read.values["power"], uvc=known("uvc"), flow=known("flow"),
                        most=known("most"), path=known("path"), since=since,
                        life=known("life"))  # fmt: skip
        return _answer(found, system)

    made = None
    if not errors and "power" in own:
        made = UvLamp(
            power_w=own["power"], uvc_w=own.get("uvc"), flow_m3_s=own.get("flow"),
            most_flow_m3_s=own.get("most"), path_m=own.get("path"), life_s=own.get("life"),
            lit_since=since,
        )  # fmt: skip
    answer = answered(errors, work_out, system)
    answer += _kept(pond, made, typed, saved)
    rules = layout.links([(t("Change the rules"), go(f"/pond/{pond.id}/rules"))])
    answer += [layout.small(t(WHEN_OFF)), cautions.mains(), rules]
    return layout.screen(f"/pond/{pond.id}/log/uv", t("UV lamp"), controls, second=answer)


def _usual_life(pond: Pond, system: str) -> str:
    """What is counted where the label says nothing."""
    usual = units.show(worked_now(pond).rules.filters.lamp_life, "hours", system)
    return t("If empty: {time}", time=usual)


@ft.component
def UvLampPage() -> Any:
    """The lamp's figures in; whether it fits and how long it is good, out."""
    session = session_now()
    pond = use_pond()
    saved = _texts(pond.lamp if pond else None, session.system)
    begin = saved | (seen(pond.lamp) if pond else {})
    typed = use_draft(draft_name("uv", pond.id if pond else ""), begin, FORM)
    if pond is None:
        return layout.no_pond()
    return shown(f"/pond/{pond.id}/log/uv", t("UV lamp"),
                 lambda: _screen(pond, typed, begin, session.system), session.system)  # fmt: skip
