"""A pump that stands still: what to do first, how long the oxygen and the filter last."""

from datetime import UTC, datetime
from math import inf
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.keeping.evaporation import open_water
from pondapp.answers.keeping.pump_off import PumpOff, pump_off
from pondapp.answers.keeping.water_now import WaterNow, water_now
from pondapp.models.base import Limits, limits_of
from pondapp.models.entry import WaterTest
from pondapp.models.pond import Pond
from pondapp.ui.keeping.answered import answered, shown
from pondapp.ui.keeping.water_change import warmth_told
from pondapp.ui.parts import cautions, layout, severity
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

FORM = Form(
    (
        QuantityField("warmth", "Water", "temperature", Limits(273.15, 313.15), needed=True),
        QuantityField("oxygen", "Oxygen now", "concentration", limits_of(WaterTest, "oxygen_kg_m3"),
                      "If you can measure it"),
        QuantityField("open", "Open water", "area", Limits(0.0, 1e5, above=True)),
    )
)  # fmt: skip
FIRST = (
    "Bring in air: an air pump on a battery, or scoop water up and let it fall, again and again.",
    "Stop feeding until a day after the pump runs again.",
    "Look at the plug, the RCD/GFCI and the inlet; the log tells when it ran last.",
    "Keep the filter's media wet with pond water and open to the air.",
)
RESTART = (
    "After longer than that, let the water in the filter run to waste before it meets the fish, "
    "and test ammonia and nitrite for some weeks."
)


def _span(times: tuple[float, float, float], system: str) -> str:
    """From soonest to latest; what never comes is said."""
    low, likely, high = times
    if low == inf:
        return t("not at all, as far as is known")
    if high <= 0.0:
        return t("Now")
    least = units.show_amount(low, "s", system, 2) if low else t("now")
    if high == inf:
        return t("{least} at the soonest, or not at all", least=least)
    most = units.show_amount(high, "s", system, 2)
    middle = units.show_amount(likely, "s", system, 2) if likely else t("now")
    return t("{least} to {most}, likely {middle}", least=least, most=most, middle=middle)


def _answer(found: PumpOff, fish: bool, system: str) -> list[ft.Control]:
    facts: list[ft.Control] = []
    if fish:  # what says "not at all" of fish that nobody entered would calm where it may not
        facts += [
            layout.fact(t("Less oxygen than fish should have"), _span(found.worry, system)),
            layout.fact(t("Danger for the fish"), _span(found.danger, system)),
        ]
    if found.filter_suffers is not None:
        time = units.show_amount(found.filter_suffers, "s", system)
        why = t("{why} Common practice, no source.", why=t(RESTART))
        facts.append(layout.fact(t("The filter's bacteria suffer after"), time, why))
    facts += [layout.small(units.tell(one, system)) for one in found.remarks]
    told = severity.card(found.severity, units.tell(found.verdict, system), facts)
    return [
        ft.Semantics(live_region=True, content=told),
        layout.card([ShowWorking(t("the oxygen"), lambda: found.steps, system)]),
    ]


def _screen(pond: Pond, typed: Typed, now: WaterNow, system: str) -> ft.Control:
    begin = FORM.write({"warmth": now.temperature, "open": open_water(pond)}, system)
    texts = {**begin, **typed.texts}
    read = FORM.read(texts, system)
    told = {"warmth": warmth_told(now)}
    controls: list[ft.Control] = [
        layout.card(
            [layout.heading(t("First")), *[layout.body(f"• {t(line)}") for line in FIRST]]
        ),
        cautions.mains(),
        layout.pairs(
            [FORM.draw(typed, one.key, read.errors, begin=texts.get(one.key, ""),
                       helper=told.get(one.key))
             for one in FORM.fields]
        ),
    ]  # fmt: skip

    def work_out() -> list[ft.Control]:
        if read.missing:
            return [layout.body(t("The water's temperature gives the answer."))]
        values = read.values
        found = pump_off(worked_now(pond), temperature=values["warmth"],
                         oxygen=values.get("oxygen"), area=values.get("open"))  # fmt: skip
        return _answer(found, bool(pond.fish), system)

    answer = answered(read.errors, work_out, system)
    if not pond.fish:
        answer.append(layout.second_button(t("Enter the fish"), go(f"/pond/{pond.id}/fish")))
    route = f"/pond/{pond.id}/log/pump-off"
    return layout.screen(route, t("Pump off"), controls, second=answer)


@ft.component
def PumpOffPage() -> Any:
    """The pond as it is in; how long it bears still water out."""
    session = session_now()
    pond = use_pond()
    typed = use_draft(draft_name("pump_off", pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()

    def screen() -> ft.Control:
        now = water_now(pond, session.logs.items_of(pond.id), datetime.now(UTC))
        return _screen(pond, typed, now, session.system)

    return shown(f"/pond/{pond.id}/log/pump-off", t("Pump off"), screen, session.system)
