"""When the screen was really touched.

The framework tells of a press only when its own event arrives, late by a varying amount. The page
stamps every press on its way down and broadcasts the stamp. It usually arrives before the press is
handled, but not always: a press waits for its own stamp a little, and no stamp serves two presses.
"""

import asyncio
import time
from typing import Any

from pondapp.store.page import name

FRESH = 0.3  # seconds; a stamp this young can only be of the press being handled
HELD = 2.0  # seconds; a press held longer than this is timed when it is let go
PATIENCE = 0.12  # seconds to wait for a stamp that is on its way

_unused: list[float] = []
_kept: list[Any] = []  # the channel and its callback live as long as the app


def receive(stamp: float) -> None:
    """Take note of a press at this time, in seconds since the epoch."""
    _unused[:] = [stamp]


def listen() -> None:
    """Start to receive stamps; on a desktop there are none, and the clock has to do."""
    try:
        import flet_js
        import js
        from pyodide.ffi import create_proxy
    except ImportError:
        return

    def on_stamp(event: Any) -> None:
        if event.data.tab == flet_js.tab:
            receive(float(event.data.t) / 1000)

    channel = js.BroadcastChannel.new(name("touch"))
    proxy = create_proxy(on_stamp)
    channel.onmessage = proxy
    _kept.extend([channel, proxy])


async def pressed_at() -> float:
    """Time of the press being handled, in seconds since the epoch."""
    handled = time.time()
    while not (_unused and handled - _unused[0] <= FRESH):
        if not _kept or time.time() - handled > PATIENCE:
            break
        await asyncio.sleep(0.005)
    if _unused and handled - _unused[0] <= HELD:
        return _unused.pop()
    return handled
