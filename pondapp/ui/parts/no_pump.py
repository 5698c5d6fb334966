"""Where an answer needs a pump and none is chosen: that it is not known yet, and the way there."""

import flet as ft

from pondapp.ui.parts import layout, severity
from pondapp.ui.shell.navigate import go
from pondapp.words import t


def to_pumps(pond_id: str) -> ft.Control:
    """The way to the pumps of a pond."""
    return layout.main_button(t("Choose a pump"), go(f"/pond/{pond_id}/pumps"))


def no_pump(pond_id: str) -> ft.Control:
    """The answer of a screen that says nothing without a pump."""
    why = layout.body(layout.sentence(t("choose a pump first, and this can be worked out")))
    return severity.card("unknown", t("Not known yet"), [why, to_pumps(pond_id)])
