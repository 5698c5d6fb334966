"""How many of something: one more, one fewer."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t


def _step(icon: ft.IconData, name: str, on_click: Callable[[Any], Any], off: bool) -> ft.Control:
    return ft.OutlinedButton(
        content=ft.Icon(icon, semantics_label=name),
        width=theme.TOUCH,
        height=theme.TOUCH,
        disabled=off,
        on_click=on_click,
        style=ft.ButtonStyle(
            padding=0, shape=ft.RoundedRectangleBorder(radius=theme.RADIUS)
        ),
    )  # fmt: skip


def counter(label: str, count: int, on_count: Callable[[int], Any], most: int) -> ft.Control:
    """A count with its two buttons, each named by what it counts."""
    steps = ft.Row(
        [
            _step(
                ft.Icons.REMOVE, t("One fewer: {what}", what=label),
                lambda _: on_count(count - 1), count == 0,
            ),
            written(
                str(count), size=theme.BODY + 2, weight=ft.FontWeight.W_600,
                width=theme.tall(theme.COUNT),
                text_align=ft.TextAlign.CENTER,
                semantics_label=t("{count} of {what}", count=count, what=label),
            ),
            _step(
                ft.Icons.ADD, t("One more: {what}", what=label),
                lambda _: on_count(count + 1), count >= most,
            ),
        ],
        spacing=4,
        tight=True,
    )  # fmt: skip
    return layout.ends(written(label, size=theme.BODY), steps, spacing=4)
