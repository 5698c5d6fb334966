"""The big button that starts and stops a time, where there is no page that has one of its own."""

import asyncio
import math
from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.ui.parts.written import written
from pondapp.ui.shell import pad_room, theme, touch
from pondapp.words import t

DOUBLE_TAP = 0.4  # seconds; nobody fills a container so fast, but a wet thumb bounces
QUIET = 1.0  # seconds after a stop in which a press is taken for a bounce too
TICK = 0.1
MINUTE = 60.0

_stopped: list[float] = [-math.inf]  # tick of the last stop


def clock_text(seconds: float) -> str:
    """A running time as a stopwatch shows it."""
    minutes, rest = divmod(max(0.0, seconds), MINUTE)
    return f"{int(minutes)}:{int(rest):02d}" if minutes else f"{rest:.1f} s"


def note_stop(tick: float) -> None:
    """Take note that a fill was stopped at this tick."""
    _stopped[:] = [tick]


async def bounced() -> bool:
    """Whether the press being handled came so soon after a stop that it was meant for nothing."""
    return await touch.pressed_at() - _stopped[0] < QUIET


@ft.component
def Ticker(elapsed: Callable[[], float]) -> Any:
    """The running time. Only this text is drawn anew, and it reads the clock: ticks may be late."""
    shown, set_shown = ft.use_state(elapsed())
    page = ft.context.page

    async def tick() -> None:
        while True:
            await asyncio.sleep(TICK)
            set_shown(elapsed())

    task: Any = ft.use_ref(None)

    def begin() -> None:
        task.current = page.run_task(tick)

    def end() -> None:
        if task.current is not None:
            task.current.cancel()

    ft.use_effect(begin, [], cleanup=end)
    # A button whose name changes ten times a second would be read again and again.
    return written(
        clock_text(shown),
        size=theme.figure(theme.CLOCK),
        semantics_label=t("The time runs"),
    )


@ft.component
def Stopwatch(
    elapsed: Callable[[], float] | None,
    on_start: Callable[[float], Any],
    on_stop: Callable[[float], Any],
    *,
    to_start: str = "",
    to_stop: str = "",
) -> Any:
    """One button to start and to stop; both are told the tick of the press."""
    last: Any = ft.use_ref(-math.inf)

    async def press(_: Any) -> None:
        pressed = await touch.pressed_at()
        if pressed - last.current < DOUBLE_TAP or pressed - _stopped[0] < QUIET:
            return
        last.current = pressed
        if elapsed is None:
            on_start(pressed)
        else:
            note_stop(pressed)
            on_stop(pressed)

    running = elapsed is not None
    face: list[ft.Control] = [
        written(t("Stop") if running else t("Start"), size=theme.FIGURE, weight=ft.FontWeight.W_600)
    ]
    if elapsed is not None:
        face.append(Ticker(elapsed))
        words = to_stop or t("Tap when the water reaches the mark")
    else:
        words = to_start or t("Tap when water starts to fall in")
    face.append(written(words, size=theme.BODY, text_align=ft.TextAlign.CENTER))
    return ft.FilledButton(
        content=ft.Column(
            face,
            alignment=ft.MainAxisAlignment.CENTER,
            horizontal_alignment=ft.CrossAxisAlignment.CENTER,
            spacing=2,
        ),
        height=pad_room.foot_height(),
        on_click=press,
        style=ft.ButtonStyle(shape=ft.RoundedRectangleBorder(radius=theme.RADIUS * 2)),
    )
