"""Something that is on or off."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme


def switch(label: str, on: bool, on_change: Callable[[bool], Any], helper: str = "") -> ft.Control:
    """A switch with its words before it; a touch on the words turns it too."""
    words: list[ft.Control] = [written(label, size=theme.BODY)]
    if helper:
        words.append(layout.small(helper))
    text = ft.Container(
        ft.Column(words, spacing=2, tight=True),
        padding=ft.Padding.symmetric(vertical=theme.GAP / 2),
        expand=True,
        on_click=lambda _: on_change(not on),
    )
    height = ft.Container(width=1, height=theme.TOUCH)
    turned = ft.Switch(value=on, on_change=lambda e: on_change(e.control.value))
    return ft.MergeSemantics(ft.Row([text, height, turned], spacing=theme.GAP / 2))
