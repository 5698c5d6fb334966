"""Values over time: points with their ranges, what is wanted, and cleanings."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import datetime, timedelta
from math import ceil, floor, log10
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.log.charts import ChartData, Point
from pondapp.answers.log.dates import calendar_marks, day_text
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import drawing, written
from pondapp.ui.shell import theme
from pondapp.words import grouped, t, tn

LEFT, RIGHT, ABOVE, BELOW = 48, 12, 24, 26  # at usual text size, as the other rooms
MOST_UP = 5
MARK_ROOM = 76  # logical pixels that a mark of time needs
WORD_ROOM = 64  # and the word at a cleaning
DOT = 4
SHORTEST = timedelta(days=2)  # a chart of one reading needs some width

Show = Callable[[float], str]
Spot = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Axes:
    """What the chart holds, in the reader's units, and the marks at its side."""

    start: datetime
    end: datetime
    low: float
    high: float
    marks: tuple[float, ...]

    def at(self, when: datetime, value: float, width: float, height: float) -> Spot:
        """Where a value lies on a canvas of this size."""
        left, right, above, below = edges()
        across = (when - self.start) / (self.end - self.start)
        up = (value - self.low) / (self.high - self.low)
        return (
            left + across * (width - left - right),
            height - below - up * (height - above - below),
        )


def edges() -> tuple[float, float, float, float]:
    """What the words leave of the canvas, for the reader's text size: left, right, above, below."""
    return theme.drawn(LEFT), theme.drawn(RIGHT), theme.drawn(ABOVE), theme.drawn(BELOW)


def round_marks(low: float, high: float) -> tuple[float, ...]:
    """Round numbers that enclose both."""
    rough = (high - low) / MOST_UP
    decade = 10.0 ** floor(log10(rough))
    step = next(decade * n for n in (1, 2, 5, 10) if decade * n >= rough * (1 - 1e-9))
    first, last = floor(low / step + 1e-9), ceil(high / step - 1e-9)
    return tuple(step * number for number in range(first, last + 1))


def axes(data: ChartData, told: Callable[[float], float], *, from_nothing: bool) -> Axes:
    """Axes that hold every point with its range, and the ends of what is wanted near them."""
    values = [told(value) for point in data.points for value in (point.low, point.high)]
    low, high = min(values), max(values)
    span = (high - low) or abs(high) or 1.0
    for end in (data.low, data.high):
        # A limit far away would press the values flat.
        if end is not None and low - 2 * span <= told(end) <= high + 2 * span:
            low, high = min(low, told(end)), max(high, told(end))
    if from_nothing:
        low = 0.0
    if high - low < 1e-9 * max(1.0, abs(high)):
        low, high = low - 1.0 * (low > 0), high + 1.0
    marks = round_marks(low, high)
    times = [point.when for point in data.points]
    start, end_time = min(times), max(times)
    if end_time - start < SHORTEST:
        start, end_time = start - SHORTEST / 2, end_time + SHORTEST / 2
    return Axes(start, end_time, marks[0], marks[-1], marks)


def _stroke(color: str, width: float, dashes: list[float] | None = None) -> ft.Paint:
    return ft.Paint(
        color=color, stroke_width=width, style=ft.PaintingStyle.STROKE, stroke_dash_pattern=dashes
    )


def _text(x: float, y: float, value: str, alignment: ft.Alignment) -> cv.Text:
    style = ft.TextStyle(size=theme.drawn(theme.SMALL), color=ft.Colors.ON_SURFACE)
    return cv.Text(x, y, value, style=style, alignment=alignment)


def _wanted(data: ChartData, at: Axes, told: Callable[[float], float], size: Spot) -> list[Any]:
    """The range that is wanted: tinted, and a line at each end that is in sight."""
    if data.low is None and data.high is None:
        return []
    width, height = size
    low = at.low if data.low is None else max(at.low, told(data.low))
    high = at.high if data.high is None else min(at.high, told(data.high))
    drawn: list[Any] = []
    if low < high:
        left, top = at.at(at.start, high, width, height)
        right, foot = at.at(at.end, low, width, height)
        tint = ft.Paint(color=ft.Colors.with_opacity(0.16, ft.Colors.PRIMARY))
        drawn.append(cv.Rect(left, top, right - left, foot - top, paint=tint))
    for end in (data.low, data.high):
        if end is not None and at.low <= told(end) <= at.high:
            left, y = at.at(at.start, told(end), width, height)
            right, _ = at.at(at.end, told(end), width, height)
            drawn.append(cv.Line(left, y, right, y, paint=_stroke(ft.Colors.PRIMARY, 1)))
    return drawn


def _cleanings(data: ChartData, at: Axes, size: Spot) -> list[Any]:
    """A dashed line for each, with a word wherever there is room for it."""
    width, height = size
    _, _, above, below = edges()
    room = theme.drawn(WORD_ROOM)
    drawn: list[Any] = []
    free = 0.0
    for when in data.cleanings:
        if not at.start <= when <= at.end:
            continue
        x, _ = at.at(when, at.low, width, height)
        paint = _stroke(ft.Colors.ON_SURFACE, 1, [4, 4])
        drawn.append(cv.Line(x, above, x, height - below, paint=paint))
        near_edge = x > width - room
        if x - room * near_edge >= free:
            side = ft.Alignment.TOP_RIGHT if near_edge else ft.Alignment.TOP_LEFT
            drawn.append(_text(x, 2, t("cleaned"), side))
            free = x + room * (not near_edge)
    return drawn


def shapes(
    data: ChartData, told: Callable[[float], float], width: float, *, from_nothing: bool
) -> list[Any]:
    """Everything on the canvas."""
    height = float(theme.DRAWING)
    size = (width, height)
    left, right, _, _ = edges()
    at = axes(data, told, from_nothing=from_nothing)
    faint = _stroke(ft.Colors.with_opacity(0.35, ft.Colors.OUTLINE), 1)
    drawn: list[Any] = []
    for mark in at.marks:
        _, y = at.at(at.start, mark, width, height)
        drawn.append(cv.Line(left, y, width - right, y, paint=faint))
        drawn.append(_text(left - 6, y, units.readable(mark), ft.Alignment.CENTER_RIGHT))
    room = theme.drawn(MARK_ROOM)
    most = max(2, int((width - left - right) // room))
    for when, month, rest in calendar_marks(at.start, at.end, most):
        x, y = at.at(when, at.low, width, height)
        drawn.append(cv.Line(x, y, x, y + 4, paint=_stroke(ft.Colors.ON_SURFACE, 1)))
        near_edge = x > width - room / 2
        side = ft.Alignment.TOP_RIGHT if near_edge else ft.Alignment.TOP_CENTER
        drawn.append(_text(x, y + 5, f"{t(month)[:3]} {rest}", side))
    drawn += [*_wanted(data, at, told, size), *_cleanings(data, at, size)]
    spots = [at.at(point.when, told(point.value), width, height) for point in data.points]
    if len(spots) > 1:
        first, *others = spots
        path: list[Any] = [cv.Path.MoveTo(*first), *(cv.Path.LineTo(*spot) for spot in others)]
        drawn.append(cv.Path(path, paint=_stroke(ft.Colors.PRIMARY, theme.STROKE)))
    ranges = _stroke(ft.Colors.ON_SURFACE, 1)
    for point, (x, y) in zip(data.points, spots, strict=True):
        if point.low != point.high:
            _, foot = at.at(point.when, told(point.low), width, height)
            _, top = at.at(point.when, told(point.high), width, height)
            drawn.append(cv.Line(x, foot, x, top, paint=ranges))
        drawn.append(cv.Circle(x, y, DOT, paint=ft.Paint(color=ft.Colors.ON_SURFACE)))
    return drawn


def day(when: datetime) -> str:
    """A day, as it is written all over the log."""
    return day_text(when)


def said(title: str, data: ChartData, show: Show) -> str:
    """What the chart shows, for those who do not see it."""
    values = [point.value for point in data.points]
    parts = [
        tn(
            "Chart: {what}. One value: {now}, from {first}.",
            "Chart: {what}. {count} values from {first} to {last}, between {low} and {high}; the "
            "last is {now}.",
            len(values), what=title, first=day(data.points[0].when),
            last=day(data.points[-1].when), low=show(min(values)), high=show(max(values)),
            now=show(values[-1]),
        )
    ]  # fmt: skip
    if data.low is not None and data.high is not None:
        parts.append(t("Wanted: {low} to {high}.", low=show(data.low), high=show(data.high)))
    elif data.low is not None:
        parts.append(t("Wanted: {low} or more.", low=show(data.low)))
    elif data.high is not None:
        parts.append(t("Wanted: at most {high}.", high=show(data.high)))
    inside = [w for w in data.cleanings if data.points[0].when <= w <= data.points[-1].when]
    if inside:
        parts.append(t("Cleaned on {days}.", days=", ".join(day(when) for when in inside[-3:])))
    return " ".join(parts)


def value_line(point: Point, show: Show) -> ft.Control:
    """A row of the table."""
    value = show(point.value)
    if point.low != point.high:
        low, high = show(point.low), show(point.high)
        number, _, unit = low.rpartition(" ")
        if number and high.endswith(f" {unit}"):  # once for both
            low = number
        value = t("{value} ({low} to {high})", value=value, low=low, high=high)
    when, told = written(day(point.when), size=theme.SMALL), written(value, size=theme.SMALL)
    if theme.large_text():
        return ft.Column([when, told], spacing=2)
    told.expand, told.text_align = True, ft.TextAlign.END
    return ft.Row([when, told], spacing=theme.GAP)


@ft.component
def LogChart(
    title: str, unit: str, data: ChartData, told: Callable[[float], float], show: Show, *,
    from_nothing: bool,
) -> Any:  # fmt: skip
    """The chart, as wide as the screen lets it be; it takes no touch, so that one can scroll."""
    width, set_width = ft.use_state(float(theme.DRAWING_NARROW))

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    lines: list[ft.Control] = [
        layout.small(t("{what}, {unit}", what=title, unit=unit) if unit else title),
        drawing(
            said(title, data, show),
            cv.Canvas(
                shapes(data, told, width, from_nothing=from_nothing),
                height=theme.DRAWING,
                on_resize=fitted,
            ),
        ),
    ]
    if data.low is not None or data.high is not None:
        lines.append(layout.small(t("Shaded: what is wanted.")))
    if data.of > len(data.points):
        lines.append(
            layout.small(
                t(
                    "{some} of {all} values are drawn.",
                    some=grouped(str(len(data.points))),
                    all=grouped(str(data.of)),
                )
            )
        )
    return ft.Column(lines, spacing=4, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)
