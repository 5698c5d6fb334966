"""Salt and other doses: by the pond's volume with its doubt, and never more than the label."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.severity import Severity
from pondapp.answers.keeping.dose import Dose, dose_for, salt_for
from pondapp.answers.keeping.label_dose import MILLILITRES, WATER_UNITS, measured_out
from pondapp.answers.keeping.pond_volume import PondVolume, volume_span
from pondapp.answers.keeping.salt_now import SaltNow, salt_now
from pondapp.answers.keeping.water_now import water_now
from pondapp.core.base.errors import PondError
from pondapp.models import entry as stored
from pondapp.models.base import Limits
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.keeping.answered import shown
from pondapp.ui.log.entry import save_item
from pondapp.ui.parts import cautions, fields, layout, severity
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.form import Form, QuantityField, Texts
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

SALT, LABEL = "salt", "label"
WHAT = ((SALT, "Salt"), (LABEL, "A product, by its label"))
IN_WATER = (("L", "Litres"), ("usgal", "US gallons"), ("impgal", "Imperial gallons"))
IN_DOSE = (
    ("ml", "mL"), ("g", "g"), ("usfloz", "US fl oz"), ("impfloz", "Imperial fl oz"),
    ("tsp", "Teaspoons"), ("drop", "Drops"), ("tablet", "Tablets"),
)  # fmt: skip
IN_TEXT = {"tsp": "teaspoons", "drop": "drops", "tablet": "tablets"}
"""The units that begin with a small letter in the middle of a text."""
USUAL = {"metric": "L", "us": "usgal", "imperial": "impgal"}
CONTENT = Limits(0.0, 40.0)
FORM = Form(
    (
        QuantityField("salt_now", "Salt in the water now", "salt", CONTENT,
                      "Empty: none is assumed"),
        QuantityField("salt_wanted", "Salt wanted", "salt", CONTENT, zero=False),
        QuantityField("dose", "The label's dose", "number", Limits(0.0, 1e4, above=True)),
        QuantityField("per", "For so much water", "number", Limits(0.0, 1e6, above=True)),
    )
)  # fmt: skip
MOST_NAME = 80
SALT_CAUTIONS = (
    "Sturgeon, loaches, catfish and orfe bear less salt than carp; snails, mussels and most plants "
    "suffer early, a planted bog too. Common practice, no source.",
    "Dissolve it in pond water first, in three parts over a day or two, and measure in between. "
    "Take salt without iodine or anything against caking.",
)
LABEL_CAUTIONS = (
    "Never more than the label, nor two products at once. What has copper in it kills snails, "
    "mussels and crayfish; sturgeon and orfe bear fewer medicines than carp. Common practice, no "
    "source.",
    "Turn off the UV lamp, aerate, and watch the fish for the first hours. Sick fish belong to a "
    "vet who knows fish: some medicines need a prescription.",
)


def _volume(found: PondVolume, system: str) -> ft.Control:
    """By how much water the dose goes, and how well that is known."""
    span = units.show_range(found.span.low, found.span.high, "volume", system, 3)
    if found.doubted:
        told = t("The measured volume, with its doubt")
    elif found.measured:
        told = t("The measured volume; how far it may be off was not entered and is assumed.")
    else:
        told = t("The volume was not measured: so far off is assumed. Measured by salt or by a "
                 "meter it is surer.")  # fmt: skip
    return layout.fact(t("The pond holds"), span, told)


def _to_measure(pond: Pond) -> list[ft.Control]:
    """The way to a better volume, where it is not measured or hardly known."""
    try:
        known = volume_span(worked_now(pond)).measured
    except PondError:
        known = False
    button = layout.quiet_button(t("Measure the volume"), go(f"/pond/{pond.id}/water"))
    return [] if known else [button]


def _salt(
    pond: Pond, texts: Texts, system: str, now: SaltNow
) -> tuple[Dose | None, str, list[ft.Control]]:
    read = FORM.read(texts, system, only=("salt_now", "salt_wanted")).values
    if "salt_wanted" not in read:
        return None, "", [layout.body(t("How much salt is the water to hold?"))]
    if now.unsure and "salt_now" not in read:
        return None, "", [severity.row("unknown", units.tell(now.unsure, system))]
    found = salt_for(worked_now(pond), read.get("salt_now", 0.0), read["salt_wanted"])
    if found.withheld:  # no amount to weigh out, and none to enter in the log
        return None, "", _remarks("danger", found, system)
    first = units.show(found.amount.low, "mass", system)
    more = units.show_range(found.amount.likely, found.amount.high, "mass", system)
    told = t("Enough if the pond holds the least. Measure, then go on with what is missing: {more} "
             "in all is likely.", more=more)  # fmt: skip
    return found, first, [layout.fact(t("Weigh out"), first, told)]


def _remarks(level: Severity, found: Dose, system: str) -> list[ft.Control]:
    """What to mind before it goes in."""
    return [severity.row(level, layout.sentence(units.tell(one, system))) for one in found.remarks]


def dose_text(amount: float, unit: str) -> str:
    """So much in the unit of the label, and in millilitres where that is another."""
    name = t(IN_TEXT.get(unit, dict(IN_DOSE)[unit]))
    amount = measured_out(amount, unit)
    if not amount:
        return t("less than can be measured out")
    digits = 7 if unit in ("drop", "tablet") else 3  # what is counted is never rounded up
    text = f"{units.readable(amount, digits)} {name}"
    if unit in MILLILITRES:
        text = t("{amount} ({volume} mL)", amount=text,
                 volume=units.readable(amount * MILLILITRES[unit]))  # fmt: skip
    return text


def _label(pond: Pond, texts: Texts, system: str) -> tuple[Dose | None, str, list[ft.Control]]:
    read = FORM.read(texts, system, only=("dose", "per")).values
    if len(read) < 2:
        ask = t("Enter what the label says, and for how much water.")
        return None, "", [layout.body(ask)]
    water, unit = _units(texts, system)
    found = dose_for(worked_now(pond), read["dose"], read["per"], water, unit)
    if found.withheld:
        return None, "", _remarks("wrong", found, system)
    amount = dose_text(found.amount.low, unit)
    told = t("Never more than the label, even if the pond holds the least. For the likely volume "
             "it would be {likely}.", likely=dose_text(found.amount.likely, unit))  # fmt: skip
    lines: list[ft.Control] = [layout.fact(t("Put in"), amount, told)]
    if found.other is not None:
        lines.append(gallon_hint(water, found.other, unit))
    return found, amount, lines


def gallon_hint(water: str, other: float, unit: str) -> ft.Control:
    """What the dose is, if the label means the other gallon than the one it was read in."""
    dose = dose_text(other, unit)
    return layout.small(
        t("A US gallon is a sixth less than an imperial one: if the label means imperial gallons, "
          "it is {dose}.", dose=dose)
        if water == "usgal"
        else t("An imperial gallon is a fifth more than a US one: if the label means US gallons, "
               "it is {dose}.", dose=dose)
    )  # fmt: skip


def _units(texts: Texts, system: str) -> tuple[str, str]:
    """What the label counts water and its dose in."""
    water, unit = texts.get("in_water", USUAL[system]), texts.get("in_dose", "ml")
    return (
        water if water in WATER_UNITS else USUAL[system],
        unit if unit in dict(IN_DOSE) else "ml",
    )


def _asked(typed: Typed, texts: Texts, what: str, errors: dict[str, str], system: str,
           now: SaltNow) -> list[ft.Control]:  # fmt: skip
    lines: list[ft.Control] = [
        layout.choice(t("What goes in"), layout.worded(WHAT), what, typed.note("what"))
    ]
    if what == SALT:
        helper = t("Not known: measure it first") if now.unsure else None
        if now.tested is not None:
            helper = t("As tested last")
        begin = texts.get("salt_now", "")
        lines.append(
            layout.pairs(
                [
                    FORM.draw(typed, "salt_now", errors, begin=begin, helper=helper),
                    FORM.draw(typed, "salt_wanted", errors),
                ]
            )
        )
        return lines
    water, unit = _units(texts, system)
    error = errors.get("name")
    return [
        *lines,
        fields.text_field(t("Its name"), texts.get("name", ""), typed.note("name"), error=error),
        FORM.draw(typed, "dose", errors),
        layout.choice(t("The dose is in"), layout.worded(IN_DOSE), unit, typed.note("in_dose"),
                      in_rows=True),
        FORM.draw(typed, "per", errors),
        layout.choice(t("The water is in"), layout.worded(IN_WATER), water,
                      typed.note("in_water")),
    ]  # fmt: skip


def _screen(pond: Pond, typed: Typed, now: SaltNow, system: str) -> ft.Control:
    begin = FORM.write({"salt_now": now.tested}, system)
    texts = {**begin, **typed.texts}
    what = LABEL if texts.get("what") == LABEL else SALT
    errors = FORM.read(texts, system).errors
    name = texts.get("name", "").strip()
    if len(name) > MOST_NAME:
        errors["name"] = t("Write at most {most} letters", most=MOST_NAME)
    found, amount, lines = None, "", [
        layout.body(t("Correct what is marked, and the answer is back."))
    ]  # fmt: skip
    try:
        if not errors:
            found, amount, lines = (
                _salt(pond, texts, system, now) if what == SALT else _label(pond, texts, system)
            )
    except PondError as problem:
        lines = [severity.row("wrong", units.explain(problem, system))]
    answer: list[ft.Control] = []
    if found is not None:
        told = _remarks("wrong", found, system)
        region = layout.column([*told, layout.card([*lines, _volume(found.volume, system)],
                                                   strong=True)])  # fmt: skip
        steps = found.steps
        answer += [
            ft.Semantics(live_region=True, content=region),
            layout.card([ShowWorking(t("this dose"), lambda: steps, system)]),
        ]
    else:
        answer += lines
    answer += _to_measure(pond)

    async def enter(_: Any) -> None:
        if found is None:
            return
        title = t("Salt") if what == SALT else name
        dose = stored.Dose(what=title, amount=amount)
        entry = stored.Entry(id=new_id(), pond_id=pond.id, when=datetime.now(UTC), what=dose)
        await save_item(entry, None)
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond.id}/log")

    ready = found is not None and (what == SALT or bool(name))
    if found is not None and not ready:
        answer.append(layout.small(t("The log needs its name.")))
    answer.append(layout.main_button(t("Enter this dose in the log"), enter, disabled=not ready))
    answer += [
        layout.caution(t(SALT_CAUTIONS[0] if what == SALT else LABEL_CAUTIONS[0])),
        layout.small(t(SALT_CAUTIONS[1] if what == SALT else LABEL_CAUTIONS[1])),
        cautions.dosing(),
    ]
    if what == LABEL:
        answer += [
            layout.small(t("Against chlorine this may be too little, since the least water is "
                           "counted: a water change counts what goes in.")),
            layout.second_button(t("Work out a water change"), go(f"/pond/{pond.id}/log/change")),
        ]  # fmt: skip
    controls = _asked(typed, texts, what, errors, system, now)
    return layout.screen(f"/pond/{pond.id}/log/dose", t("Salt and doses"), controls, second=answer)


@ft.component
def DosePage() -> Any:
    """What the label says in; what goes into this pond out."""
    session = session_now()
    pond = use_pond()
    typed = use_draft(draft_name("dose", pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()

    def screen() -> ft.Control:
        log = session.logs.items_of(pond.id)
        now = salt_now(water_now(pond, log, datetime.now(UTC)), log)
        return _screen(pond, typed, now, session.system)

    return shown(f"/pond/{pond.id}/log/dose", t("Salt and doses"), screen, session.system)
