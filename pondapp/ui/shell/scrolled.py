"""Where a screen was scrolled to when it was left: Back leads to that place of it."""

from collections.abc import Callable, Sequence
from contextlib import suppress

import flet as ft

OFTEN = 400  # ms between two reports of a finger that scrolls; its end is always reported
MOST = 50  # screens whose way is remembered

_columns: dict[str, tuple[ft.Column, ...]] = {}  # by address, as they are drawn now
_offsets: dict[str, dict[int, float]] = {}  # by address, of each column
_way: list[str] = []  # the addresses that led here


def note(route: str, columns: Sequence[ft.Column]) -> None:
    """A screen is drawn, with these columns that scroll."""
    _columns[route] = tuple(columns)
    for number, column in enumerate(columns):
        column.scroll_interval = OFTEN
        column.on_scroll = _keep(route, number)


def _keep(route: str, number: int) -> Callable[[ft.OnScrollEvent], None]:
    def keep(event: ft.OnScrollEvent) -> None:
        _offsets.setdefault(route, {})[number] = event.pixels

    return keep


def arrive(route: str) -> None:
    """Another screen is in front: the one before again, or one that begins at its top."""
    _columns.clear()  # of screens that are gone: what is there is drawn next
    if _way[-2:-1] == [route]:
        _offsets.pop(_way.pop(), None)
    elif _way[-1:] != [route]:
        _offsets.pop(route, None)
        _way.append(route)
        for old in _way[:-MOST]:
            _offsets.pop(old, None)
        del _way[:-MOST]


async def restore(route: str) -> None:
    """Scroll the screen in front to where it was left, once it is handed over."""
    for number, offset in _offsets.get(route, {}).items():
        columns = _columns.get(route, ())
        if offset and number < len(columns):
            with suppress(RuntimeError):  # it is gone already
                await columns[number].scroll_to(offset=offset)
