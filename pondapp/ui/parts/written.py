"""Texts on the screen, whose amounts stay whole where a line ends."""

import re
from typing import Any

import flet as ft

from pondapp import words

NO_BREAK = "\u00a0"
# As wide as nothing, and no line ends there. The font has it, which it has not of the newer word
# joiner: for one of those, engines ask the host for another font.
JOINER = "\ufeff"
_BEFORE_UNIT = re.compile(r"(?<=\d) (?=(?:[^\s\d]{1,7}|\d/\d)(?:[\s.,;:)]|$)|%)")
# Nor between "T" and "piece", or "95 %" and what it is of, where a language writes so.
_IN_UNIT = re.compile(r"(?<=\w)/(?=\w)|(?<=\d)-(?=%)|(?<=\b\w)-(?=\w)|(?<=%)-(?=\w)")


def whole(text: str) -> str:
    """The text, without a place to break before a unit, and none in "L/h" or "T-piece"."""
    return _IN_UNIT.sub(rf"\g<0>{JOINER}", _BEFORE_UNIT.sub(NO_BREAK, text))


def written(text: str, *, semantics_label: str | None = None, **style: Any) -> ft.Text:
    """A text as it is shown; it is read aloud and found without those marks.

    Nor does it have there the marks between thousands, which a voice of another language would
    take for decimal marks.
    """
    shown = whole(text)
    said = words.ungrouped(semantics_label or text)
    label = said if semantics_label or said != shown else None
    return ft.Text(shown, semantics_label=label, **style)


def drawing(said: str, drawn: ft.Control) -> ft.Control:
    """A drawing, which is read aloud as a sentence."""
    return ft.Semantics(label=words.ungrouped(said), image=True, content=drawn)
