"""A pond's Plan: the steps of building it, in order, each with how far it is."""

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.planning.steps import Part, State, Step, building_steps
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.pond import matters
from pondapp.ui.shell import places, theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import in_hand, use_turned
from pondapp.words import t, tn

# Each step, by the rest of the route of its screen.
TITLES: dict[Part, str] = {
    "water": "Water: shape and volume",
    "fish": "Fish, feed and oxygen",
    "things": "Filters, lips, jets",
    "path": "Change the water path",
    "plumbing": "Hose, lift and fittings",
    "pumps": "Pumps",
    "plan": "Flow plan",
    "tune": "Tune the valves",
    "shopping": "Shopping list",
}
MARKS: dict[State, ft.IconData] = {
    "done": ft.Icons.CHECK_CIRCLE,
    "open": ft.Icons.RADIO_BUTTON_UNCHECKED,
    "wrong": ft.Icons.ERROR_OUTLINE,
}
STATE_WORDS: dict[State, str] = {"done": "Done", "open": "Still open", "wrong": "Not right"}


def row(title: str, told: str, mark: ft.Control, on_click: layout.Click) -> ft.Control:
    """A screen to open: its name, and in a line below what is known of it."""
    words: list[ft.Control] = [
        written(title, size=theme.BODY, weight=ft.FontWeight.W_600, color=ft.Colors.ON_SURFACE)
    ]
    if told:
        words.append(layout.small(told))
    return layout.marked_button(mark, words, on_click)


def _mark(state: State) -> ft.Control:
    # What is not right has the colours that it has on every screen.
    ground, wrong = theme.SEVERITY["wrong"]
    inks = {"done": ft.Colors.PRIMARY, "open": ft.Colors.ON_SURFACE_VARIANT, "wrong": wrong}
    size = theme.drawn(theme.TITLE)
    mark = ft.Icon(
        MARKS[state], size=size, color=inks[state], semantics_label=t(STATE_WORDS[state])
    )
    return mark if state != "wrong" else ft.Container(mark, bgcolor=ground, border_radius=size)


def _plain(mark: ft.IconData) -> ft.Control:
    return ft.Icon(mark, size=theme.drawn(theme.TITLE), color=ft.Colors.ON_SURFACE_VARIANT)


def _steps(pond: Pond, found: Sequence[Step], system: str) -> list[ft.Control]:
    return [
        row(
            t(TITLES[step.part]),
            layout.sentence(units.tell(step.sentence, system)),
            _mark(step.state),
            go(f"/pond/{pond.id}/{step.part}"),
        )
        for step in found
    ]


def _others(pond: Pond) -> list[ft.Control]:
    """What is no step of building: passing the plan on, and what it rests on."""
    own = len(pond.assumptions)
    changed = tn("{count} changed by you", "{count} changed by you", own) if own else (
        t("As they come")
    )  # fmt: skip
    share, rules = (go(f"/pond/{pond.id}/{part}") for part in ("share", "rules"))
    return [
        row(t("Share or print this plan"), "", _plain(ft.Icons.IOS_SHARE), share),
        row(t("Rules and prices"), changed, _plain(ft.Icons.TUNE), rules),
    ]


@ft.component
def BuildPage() -> Any:
    """The steps of the pond."""
    session = session_now()
    pond = use_pond()
    _, turned_at = use_turned(pond.id if pond else "")
    if pond is None:
        return layout.no_pond()
    route = f"/pond/{pond.id}/{places.BUILD}"
    title = t("Plan of {pond}", pond=pond.name)
    log = session.logs.items_of(pond.id)
    if not session.logs.is_read(pond.id):
        return layout.screen(route, title, [matters.reading_log()], wide=True)
    found = building_steps(
        worked_now(pond), log, datetime.now(UTC), turned_at,
        in_hand(pond),
    )  # fmt: skip
    left, rest = found[:5], found[5:]
    return layout.screen(
        route,
        title,
        [layout.tile(_steps(pond, left, session.system))],
        second=[layout.tile(_steps(pond, rest, session.system)), layout.tile(_others(pond))],
    )


@ft.component
def NoPlanPage() -> Any:
    """Plan without a pond in hand: what can be planned without one, and the ponds there are."""
    session = session_now()
    ponds = sorted(session.ponds.values(), key=lambda pond: pond.name.lower())
    controls: list[ft.Control] = []
    if ponds:
        controls.append(layout.heading(t("Plan of which pond?")))
        controls.append(
            layout.links([(pond.name, go(f"/pond/{pond.id}/{places.BUILD}")) for pond in ponds])
        )
    else:
        controls += [
            layout.body(t("No pond yet. Add yours, and every reading has a target.")),
            layout.main_button(t("Add a pond"), go("/new")),
        ]
    controls += [
        layout.second_button(t("Choose a pump"), go("/size")),
        layout.second_button(t("Check a waterfall"), go("/waterfall")),
        *([layout.quiet_button(t("Add a pond"), go("/new"))] if ponds else []),
    ]
    return layout.screen(f"/{places.BUILD}", t("Plan"), controls)
