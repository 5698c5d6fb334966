"""Parts of a screen that stay as they were drawn while what they show is the same.

A screen is drawn whole at each change; on a phone, making its controls anew takes most of that.
"""

from collections.abc import Callable
from typing import Any

import flet as ft

from pondapp.store.browser.page import text_scale
from pondapp.words import current_language


class _Make:
    """How to draw; any way to draw the same is as good as another."""

    __hash__ = None  # type: ignore[assignment]

    def __init__(self, make: Callable[[], ft.Control]) -> None:
        self.make = make

    def __eq__(self, other: object) -> bool:
        return isinstance(other, _Make)


@ft.component
def _Drawn(shows: tuple[Any, ...], make: _Make) -> Any:  # noqa: ARG001  it is what is compared
    return make.make()


_Kept: Any = ft.memo(_Drawn)  # type: ignore[no-untyped-call]


def kept(shows: tuple[Any, ...], make: Callable[[], ft.Control]) -> ft.Control:
    """A part that is drawn anew only when what it shows, the language or the text size is another.

    Args:
        shows: All that its drawing depends on, compared by value.
        make: Draws it. What its handlers use must stay good when it is not drawn anew.
    """
    drawn: ft.Control = _Kept((current_language().code, text_scale(), *shows), _Make(make))
    return drawn
