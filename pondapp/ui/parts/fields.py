"""Text fields that keep what was typed and say what is wrong beside it."""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp import units
from pondapp.ui.parts import labels
from pondapp.ui.parts.go_on import go_on
from pondapp.ui.parts.letters import can_be_drawn
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

units.get_ready()  # a screen with fields is about to be shown

# "5 ft 6 in" cannot be typed on a keypad of digits.
MIXED = ("ft", "in", "lb", "oz", "h")


MOST_LETTERS = 80


def name_error(name: str) -> str | None:
    """What is wrong with a name, if anything."""
    if len(name) > MOST_LETTERS:
        return t("Write a name of at most {most} letters", most=MOST_LETTERS)
    return None


def wrong(error: str) -> ft.Control:
    """What is wrong with what was typed: by mark and words, and said when it appears."""
    told = written(error, size=theme.SMALL, color=ft.Colors.ERROR, expand=True)
    mark = ft.Icon(ft.Icons.ERROR_OUTLINE, size=theme.BODY + 2, color=ft.Colors.ERROR)
    row = ft.Row([mark, told], spacing=6, vertical_alignment=ft.CrossAxisAlignment.START)
    return ft.Semantics(live_region=True, container=True, content=row)


def _field(label: str, field: ft.TextField, error: str | None, helper: str) -> ft.Control:
    """A field with its label above, where a long one wraps, and what is wrong below.

    Its key keeps it in hand when something above it comes or goes: without one, the framework would
    go by its place, and the next key would go into another field.

    The field is read out by all of its words. The framework would say "not invalid" of it whatever
    it is told, and would not speak up when something goes wrong; so what is wrong is a part of its
    name, and is said when it appears.
    """
    field.content_padding = theme.FIELD
    named = f"{label}. {error}" if error else label
    words: list[ft.Control] = [
        labels.label(label, semantics_label=named),
        field,
    ]
    if error:
        field.border_color = field.focused_border_color = ft.Colors.ERROR
        below = [wrong(error)]
    else:
        if helper:
            words.append(written(helper, size=theme.SMALL, color=ft.Colors.ON_SURFACE_VARIANT))
        below = []
    stretch = ft.CrossAxisAlignment.STRETCH
    whole = ft.MergeSemantics(ft.Column(words, spacing=4, horizontal_alignment=stretch))
    return ft.Column([whole, *below], spacing=4, horizontal_alignment=stretch, key=label)


def text_field(
    label: str,
    value: str,
    on_change: Callable[[str], Any],
    *,
    error: str | None = None,
    helper: str = "",
    multiline: bool = False,
) -> ft.Control:
    """A field for words, which says when some of what is typed cannot be shown here."""
    if not can_be_drawn(value):
        boxes = t("Some of this shows as boxes here. Backups and shares keep it as typed.")
        helper = f"{helper} {boxes}".strip()
    field = ft.TextField(
        value=value,
        multiline=multiline,
        min_lines=2 if multiline else None,
        on_submit=None if multiline else go_on,
        data=on_change,  # called by ui/shell/framework_patches.py
    )
    return _field(label, field, error, helper)


def quantity_field(
    label: str,
    value: str,
    on_change: Callable[[str], Any],
    *,
    unit: str,
    error: str | None = None,
    helper: str = "",
) -> ft.Control:
    """A field for an amount: a keypad of digits unless the unit is one that people mix."""
    field = ft.TextField(
        value=value,
        keyboard_type=ft.KeyboardType.TEXT if unit in MIXED else ft.KeyboardType.NUMBER,
        on_submit=go_on,
        data=on_change,  # called by ui/shell/framework_patches.py
    )
    return _field(f"{label} ({unit})" if unit else label, field, error, helper)
