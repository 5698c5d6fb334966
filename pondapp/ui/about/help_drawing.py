"""A small drawing for each page of help, on a grid of 120 by 96."""

from collections.abc import Callable, Mapping
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp.ui.about.help_texts import GUIDES, Topic
from pondapp.ui.methods.bucket import bucket
from pondapp.ui.parts import sketch
from pondapp.words import t


def _dot(x: float, y: float) -> cv.Circle:
    return cv.Circle(x, y, 4, paint=ft.Paint(color=ft.Colors.PRIMARY, style=ft.PaintingStyle.FILL))


def _size() -> list[Any]:
    return [
        sketch.water([(8, 62), (16, 88), (70, 88), (78, 62)]),
        sketch.line([(4, 56), (8, 62), (16, 88), (70, 88), (78, 62), (82, 56)]),
        sketch.water(sketch.box(62, 24, 106, 46), pale=True),
        sketch.line(sketch.box(62, 18, 106, 46)),
        *[_dot(x, 38) for x in (72, 84, 96)],
        sketch.line(sketch.box(24, 78, 36, 88)),
        sketch.line([(30, 78), (30, 10), (84, 10), (84, 24)]),
        sketch.water([(58, 24), (62, 24), (62, 62), (58, 62)]),
    ]


def _waterfall() -> list[Any]:
    return [
        sketch.water(
            [(6, 28), (60, 28), (78, 36), (82, 84), (76, 84), (72, 44), (62, 38), (6, 38)]
        ),
        sketch.line([(6, 38), (66, 38), (66, 84)]),
        sketch.water(sketch.box(66, 80, 114, 90), pale=True),
        sketch.line([(60, 90), (114, 90)]),
        *sketch.arrow(30, 12, 26),
    ]  # fmt: skip


def _valve(x: float, y: float) -> cv.Path:
    left, right, top, bottom = x - 9, x + 9, y - 7, y + 7
    return sketch.line([(left, top), (left, bottom), (right, top), (right, bottom), (left, top)])


def _tune() -> list[Any]:
    return [
        sketch.line([(4, 48), (36, 48)]),
        sketch.line([(36, 24), (36, 72)]),
        sketch.line([(36, 24), (55, 24)]),
        sketch.line([(73, 24), (102, 24), (102, 30)]),
        sketch.line([(36, 72), (55, 72)]),
        sketch.line([(73, 72), (102, 72), (102, 78)]),
        _valve(64, 24),
        _valve(64, 72),
        sketch.water([(99, 30), (105, 30), (105, 46), (99, 46)]),
        sketch.water([(99, 78), (105, 78), (105, 94), (99, 94)]),
    ]


def _log() -> list[Any]:
    points = [(24.0, 24.0), (42.0, 34.0), (60.0, 52.0), (76.0, 66.0), (92.0, 26.0), (108.0, 30.0)]
    return [
        sketch.line([(10, 6), (10, 88), (116, 88)]),
        sketch.mark(10, 116, 58),
        sketch.line(points, thick=False, color=ft.Colors.PRIMARY),
        *[_dot(x, y) for x, y in points],
    ]


def _learned() -> list[Any]:
    points = [(30.0, 22.0), (54.0, 42.0), (78.0, 44.0), (100.0, 66.0)]
    return [
        sketch.line([(10, 6), (10, 88), (116, 88)]),
        sketch.line([(20, 18), (110, 70)], thick=False, color=ft.Colors.PRIMARY),
        *[_dot(x, y) for x, y in points],
    ]


def _install() -> list[Any]:
    return [
        sketch.line([*sketch.box(34, 4, 86, 92), (34, 4)]),
        sketch.water(sketch.box(42, 16, 56, 30), pale=True),
        sketch.water(sketch.box(64, 16, 78, 30), pale=True),
        sketch.water(sketch.box(42, 42, 56, 56), pale=True),
        sketch.water(sketch.box(64, 42, 78, 56)),
        _dot(78, 42),
        sketch.line([(54, 84), (66, 84)]),
    ]


DRAWN: Mapping[Topic, Callable[[], list[Any]]] = {
    "measure": bucket,
    "size": _size,
    "waterfall": _waterfall,
    "tune": _tune,
    "log": _log,
    "learned": _learned,
    "what-if": _size,
    "install": _install,
}


def help_drawing(topic: Topic) -> ft.Control:
    """The drawing of a page of help, told in a sentence to those who do not see it."""
    return sketch.told(DRAWN[topic](), t(GUIDES[topic].drawn))
