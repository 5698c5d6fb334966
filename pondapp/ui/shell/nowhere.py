"""An address that leads to no screen: mistyped, or of another version of the app."""

from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import go
from pondapp.words import t


@ft.component
def NowherePage() -> Any:
    """A sentence and the ways out."""
    told = t("The address may be mistyped, or from another version of the app.")
    controls = [layout.body(told), layout.main_button(t("To the first screen"), go("/"))]
    return layout.screen(ft.use_view_path(), t("There is no such screen"), controls)
