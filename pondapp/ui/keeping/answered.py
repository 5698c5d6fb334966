"""What the screens of the calculators say while there is no answer."""

from collections.abc import Callable, Mapping

import flet as ft

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.ui.parts import layout, severity
from pondapp.words import t


def answered(
    errors: Mapping[str, str], work_out: Callable[[], list[ft.Control]], system: str
) -> list[ft.Control]:
    """The answer; or that something typed is wrong, or what cannot be worked out."""
    if errors:
        return [layout.body(t("Correct what is marked, and the answer is back."))]
    try:
        return work_out()
    except PondError as problem:
        return [severity.card("unknown", units.explain(problem, system))]


def shown(route: str, title: str, screen: Callable[[], ft.Control], system: str) -> ft.Control:
    """The screen; or what is wrong with the pond itself: its shape, or a changed rule."""
    try:
        return screen()
    except PondError as problem:
        told = severity.card("unknown", units.explain(problem, system))
        return layout.screen(route, title, [told])
