"""When the screen was really touched.

The framework tells of a press only when its own event arrives, late by a varying amount. The page
stamps every press as it happens and broadcasts the stamp; the newest one belongs to the press
being handled.
"""

import time
from typing import Any

LATEST_BELIEVABLE = 2.0  # seconds; a press held longer than this is timed when it is let go

_latest = 0.0
_kept: list[Any] = []  # the channel and its callback live as long as the app


def listen() -> None:
    """Start to receive stamps; on a desktop there are none, and `pressed_at` is the clock."""
    try:
        import js
        from pyodide.ffi import create_proxy
    except ImportError:
        return

    def on_stamp(event: Any) -> None:
        global _latest
        _latest = float(event.data.t) / 1000

    channel = js.BroadcastChannel.new("pondapp-touch")
    proxy = create_proxy(on_stamp)
    channel.onmessage = proxy
    _kept.extend([channel, proxy])


def pressed_at() -> float:
    """Time of the press being handled, in seconds since the epoch."""
    now = time.time()
    return _latest if 0 <= now - _latest <= LATEST_BELIEVABLE else now
