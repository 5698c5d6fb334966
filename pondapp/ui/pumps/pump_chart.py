"""A pump against its circuit: head over flow, and where the two meet."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.pumps.pumps import Curves
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import drawing
from pondapp.ui.shell import theme
from pondapp.words import t

LEFT, RIGHT, ABOVE, BELOW = 36, 22, 26, 44  # at usual text size
LETTER = 8  # width that a letter of a mark needs
MOST_MARKS = 5
DOT = 6
SAMPLE = 32  # width of a line in the legend

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Axis:
    """Round marks from nothing up."""

    step: float
    count: int

    @property
    def end(self) -> float:
        """The last mark."""
        return self.step * self.count

    def marks(self) -> list[float]:
        """All marks, nothing among them."""
        return [self.step * number for number in range(self.count + 1)]


def axis(most: float) -> Axis:
    """Marks that reach at least so far."""
    rough = most / MOST_MARKS
    decade = 10.0 ** floor(log10(rough))
    step = next(decade * n for n in (1, 2, 5, 10) if decade * n >= rough * (1 - 1e-9))
    return Axis(step, ceil(most / step - 1e-9))


@dataclass(frozen=True, slots=True)
class Scene:
    """The curves in the reader's units, and the axes that hold them."""

    pump: list[Point]
    slowed: list[Point]
    circuit: list[Point]
    wanted: Point
    settles: Point | None
    flow: Axis
    head: Axis


def scene(drawn: Curves, system: str) -> Scene:
    """The pump sets the axes, unless more is wanted; the circuit's curve is cut where they end."""

    def told(point: Point) -> Point:
        flow, head = point
        return units.value_in(flow, "flow", system), units.value_in(head, "head", system)

    pump = [told(point) for point in drawn.pump]
    wanted = told(drawn.wanted)
    held = [*pump, wanted]
    flow = axis(max(flow for flow, _ in held))
    head = axis(max(head for _, head in held) * 1.05)
    return Scene(
        pump=pump,
        slowed=[told(point) for point in drawn.slowed],
        circuit=cut_off([told(point) for point in drawn.system], flow.end, head.end),
        wanted=wanted,
        settles=told(drawn.settles) if drawn.settles else None,
        flow=flow,
        head=head,
    )


def cut_off(points: Sequence[Point], far: float, high: float) -> list[Point]:
    """A rising curve as far as it stays inside the axes."""
    kept: list[Point] = []
    for x, y in points:
        if x <= far and y <= high:
            kept.append((x, y))
            continue
        if kept:
            x0, y0 = kept[-1]
            share = min(
                (far - x0) / (x - x0) if x > far else 1.0,
                (high - y0) / (y - y0) if y > high else 1.0,
            )
            kept.append((x0 + share * (x - x0), y0 + share * (y - y0)))
        break
    return kept


def said(drawn: Curves, name: str, system: str) -> str:
    """What the drawing shows, for those who do not see it."""

    def point(at: Point) -> str:
        flow, head = at
        return t(
            "{flow} at {head}",
            flow=units.show(flow, "flow", system), head=units.show(head, "head", system),
        )  # fmt: skip

    wanted = point(drawn.wanted)
    if drawn.settles is None:
        return t(
            "Chart of {name}: its curve stays below that of the pipes. Wanted: {wanted}.",
            name=name, wanted=wanted,
        )  # fmt: skip
    return t(
        "Chart of {name}: its curve meets that of the pipes at {settles}. Wanted: {wanted}.",
        name=name, settles=point(drawn.settles), wanted=wanted,
    )  # fmt: skip


def _stroke(color: str, width: float, dashes: list[float] | None = None) -> ft.Paint:
    return ft.Paint(
        color=color, stroke_width=width, style=ft.PaintingStyle.STROKE, stroke_dash_pattern=dashes
    )


def _pump_paint() -> ft.Paint:
    return _stroke(ft.Colors.PRIMARY, theme.STROKE * 1.5)


def _slowed_paint() -> ft.Paint:
    return _stroke(ft.Colors.PRIMARY, theme.STROKE, [2, 4])


def _circuit_paint() -> ft.Paint:
    return _stroke(ft.Colors.ON_SURFACE, theme.STROKE, [9, 5])


def _dot(x: float, y: float) -> Any:
    return cv.Circle(x, y, DOT, paint=ft.Paint(color=ft.Colors.ON_SURFACE))


def _square(x: float, y: float) -> Any:
    return cv.Rect(
        x - DOT, y - DOT, 2 * DOT, 2 * DOT, paint=_stroke(ft.Colors.ON_SURFACE, theme.STROKE)
    )


def _text(x: float, y: float, value: str, alignment: ft.Alignment) -> cv.Text:
    style = ft.TextStyle(size=theme.drawn(theme.SMALL), color=ft.Colors.ON_SURFACE)
    return cv.Text(x, y, value, style=style, alignment=alignment)


def shapes(shown: Scene, width: float, height: float, system: str) -> list[Any]:
    """Everything on the canvas."""
    left, above = theme.drawn(LEFT), theme.drawn(ABOVE)
    right, floor_line = width - theme.drawn(RIGHT), height - theme.drawn(BELOW)

    def at(point: Point) -> Point:
        across, up = point[0] / shown.flow.end, point[1] / shown.head.end
        return left + across * (right - left), floor_line - up * (floor_line - above)

    def curve(points: list[Point], paint: ft.Paint) -> list[Any]:
        if len(points) < 2:
            return []
        first, *rest = (at(point) for point in points)
        elements: list[Any] = [cv.Path.MoveTo(*first), *(cv.Path.LineTo(*spot) for spot in rest)]
        return [cv.Path(elements, paint=paint)]

    faint = _stroke(ft.Colors.with_opacity(0.35, ft.Colors.OUTLINE), 1)
    drawn: list[Any] = []
    for mark in shown.head.marks():
        _, y = at((0, mark))
        drawn.append(cv.Line(left, y, right, y, paint=faint))
        drawn.append(_text(left - 6, y, units.readable(mark), ft.Alignment.CENTER_RIGHT))
    free = 0.0
    for mark in shown.flow.marks():
        x, _ = at((mark, 0))
        drawn.append(cv.Line(x, above, x, floor_line, paint=faint))
        words = units.readable(mark)
        room = theme.drawn(LETTER) * (len(words) + 1)
        if x - room / 2 >= free:
            drawn.append(_text(x, floor_line + 3, words, ft.Alignment.TOP_CENTER))
            free = x + room / 2
    head, flow = units.unit_for("head", system), units.unit_for("flow", system)
    drawn += [
        _text(0, 0, t("Head, {unit}", unit=head), ft.Alignment.TOP_LEFT),
        _text(right, height, t("Flow, {unit}", unit=flow), ft.Alignment.BOTTOM_RIGHT),
        *curve(shown.circuit, _circuit_paint()),
        *curve(shown.slowed, _slowed_paint()),
        *curve(shown.pump, _pump_paint()),
        _square(*at(shown.wanted)),
    ]
    if shown.settles:
        drawn.append(_dot(*at(shown.settles)))
    return drawn


def _legend(sample: Any, text: str) -> ft.Control:
    mark = cv.Canvas([sample], width=SAMPLE, height=theme.BODY)
    return ft.Row([mark, ft.Container(layout.small(text), expand=True)], spacing=8)


def _line_of(paint: ft.Paint) -> Any:
    return cv.Line(0, theme.BODY / 2, SAMPLE, theme.BODY / 2, paint=paint)


@ft.component
def PumpChart(drawn: Curves, name: str, system: str) -> ft.Control:
    """The chart, as wide as the screen lets it be, and what its lines are."""
    width, set_width = ft.use_state(float(theme.DRAWING_NARROW))

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    middle = SAMPLE / 2, theme.BODY / 2
    legend = [
        _legend(_line_of(_pump_paint()), name),
        _legend(_line_of(_circuit_paint()), t("What the pipes take, valves open")),
        _legend(_square(*middle), t("Wanted")),
    ]
    if drawn.slowed:
        legend.insert(1, _legend(_line_of(_slowed_paint()), t("The same pump turned down")))
    if drawn.settles:
        legend.append(_legend(_dot(*middle), t("What it gives at full speed")))
    return ft.Column(
        [
            drawing(
                said(drawn, name, system),
                cv.Canvas(
                    shapes(scene(drawn, system), width, theme.DRAWING, system),
                    height=theme.DRAWING,
                    on_resize=fitted,
                ),
            ),
            *legend,
        ],
        spacing=4,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )
