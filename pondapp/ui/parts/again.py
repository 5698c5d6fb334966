"""Give up what was typed and not saved."""

from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.navigate import say
from pondapp.words import t


def start_again(typed: Typed, saved: dict[str, str]) -> list[ft.Control]:
    """A way back to what is saved, while something else stands on the screen."""
    if typed.texts == saved:
        return []
    before = typed.texts

    async def undo() -> None:
        typed.put(before)

    def press(_: Any) -> None:
        typed.put(saved)
        say(t("Back to what was saved."), undo)

    return [
        layout.small(t("What you changed here is kept on this device, but not saved yet.")),
        layout.quiet_button(t("Back to what is saved"), press),
    ]
