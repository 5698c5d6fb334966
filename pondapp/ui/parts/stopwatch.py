"""The big button that starts and stops a time."""

import asyncio
import time
from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui import awake, cue, theme, touch
from pondapp.ui.parts.written import written
from pondapp.words import t

DOUBLE_TAP = 0.4  # seconds; nobody fills a container so fast, but a wet thumb bounces
TICK = 0.1
MINUTE = 60.0


def clock_text(seconds: float) -> str:
    """A running time as a stopwatch shows it."""
    minutes, rest = divmod(max(0.0, seconds), MINUTE)
    return f"{int(minutes)}:{int(rest):02d}" if minutes else f"{rest:.1f} s"


@ft.component
def Ticker(started_at: float) -> Any:
    """The running time. Only this text is drawn anew, and it reads the clock: ticks may be late."""
    now, set_now = ft.use_state(time.time())
    page = ft.context.page

    async def tick() -> None:
        while True:
            await asyncio.sleep(TICK)
            set_now(time.time())

    task: Any = ft.use_ref(None)

    def begin() -> None:
        task.current = page.run_task(tick)
        page.run_task(awake.stay_awake, True)

    def end() -> None:
        if task.current is not None:
            task.current.cancel()
        page.run_task(awake.stay_awake, False)

    ft.use_effect(begin, [], cleanup=end)
    # A button whose name changes ten times a second would be read again and again.
    return written(
        clock_text(now - started_at),
        size=theme.figure(theme.CLOCK),
        semantics_label=t("The time runs"),
    )


def _height(running: bool, again: bool) -> float:
    """Half of the screen while it runs; what leaves room for the result once there is one."""
    if not running:
        return theme.full(theme.STOPWATCH_AGAIN) if again else theme.tall(theme.STOPWATCH)
    height = ft.context.page.height
    least = theme.tall(theme.STOPWATCH)
    return max(least, height / 2) if height else max(least, theme.STOPWATCH_RUNNING)


@ft.component
def Stopwatch(
    started_at: float | None,
    on_start: Callable[[float], Any],
    on_stop: Callable[[float], Any],
    *,
    to_start: str = "",
    to_stop: str = "",
    again: bool = False,
) -> Any:
    """One button to start and to stop; with `again` it leaves room for a result below it."""
    last: Any = ft.use_ref(0.0)
    page = ft.context.page

    async def press(_: Any) -> None:
        pressed = await touch.pressed_at()
        if pressed - last.current < DOUBLE_TAP:
            return
        last.current = pressed
        if started_at is None:
            page.run_task(cue.give, "start")
            on_start(pressed)
        else:
            page.run_task(cue.give, "stop")
            on_stop(pressed - started_at)

    running = started_at is not None
    face: list[ft.Control] = [
        written(t("Stop") if running else t("Start"), size=theme.FIGURE, weight=ft.FontWeight.W_600)
    ]
    if started_at is not None:
        face.append(Ticker(started_at))
        words = to_stop or t("Press as the mark is reached")
    else:
        words = to_start or t("Press as the container goes under")
    face.append(written(words, size=theme.BODY, text_align=ft.TextAlign.CENTER))
    return ft.FilledButton(
        content=ft.Column(
            face,
            alignment=ft.MainAxisAlignment.CENTER,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
            spacing=4,
        ),
        height=_height(running, again),
        on_click=press,
        style=ft.ButtonStyle(shape=ft.RoundedRectangleBorder(radius=theme.RADIUS * 2)),
    )
