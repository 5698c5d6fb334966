"""Charts of a log: the flow of a place against its band, or a value of the water."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.log.charts import (
    FULLNESS,
    TOXIC,
    ChartData,
    flow_chart,
    places_in,
    start_of,
    values_read,
    wanted_at,
    water_chart,
)
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.log.log_names import WATER_VALUES
from pondapp.answers.log.trend import place_trend
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.log.chart import LogChart, value_line
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import rules_at
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

PERIODS: tuple[tuple[str, str, int | None], ...] = (
    ("quarter", "3 months", 92),
    ("year", "1 year", 366),
    ("all", "All", None),
)
WORKED_OUT = {
    TOXIC: ("Toxic ammonia", "concentration"),
    FULLNESS: ("Oxygen, share of what the water can hold", "share"),
}
FLOW = "flow:"
LAST_ROWS = 8


def options_in(log: list[LogItem]) -> dict[str, str]:
    """What can be shown, and how it is called."""
    names = {key: value[0] for key, value in WATER_VALUES.items()}
    names |= {key: value[0] for key, value in WORKED_OUT.items()}
    return {
        **{
            f"{FLOW}{key}": t("Flow at {place}", place=name) for key, name in places_in(log).items()
        },
        **{key: t(names[key]) for key in values_read(log)},
    }


def kind_of(key: str) -> str:
    """The kind of quantity that is shown."""
    if key.startswith(FLOW):
        return "flow"
    return WORKED_OUT[key][1] if key in WORKED_OUT else WATER_VALUES[key][1]


def data_of(pond: Pond, key: str, log: list[LogItem], days: int | None) -> ChartData:
    """What is drawn; PondError where the pond's numbers cannot be."""
    start = start_of(days, datetime.now(UTC))
    if key.startswith(FLOW):
        return flow_chart(worked_now(pond), key.removeprefix(FLOW), log, start)
    return water_chart(pond, key, log, start)


def trend_card(pond: Pond, key: str, title: str, log: list[LogItem], system: str) -> ft.Control:
    """The trend since the last cleaning, in words, with its working."""
    place_id = key.removeprefix(FLOW)
    now = datetime.now(UTC)
    past = until(log, now)
    wanted = wanted_at(worked_now(pond), place_id, past)
    found = place_trend(pond, place_id, title, wanted, past, now)
    lines: list[ft.Control] = [layout.heading(t("Since the last cleaning"))]
    lines += [layout.body(layout.sentence(units.tell(one, system))) for one in found.sentences]
    if found.steps:
        lines.append(ShowWorking(t("trend"), lambda: found.steps, system))
    return layout.card(lines, strong=True)


def chart_controls(
    pond: Pond, key: str, title: str, log: list[LogItem], days: int | None, system: str
) -> list[ft.Control]:
    """Chart, trend and table of one thing."""
    kind = kind_of(key)
    data = data_of(pond, key, log, days)
    if not data.points:
        return [layout.body(t("Nothing was read in this time."))]

    def show(value: float) -> str:
        return units.show(value, kind, system)

    last = data.points[-LAST_ROWS:][::-1]
    found: list[ft.Control] = [
        layout.card(
            [
                LogChart(
                    title, units.unit_for(kind, system), data,
                    lambda value: units.value_in(value, kind, system), show,
                    from_nothing=kind in ("flow", "concentration", "share", "salt"),
                )
            ]
        )
    ]  # fmt: skip
    if key.startswith(FLOW):
        found.append(trend_card(pond, key, title, log, system))
    values: list[ft.Control] = [layout.heading(t("Last values"))]
    if any(point.low != point.high for point in last):
        holds = units.show(rules_at(pond.id).coverage, "share", system)
        values.append(layout.small(t("In brackets: the {share} interval.", share=holds)))
    found.append(layout.card([*values, *[value_line(point, show) for point in last]]))
    return found


@ft.component
def ChartsPage() -> Any:
    """One chart at a time, chosen above it."""
    session = session_now()
    system = session.system
    pond = use_pond()
    chosen, choose = ft.use_state("")
    period, set_period = ft.use_state("year")
    if pond is None:
        return layout.no_pond()
    here = f"/pond/{pond.id}/log/charts"
    log = session.logs.items_of(pond.id)
    options = options_in(log)
    if not options:
        lines = [layout.body(t("Reading the log."))]
        if session.logs.is_read(pond.id):
            lines = [
                layout.body(t("A chart needs a flow reading or a water test.")),
                layout.main_button(t("Add to the log"), go(f"/pond/{pond.id}/log/new")),
            ]
        return layout.screen(here, t("Charts and trends"), lines)
    key = chosen if chosen in options else next(iter(options))
    days = next(days for name, _, days in PERIODS if name == period)
    controls: list[ft.Control] = [
        fold(
            "what",
            t("Chart: {what}", what=options[key]),
            lambda: [
                layout.choice(t("Show"), list(options.items()), key, choose),
            ],
        ),
        layout.choice(
            t("Time"), [(name, t(text)) for name, text, _ in PERIODS], period, set_period,
            in_rows=True,
        ),
    ]  # fmt: skip
    try:
        controls += chart_controls(pond, key, options[key], log, days, system)
    except PondError as problem:
        controls.append(layout.caution(units.explain(problem, system)))
    return layout.screen(here, t("Charts and trends"), controls)
