"""Moving between screens."""

from collections.abc import Callable, Coroutine
from typing import Any

import flet as ft

from pondapp.ui.parts.written import written
from pondapp.ui.shell import pad_room, theme
from pondapp.words import t


def go(route: str) -> Callable[[Any], None]:
    """A click handler that opens a screen."""
    return lambda _: ft.context.page.navigate(route)


UNDO_SECONDS = 10


def say(text: str, undo: Callable[[], Coroutine[Any, Any, None]] | None = None) -> None:
    """Tell briefly that something was done, and offer to take it back where that is possible."""
    page = ft.context.page
    action = None
    if undo is not None:
        action = ft.SnackBarAction(label=t("Undo"), on_click=lambda _: page.run_task(undo))
    taken = pad_room.taken_at_right()
    page.show_dialog(
        ft.SnackBar(
            written(text),
            action=action,
            behavior=ft.SnackBarBehavior.FLOATING if taken else None,
            margin=ft.Margin(theme.GAP, 0, theme.GAP + taken, theme.GAP) if taken else None,
            duration=ft.Duration(seconds=UNDO_SECONDS if undo else 4),
            persist=False,  # one that stays would offer an undo that has passed
        )
    )
