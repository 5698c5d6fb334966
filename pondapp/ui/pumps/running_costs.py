"""What pumps and lamp cost to run: each by itself, all together, and what would save."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.pumps.running_costs import (
    LampCost,
    PumpCost,
    RunningCosts,
    Saving,
    running_costs,
    savings,
)
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.money import price_lines
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


def _whole(found: RunningCosts, system: str) -> list[ft.Control]:
    """The sum, or what it lacks; of a single pump its own card says it."""
    if found.per_year is None:
        lines = [layout.heading(t("Not known yet"))]
        lines += [layout.body(layout.sentence(units.tell(one, system))) for one in found.missing]
        return [layout.card(lines, strong=True)]
    if len(found.pumps) == 1 and found.lamp is None:
        return []
    energy = _energy(found.energy, system)
    cost = units.by_month_and_year(found.per_year)
    what = t("Electricity of all pumps") if found.lamp is None else t("Electricity of all of it")
    return [layout.card([layout.fact(what, cost, energy)], strong=True)]


def _energy(energy: float, system: str) -> str:
    return t("{energy} a year", energy=units.show(energy, "energy", system))


def _pump(one: PumpCost, system: str) -> ft.Control:
    watts = units.show(one.power, "power", system)
    hours = units.significant(one.line.hours_per_day)
    runs = t("{watts}, {hours} h a day", watts=watts, hours=hours)
    runs = f"{runs}, {_energy(one.energy, system)}"
    if one.answer.speed < 1.0:
        share = units.show(one.answer.speed, "share", system, 2)
        runs = f"{runs}. {t('Turned down to {share} of its speed.', share=share)}"
    lines = [layout.fact(one.pump.name, units.by_month_and_year(one.per_year), runs)]
    if one.beyond:
        lines.append(layout.small(units.tell(one.beyond, system)))
    return layout.card([*lines, ShowWorking(one.pump.name, one.steps, system)])


def _lamp(pond: Pond, one: LampCost, system: str) -> ft.Control:
    """The lamp that is kept with the pond; turned off in the cold it takes less."""
    watts = units.show(one.power, "power", system)
    runs = t("{watts}, {hours} h a day", watts=watts, hours=units.significant(24.0))
    runs = f"{runs}, {_energy(one.energy, system)}. {t('Less if it is off in cold water.')}"
    lines = [layout.fact(t("UV lamp"), units.by_month_and_year(one.per_year), runs),
             layout.aside(t("To the UV lamp"), go(f"/pond/{pond.id}/log/uv"))]  # fmt: skip
    return layout.card([*lines, ShowWorking(t("UV lamp"), lambda: one.steps, system)])


def _way(pond: Pond, one: Saving) -> tuple[str, str]:
    """Where a saving is made."""
    return {
        "pump": (t("To the pumps"), f"/pond/{pond.id}/pumps"),
        "plan": (t("To the flow plan"), f"/pond/{pond.id}/plan"),
        "pipe": (t("To the hoses"), f"/pond/{pond.id}/plumbing"),
    }[one.way]


def _saving(pond: Pond, one: Saving, system: str) -> ft.Control:
    saved = t("Saves {money} a year", money=units.about_money(one.low, one.high))
    notes = " ".join(layout.sentence(units.tell(note, system)) for note in one.notes)
    label, route = _way(pond, one)
    what = layout.sentence(units.tell(one.what, system))
    return layout.card([layout.fact(what, saved, notes), layout.aside(label, go(route))])


def _savings(pond: Pond, found: tuple[Saving, ...], system: str) -> list[ft.Control]:
    controls: list[ft.Control] = [layout.heading(t("What would save"))]
    controls += [_saving(pond, one, system) for one in found]
    if not found:
        controls.append(
            layout.body(
                t("Nothing that can be worked out here. Add pumps that you could buy, and they are "
                  "compared.")
            )
        )  # fmt: skip
    elif len(found) > 1:
        controls.append(layout.small(t("Each by itself: together they save less than the sum.")))
    return controls


@ft.component
def CostsPage() -> Any:
    """What a pond costs to run."""
    system = session_now().system
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    route, title = f"/pond/{pond.id}/costs", t("Running costs")
    try:
        worked = worked_now(pond)
        found = running_costs(worked)
        cheaper = savings(worked, found)
    except PondError as problem:
        return layout.screen(route, title, [layout.caution(units.explain(problem, system))])
    controls = [*_whole(found, system), *[_pump(one, system) for one in found.pumps]]
    if found.lamp is not None:
        controls.append(_lamp(pond, found.lamp, system))
    if not found.pumps:
        controls += price_lines(pond, system) if found.lamp else []
        controls.append(layout.main_button(t("To the pumps"), go(f"/pond/{pond.id}/pumps")))
        return layout.screen(route, title, controls)
    controls += price_lines(pond, system)
    return layout.screen(route, title, controls, second=_savings(pond, cheaper, system))
