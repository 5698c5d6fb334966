"""Give up what was typed and not saved."""

from typing import Any

import flet as ft

from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.navigate import say
from pondapp.words import t


def _told(texts: dict[str, str]) -> dict[str, str]:
    """Texts but for spaces at their ends and for those left empty, which are saved as well."""
    return {key: text.strip() for key, text in texts.items() if text.strip()}


def start_again(typed: Typed, saved: dict[str, str]) -> list[ft.Control]:
    """A way back to what is saved, while something else stands on the screen."""
    if _told(typed.texts) == _told(saved):
        return []
    before = typed.texts

    async def undo() -> None:
        typed.put(before)

    def press(_: Any) -> None:
        typed.put(saved)
        ft.context.page.run_task(typed.drop)
        say(t("Back to what was saved."), undo)

    return [
        layout.small(t("What you changed here is kept on this device, but not saved yet.")),
        layout.quiet_button(t("Back to what is saved"), press),
    ]
