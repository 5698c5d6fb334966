"""When the screen was really touched, by a clock that nobody can set.

The framework tells of a press only when its own event arrives, late by a varying amount. The page
stamps every press on its way down and broadcasts the stamp. It usually arrives before the press is
handled, but not always: a press waits for its own stamp a little, and no stamp serves two presses.

All times here are ticks: seconds on a clock that only runs forward, the same for the page and for
Python. It begins anew with each start of the app, and may stand still while the device sleeps.
"""

import asyncio
import time
from collections.abc import Callable
from typing import Any
from uuid import uuid4

from pondapp.store.browser.page import name

FRESH = 0.3  # seconds; a stamp this young can only be of the press being handled
HELD = 2.0  # seconds; a press held longer than this is timed when it is let go
PATIENCE = 0.12  # seconds to wait for a stamp that is on its way

_unused: list[float] = []
_away: list[float] = []  # ticks at which the page was put away, or came back
_kept: list[Any] = []  # the channel and its callback live as long as the app
_now: list[Callable[[], float]] = [time.monotonic]
_run: list[str] = []


def tick() -> float:
    """What the clock shows now [s]."""
    return _now[0]()


def run() -> str:
    """Which clock this is: ticks of another start of the app cannot be compared with these.

    The page's stopwatch counts by the page's own clock, and goes by the same name.
    """
    if not _run:
        _run.append(uuid4().hex)
    return _run[0]


def receive(stamp: float) -> None:
    """Take note of a press at this tick."""
    _unused[:] = [stamp]


def put_away(stamp: float) -> None:
    """Take note that the page was put away, or came back, at this tick."""
    _away[:] = [stamp]


def away_since(start: float) -> bool:
    """Whether the page was put away since this tick, so that the device may have slept."""
    return bool(_away) and _away[0] >= start


def listen() -> None:
    """Start to receive stamps; on a desktop there are none, and Python's own clock has to do."""
    try:
        import flet_js
        import js
        from pyodide.ffi import create_proxy
    except ImportError:
        return

    _run[:] = [str(flet_js.tab)]
    _now[:] = [lambda: float(js.performance.now()) / 1000]
    # Page and worker count from different beginnings, which never change.
    begin = float(js.performance.timeOrigin)

    def on_stamp(event: Any) -> None:
        told = event.data
        if told.tab == flet_js.tab:
            stamp = (float(told.t) + float(told.origin) - begin) / 1000
            if told.away:
                put_away(stamp)
            else:
                receive(stamp)

    channel = js.BroadcastChannel.new(name("touch"))
    proxy = create_proxy(on_stamp)
    channel.onmessage = proxy
    _kept.extend([channel, proxy])


async def pressed_at() -> float:
    """Tick of the press being handled."""
    handled = tick()
    while not (_unused and handled - _unused[0] <= FRESH):
        if not _kept or tick() - handled > PATIENCE:
            break
        await asyncio.sleep(0.005)
    if _unused and handled - _unused[0] <= HELD:
        return _unused.pop()
    return handled
