"""A small drawing of each way of measuring, on a grid of 120 by 96."""

from collections.abc import Callable, Mapping, Sequence
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp.sizing.method_entry import MethodKind
from pondapp.ui import theme
from pondapp.words import t

Points = Sequence[tuple[float, float]]

SAID: Mapping[MethodKind, str] = {
    "bucket": "Drawing: water falls from a pipe into a bucket with a mark.",
    "weighed": "Drawing: a full bucket stands on a scale.",
    "level_drop": "Drawing: water is drawn from a basin; its level falls from one mark to another.",
    "filling": "Drawing: water runs into a box; its level rises from one mark to another.",
    "lip_depth": "Drawing: a ruler stands in the water behind a lip that water falls over.",
    "meter": "Drawing: a pipe with a flow meter in it.",
}


def _line(points: Points, *, thick: bool = True, color: str = ft.Colors.ON_SURFACE) -> cv.Path:
    first, *rest = points
    elements: list[Any] = [cv.Path.MoveTo(*first), *(cv.Path.LineTo(*point) for point in rest)]
    paint = ft.Paint(
        color=color,
        stroke_width=2.5 if thick else 1.5,
        style=ft.PaintingStyle.STROKE,
        stroke_cap=ft.StrokeCap.ROUND,
        stroke_join=ft.StrokeJoin.ROUND,
    )
    return cv.Path(elements, paint=paint)


def _water(points: Points, *, pale: bool = False) -> cv.Path:
    first, *rest = points
    color = ft.Colors.with_opacity(0.25 if pale else 0.55, ft.Colors.PRIMARY)
    return cv.Path(
        [cv.Path.MoveTo(*first), *(cv.Path.LineTo(*point) for point in rest), cv.Path.Close()],
        paint=ft.Paint(color=color, style=ft.PaintingStyle.FILL),
    )


def _box(left: float, top: float, right: float, bottom: float) -> Points:
    return [(left, top), (left, bottom), (right, bottom), (right, top)]


def _arrow(x: float, start: float, end: float) -> list[Any]:
    """An arrow up or down."""
    back = 6 if end > start else -6
    return [
        _line([(x, start), (x, end)]),
        _line([(x - 5, end - back), (x, end), (x + 5, end - back)]),
    ]


def _mark(left: float, right: float, y: float) -> cv.Path:
    return _line([(left, y), (right, y)], thick=False)


BUCKET: Points = [(38, 40), (44, 88), (88, 88), (94, 40)]


def _bucket() -> list[Any]:
    return [
        _water([(41, 62), (44, 88), (88, 88), (91, 62)]),
        _water([(58, 16), (64, 18), (68, 62), (62, 62)]),
        _line(BUCKET),
        _line([(6, 6), (52, 6), (64, 18)]),
        _line([(6, 18), (46, 18), (56, 26)]),
        _mark(80, 104, 50),
    ]


def _weighed() -> list[Any]:
    return [
        _water([(40, 22), (44, 58), (80, 58), (84, 22)]),
        _line([(38, 12), (44, 58), (80, 58), (86, 12)]),
        _line([(22, 62), (102, 62)]),
        _line([(30, 62), (24, 90), (100, 90), (94, 62)]),
        cv.Circle(62, 77, 9, paint=ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=1.5,
                                             style=ft.PaintingStyle.STROKE)),
        _line([(62, 77), (67, 72)], thick=False),
    ]  # fmt: skip


def _level_drop() -> list[Any]:
    return [
        _water(_box(14, 30, 86, 88), pale=True),
        _water(_box(14, 56, 86, 88)),
        _line(_box(14, 14, 86, 88)),
        _mark(4, 24, 30),
        _mark(4, 24, 56),
        *_arrow(46, 33, 53),
        _line([(74, 80), (74, 6), (112, 6), (112, 24)]),
    ]


def _filling() -> list[Any]:
    return [
        _water(_box(26, 42, 106, 72), pale=True),
        _water(_box(26, 72, 106, 88)),
        _line(_box(26, 22, 106, 88)),
        _mark(96, 116, 42),
        _mark(96, 116, 72),
        *_arrow(78, 69, 46),
        _water([(41, 8), (47, 8), (47, 72), (41, 72)]),
        _line([(6, 8), (47, 8)]),
    ]


def _lip_depth() -> list[Any]:
    return [
        _water([(4, 30), (58, 30), (84, 36), (92, 48), (96, 88), (90, 88), (86, 50), (78, 44),
                (72, 44), (72, 88), (4, 88)]),
        _line([(4, 88), (72, 88), (72, 44), (78, 44)]),
        _mark(24, 76, 44),
        _line(_box(26, 6, 36, 44)),
        *[_mark(26, 31, y) for y in (12, 20, 28, 36)],
        *_arrow(48, 18, 28),
    ]  # fmt: skip


def _meter() -> list[Any]:
    return [
        _water(_box(4, 52, 116, 74)),
        _line([(4, 52), (116, 52)]),
        _line([(4, 74), (116, 74)]),
        cv.Circle(60, 36, 26, paint=ft.Paint(color=ft.Colors.SURFACE,
                                             style=ft.PaintingStyle.FILL)),
        cv.Circle(60, 36, 26, paint=ft.Paint(color=ft.Colors.ON_SURFACE, stroke_width=2.5,
                                             style=ft.PaintingStyle.STROKE)),
        _line([(60, 36), (72, 22)]),
        *[_line(points, thick=False)
          for points in ([(38, 36), (43, 36)], [(60, 14), (60, 19)], [(77, 36), (82, 36)])],
    ]  # fmt: skip


DRAWN: Mapping[MethodKind, Callable[[], list[Any]]] = {
    "bucket": _bucket,
    "weighed": _weighed,
    "level_drop": _level_drop,
    "filling": _filling,
    "lip_depth": _lip_depth,
    "meter": _meter,
}


def method_drawing(kind: MethodKind) -> ft.Control:
    """The drawing of a method, told in a sentence to those who do not see it."""
    width, height = theme.SKETCH
    canvas = cv.Canvas(DRAWN[kind](), width=width, height=height)
    return ft.Semantics(label=t(SAID[kind]), image=True, content=canvas)
