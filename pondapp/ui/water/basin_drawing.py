"""A basin to scale: from above, and cut through along its length."""

from dataclasses import dataclass
from math import ceil
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.water.basin_outline import BasinPicture, Point
from pondapp.ui.parts import layout
from pondapp.ui.parts.sketch import path
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

LEFT, RIGHT = 10, 64  # the right edge holds the measures
ABOVE, BETWEEN, BELOW = 8, 40, 12  # between the two stands the length
BANK = 6  # the bank rises above the water line by so much
LEAST_CUT = 34  # a flat pond is drawn deeper, so that its shelves can be told apart


@dataclass(frozen=True, slots=True)
class Frame:
    """Where the two drawings stand, in logical pixels."""

    scale: float
    stretch: int
    left: float
    plan_foot: float
    water_line: float

    def in_plan(self, point: Point) -> Point:
        """A point seen from above; across runs up the screen."""
        return self.left + point[0] * self.scale, self.plan_foot - point[1] * self.scale

    def in_cut(self, point: Point) -> Point:
        """A point of the cut; depth runs down the screen."""
        return self.left + point[0] * self.scale, self.water_line + self.down(point[1])

    def down(self, depth: float) -> float:
        """A depth on the screen."""
        return depth * self.scale * self.stretch


def frame(picture: BasinPicture, width: float, height: float) -> Frame:
    """The largest scale at which both drawings fit, with the depth stretched if it is flat."""
    room = height - ABOVE - theme.drawn(BETWEEN) - BELOW
    across = (width - LEFT - theme.drawn(RIGHT)) / picture.length
    scale = min(across, room / (picture.width + picture.depth))
    stretch = 1
    if picture.depth * scale < LEAST_CUT:
        scale = min(across, (room - LEAST_CUT) / picture.width)
        stretch = max(1, ceil(LEAST_CUT / (picture.depth * scale)))
        # A whole number of times is more than asked for: the plan makes room for the rest.
        scale = min(scale, room / (picture.width + picture.depth * stretch))
    left = LEFT + (width - LEFT - theme.drawn(RIGHT) - picture.length * scale) / 2
    used = (picture.width + picture.depth * stretch) * scale
    foot = ABOVE + (room - used) / 2 + picture.width * scale
    return Frame(scale, stretch, left, foot, foot + theme.drawn(BETWEEN))


def said(picture: BasinPicture, system: str) -> str:
    """What the drawing shows, for those who do not see it."""

    def metres(value: float) -> str:
        return units.show(value, "length", system)

    told = t(
        "Drawing to scale. From above: {length} long, {width} wide. Cut through: {depth} deep.",
        length=metres(picture.length),
        width=metres(picture.width),
        depth=metres(picture.depth),
    )
    if picture.shelves:
        depths = ", ".join(units.show(depth, "width", system) for depth in picture.shelves)
        told += " " + t("Shelves below the water line: {depths}.", depths=depths)
    return told


def _fill(opacity: float) -> ft.Paint:
    return ft.Paint(
        color=ft.Colors.with_opacity(opacity, ft.Colors.PRIMARY), style=ft.PaintingStyle.FILL
    )


def _line(color: str, width: float) -> ft.Paint:
    return ft.Paint(color=color, stroke_width=width, style=ft.PaintingStyle.STROKE)


def _measure(x: float, y: float, text: str, alignment: ft.Alignment) -> cv.Text:
    style = ft.TextStyle(size=theme.drawn(theme.SMALL), color=ft.Colors.ON_SURFACE)
    return cv.Text(x, y, text, style=style, alignment=alignment)


def shapes(picture: BasinPicture, width: float, height: float, system: str) -> list[Any]:
    """Everything on the canvas."""
    at = frame(picture, width, height)
    drawn: list[Any] = []
    for number, ring in enumerate(picture.rings):
        points = [at.in_plan(point) for point in ring]
        drawn.append(path(points, _fill(0.30 if number == 0 else 0.18), closed=True))
        stroke = theme.STROKE if number == 0 else theme.STROKE / 2
        drawn.append(path(points, _line(ft.Colors.PRIMARY, stroke), closed=True))
    cut = [at.in_cut(point) for point in picture.cut]
    drawn.append(path(cut, _fill(0.30), closed=True))
    drawn.append(path([cut[0], cut[-1]], _line(ft.Colors.PRIMARY, theme.STROKE), closed=False))
    (left, line), (right, _) = cut[0], cut[-1]
    ground = [(0.0, line - BANK), (left, line - BANK), *cut, (right, line - BANK)]
    ground.append((width - theme.drawn(RIGHT) + LEFT, line - BANK))
    drawn.append(path(ground, _line(ft.Colors.ON_SURFACE, theme.STROKE), closed=False))
    middle = left + (right - left) / 2
    above, below = at.in_plan((0, picture.width))[1], line + at.down(picture.depth)
    edge = width - theme.drawn(RIGHT) + LEFT + 4
    length, across, depth = (
        units.show(value, "length", system)
        for value in (picture.length, picture.width, picture.depth)
    )
    drawn += [
        _measure(middle, at.plan_foot + 4, length, ft.Alignment.TOP_CENTER),
        _measure(edge, (above + at.plan_foot) / 2, across, ft.Alignment.CENTER_LEFT),
        _measure(edge, (line + below) / 2, depth, ft.Alignment.CENTER_LEFT),
    ]
    return drawn


def cut_sketch(picture: BasinPicture, width: float, height: float) -> ft.Control:
    """A basin cut through, without measures, as large as there is room."""
    scale = min(
        (width - 2 * BANK) / picture.length, (height - 2 * BANK - theme.STROKE) / picture.depth
    )
    left = (width - picture.length * scale) / 2
    cut = [(left + x * scale, 2 * BANK + depth * scale) for x, depth in picture.cut]
    ground = [(0.0, BANK), (cut[0][0], BANK), *cut, (cut[-1][0], BANK), (width, BANK)]
    water = ft.Colors.PRIMARY
    return cv.Canvas(
        [
            path(cut, _fill(0.30), closed=True),
            path([cut[0], cut[-1]], _line(water, theme.STROKE), closed=False),
            path(ground, _line(ft.Colors.ON_SURFACE, theme.STROKE), closed=False),
        ],
        width=width,
        height=height,
    )


@ft.component
def BasinDrawing(picture: BasinPicture | None, words: str, system: str) -> Any:
    """The drawing, as wide as the screen lets it be; words stand in its place until it can be."""
    width, set_width = ft.use_state(float(theme.DRAWING_NARROW))
    if picture is None:
        return ft.Container(
            written(words, size=theme.BODY, text_align=ft.TextAlign.CENTER),
            height=theme.DRAWING,
            padding=theme.EDGE,
            border_radius=theme.RADIUS,
            bgcolor=ft.Colors.SURFACE_CONTAINER,
            alignment=ft.Alignment.CENTER,
        )

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    scale = t("Above: seen from above. Below: cut through, with the water line. To scale.")
    stretch = frame(picture, width, theme.DRAWING).stretch
    if stretch > 1:
        scale += " " + t("The section is drawn {times} times as deep as it is.", times=stretch)
    drawn = cv.Canvas(
        shapes(picture, width, theme.DRAWING, system), height=theme.DRAWING, on_resize=fitted
    )
    return ft.Column(
        [ft.Semantics(label=said(picture, system), image=True, content=drawn), layout.small(scale)],
        spacing=6,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
