"""Enter goes on: from a field to the next one, and from the last to the main action."""

import asyncio
from collections.abc import Iterator
from typing import Any

import flet as ft

DRAWN = 0.02  # seconds; what the last key changed, a field that comes or goes, is drawn by then


async def go_on(event: Any) -> None:
    """Put the keyboard on the field below, or else on the main action, where Enter presses it."""
    field = event.control
    await asyncio.sleep(DRAWN)
    screen = screen_of(field)
    if screen is None:
        return
    following: Any = after(field, screen)
    if following is not None:
        await following.focus()


def after(field: ft.TextField, screen: Any) -> ft.TextField | ft.FilledButton | None:
    """The field below this one on a screen, or the first main action below the last."""
    below = False
    action: ft.FilledButton | None = None
    for one in shown(screen):
        if isinstance(one, ft.TextField):
            if below and not (one.disabled or one.read_only):
                return one
            below = below or one._i == field._i
        elif below and action is None and isinstance(one, ft.FilledButton) and not one.disabled:
            action = one
    return action


def screen_of(control: Any) -> Any:
    """What a control is on."""
    while control is not None and not isinstance(control, ft.View | ft.AlertDialog):
        control = control.parent
    return control


def shown(control: Any) -> Iterator[Any]:
    """A control and all that is in it, as far as it is shown, in the order of the screen."""
    if control is None or not getattr(control, "visible", True):
        return
    yield control
    for name in ("controls", "content", "_b", "actions"):
        inside = getattr(control, name, None)
        for one in inside if isinstance(inside, list) else [inside]:
            if isinstance(one, ft.BaseControl):
                yield from shown(one)
