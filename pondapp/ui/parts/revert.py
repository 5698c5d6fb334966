"""Give up what was typed and not saved; say so when what is saved was changed meanwhile."""

from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed, changed_elsewhere, come_back, same_words
from pondapp.ui.shell.navigate import say
from pondapp.words import t


def saved_by(button: ft.Control, typed: Typed, saved: dict[str, str]) -> list[ft.Control]:
    """The button that saves; before it what it would replace, after it the way back."""
    if same_words(typed.texts, saved):
        return [button]
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
        return [told, button, layout.quiet_button(t("Take what is saved now"), press)]
    return [
        button,
        layout.small(t("Draft from {when}, not used yet.", when=come_back(typed.changed_at))),
        layout.quiet_button(t("Back to what is saved"), press),
    ]
