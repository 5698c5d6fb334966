"""The big button that starts and stops a fill."""

import asyncio
import time
from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui import theme, touch

DOUBLE_TAP = 0.4  # seconds; nobody fills a container so fast, but a wet thumb bounces
TICK = 0.1


@ft.component
def Ticker(started_at: float) -> Any:
    """The running time. Only this text is drawn anew, and it reads the clock: ticks may be late."""
    now, set_now = ft.use_state(time.time())

    async def tick() -> None:
        while True:
            await asyncio.sleep(TICK)
            set_now(time.time())

    task: Any = ft.use_ref(None)

    def begin() -> None:
        task.current = ft.context.page.run_task(tick)

    def end() -> None:
        if task.current is not None:
            task.current.cancel()

    ft.use_effect(begin, [], cleanup=end)
    return ft.Text(f"{max(0.0, now - started_at):.1f} s", size=theme.CLOCK)


@ft.component
def Stopwatch(
    started_at: float | None, on_start: Callable[[float], Any], on_stop: Callable[[float], Any]
) -> Any:
    """One button: press when the container goes under, press when the mark is reached."""
    last: Any = ft.use_ref(0.0)

    async def press(_: Any) -> None:
        pressed = await touch.pressed_at()
        if pressed - last.current < DOUBLE_TAP:
            return
        last.current = pressed
        if started_at is None:
            on_start(pressed)
        else:
            on_stop(pressed - started_at)

    running = started_at is not None
    face: list[ft.Control] = [
        ft.Text("Stop" if running else "Start", size=theme.FIGURE, weight=ft.FontWeight.W_600)
    ]
    if started_at is not None:
        face.append(Ticker(started_at))
    else:
        face.append(ft.Text("Press as the container goes under", size=theme.BODY))
    return ft.FilledButton(
        content=ft.Column(
            face,
            alignment=ft.MainAxisAlignment.CENTER,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
        ),
        height=theme.STOPWATCH,
        on_click=press,
        style=ft.ButtonStyle(shape=ft.RoundedRectangleBorder(radius=theme.RADIUS * 2)),
    )
