"""Give up what was typed and not saved; say so when what is saved was changed meanwhile."""

from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed, changed_elsewhere, same_words
from pondapp.ui.parts.navigate import say
from pondapp.words import t


def start_again(typed: Typed, saved: dict[str, str]) -> list[ft.Control]:
    """A way back to what is saved, while something else stands on the screen."""
    if same_words(typed.texts, saved):
        return []
    before = typed.texts

    async def undo() -> None:
        typed.put(before)

    def press(_: Any) -> None:
        typed.put(saved)
        say(t("Back to what was saved."), undo)

    if changed_elsewhere(typed.texts, saved):
        told = layout.caution(
            t(
                "what is saved was changed meanwhile, in another tab or on another screen. "
                "Saving puts what you typed in its place."
            )
        )
        return [told, layout.quiet_button(t("Take what is saved now"), press)]
    return [
        layout.small(t("What you changed here is kept on this device, but not saved yet.")),
        layout.quiet_button(t("Back to what is saved"), press),
    ]
