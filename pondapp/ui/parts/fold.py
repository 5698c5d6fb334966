"""What is seldom needed, folded away behind a button."""

from collections.abc import Callable, Sequence
from typing import Any

import flet as ft

from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme


def fold(
    key: str, title: str, controls: Callable[[], Sequence[ft.Control]], *, opened: bool = False
) -> Any:
    """A button with a title that shows and hides what is below it; drawn only while shown.

    The key tells it from other folds of the screen, so that what is open stays open when something
    above it comes or goes. `opened` is how it begins: open where something in it is wrong.
    """
    keyed: Any = Fold
    return keyed(title, controls, opened, key=key)


@ft.component
def Fold(title: str, controls: Callable[[], Sequence[ft.Control]], opened: bool) -> Any:
    """What `fold` makes."""
    shown, set_shown = ft.use_state(opened)
    head = ft.TextButton(
        content=ft.Row(
            [
                ft.Icon(
                    ft.Icons.EXPAND_LESS if shown else ft.Icons.EXPAND_MORE,
                    size=theme.drawn(theme.TITLE),
                ),
                written(title, size=theme.BODY, expand=True),
                ft.Container(width=1, height=theme.TOUCH),  # no lower, and higher for large text
            ],
            spacing=8,
        ),
        on_click=lambda _: set_shown(not shown),
        style=ft.ButtonStyle(
            shape=ft.RoundedRectangleBorder(radius=theme.RADIUS),
            padding=0,
        ),
    )
    # One node for those who do not see the mark: a button, and whether it is unfolded.
    told = ft.MergeSemantics(ft.Semantics(expanded=shown, content=head))
    return ft.Column(
        [told, *(controls() if shown else ())],
        spacing=theme.GAP,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
