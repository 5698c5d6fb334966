"""The three uses, each a small picture to touch, drawn like the picture of a pond.

The drawings are boxes in the tones of that picture: strokes would need code that the first screen
does not wait for.
"""

import flet as ft

from pondapp.answers.picture.primitives import Tone
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import places, theme
from pondapp.ui.shell.navigate import go
from pondapp.words import t

# Left, top, right and bottom of each box on a grid of 72 by 54, and its tone, from the back on.
Box = tuple[float, float, float, float, Tone]
MEASURE: tuple[Box, ...] = (
    (4, 6, 40, 14, "hose"),
    (34, 6, 42, 30, "falling"),
    (24, 30, 56, 52, "water"),
    (24, 30, 56, 31.5, "hose"),
    (21, 20, 24, 54, "ink"),
    (56, 20, 59, 54, "ink"),
    (21, 51, 59, 54, "ink"),
    (59, 29.5, 66, 31.5, "ink"),
)
PUMP: tuple[Box, ...] = (
    (2, 30, 44, 54, "water"),
    (2, 30, 44, 31.5, "hose"),
    (48, 12, 68, 54, "bank"),
    (32, 6, 37, 48, "hose"),
    (32, 6, 58, 11, "hose"),
    (54, 6, 59, 16, "hose"),
    (10, 40, 32, 52, "ink"),
    (14, 42, 16, 50, "gap"),
    (19, 42, 21, 50, "gap"),
    (24, 42, 26, 50, "gap"),
)
WATERFALL: tuple[Box, ...] = (
    (4, 14, 36, 54, "bank"),
    (4, 10, 40, 14, "ink"),
    (4, 5, 44, 10, "falling"),
    (40, 5, 47, 44, "falling"),
    (36, 42, 70, 54, "water"),
    (36, 42, 70, 43.5, "hose"),
)
GRID = (72.0, 54.0)
BESIDE_LARGE = 0.6  # so that a long word beside it stays whole where the screen is narrow


def _drawn(boxes: tuple[Box, ...]) -> ft.Control:
    share = BESIDE_LARGE if theme.large_text() else 1.0
    width, height = (share * theme.drawn(side) for side in GRID)
    scale = width / GRID[0]
    parts: list[ft.Control] = [
        ft.Container(
            left=left * scale,
            top=top * scale,
            width=(right - left) * scale,
            height=(bottom - top) * scale,
            bgcolor=theme.picture_color(tone, line=False),
        )
        for left, top, right, bottom, tone in boxes
    ]
    return ft.Stack(parts, width=width, height=height)


def _size(*, first: bool, low: bool) -> float:
    if first and not theme.large_text():
        return theme.BODY + 2
    return theme.BODY if low else theme.SMALL


def _use(label: str, boxes: tuple[Box, ...], route: str, *, first: bool, low: bool) -> ft.Control:
    """A picture and its words: above each other where two share a row, else beside each other."""
    words = written(
        label,
        size=_size(first=first, low=low),
        weight=ft.FontWeight.W_600,
        color=ft.Colors.ON_SURFACE,
        text_align=ft.TextAlign.START if low else ft.TextAlign.CENTER,
        expand=low,
    )
    parts = [_drawn(boxes), words]
    middle = ft.CrossAxisAlignment.CENTER
    return ft.TextButton(
        content=ft.Row(parts, spacing=theme.EDGE, vertical_alignment=middle)
        if low
        else ft.Column(parts, spacing=theme.GAP / 2, horizontal_alignment=middle, tight=True),
        on_click=go(route),
        style=ft.ButtonStyle(
            bgcolor=ft.Colors.PRIMARY_CONTAINER if first else ft.Colors.SURFACE_CONTAINER,
            padding=theme.GAP,
            visual_density=ft.VisualDensity.STANDARD,
            shape=layout.rounded(),
        ),
        expand=not low,
    )


def uses() -> ft.Control:
    """All three; the first as wide as its button on the start screen, whose place it takes.

    So a touch that comes a moment late still measures.
    """
    low = theme.large_text()
    measure = _use(
        t("Measure a flow"), MEASURE, places.route_to("measure", "/"), first=True, low=True
    )
    others = [
        _use(t("Choose a pump"), PUMP, "/size", first=False, low=low),
        _use(t("Check a waterfall"), WATERFALL, "/waterfall", first=False, low=low),
    ]
    if low:
        return layout.column([measure, *others])
    pair = ft.Row(
        others,
        spacing=theme.GAP,
        intrinsic_height=True,  # both as high as the one with more lines
        vertical_alignment=ft.CrossAxisAlignment.STRETCH,
    )
    return layout.column([measure, pair])
