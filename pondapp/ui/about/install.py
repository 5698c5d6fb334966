"""How the app gets onto the home screen, where it can."""

from typing import Any

import flet as ft

from pondapp.store.browser.page import ask
from pondapp.ui.parts import layout
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


async def _install(_: Any) -> None:
    device = session_now().device
    device.installing = "menu" if await ask("install") == "menu" else "no"
    device.on_change()


def install_lines() -> list[ft.Control]:
    """For the settings: how it is done on this device; nothing where it is done or cannot be."""
    how = session_now().device.installing
    if how == "no":
        return []
    lines: list[ft.Control] = [
        layout.body(t("On the home screen it opens like any other app, also without a network."))
    ]
    if how == "ask":
        lines.append(layout.second_button(t("Install the app"), _install))
    else:
        lines.append(
            layout.small(
                t(
                    "Touch Share in the browser, then Add to Home Screen. The app may begin empty "
                    "there: save a backup first."
                )
            )
        )
    return lines


def hint() -> list[ft.Control]:
    """For the first screen, once there is a pond: until it is put away."""
    session = session_now()
    lines = install_lines()
    if not lines or not session.ponds or session.preferences.install_hint_left:
        return []

    async def leave(_: Any) -> None:
        await session.settings.change(lambda _: {"install_hint_left": True})

    return [layout.card([*lines, layout.quiet_button(t("Not now"), leave)])]
