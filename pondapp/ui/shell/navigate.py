"""Moving between screens."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui.shell import notice


def go(route: str) -> Callable[[Any], None]:
    """A click handler that opens a screen."""
    return lambda _: ft.context.page.navigate(route)


def say(text: str, undo: notice.Undo | None = None) -> None:
    """Tell briefly that something was done, and offer to take it back where that is possible."""
    notice.show(text, undo)
