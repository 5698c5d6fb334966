"""Strokes and water of the small drawings, in the colours of the theme in use."""

from collections.abc import Sequence
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp.answers.picture.primitives import Area, Shape
from pondapp.ui.parts.written import drawing
from pondapp.ui.shell import theme

Points = Sequence[tuple[float, float]]


def path(points: Points, paint: ft.Paint, *, closed: bool) -> cv.Path:
    """Straight lines from point to point, and back to the first where they close."""
    first, *rest = points
    elements: list[Any] = [cv.Path.MoveTo(*first), *(cv.Path.LineTo(*point) for point in rest)]
    if closed:
        elements.append(cv.Path.Close())
    return cv.Path(elements, paint=paint)


def drawn(shape: Shape) -> cv.Path:
    """A shape of a picture, in the colours of the theme in use."""
    color = theme.picture_color(shape.tone, line=not isinstance(shape, Area))
    if isinstance(shape, Area):
        return path(shape.points, ft.Paint(color=color, style=ft.PaintingStyle.FILL), closed=True)
    paint = ft.Paint(
        color=color,
        stroke_width=shape.width,
        style=ft.PaintingStyle.STROKE,
        stroke_join=ft.StrokeJoin.ROUND,
        stroke_dash_pattern=[4, 4] if shape.dashed else None,
    )
    return path(shape.points, paint, closed=False)


def line(points: Points, *, thick: bool = True, color: str = ft.Colors.ON_SURFACE) -> cv.Path:
    """A stroke through the points."""
    paint = ft.Paint(
        color=color,
        stroke_width=2.5 if thick else 1.5,
        style=ft.PaintingStyle.STROKE,
        stroke_cap=ft.StrokeCap.ROUND,
        stroke_join=ft.StrokeJoin.ROUND,
    )
    return path(points, paint, closed=False)


def water(points: Points, *, pale: bool = False) -> cv.Path:
    """An area of water; a pale one is water that has gone, or is still to come."""
    color = ft.Colors.with_opacity(0.25 if pale else 0.55, ft.Colors.PRIMARY)
    return path(points, ft.Paint(color=color, style=ft.PaintingStyle.FILL), closed=True)


def box(left: float, top: float, right: float, bottom: float) -> Points:
    """A box without a lid."""
    return [(left, top), (left, bottom), (right, bottom), (right, top)]


def arrow(x: float, start: float, end: float) -> list[Any]:
    """An arrow up or down."""
    back = 6 if end > start else -6
    return [
        line([(x, start), (x, end)]),
        line([(x - 5, end - back), (x, end), (x + 5, end - back)]),
    ]


def mark(left: float, right: float, y: float) -> cv.Path:
    """A thin level line."""
    return line([(left, y), (right, y)], thick=False)


def told(shapes: list[Any], sentence: str) -> ft.Control:
    """A drawing, told in a sentence to those who do not see it."""
    width, height = theme.SKETCH
    return drawing(sentence, cv.Canvas(shapes, width=width, height=height))
