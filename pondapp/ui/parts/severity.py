"""How bad something is, in word, mark and colour: the same on every screen."""

from collections.abc import Sequence

import flet as ft

from pondapp.answers.care.severity import Severity as Severity
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

WORDS: dict[Severity, str] = {
    "danger": "Danger",
    "wrong": "Not right",
    "unknown": "Not known yet",
    "right": "Right",
}
MARKS: dict[Severity, ft.IconData] = {
    "danger": ft.Icons.REPORT,
    "wrong": ft.Icons.ERROR_OUTLINE,
    "unknown": ft.Icons.HELP_OUTLINE,
    "right": ft.Icons.CHECK_CIRCLE,
}


def word(severity: Severity) -> str:
    """Its word."""
    return t(WORDS[severity])


def _head(severity: Severity, words: str, mark: ft.Control | None) -> ft.Control:
    ink = theme.SEVERITY[severity][1]
    head = written(word(severity), size=theme.SMALL, weight=ft.FontWeight.W_600, color=ink)
    column = ft.Column(
        [head, *([written(words, size=theme.BODY, color=ink)] if words else ())],
        spacing=2,
        tight=True,
        expand=True,
    )
    parts: list[ft.Control] = [ft.Icon(MARKS[severity], size=theme.FIGURE, color=ink), column]
    if mark is not None:
        parts.append(mark)
    return ft.Row(parts, spacing=theme.GAP)


def row(severity: Severity, words: str) -> ft.Control:
    """How bad something is, inside a block of another thing."""
    ground, _ = theme.SEVERITY[severity]
    return ft.Container(
        _head(severity, words, None),
        padding=ft.Padding.symmetric(horizontal=theme.GAP, vertical=8),
        bgcolor=ground,
        border_radius=theme.RADIUS,
    )


def line(severity: Severity, words: str) -> ft.Control:
    """What is to be done, by the mark and the colour of how bad it is."""
    ground, ink = theme.SEVERITY[severity]
    text = f"{word(severity)}. {words}"
    told = written(text, size=theme.BODY, weight=ft.FontWeight.W_600, color=ink, expand=True)
    return ft.Container(
        ft.Row(
            [ft.Icon(MARKS[severity], size=theme.drawn(theme.TITLE), color=ink), told], spacing=8
        ),
        padding=ft.Padding.symmetric(horizontal=theme.GAP, vertical=8),
        bgcolor=ground,
        border_radius=theme.RADIUS,
    )


def card(severity: Severity, words: str, below: Sequence[ft.Control] = ()) -> ft.Control:
    """An answer with how bad it is on top, and what belongs to it."""
    head = ft.Container(
        ft.MergeSemantics(_head(severity, words, None)),
        padding=theme.EDGE,
        bgcolor=theme.SEVERITY[severity][0],
        border_radius=theme.RADIUS,
    )
    return layout.column([head, layout.card(below)] if below else [head])


def button(severity: Severity, words: str, on_click: layout.Click) -> ft.Control:
    """A matter that opens the screen where it is put right."""
    ground, ink = theme.SEVERITY[severity]
    way = ft.Icon(ft.Icons.CHEVRON_RIGHT, size=theme.drawn(theme.TITLE), color=ink)
    return ft.TextButton(
        content=_head(severity, words, way),
        on_click=on_click,
        style=ft.ButtonStyle(
            bgcolor=ground,
            color=ink,
            padding=ft.Padding.symmetric(horizontal=theme.EDGE, vertical=theme.GAP),
            visual_density=ft.VisualDensity.STANDARD,
            alignment=ft.Alignment.CENTER_LEFT,
            shape=layout.rounded(),
        ),
    )
