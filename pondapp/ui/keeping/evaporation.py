"""What a hot week takes of a pond, and whether the rest is a leak."""

from functools import partial
from typing import Any, cast, get_args

import flet as ft

from pondapp import units
from pondapp.answers.keeping.evaporation import (
    Stands,
    WeekLoss,
    Wind,
    beside_the_pond,
    has_falls,
    leak,
    open_water,
    warm_week,
    week_loss,
)
from pondapp.core.base.constants import DAY, HOUR
from pondapp.models.base import Limits
from pondapp.models.pond import Pond
from pondapp.ui.keeping.answered import answered, shown
from pondapp.ui.keeping.water_change import HOSE, hose_flow
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.form import Form, QuantityField, Texts
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

WEEK, LEAK = "week", "leak"
ASKED = ((WEEK, "What a hot week takes"), (LEAK, "Is it a leak?"))
WINDS: tuple[tuple[Wind, str], ...] = (
    ("unknown", "I do not know"),
    ("sheltered", "Sheltered"),
    ("some", "Some wind"),
    ("open", "Open and windy"),
)
STANDS: tuple[tuple[Stands, str], ...] = (
    ("in", "In the pond, on a shelf"),
    ("beside", "Beside the pond, in the same sun"),
)
DRIEST = 0.05  # of the driest deserts: less is a share that was typed without its per cent
FALL = Limits(0.0, 0.5)
OF_WEEK = ("water_warmth", "air", "humidity", "area", "hose")
OF_LEAK = ("drop", "bucket", "hours", "level")
"""Without the area: it is asked in the other question, and only makes an answer fuller here."""
FORM = Form(
    (
        QuantityField("water_warmth", "Water", "temperature", Limits(273.15, 313.15), needed=True),
        QuantityField("air", "Air", "temperature", Limits(253.15, 323.15),
                      "Mean of day and night", needed=True),
        QuantityField("humidity", "Humidity of the air", "share", Limits(DRIEST, 1.0)),
        QuantityField("area", "Open water", "area", Limits(0.0, 1e5, above=True),
                      needed=True),
        HOSE,
        QuantityField("drop", "The pond fell by", "small", FALL, needed=True),
        QuantityField("bucket", "The bucket fell by", "small", FALL, needed=True),
        QuantityField("hours", "In so many hours", "hours", Limits(HOUR, 30.0 * DAY),
                      needed=True),
        QuantityField("level", "Read to within", "small", Limits(1e-4, 0.05)),
    )
)  # fmt: skip
HOW_TO = (
    "Fill a bucket with pond water, weigh it down with stones and stand it on a shelf, so that it "
    "is as warm as the pond. Mark the level of both, outside and inside. Read both again after a "
    "night or more without rain and without topping up."
)


def _begin(pond: Pond, system: str) -> Texts:
    """What the fields begin with: the warmest week, the pond as it is drawn, the hose as timed."""
    warm = warm_week(pond, worked_now(pond).rules)
    own = open_water(pond)
    area = None if own is None else own + beside_the_pond(pond)
    known = {"water_warmth": warm, "air": warm, "area": area, "hose": hose_flow()}
    return FORM.write(known, system)


def _field(
    typed: Typed, texts: Texts, errors: dict[str, str], key: str, helper: str | None = None
) -> ft.Control:
    """A field that begins with what is known of the pond."""
    return FORM.draw(typed, key, errors, begin=texts.get(key, ""), helper=helper)


def _of_week(
    typed: Typed, texts: Texts, errors: dict[str, str], falls: str | None
) -> list[ft.Control]:
    drawn = partial(_field, typed, texts, errors)
    wind = texts.get("wind", "unknown")
    return [
        layout.pairs([drawn("water_warmth", t("Of the warmest week")), drawn("air")]),
        layout.choice(t("Wind over the water"), layout.worded(WINDS), wind, typed.note("wind"),
                      in_rows=True),
        layout.pairs([drawn("humidity", t("If you know it")), drawn("area", falls)]),
        drawn("hose"),
    ]  # fmt: skip


def _of_leak(typed: Typed, texts: Texts, errors: dict[str, str], off: str) -> list[ft.Control]:
    drawn = partial(_field, typed, texts, errors)
    return [
        layout.small(t(HOW_TO)),
        layout.choice(t("Where the bucket stood"), layout.worded(STANDS),
                      texts.get("stands", "in"), typed.note("stands")),
        layout.pairs([drawn("drop"), drawn("bucket")]),
        layout.pairs([drawn("hours"), drawn("level", t("If empty: {off}", off=off))]),
    ]  # fmt: skip


def _of_area(pond: Pond, system: str) -> str | None:
    """What the open water is to hold beside the pond's own."""
    told = []
    if beside := beside_the_pond(pond):
        told.append(t("With the stream's {area}", area=units.show(beside, "area", system)))
    if has_falls(pond):
        told.append(t("With what the falls wet: width times height"))
    return ". ".join(told) or None


def _week_facts(found: WeekLoss, system: str) -> list[ft.Control]:
    said: list[ft.Control] = [
        layout.small(layout.sentence(units.tell(one, system))) for one in found.remarks
    ]
    doubt: list[ft.Control] = [layout.body(units.tell(one, system)) for one in found.doubt]
    if found.dew:
        return [*doubt, layout.fact(t("In a week"), t("nothing")), *said]
    fall = units.show_range(found.fall.low, found.fall.high, "small", system)
    week = units.show_range(found.week.low, found.week.high, "volume", system)
    share = units.show(found.share, "share", system, 2)
    likely = units.show(found.week.likely, "volume", system, 2)
    facts = [
        layout.fact(t("In a week"), week,
                    t("Likely {likely}, {share} of the pond", likely=likely, share=share)),
        layout.fact(t("The level falls in a day"), fall),
    ]  # fmt: skip
    if found.top_up is not None:
        time = units.show_amount(found.top_up, "s", system, 2)
        facts.append(layout.fact(t("The hose runs in a week"), time))
    return [*doubt, *facts, *said]


def _week(pond: Pond, texts: Texts, system: str) -> list[ft.Control]:
    read = FORM.read(texts, system, only=OF_WEEK)
    if not read.whole:
        return [layout.body(t("Temperatures and the area of open water give the answer."))]
    values, wind = read.values, texts.get("wind", "unknown")
    found = week_loss(
        worked_now(pond), water=values["water_warmth"], air=values["air"],
        humidity=values.get("humidity"), area=values["area"], hose=values.get("hose"),
        wind=cast(Wind, wind) if wind in get_args(Wind) else "unknown",
    )  # fmt: skip
    region = layout.card(_week_facts(found, system), strong=True)
    lines: list[ft.Control] = [
        ft.Semantics(live_region=True, content=region),
        layout.card([ShowWorking(t("what the air takes"), lambda: found.steps, system)]),
        layout.small(t("Only water goes into the air: salt and hardness stay behind. Tap water for "
                       "topping up needs something against chlorine too.")),
        layout.second_button(t("Work out a water change"), go(f"/pond/{pond.id}/log/change")),
    ]  # fmt: skip
    return lines


def _leak(pond: Pond, texts: Texts, system: str) -> list[ft.Control]:
    read = FORM.read(texts, system, only=OF_LEAK)
    if not read.whole:
        return [layout.body(t("Both falls and the time give the answer."))]
    values, stands = read.values, texts.get("stands", "in")
    area = FORM.read(texts, system, only=("area",)).values.get("area")
    found = leak(
        worked_now(pond), drop=values["drop"], bucket=values["bucket"], time=values["hours"],
        level=values.get("level"), area=area,
        stands=cast(Stands, stands) if stands in get_args(Stands) else "in",
    )  # fmt: skip
    below: list[ft.Control] = [layout.body(units.tell(one, system)) for one in found.advice]
    told = severity.card(found.severity, units.tell(found.verdict, system), below)
    return [
        ft.Semantics(live_region=True, content=told),
        layout.card([ShowWorking(t("this test"), lambda: found.steps, system)]),
    ]


def _screen(pond: Pond, typed: Typed, system: str) -> ft.Control:
    texts = {**_begin(pond, system), **typed.texts}
    what = LEAK if texts.get("what") == LEAK else WEEK
    errors = FORM.read(texts, system, only=OF_LEAK if what == LEAK else OF_WEEK).errors
    controls: list[ft.Control] = [
        layout.choice(t("What do you ask?"), layout.worded(ASKED), what, typed.note("what"))
    ]
    off = units.show(worked_now(pond).rules.stock.level_tolerance, "small", system)
    if what == LEAK:
        controls += _of_leak(typed, texts, errors, off)
    else:
        controls += _of_week(typed, texts, errors, _of_area(pond, system))
    ask = _leak if what == LEAK else _week
    answer = answered(errors, lambda: ask(pond, texts, system), system)
    route = f"/pond/{pond.id}/log/evaporation"
    return layout.screen(route, t("Evaporation and leaks"), controls, second=answer)


@ft.component
def EvaporationPage() -> Any:
    """The weather, or two marks, in; what the air takes, or a leak, out."""
    session = session_now()
    pond = use_pond()
    typed = use_draft(draft_name("evaporation", pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()
    return shown(f"/pond/{pond.id}/log/evaporation", t("Evaporation and leaks"),
                 lambda: _screen(pond, typed, session.system), session.system)  # fmt: skip
