"""Work out a water change, and enter it in the log with one touch."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, datetime
from typing import Any, cast, get_args

import flet as ft

from pondapp import units
from pondapp.answers.keeping.label_dose import by_other_gallon
from pondapp.answers.keeping.water_change import (
    BROUGHT_DOWN,
    SUBSTANCES,
    Binder,
    Binding,
    Change,
    ChangeAsked,
    Effect,
    Treated,
    goal_of,
    water_change,
    worst_of,
)
from pondapp.answers.keeping.water_now import WaterNow, water_now
from pondapp.answers.log.log_names import WATER_VALUES
from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.water.volume import water_volume
from pondapp.core.base.constants import HOUR
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.models.base import Limits, limits_of
from pondapp.models.entry import Entry, WaterChange, WaterTest
from pondapp.models.pond import Pond
from pondapp.state.ids import NO_POND, OUTLET, new_id
from pondapp.ui.keeping.answered import shown
from pondapp.ui.keeping.dose import IN_DOSE, USUAL, dose_text, gallon_hint
from pondapp.ui.log.entry import save_item
from pondapp.ui.parts import cautions, layout, severity
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.form import Amounts, Form, QuantityField, Texts
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

USUAL_SHARE = 0.2  # what the screen begins with; it stands in its field
FIELDS = {
    "nitrate": "nitrate_kg_m3",
    "nitrite": "nitrite_kg_m3",
    "ammonia": "total_ammonia_kg_m3",
    "carbonate_hardness": "carbonate_hardness_kg_m3",
    "general_hardness": "general_hardness_kg_m3",
    "salt_level": "salt_kg_m3",
}
TREATED: tuple[tuple[Treated, str], ...] = (
    ("unknown", "I do not know"),
    ("chlorine", "Chlorine"),
    ("chloramine", "Chloramine"),
    ("none", "Neither: a well, or rain"),
)
BINDERS: tuple[tuple[Binder, str], ...] = (
    ("crystals", "Sodium thiosulfate, crystals"),
    ("dry", "Sodium thiosulfate, dry powder"),
    ("vitamin", "Vitamin C (ascorbic acid)"),
    ("label", "A product, by its label"),
)
DOSED = (("new", "For the new water"), ("pond", "For the whole pond"))


ROLES = (
    ("now", "{value} in the pond", None),
    ("tap", "{value} in the tap water", None),
    ("goal", "{value}, wanted at most", False),
)
"""End of a field's key, its label, and whether nothing is an amount."""


def _values() -> tuple[QuantityField, ...]:
    """For each value that fresh water changes: in the pond, in the tap water, and its goal."""
    return tuple(
        QuantityField(
            f"{key}_{role}", label, WATER_VALUES[key][1], limits_of(WaterTest, FIELDS[key]),
            zero=zero,
        )
        for key in SUBSTANCES
        for role, label, zero in ROLES
    )  # fmt: skip


HOSE = QuantityField(
    "hose", "Flow of the hose", "flow", Limits(0.0, 10.0 / HOUR, above=True),
    "Time a bucket under it",
)  # fmt: skip
FORM = Form(
    (
        QuantityField("share", "Share of the pond", "share", Limits(0.0, 1.0, above=True)),
        QuantityField("water", "Water to change", "volume", limits_of(WaterChange, "volume_m3")),
        QuantityField(
            "chlorine", "Chlorine in the tap water", "concentration", Limits(0.0, 1e-2),
            "From the water works or a test strip; chloramine counted as chlorine",
        ),
        QuantityField("label_dose", "The label says", "number", Limits(0.0, 1e4, above=True)),
        QuantityField("label_water", "for so much water", "volume", Limits(1e-6, 1e3)),
        QuantityField("pond_warmth", "Pond", "temperature", Limits(273.15, 313.15)),
        QuantityField("tap_warmth", "Tap water", "temperature", Limits(273.15, 313.15)),
        HOSE,
        *_values(),
    )
)  # fmt: skip


def _name(key: str) -> str:
    return t(WATER_VALUES[key][0])


def _dosed_in(texts: Mapping[str, str]) -> str:
    """The unit of the label's dose."""
    unit = texts.get("in_dose", "ml")
    return unit if unit in dict(IN_DOSE) else "ml"


def _water_in(texts: Mapping[str, str], system: str) -> str:
    """The unit that the label's water was read in; litres too, where another was typed."""
    typed = texts.get("label_water", "")
    return "L" if any(letter.isalpha() for letter in typed) else USUAL[system]


def hose_flow() -> float | None:
    """What was timed last without a pond [m3/s], if a hose can bring so much."""
    readings = session_now().logs.readings_of(NO_POND)
    timed = next((one for one in readings if one.place_id == OUTLET), None)
    found = measured_reading(timed) if timed else None
    if found is None or found.dry or found.flow.flow > HOSE.limits.high:
        return None
    return found.flow.flow


def _begin(now: WaterNow, volume: float, system: str) -> Texts:
    """What the fields begin with: the pond as its log has it, and a usual share."""
    share, water = USUAL_SHARE, USUAL_SHARE * volume
    begin = FORM.write({"share": share, "water": water, "pond_warmth": now.temperature}, system)
    known = {f"{key}_now": value for key, value in now.values.items() if key in SUBSTANCES}
    flow = hose_flow()
    if flow is not None:
        known["hose"] = flow
    return begin | FORM.write(known, system)


def _asked(texts: Mapping[str, str], read: Amounts, now: WaterNow) -> ChangeAsked | None:
    """The question that the texts ask; none while there is no amount of water in them."""
    values = read.values
    if "water" not in values:
        return None
    treated, binder = texts.get("treated", "unknown"), texts.get("binder", "crystals")
    return ChangeAsked(
        water=values["water"],
        temperature=values.get("pond_warmth", now.temperature),
        treated=cast(Treated, treated) if treated in get_args(Treated) else "unknown",
        chlorine=values.get("chlorine"),
        binder=cast(Binder, binder) if binder in get_args(Binder) else "crystals",
        label_dose=values.get("label_dose"),
        dosed_in=_dosed_in(texts),
        label_water=values.get("label_water"),
        whole_pond=texts.get("dosed") == "pond",
        tap_temperature=values.get("tap_warmth"),
        hose=values.get("hose"),
        pond={key: values[f"{key}_now"] for key in SUBSTANCES if f"{key}_now" in values},
        tap={key: values[f"{key}_tap"] for key in SUBSTANCES if f"{key}_tap" in values},
        ph=now.values.get("ph"),
    )


# ---- what is asked


def _amount(typed: Typed, texts: Texts, errors: dict[str, str], volume: float,
            system: str) -> ft.Control:  # fmt: skip
    """Share and litres: what is typed in one of them is shown in the other."""

    def put(key: str, other: str, text: str, factor: float) -> None:
        value, _ = FORM[key].read(text, system)
        kept = {name: one for name, one in typed.newest().items() if not name.startswith(other)}
        twin = FORM.write({other: None if value is None else value * factor}, system)
        typed.put({**kept, key: text, other: "", **twin})

    fields = [
        FORM[key].draw(
            texts.get(key, ""), lambda text, k=key, o=other, f=factor: put(k, o, text, f),  # type: ignore[misc]
            system, error=errors.get(key),
        )
        for key, other, factor in (("share", "water", volume), ("water", "share", 1.0 / volume))
    ]  # fmt: skip
    return layout.pairs(fields)


def _tap(typed: Typed, texts: Texts, errors: dict[str, str]) -> list[ft.Control]:
    """What the water works put in, and what takes it out."""
    treated = texts.get("treated", "unknown")
    lines: list[ft.Control] = [
        layout.choice(t("What is in the tap water"), layout.worded(TREATED), treated,
                      typed.note("treated"))
    ]  # fmt: skip
    if treated == "none":
        return lines
    binder = texts.get("binder", "crystals")
    lines += [
        FORM.draw(typed, "chlorine", errors),
        layout.choice(t("What takes it out"), layout.worded(BINDERS), binder, typed.note("binder")),
    ]
    if binder == "label":
        lines += [
            layout.pairs(
                [FORM.draw(typed, "label_dose", errors), FORM.draw(typed, "label_water", errors)]
            ),
            layout.choice(t("The dose is in"), layout.worded(IN_DOSE), _dosed_in(texts),
                          typed.note("in_dose"), in_rows=True),
            layout.choice(t("What the label says to dose"), layout.worded(DOSED),
                          texts.get("dosed", "new"), typed.note("dosed")),
            layout.small(t("Many labels want the whole pond dosed where the hose runs straight "
                           "into it.")),
        ]  # fmt: skip
    return lines


def warmth_told(now: WaterNow) -> str:
    """Where the pond's temperature is from that a field begins with."""
    return t("As tested last") if now.tested else t("The pond's usual temperature")


def _warmth(typed: Typed, texts: Texts, errors: dict[str, str], now: WaterNow) -> list[ft.Control]:
    return [
        layout.pairs(
            [
                FORM.draw(typed, "pond_warmth", errors, begin=texts.get("pond_warmth", ""),
                          helper=warmth_told(now)),
                FORM.draw(typed, "tap_warmth", errors),
            ]
        ),
        FORM.draw(typed, "hose", errors, begin=texts.get("hose", "")),
        layout.second_button(t("Time the hose with a bucket"), go(f"/measure/{NO_POND}/{OUTLET}")),
    ]  # fmt: skip


def _in_water(typed: Typed, texts: Texts, errors: dict[str, str]) -> list[ft.Control]:
    """What the pond and the tap hold of each thing; the pond's as the log has it."""

    def drawn(key: str, where: str) -> ft.Control:
        name = f"{key}_{where}"
        return FORM.draw(typed, name, errors, begin=texts.get(name, ""), value=_name(key))

    return [layout.pairs([drawn(key, "now"), drawn(key, "tap")]) for key in SUBSTANCES]


# ---- what is answered


def _dose(found: Binding, asked: ChangeAsked, water: str, system: str) -> list[ft.Control]:
    """What to put into the new water before the fish meet it."""
    name = t(dict(BINDERS)[asked.binder])
    if found.mass is not None and found.least is not None:
        dose = units.show(found.mass, "grams", system)
        least = units.show(found.least, "grams", system, 2)
        told = t("{name}. Printed tables go down to {least}; this is the safe end.",
                 name=name, least=least)  # fmt: skip
        if asked.binder == "vitamin":
            told = name
        lines = [layout.fact(t("Against chlorine"), dose, told)]
    elif found.product is not None and found.product.withheld:
        lines = []  # why stands above
    elif asked.chlorine == 0.0:
        lines = []  # nothing is asked for; why is told below
    elif found.product is not None:
        amount, unit = found.product.amount, asked.dosed_in
        dose = t("{amount} by the label", amount=dose_text(amount, unit))
        what = (
            t("For the whole pond, if it holds the least: never more than the label")
            if asked.whole_pond
            else t("For the new water")
        )
        lines = [layout.fact(t("Against chlorine"), dose, what)]
        other = by_other_gallon(amount, water)
        if other is not None:
            lines.append(gallon_hint(water, other, unit))
    else:
        lines = [layout.body(t("Enter what the label says, and for how much water."))]
    return [*lines, *_small(found.remarks, system)]


def _small(messages: tuple[Message, ...], system: str) -> list[ft.Control]:
    return [layout.small(layout.sentence(units.tell(one, system))) for one in messages]


def _assumed(fresh: float, kind: str, system: str) -> str:
    """What is assumed of the tap water, where nobody entered it."""
    return t("If the tap water holds {value}; enter what it holds.",
             value=units.show(fresh, kind, system))  # fmt: skip


def _effect(one: Effect, system: str) -> ft.Control:
    kind = WATER_VALUES[one.key][1]
    before, after = (units.show(value, kind, system) for value in (one.before, one.after))
    remark = "" if one.fresh_known else _assumed(one.fresh, kind, system)
    return layout.fact(_name(one.key), t("{before}, then {after}", before=before, after=after),
                       remark)  # fmt: skip


def _course(found: Change, asked: ChangeAsked, system: str) -> list[ft.Control]:
    """How many such changes reach the goal."""
    course = found.course
    name, kind = _name(asked.what), WATER_VALUES[asked.what][1]
    if course is None:
        return []
    if isinstance(course, Message):
        told = layout.sentence(units.tell(course, system))
        return [severity.row("wrong" if found.fresh_known else "unknown", told)]
    goal = units.show(course.goal, kind, system)
    told = t(
        "{water} in all, {each} at a time. {name} is {end} then.",
        water=units.show(course.total, "volume", system),
        each=units.show(course.each, "volume", system),
        name=name, end=units.show(course.end, kind, system),
    )  # fmt: skip
    title = t("Changes until {name} is at most {goal}", name=name, goal=goal)
    lines = [layout.fact(title, units.readable(float(course.times)), told)]
    if not found.fresh_known:
        lines.append(layout.small(_assumed(found.fresh, kind, system)))
    return lines


def _facts(found: Change, asked: ChangeAsked, water_in: str, system: str) -> list[ft.Control]:
    water = units.show(found.water, "volume", system)
    share = units.show(found.share, "share", system)
    of_pond = t("{share} of the pond", share=share)
    facts: list[ft.Control] = [layout.fact(t("Let out and fill in"), water, of_pond)]
    if found.binding:
        facts += _dose(found.binding, asked, water_in, system)
    if found.temperature is not None and found.warmer is not None:
        change = units.show(abs(found.warmer), "warming", system, 2)
        told = t("{change} colder", change=change) if found.warmer < 0.0 else (
            t("{change} warmer", change=change)
        )  # fmt: skip
        warmth = units.show(found.temperature, "temperature", system)
        facts.append(layout.fact(t("Temperature afterwards"), warmth, told))
    if found.salt is not None:
        salt = units.show(found.salt, "mass", system)
        facts.append(layout.fact(t("Salt to put in"), salt, t("So that its level stays")))
    if found.minutes is not None and found.running_over is not None:
        time = units.show_amount(found.minutes, "s", system)
        told = t(
            "Set an alarm: hoses are forgotten. Where old water runs over meanwhile, it replaces "
            "only {share}.",
            share=units.show(found.running_over, "share", system, 2),
        )
        facts.append(layout.fact(t("The hose runs"), time, told))
    return [*facts, *(_effect(one, system) for one in found.effects)]


def _answer(
    pond: Pond, asked: ChangeAsked, water_in: str, system: str
) -> tuple[list[ft.Control], Change | None]:
    try:
        found = water_change(worked_now(pond), asked)
    except PondError as problem:
        return [severity.card("wrong", units.explain(problem, system))], None
    told = [
        severity.row("wrong", layout.sentence(units.tell(one, system))) for one in found.troubles
    ]
    facts = _facts(found, asked, water_in, system)
    region = layout.column([*told, layout.card(facts, strong=True)])
    lines: list[ft.Control] = [ft.Semantics(live_region=True, content=region)]
    course = _course(found, asked, system)
    if course:
        lines.append(layout.card(course))
    lines.append(layout.card([ShowWorking(t("this water change"), lambda: found.steps, system)]))
    return lines, found


def _note(found: Change, asked: ChangeAsked, system: str) -> str:
    """What went in with the water, for the log."""
    binding = found.binding
    name = t(dict(BINDERS)[asked.binder])
    if binding is not None and binding.mass is not None:
        return f"{name}: {units.show(binding.mass, 'grams', system)}"
    if binding is not None and binding.product is not None and not binding.product.withheld:
        return f"{name}: {dose_text(binding.product.amount, asked.dosed_in)}"
    return ""


def _goal(
    typed: Typed, texts: Texts, asked: ChangeAsked, errors: dict[str, str], begin: str
) -> list[ft.Control]:
    """What is to be brought down, and to how much."""
    options = [(key, _name(key)) for key in BROUGHT_DOWN]
    return [
        layout.choice(t("Bring down"), options, asked.what, typed.note("what"), in_rows=True),
        FORM.draw(typed, f"{asked.what}_now", errors, begin=texts.get(f"{asked.what}_now", ""),
                  value=_name(asked.what)),
        FORM.draw(typed, f"{asked.what}_goal", errors, begin=begin, value=_name(asked.what)),
    ]  # fmt: skip


def _screen(pond: Pond, typed: Typed, now: WaterNow, volume: float, system: str) -> ft.Control:
    rules = worked_now(pond).rules
    texts = {**_begin(now, volume, system), **typed.texts}
    read = FORM.read(texts, system)
    errors = read.errors
    asked = _asked(texts, read, now)
    goal = ""
    if asked is not None:
        what = texts.get("what", "")
        what = what if what in BROUGHT_DOWN else worst_of(asked, rules)
        key = f"{what}_goal"
        goal = FORM[key].write(goal_of(what, asked, rules), system)
        wanted, _ = FORM[key].read(texts.get(key, goal), system)
        asked = replace(asked, what=what, goal=wanted)
    answer: list[ft.Control] = [layout.body(t("How much water is to be changed?"))]
    found: Change | None = None
    if asked is not None and not errors:
        answer, found = _answer(pond, asked, _water_in(texts, system), system)
    elif errors:
        answer = [layout.body(t("Correct what is marked, and the answer is back."))]

    async def enter(_: Any) -> None:
        if found is None or asked is None:
            return
        what = WaterChange(volume_m3=found.water)
        entry = Entry(id=new_id(), pond_id=pond.id, when=datetime.now(UTC), what=what,
                      note=_note(found, asked, system))  # fmt: skip
        await save_item(entry, None)
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond.id}/log")

    treated = t(dict(TREATED).get(cast(Treated, texts.get("treated", "unknown")), TREATED[0][1]))
    controls: list[ft.Control] = [
        _amount(typed, texts, errors, volume, system),
        fold("tap", t("In the tap water: {what}", what=treated),
             lambda: _tap(typed, texts, errors)),
        fold("warmth", t("Temperatures and hose"), lambda: _warmth(typed, texts, errors, now)),
        fold("values", t("Nitrate, hardness and salt"), lambda: _in_water(typed, texts, errors)),
    ]  # fmt: skip
    if asked is not None:
        known = asked
        controls.append(
            fold("goal", t("How many changes: {what}", what=_name(asked.what)),
                 lambda: _goal(typed, texts, known, errors, texts.get(f"{known.what}_goal", goal)))
        )  # fmt: skip
    answer += [
        layout.main_button(t("Enter this change in the log"), enter, disabled=found is None),
        cautions.dosing(),
    ]
    route = f"/pond/{pond.id}/log/change"
    return layout.screen(route, t("Water change"), controls, second=answer)


@ft.component
def WaterChangePage() -> Any:
    """A share or litres in; what it takes and what it does out."""
    session = session_now()
    pond = use_pond()
    typed = use_draft(draft_name("change", pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()

    def screen() -> ft.Control:
        now = water_now(pond, session.logs.items_of(pond.id), datetime.now(UTC))
        return _screen(pond, typed, now, water_volume(pond), session.system)

    return shown(f"/pond/{pond.id}/log/change", t("Water change"), screen, session.system)
