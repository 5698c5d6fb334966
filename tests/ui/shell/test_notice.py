"""A note over the foot of a screen: how long it stays, and where it lies."""

import asyncio
from types import SimpleNamespace
from typing import Any

import flet as ft
import pytest

from pondapp.ui.shell import notice, pad_room, theme


class Window:
    """A page whose time passes when somebody sleeps."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.now = 0.0
        self.moves: dict[float, str] = {}
        self.tasks: list[Any] = []
        self.page = SimpleNamespace(
            route="/here", overlay=[], width=390, height=844,
            run_task=lambda work, *given: self.tasks.append(work(*given)),
        )  # fmt: skip
        monkeypatch.setattr(notice.ft, "context", SimpleNamespace(page=self.page))
        monkeypatch.setattr(ft.Container, "update", lambda _: None)
        monkeypatch.setattr(notice.time, "monotonic", lambda: self.now)
        monkeypatch.setattr(notice.asyncio, "sleep", self.sleep)
        notice.place(self.page)  # type: ignore[arg-type]
        (self.room,) = self.page.overlay

    async def sleep(self, seconds: float) -> None:
        self.now += seconds
        for moment, route in self.moves.items():
            if self.now >= moment:
                self.page.route = route

    def shown_for(self) -> float:
        """Seconds until nothing is told any more."""
        (task,) = self.tasks
        asyncio.run(task)
        assert not self.room.visible
        assert self.room.content is None
        return self.now


async def nothing() -> None:
    """What is taken back here."""


@pytest.fixture
def window(monkeypatch: pytest.MonkeyPatch) -> Window:
    return Window(monkeypatch)


def test_a_note_goes_by_itself(window: Window) -> None:
    notice.show("Done.")
    assert window.room.visible
    assert window.shown_for() == pytest.approx(notice.SECONDS, abs=0.5)


def test_one_that_can_be_taken_back_stays_longer(window: Window) -> None:
    notice.show("Done.", nothing)
    assert window.shown_for() == pytest.approx(notice.UNDO_SECONDS, abs=0.5)


def test_it_does_not_follow_to_another_screen(window: Window) -> None:
    window.moves = {4.0: "/there"}
    notice.show("Done.", nothing)
    assert window.shown_for() == pytest.approx(4.0, abs=0.5)


def test_what_leads_to_another_screen_is_told_there(window: Window) -> None:
    window.moves = {2.0: "/there", 6.0: "/elsewhere"}
    notice.show("Saved.", nothing)
    assert window.shown_for() == pytest.approx(6.0, abs=0.5)


def test_the_next_note_takes_the_place_of_the_last(window: Window) -> None:
    notice.show("One.", nothing)
    first = window.tasks.pop()
    notice.show("Two.")
    second = window.room.content
    asyncio.run(first)  # ends without a word
    assert window.room.content is second
    assert window.shown_for() == pytest.approx(notice.SECONDS, abs=1.0)


def test_it_lies_beside_the_stopwatch(window: Window) -> None:
    notice.show("Done.")
    assert window.room.right == theme.GAP
    window.page.width, window.page.height = 844, 390
    pad_room.appears("/here")
    try:
        notice.show("Done.")
        assert window.room.right == theme.GAP + pad_room.side_width() > 400
    finally:
        pad_room.goes("/here")
    for task in window.tasks:
        task.close()


def test_it_covers_none_of_the_four_places(window: Window) -> None:
    window.page.width, window.page.height = 390, 844
    notice.show("Done.")
    assert window.room.bottom > theme.TOUCH_MAIN
    assert window.room.left == theme.GAP
    window.page.width, window.page.height = 1180, 820
    notice.show("Done.")
    assert window.room.bottom == theme.GAP
    assert window.room.left > theme.RAIL
    for task in window.tasks:
        task.close()


def test_what_is_true_no_longer_is_taken_away(window: Window) -> None:
    notice.take_away()  # nothing is told
    notice.show("Alder Corner is deleted.", nothing)
    notice.take_away()
    assert window.shown_for() < 1.0
