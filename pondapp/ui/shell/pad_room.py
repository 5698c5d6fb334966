"""The room that a screen leaves for the stopwatch of the page, which lies over it.

The same numbers stand in the styles of `web/templates/index.html`; a browser test compares them.
"""

import flet as ft

from pondapp.store.browser import page as browser
from pondapp.store.browser.page import text_scale

BUTTON = 0.45  # of the height of the window
GAUGE = 128  # logical pixels at usual text size
MOST_GAUGE = 0.22  # of the height of the window
SIDE = 0.5  # of the width of a window that is wider than high
MOST_SIDE = 480
LITTLE = 300  # of height, title bar and all

_shown: list[str] = []  # the screens that show it: one, or two while one takes the other's place


def beside() -> bool:
    """Whether the button stands at the right, since the window is wider than high."""
    page = ft.context.page
    return (page.width or 0.0) > (page.height or 0.0)


def gauge_height() -> float:
    """Height of number, bar and dots."""
    return min(GAUGE * max(1.0, text_scale()), MOST_GAUGE * (ft.context.page.height or 0.0))


def foot_height() -> float:
    """Height of what it takes at the foot of the screen."""
    button = 0.0 if beside() else BUTTON * (ft.context.page.height or 0.0)
    return button + gauge_height()


def is_tight() -> bool:
    """Whether a few lines are all that there is room for above it."""
    return (ft.context.page.height or 0.0) - foot_height() < LITTLE


def side_width() -> float:
    """Width of what it takes at the right of the screen."""
    return min(SIDE * (ft.context.page.width or 0.0), MOST_SIDE) if beside() else 0.0


def appears(route: str) -> None:
    """A screen shows it."""
    _shown.append(route)


def goes(route: str) -> None:
    """A screen shows it no longer."""
    if route in _shown:
        _shown.remove(route)


def is_shown() -> bool:
    """Whether the screen in front is one with a stopwatch."""
    return bool(_shown)


def taken_at_right() -> float:
    """How much of the right side of the window it takes now."""
    return side_width() if _shown else 0.0


async def cover(on: bool) -> None:
    """Take it out of sight while something is open that must not be covered, such as a menu."""
    await browser.ask("cover", on=on)
