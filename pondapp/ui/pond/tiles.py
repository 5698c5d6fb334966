"""Tiles on a pond's screen: its water, its last test, the pump against new, a month's cost."""

from datetime import UTC, datetime

import flet as ft

from pondapp import units
from pondapp.answers.care.due import days_text
from pondapp.answers.care.glance import days_since, last_water_test, pump_against_new
from pondapp.answers.log.dates import day_text
from pondapp.answers.log.log import moment
from pondapp.answers.planning.steps import water_held
from pondapp.answers.pumps.running_costs import running_costs
from pondapp.answers.rules.beyond import beyond_volume
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.money import price_text, whose_money
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

MONTHS = 12.0


def _tile(mark: ft.IconData, title: str, value: str, remark: str, route: str) -> ft.Control:
    """What is asked, its answer, and where that comes from; it opens the screen about it."""
    lines: list[ft.Control] = [
        layout.small(title),
        written(value, size=theme.BODY + 1, weight=ft.FontWeight.W_600, color=ft.Colors.ON_SURFACE),
    ]
    if remark:
        lines.append(layout.small(remark))
    icon = ft.Icon(mark, size=theme.drawn(theme.TITLE), color=ft.Colors.PRIMARY)
    return layout.marked_button(icon, lines, go(route))


def _water(pond: Pond, system: str) -> ft.Control:
    worked = worked_now(pond)
    value = units.tell(water_held(worked), system)
    beyond = beyond_volume(worked.targets.volume, worked.rules)
    remark = units.tell(beyond, system) if beyond else ""
    return _tile(
        ft.Icons.WATER_DROP_OUTLINED, t("The pond holds"), value, remark, f"/pond/{pond.id}/water"
    )


def _test(pond: Pond, now: datetime) -> ft.Control:
    found = last_water_test(session_now().logs.items_of(pond.id), now)
    title, log = t("Last water test"), f"/pond/{pond.id}/log"
    if found is None:
        return _tile(
            ft.Icons.SCIENCE_OUTLINED, title, t("Never tested"), "", f"{log}/new-water_test"
        )
    days = days_since(found, now)
    age = t("{age} old", age=days_text(days)) if days else t("Less than a day old")
    day = day_text(moment(found))
    return _tile(ft.Icons.SCIENCE_OUTLINED, title, day, age, f"{log}/{found.id}")


def _pump(pond: Pond, now: datetime, system: str) -> ft.Control:
    log = session_now().logs.items_of(pond.id)
    found = pump_against_new(worked_now(pond), log, now)
    value = layout.sentence(units.tell(found.sentence, system))
    word = severity.word(found.severity) if found.severity != "unknown" else ""
    mark = severity.MARKS[found.severity]
    return _tile(mark, t("Pump compared with new"), value, word, f"/pond/{pond.id}/health")


def _month(pond: Pond, system: str) -> ft.Control:
    found = running_costs(worked_now(pond))
    title, route = t("Electricity a month"), f"/pond/{pond.id}/costs"
    if found.per_year is None:
        why = layout.sentence(units.tell(found.missing[0], system))
        return _tile(ft.Icons.PAYMENTS_OUTLINED, title, why, "", f"/pond/{pond.id}/pumps")
    value = units.about_money(found.per_year / MONTHS)
    at = layout.sentence(t("at {price}", price=price_text(pond, system)))
    basis = f"{at} {whose_money()}".strip()
    if found.beyond:
        basis = f"{basis} {units.tell(found.beyond, system)}"
    return _tile(ft.Icons.PAYMENTS_OUTLINED, title, value, basis, route)


def tiles(pond: Pond, system: str) -> list[ft.Control]:
    """All four; nothing while the log is being read, or while the pond's numbers cannot be."""
    if not session_now().logs.is_read(pond.id):
        return []
    now = datetime.now(UTC)
    try:
        found = [
            _water(pond, system), _test(pond, now), _pump(pond, now, system), _month(pond, system)
        ]  # fmt: skip
    except PondError:  # what is wrong is told above
        return []
    return [layout.tile(found)]
