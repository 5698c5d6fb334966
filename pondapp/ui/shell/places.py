"""The four places that are always within reach of the thumb, and the pond that they are about."""

import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, Literal

import flet as ft

from pondapp.state.ids import NO_POND, OUTLET
from pondapp.store.browser import page as browser
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

Name = Literal["pond", "measure", "log", "plan"]


@dataclass(frozen=True, slots=True)
class Place:
    """One of the four: what it is called, and its mark when one is elsewhere and when one is there.

    A longer list of them would need a second row on the narrowest phone.
    """

    name: Name
    label: str
    mark: ft.IconData
    mark_here: ft.IconData


PLACES = (
    Place("pond", "Pond", ft.Icons.WATER_OUTLINED, ft.Icons.WATER),
    Place("measure", "Measure", ft.Icons.TIMER_OUTLINED, ft.Icons.TIMER),
    Place("log", "Log", ft.Icons.MENU_BOOK_OUTLINED, ft.Icons.MENU_BOOK),
    Place("plan", "Plan", ft.Icons.CHECKLIST_OUTLINED, ft.Icons.CHECKLIST),
)
BUILD = "build"  # the rest of the route of a pond's Plan; "plan" is that of its flow plan
OF_POND = re.compile(r"^/(?:pond|measure)/([^/]+)")
# The first of these that fits says in which place a screen is.
WHERE: tuple[tuple[re.Pattern[str], Name | None], ...] = (
    (re.compile(r"/measure(/|$)|^/containers$"), "measure"),
    (re.compile(r"^(/pond/[^/]+)?/log(/|$)"), "log"),
    (re.compile(r"^/(new)?$|^/pond(/[^/]+(/(at/.*|health|costs|learned|what-if))?)?$"), "pond"),
    (re.compile(r"^/(pond/|build$|size$|waterfall$)"), "plan"),
)
ROOT = re.compile(r"^/$|^/pond/[^/]+(/log|/build)?$|^/(measure|log|build)$")
OF_PLAN = re.compile(
    r"^(/pond/[^/]+)/(water|fish|things|path|plumbing|pumps|plan|tune|shopping|share|rules)$"
)
LOW = 480  # of height: a bar would take too much of a phone on its side

MOST_GONE = 24  # of the last two screens and those below them

_last_pond: list[str] = []  # the pond that was opened last
_wanted: list[str] = []  # where the last touch of a place leads
_gone: dict[int, Any] = {}  # what the places of screens that are gone do, the last screen's last


def place_of(route: str) -> Name | None:
    """In which of the four a screen is; None where it is in none, such as the settings."""
    return next((name for fits, name in WHERE if fits.search(route)), None)


def is_root(route: str) -> bool:
    """Whether a screen is what a touch on a place opens."""
    return ROOT.match(route) is not None


def note_pond(route: str) -> None:
    """A screen is shown: what it is about is the pond in hand from now on."""
    found = OF_POND.match(route)
    if found and found[1] in session_now().ponds:
        _last_pond[:] = [found[1]]


def pond_in_hand() -> str:
    """The pond that was opened last, or else the only one; empty where it is open which."""
    ponds = session_now().ponds
    if _last_pond and _last_pond[0] in ponds:
        return _last_pond[0]
    return next(iter(ponds)) if len(ponds) == 1 else ""


def route_to(place: Name, here: str) -> str:
    """What a touch on a place opens, on the screen of this address."""
    pond = pond_in_hand()
    if place == "measure":
        return "/measure" if session_now().ponds else f"/measure/{NO_POND}/{OUTLET}"
    if place == "pond":
        # A second touch leads from a pond to all of them.
        return f"/pond/{pond}" if pond and here != f"/pond/{pond}" else "/"
    rest = BUILD if place == "plan" else place
    return f"/pond/{pond}/{rest}" if pond else f"/{rest}"


class _Button(ft.TextButton):
    """One that is heard also when its screen goes before a touch of it is: the last touch counts.

    On all screens it is in the same place.
    """

    def will_unmount(self) -> None:
        _gone[self._i] = self.on_click
        for old in list(_gone)[:-MOST_GONE]:
            del _gone[old]


def late_touch(button_id: int) -> Callable[[Any], Any] | None:
    """What a touch does that is told of a place on a screen that is gone."""
    return _gone.get(button_id)


def _open(place: Name, here: str) -> Callable[[Any], Any]:
    async def opened(_: Any) -> None:
        page, route = ft.context.page, route_to(place, here)
        _wanted[:] = [route]
        if route == page.route:
            return
        if is_root(page.route):  # else going to and fro would make the way back as long
            await browser.ask("instead", seconds=1.0, route=route)
        if _wanted == [route]:  # else another was touched meanwhile
            page.navigate(route)

    return opened


def _button(place: Place, here: str, *, expand: bool) -> ft.Control:
    """A place to touch: where one is, its mark is filled, has a ground, and says so aloud."""
    chosen = place_of(here) == place.name
    label = t(place.label)
    ink = ft.Colors.ON_SURFACE if chosen else ft.Colors.ON_SURFACE_VARIANT
    mark = ft.Container(
        ft.Icon(
            place.mark_here if chosen else place.mark,
            size=theme.TITLE + 2,
            color=ft.Colors.ON_PRIMARY_CONTAINER if chosen else ink,
        ),
        bgcolor=ft.Colors.PRIMARY_CONTAINER if chosen else None,
        padding=ft.Padding.symmetric(horizontal=theme.EDGE, vertical=2),
        border_radius=theme.RADIUS,
    )
    words = written(
        label,
        size=theme.figure(theme.SMALL - 1),
        weight=ft.FontWeight.W_700 if chosen else ft.FontWeight.W_500,
        color=ink,
        max_lines=1,
        no_wrap=True,
        semantics_label=t("{place}, you are here", place=label) if chosen else None,
    )
    return _Button(
        content=ft.Column(
            [mark, words],
            spacing=2,
            tight=True,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
            alignment=ft.MainAxisAlignment.CENTER,
        ),
        on_click=_open(place.name, here),
        height=height(),
        expand=expand,
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=theme.RADIUS),
            padding=0,
            visual_density=ft.VisualDensity.STANDARD,
        ),
    )


def height() -> float:
    """Of the bar: words in it grow by a third at most, since four of them share the screen."""
    return theme.TOUCH_MAIN + (8.0 if theme.large_text() else 0.0)


def at_side() -> bool:
    """Whether they stand at the left: where it is wide, and where height is dear."""
    page = ft.context.page
    wide, high = page.width or 0.0, page.height or 0.0
    return wide >= theme.widths()["md"] or (wide > high and high < LOW)


def bar(here: str) -> ft.BottomAppBar:
    """All four at the foot of a screen."""
    return ft.BottomAppBar(
        ft.Row([_button(place, here, expand=True) for place in PLACES], spacing=0),
        bgcolor=ft.Colors.SURFACE_CONTAINER,
        elevation=0,
        padding=ft.Padding.symmetric(horizontal=4),
        height=height(),
    )


def rail(here: str) -> ft.Control:
    """All four at the left of a screen."""
    return ft.Container(
        ft.Column(
            [_button(place, here, expand=False) for place in PLACES],
            spacing=0,
            scroll=ft.ScrollMode.HIDDEN,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        ),
        width=theme.RAIL,
        bgcolor=ft.Colors.SURFACE_CONTAINER,
        padding=4,
    )


def settings(here: str) -> list[ft.Control]:
    """The one way to settings, backup and help, on the first screen of each place."""
    if not is_root(here):
        return []
    mark = ft.Icon(ft.Icons.SETTINGS_OUTLINED, semantics_label=t("Settings, backup, help"))
    return [ft.IconButton(mark, on_click=lambda _: ft.context.page.navigate("/settings"))]
