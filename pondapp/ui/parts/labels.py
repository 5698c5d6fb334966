"""Names of what stands side by side: where one takes two lines, so does the room of the other."""

from collections.abc import Sequence
from math import ceil
from typing import Any

import flet as ft

from pondapp.store.browser.page import text_scale
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme

LINE = 20 / 14  # height of a line beside the size of its letters
# Widths of letters beside their size: an estimate, and where it errs, a line is open or too few.
NARROW, WIDE = frozenset("fijlrt.,:;'()[]|!/- I"), frozenset("mwMW%@")
THIN, PLAIN, TALL, BROAD = 0.29, 0.53, 0.64, 0.85


class Label(ft.Stack):
    """A name above what it names; at the foot of its room, so that it stays near that."""

    words = ""

    def make_room(self, height: float) -> None:
        """At least so high, however short the name is."""
        self.controls[0] = ft.Container(width=1, height=height)


def label(text: str, *, semantics_label: str | None = None, **style: Any) -> Label:
    """A name in small letters."""
    words = written(text, size=theme.SMALL, semantics_label=semantics_label, **style)
    made = Label([ft.Container(width=1, height=0), words], alignment=ft.Alignment.BOTTOM_LEFT)
    made.words = text
    return made


def _width(word: str) -> float:
    def one(letter: str) -> float:
        if letter in NARROW:
            return THIN
        if letter in WIDE:
            return BROAD
        return TALL if letter.isupper() else PLAIN

    return sum(map(one, word))


def lines_of(text: str, room: float) -> int:
    """How many lines a text takes, by the widths of its letters and of the room, in letter sizes.

    What is longer than a line goes on in the next, as the client breaks it.
    """
    lines, used = 1, 0.0
    for word in text.split(" "):
        long = _width(word)
        if used and used + THIN + long > room:
            lines, used = lines + 1, 0.0
        used += (THIN if used else 0.0) + long
        if used > room:
            more = ceil(used / room) - 1
            lines, used = lines + more, used - more * room
    return lines


def _labels(control: Any) -> list[Label]:
    """The first name in each of some controls."""
    if isinstance(control, Label):
        return [control]
    parts = [*(getattr(control, "controls", None) or []), getattr(control, "content", None)]
    for part in parts:
        if isinstance(part, ft.BaseControl) and (found := _labels(part)):
            return found
    return []


def level(controls: Sequence[ft.Control], width: float) -> None:
    """Names of one row get the room of the longest of them, so that what is below lines up.

    Args:
        controls: What stands side by side, each with a name on top.
        width: Of each of them; 0 while it is not known.
    """
    found = [name for control in controls for name in _labels(control)]
    size = theme.SMALL * text_scale()
    most = max((lines_of(one.words, width / size) for one in found), default=1) if width else 1
    for one in found:
        one.make_room(most * size * LINE if most > 1 else 0.0)
