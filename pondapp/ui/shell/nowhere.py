"""An address that leads to no screen: mistyped, or of another version of the app."""

from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.words import t


@ft.component
def NowherePage() -> Any:
    """A sentence and the way out; the router puts it into a screen of its own."""
    return ft.SafeArea(
        ft.Column(
            [
                layout.heading(t("There is no such screen")),
                layout.body(t("The address may be mistyped, or from another version of the app.")),
                layout.main_button(t("To the first screen"), go("/")),
            ],
            spacing=theme.GAP,
            horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
        )
    )
