"""Back leads to where a screen was left; a way forward leads to the top of one."""

import asyncio
from collections.abc import Iterator
from types import SimpleNamespace
from typing import Any

import flet as ft
import pytest

from pondapp.ui.shell import scrolled


class Column(ft.Column):
    """One that says where it was scrolled to."""

    async def scroll_to(self, offset: float | None = None, **_: Any) -> None:  # type: ignore[override]
        MOVED.append((str(self.data), offset))


MOVED: list[tuple[str, float | None]] = []


@pytest.fixture(autouse=True)
def _anew() -> Iterator[None]:
    for kept in (scrolled._columns, scrolled._offsets, scrolled._way, MOVED):
        kept.clear()  # type: ignore[attr-defined]
    yield
    for kept in (scrolled._columns, scrolled._offsets, scrolled._way):
        kept.clear()  # type: ignore[attr-defined]


def show(route: str, count: int = 1) -> list[tuple[str, float | None]]:
    """Draw a screen in front; where its columns are scrolled to."""
    MOVED.clear()
    scrolled.arrive(route)
    scrolled.note(route, [Column(data=str(number)) for number in range(count)])
    asyncio.run(scrolled.restore(route))
    return list(MOVED)


def scroll(route: str, pixels: float, number: int = 0) -> None:
    scrolled._columns[route][number].on_scroll(SimpleNamespace(pixels=pixels))  # type: ignore[misc, operator]


def test_back_leads_to_where_it_was_left() -> None:
    assert show("/log") == []
    scroll("/log", 120.0)
    scroll("/log", 350.0)
    assert show("/fish") == []
    assert show("/log") == [("0", 350.0)]
    assert show("/log") == [("0", 350.0)], "drawn anew by a second window size"


def test_each_column_by_itself_and_one_at_its_top_is_left_alone() -> None:
    show("/log", 2)
    scroll("/log", 80.0, 1)
    scroll("/log", 0.0, 0)
    show("/fish")
    assert show("/log", 2) == [("1", 80.0)]
    show("/fish")
    assert show("/log", 1) == [], "turned meanwhile: the other column is gone"


def test_a_way_forward_leads_to_the_top() -> None:
    for route in ("/help/a", "/help/b", "/c"):
        show(route)
        scroll(route, 200.0)
    assert show("/help/a") == []


def test_two_steps_back() -> None:
    for route in ("/a", "/b", "/c"):
        show(route)
        scroll(route, 200.0)
    assert show("/b") == [("0", 200.0)]
    assert show("/a") == [("0", 200.0)]
    assert show("/b") == [], "forward again"


def test_a_long_way_is_not_kept_whole() -> None:
    for number in range(3 * scrolled.MOST):
        show(f"/{number}")
        scroll(f"/{number}", 10.0)
    assert len(scrolled._way) == scrolled.MOST
    assert len(scrolled._offsets) <= scrolled.MOST
