"""What to do now, by the water's temperature and the season where the pond is."""

from datetime import UTC, datetime
from typing import Any, Literal

import flet as ft

from pondapp import units
from pondapp.answers.care.due import days_text
from pondapp.answers.keeping.season import Part, Season, SeasonLine, season_of, what_to_do
from pondapp.answers.keeping.water_now import WaterNow, water_now
from pondapp.answers.log.dates import day_text, local
from pondapp.models.base import Limits
from pondapp.models.entry import Entry, WorkDone
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.keeping.answered import answered, shown
from pondapp.ui.log.entry import save_item
from pondapp.ui.parts import cautions, layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.working import source_text
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

Half = Literal["north", "south"]
HALVES: tuple[tuple[Half, str], ...] = (
    ("north", "North of the equator"),
    ("south", "South of the equator"),
)
SEASONS: dict[Season, str] = {
    "spring": "Spring",
    "summer": "Summer",
    "autumn": "Autumn",
    "winter": "Winter",
}
MARKS: dict[Part, ft.IconData] = {
    "feed": ft.Icons.RESTAURANT_OUTLINED,
    "air": ft.Icons.AIR,
    "pump": ft.Icons.CYCLONE,
    "ice": ft.Icons.AC_UNIT,
    "net": ft.Icons.GRID_ON,
    "plants": ft.Icons.GRASS,
    "lamp": ft.Icons.LIGHTBULB_OUTLINED,
    "filter": ft.Icons.FILTER_ALT_OUTLINED,
}
ICE = "ice over a pond does not carry. Keep children away from it."
FORM = Form((QuantityField("warmth", "Water", "temperature", Limits(273.15, 313.15), needed=True),))


def _where(pond: Pond) -> ft.Control:
    """The half of the earth: asked once, kept with the pond, and changed here."""

    async def choose(value: str) -> None:
        half: Half = "south" if value == "south" else "north"
        changed = pond.model_copy(update={"hemisphere": half})
        await save_change(changed, t("Where the pond is, is saved."))

    def chosen(value: str) -> None:
        ft.context.page.run_task(choose, value)

    def asked() -> ft.Control:
        return layout.choice(t("Where is the pond?"), layout.worded(HALVES),
                             pond.hemisphere or "", chosen)  # fmt: skip

    if pond.hemisphere is None:
        return asked()
    folded: ft.Control = fold("where", t(dict(HALVES)[pond.hemisphere]), lambda: [asked()])
    return folded


def _line(pond: Pond, line: SeasonLine, system: str) -> ft.Control:
    """What to do, why, by whose rule, and the tick for the log."""

    async def done(_: Any) -> None:
        work = WorkDone(what=t(line.title), job=line.job)
        entry = Entry(id=new_id(), pond_id=pond.id, when=datetime.now(UTC), what=work)
        await save_item(entry, None)

    words = layout.sentence(units.tell(line.sentence, system))
    ink = ft.Colors.PRIMARY if line.now else ft.Colors.ON_SURFACE_VARIANT
    head = ft.Row(
        [
            ft.Icon(MARKS[line.part], size=theme.drawn(theme.TITLE), color=ink),
            written(words, size=theme.BODY, expand=True,
                    weight=ft.FontWeight.W_600 if line.now and not line.done else None),
        ],
        spacing=theme.GAP,
        vertical_alignment=ft.CrossAxisAlignment.START,
    )  # fmt: skip
    why = f"{units.tell(line.reason, system)} {source_text(line.source)}"
    also = [layout.body(layout.sentence(units.tell(one, system))) for one in line.also]
    parts: list[ft.Control] = [head, *also, layout.small(why)]
    if line.done:
        parts.append(layout.body(t("Done: {what}", what=day_text(line.done))))
    elif line.job:
        parts.append(layout.second_button(t("Done: {what}", what=t(line.title)), done))
    return layout.card(parts)


def _answer(pond: Pond, warmth: float, half: Half, system: str) -> list[ft.Control]:
    now = datetime.now(UTC)
    season = season_of(local(now).date(), south=half == "south")
    log = session_now().logs.items_of(pond.id)
    lines = what_to_do(worked_now(pond), log, warmth, season, now)
    told: list[ft.Control] = []
    for line in lines:
        if line.now:
            told.append(_line(pond, line, system))
            if line.part == "ice":
                told.append(layout.caution(t(ICE)))
    waits = [_line(pond, line, system) for line in lines if not line.now]
    found = [layout.heading(t(SEASONS[season])), *told, cautions.mains()]
    if waits:
        found.append(fold("waits", t("What can wait"), lambda: waits))
    return found


def _tested(now: WaterNow) -> str:
    if not now.tested:
        return t("Not tested lately: measure it, and type it here")
    days = (datetime.now(UTC) - now.read_at["temperature"]).days
    if not days:
        return t("By the water test of today")
    return t("By the water test of {age} ago", age=days_text(days))


def _screen(pond: Pond, typed: Typed, now: WaterNow, system: str) -> ft.Control:
    begin = FORM.write({"warmth": now.temperature if now.tested else None}, system)
    read = FORM.read({**begin, **typed.texts}, system)
    controls = [
        FORM.draw(typed, "warmth", read.errors, begin=begin.get("warmth", ""), helper=_tested(now)),
        _where(pond),
    ]
    half = pond.hemisphere

    def work_out() -> list[ft.Control]:
        if read.missing or half is None:
            told = t("The water's temperature and the half of the earth give the answer.")
            return [layout.body(told)]
        return _answer(pond, read.values["warmth"], half, system)

    answer = answered(read.errors, work_out, system)
    answer.append(
        layout.links(
            [
                (t("Reminders and calendar"), go(f"/pond/{pond.id}/log/due")),
                (t("Change the rules"), go(f"/pond/{pond.id}/rules")),
            ]
        )
    )
    return layout.screen(
        f"/pond/{pond.id}/log/season", t("What to do now"), controls, second=answer
    )


@ft.component
def SeasonPage() -> Any:
    """The water's temperature in; what to do now, and why, out."""
    session = session_now()
    pond = use_pond()
    typed = use_draft(draft_name("season", pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()

    def screen() -> ft.Control:
        now = water_now(pond, session.logs.items_of(pond.id), datetime.now(UTC))
        return _screen(pond, typed, now, session.system)

    return shown(f"/pond/{pond.id}/log/season", t("What to do now"), screen, session.system)
