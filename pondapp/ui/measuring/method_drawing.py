"""A small drawing of each way of measuring, on a grid of 120 by 96."""

from collections.abc import Callable, Mapping
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp.answers.measuring.method_entry import MethodKind
from pondapp.ui.parts import sketch
from pondapp.words import t

SAID: Mapping[MethodKind, str] = {
    "bucket": "Drawing: water falls from a pipe into a bucket with a mark.",
    "weighed": "Drawing: a full bucket stands on a scale.",
    "level_drop": "Drawing: water is drawn from a basin; its level falls from one mark to another.",
    "filling": "Drawing: water runs into a box; its level rises from one mark to another.",
    "lip_depth": "Drawing: a ruler stands in the water behind a lip that water falls over.",
    "meter": "Drawing: a pipe with a flow meter in it.",
    "nothing": "Drawing: a pipe over a bucket; no water comes out of it.",
}


BUCKET: sketch.Points = [(38, 40), (44, 88), (88, 88), (94, 40)]


def bucket() -> list[Any]:
    """Water falls from a pipe into a bucket with a mark."""
    return [
        sketch.water([(41, 62), (44, 88), (88, 88), (91, 62)]),
        sketch.water([(58, 16), (64, 18), (68, 62), (62, 62)]),
        sketch.line(BUCKET),
        sketch.line([(6, 6), (52, 6), (64, 18)]),
        sketch.line([(6, 18), (46, 18), (56, 26)]),
        sketch.mark(80, 104, 50),
    ]


def _weighed() -> list[Any]:
    return [
        sketch.water([(40, 22), (44, 58), (80, 58), (84, 22)]),
        sketch.line([(38, 12), (44, 58), (80, 58), (86, 12)]),
        sketch.line([(22, 62), (102, 62)]),
        sketch.line([(30, 62), (24, 90), (100, 90), (94, 62)]),
        cv.Circle(62, 77, 9, paint=ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=1.5,
                                             style=ft.PaintingStyle.STROKE)),
        sketch.line([(62, 77), (67, 72)], thick=False),
    ]  # fmt: skip


def _level_drop() -> list[Any]:
    return [
        sketch.water(sketch.box(14, 30, 86, 88), pale=True),
        sketch.water(sketch.box(14, 56, 86, 88)),
        sketch.line(sketch.box(14, 14, 86, 88)),
        sketch.mark(4, 24, 30),
        sketch.mark(4, 24, 56),
        *sketch.arrow(46, 33, 53),
        sketch.line([(74, 80), (74, 6), (112, 6), (112, 24)]),
    ]


def _filling() -> list[Any]:
    return [
        sketch.water(sketch.box(26, 42, 106, 72), pale=True),
        sketch.water(sketch.box(26, 72, 106, 88)),
        sketch.line(sketch.box(26, 22, 106, 88)),
        sketch.mark(96, 116, 42),
        sketch.mark(96, 116, 72),
        *sketch.arrow(78, 69, 46),
        sketch.water([(41, 8), (47, 8), (47, 72), (41, 72)]),
        sketch.line([(6, 8), (47, 8)]),
    ]


def _lip_depth() -> list[Any]:
    return [
        sketch.water([(4, 30), (58, 30), (84, 36), (92, 48), (96, 88), (90, 88), (86, 50), (78, 44),
                (72, 44), (72, 88), (4, 88)]),
        sketch.line([(4, 88), (72, 88), (72, 44), (78, 44)]),
        sketch.mark(24, 76, 44),
        sketch.line(sketch.box(26, 6, 36, 44)),
        *[sketch.mark(26, 31, y) for y in (12, 20, 28, 36)],
        *sketch.arrow(48, 18, 28),
    ]  # fmt: skip


def _meter() -> list[Any]:
    return [
        sketch.water(sketch.box(4, 52, 116, 74)),
        sketch.line([(4, 52), (116, 52)]),
        sketch.line([(4, 74), (116, 74)]),
        cv.Circle(60, 36, 26, paint=ft.Paint(color=ft.Colors.SURFACE,
                                             style=ft.PaintingStyle.FILL)),
        cv.Circle(60, 36, 26, paint=ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=2.5,
                                             style=ft.PaintingStyle.STROKE)),
        sketch.line([(60, 36), (72, 22)]),
        *[sketch.line(points, thick=False)
          for points in ([(38, 36), (43, 36)], [(60, 14), (60, 19)], [(77, 36), (82, 36)])],
    ]  # fmt: skip


def _nothing() -> list[Any]:
    return [
        sketch.line(BUCKET),
        sketch.line([(6, 6), (52, 6), (64, 18)]),
        sketch.line([(6, 18), (46, 18), (56, 26)]),
        sketch.line([(62, 34), (62, 38)], thick=False),
    ]


DRAWN: Mapping[MethodKind, Callable[[], list[Any]]] = {
    "bucket": bucket,
    "weighed": _weighed,
    "level_drop": _level_drop,
    "filling": _filling,
    "lip_depth": _lip_depth,
    "meter": _meter,
    "nothing": _nothing,
}


def method_drawing(kind: MethodKind) -> ft.Control:
    """The drawing of a method, told in a sentence to those who do not see it."""
    return sketch.told(DRAWN[kind](), t(SAID[kind]))
