"""What tells briefly, over the foot of a screen, that something was done, and takes it back.

It is ours and not the framework's: that one follows over every screen, and while two screens show
it, what a screen reader finds of the one that was left stays.
"""

import asyncio
import time
from collections.abc import Callable, Coroutine
from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import pad_room, places, theme
from pondapp.words import t

Undo = Callable[[], Coroutine[Any, Any, None]]

SECONDS, UNDO_SECONDS = 4.0, 10.0
LOOK_SECONDS = 0.2  # how often it is looked whether the screen was left
GOING_SECONDS = 3.0  # what is done on the way to another screen is told there

_room = ft.Container(visible=False)  # of no page yet: it tells nothing


def place(page: ft.Page) -> None:
    """Keep a place for it on all screens, above what stays at their foot."""
    global _room
    _room = ft.Container(visible=False, left=theme.GAP, right=theme.GAP, bottom=theme.GAP)
    page.overlay.append(_room)


def show(text: str, undo: Undo | None = None) -> None:
    """Tell it in the place of what was told before."""
    page = ft.context.page
    room, told = _room, _told(text, undo)
    room.content = layout.beside([told], alignment=ft.MainAxisAlignment.CENTER)
    room.visible = True
    _lie_free(room)
    page.run_task(_go_in_time, room, page, room.content, UNDO_SECONDS if undo else SECONDS)


def hide(room: ft.Container) -> None:
    """Tell it no longer."""
    room.visible, room.content = False, None
    room.update()


def take_away() -> None:
    """What is told is true no longer."""
    if _room.visible:
        hide(_room)


def _lie_free(room: ft.Container) -> None:
    room.right = theme.GAP + pad_room.taken_at_right()
    below, beside = (0.0, theme.RAIL) if places.at_side() else (places.height(), 0.0)
    free = pad_room.is_shown()  # no places there
    room.bottom = theme.GAP + (0.0 if free else below)
    room.left = theme.GAP + (0.0 if free else beside)
    room.update()


async def _go_in_time(room: ft.Container, page: ft.Page, told: ft.Control, seconds: float) -> None:
    """Take it away after a time, or when its screen is left."""
    begun, at = time.monotonic(), page.route
    while room.content is told:
        await asyncio.sleep(LOOK_SECONDS)
        age = time.monotonic() - begun
        if page.route != at and age < GOING_SECONDS:
            at = page.route
            _lie_free(room)
        elif (page.route != at or age > seconds) and room.content is told:
            hide(room)


def _told(text: str, undo: Undo | None) -> ft.Control:
    words: ft.Control = written(text, size=theme.BODY, color=ft.Colors.ON_INVERSE_SURFACE)
    return ft.Container(
        ft.Semantics(
            container=True,
            live_region=True,
            content=layout.ends(words, _take_back(undo)) if undo else words,
        ),
        bgcolor=ft.Colors.INVERSE_SURFACE,
        border_radius=theme.RADIUS,
        padding=ft.Padding.symmetric(horizontal=theme.EDGE, vertical=theme.GAP / 2),
        col=layout.READABLE,
    )


def _take_back(undo: Undo) -> ft.Control:
    room = _room

    async def pressed(_: Any) -> None:
        hide(room)
        await undo()

    return ft.TextButton(
        content=written(t("Undo"), size=theme.BODY, weight=ft.FontWeight.W_600),
        on_click=pressed,
        style=ft.ButtonStyle(color=ft.Colors.INVERSE_PRIMARY),
        height=theme.TOUCH,
    )
