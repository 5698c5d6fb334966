"""An amount that is moved step by step with the thumb, or slid all at once."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

WIDE = 72.0
"""Of a button that a thumb presses again and again."""


def _button(mark: ft.IconData, name: str, on_click: Callable[[Any], Any], off: bool) -> ft.Control:
    return ft.OutlinedButton(
        content=ft.Icon(mark, semantics_label=name),
        width=WIDE,
        height=theme.TOUCH_MAIN,
        disabled=off,
        on_click=on_click,
        style=ft.ButtonStyle(padding=0, shape=layout.rounded()),
    )


def stepper(
    label: str,
    shown: str,
    place: int,
    most: int,
    on_step: Callable[[int], Any],
    *,
    slides: bool = True,
) -> ft.Control:
    """What is moved, what it is now, and the steps from 0 to the most, less at the left."""

    def slid(event: Any) -> None:
        step = round(float(event.control.value))
        if step != place:
            on_step(step)

    middle: ft.Control = ft.Container(expand=True)
    if slides and most > 0:
        # Read aloud it would be a slider without a name; the named buttons do the same.
        middle = ft.Semantics(
            exclude_semantics=True,
            expand=True,
            content=ft.Slider(
                value=float(place), min=0.0, max=float(most), divisions=most, on_change=slid,
            ),
        )  # fmt: skip
    heading = layout.ends(
        written(label, size=theme.BODY),
        written(
            shown, size=theme.BODY + 2, weight=ft.FontWeight.W_600,
            semantics_label=t("{what}: {amount}", what=label, amount=shown),
        ),
    )  # fmt: skip
    steps = ft.Row(
        [
            _button(
                ft.Icons.REMOVE, t("Less: {what}", what=label), lambda _: on_step(place - 1),
                place <= 0,
            ),
            middle,
            _button(
                ft.Icons.ADD, t("More: {what}", what=label), lambda _: on_step(place + 1),
                place >= most,
            ),
        ],
        spacing=4,
    )  # fmt: skip
    return ft.Column(
        [heading, steps], spacing=2, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )
