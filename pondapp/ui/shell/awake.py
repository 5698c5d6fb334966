"""Keeping the screen on while something is timed."""

from typing import Any

import flet as ft

_held: list[ft.Wakelock] = []


def _lock() -> ft.Wakelock:
    if not _held:
        _held.append(ft.Wakelock())
    return _held[0]


async def stay_awake(on: bool) -> None:
    """Keep the screen on, or let it go dark again; a browser that cannot is no reason to stop."""
    lock: Any = _lock()
    try:
        await (lock.enable() if on else lock.disable())
    except (RuntimeError, TimeoutError):
        return
