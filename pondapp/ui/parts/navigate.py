"""Moving between screens."""

from collections.abc import Callable
from typing import Any

import flet as ft


def go(route: str) -> Callable[[Any], None]:
    """A click handler that opens a screen."""
    return lambda _: ft.context.page.navigate(route)


def say(text: str) -> None:
    """Tell briefly that something was done."""
    ft.context.page.show_dialog(ft.SnackBar(ft.Text(text)))
