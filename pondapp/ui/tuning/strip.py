"""The strip: how the flow moved with each turn of the valve, and where the aim lies."""

from collections.abc import Sequence
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.measuring.flow import FlowBand, Measured
from pondapp.ui.parts.answers import band_text, flow_text
from pondapp.ui.parts.written import drawing
from pondapp.ui.shell import theme
from pondapp.ui.tuning.strip_layout import Room, Spot, StripLayout, laid_out
from pondapp.words import t

HEIGHT = 104  # at usual text size
LETTER, MARK = 7.5, 3.5  # widths that a letter of a flow and a mark in it need
MOST_SHOWN = 7  # the newest; of more, no finger's breadth would be left for each
DOT, NOW = 3.5, 6.5
SMALL = theme.SMALL - 1


def height() -> float:
    """The same with one setting and with many: what is below it stays where it is."""
    return theme.drawn(HEIGHT)


def _paint(color: str, width: float, dashes: list[float] | None = None) -> ft.Paint:
    return ft.Paint(
        color=color, stroke_width=width, style=ft.PaintingStyle.STROKE, stroke_dash_pattern=dashes
    )


def _text(
    x: float, y: float, words: str, alignment: ft.Alignment, *, strong: bool = False
) -> cv.Text:
    style = ft.TextStyle(
        size=theme.drawn(SMALL + strong),
        weight=ft.FontWeight.W_600 if strong else None,
        color=ft.Colors.ON_SURFACE if strong else ft.Colors.ON_SURFACE_VARIANT,
    )
    return cv.Text(x, y, words, style=style, alignment=alignment)


def _wide(number: str) -> float:
    """How wide a number is at most."""
    letters = sum(letter.isalnum() for letter in number)
    return theme.drawn(LETTER * letters + MARK * (len(number) - letters))


def _flows(shown: Sequence[Measured]) -> list[tuple[float, float, float]]:
    return [(one.flow.low, one.flow.flow, one.flow.high) for one in shown]


def shapes(
    settings: Sequence[Measured], band: FlowBand, width: float, *, pending: bool, system: str
) -> list[Any]:
    """Everything on the canvas.

    Args:
        settings: What was measured at each setting, oldest first; the last is that of now, unless
            nothing is timed there yet.
        band: What is wanted.
        width: Width of the canvas.
        pending: Whether nothing is timed yet at the setting of now.
        system: The reader's units.
    """
    shown = list(settings)[-MOST_SHOWN:]
    line = theme.drawn(SMALL + 5)
    aim = units.readable(units.value_in(band.target, "flow", system))
    margin = max(_wide(aim), _wide(t("aim"))) + 10.0
    # Above and below the flows their numbers, and at the foot those of the settings.
    room = Room(2.0, line, width - margin, height() - 2.0 * line)
    at = laid_out(_flows(shown), band, room)
    left, right = room.left, room.right
    tint = ft.Paint(color=ft.Colors.with_opacity(0.16, ft.Colors.PRIMARY))
    beside = right + 0.5 * margin
    drawn: list[Any] = [
        cv.Rect(left, at.band_top, right - left, at.band_foot - at.band_top,
                border_radius=4, paint=tint),
        cv.Line(left, at.aim, right, at.aim, paint=_paint(ft.Colors.PRIMARY, theme.STROKE, [6, 4])),
        _text(beside, at.aim - 1, t("aim"), ft.Alignment.BOTTOM_CENTER, strong=True),
        _text(beside, at.aim + 1, aim, ft.Alignment.TOP_CENTER, strong=True),
    ]  # fmt: skip
    paths = [(spot.x, spot.y) for spot in at.spots]
    if len(paths) > 1:
        elements: list[Any] = [cv.Path.MoveTo(*paths[0])]
        elements += [cv.Path.LineTo(*spot) for spot in paths[1:]]
        drawn.append(cv.Path(elements, paint=_paint(ft.Colors.OUTLINE, 1.5)))
    names = height() - line + 2.0
    first = len(settings) - len(shown) + 1
    for number, (found, spot) in enumerate(zip(shown, at.spots, strict=True)):
        newest = number == len(shown) - 1 and not pending
        drawn += _setting(found, spot, newest=newest, at=at, system=system)
        name = t("now") if newest else str(first + number)
        drawn.append(_text(spot.x, names, name, ft.Alignment.TOP_CENTER, strong=newest))
    if not shown:
        middle = 0.5 * (left + right)
        drawn.append(_text(middle, names, t("Nothing timed yet"), ft.Alignment.TOP_CENTER))
    drawn.append(_text(width - 2.0, names, units.unit_for("flow", system), ft.Alignment.TOP_RIGHT))
    return drawn


def _setting(
    found: Measured, spot: Spot, *, newest: bool, at: StripLayout, system: str
) -> list[Any]:
    """A flow with its interval, and its number on the side away from the aim, if there is room."""
    ink = ft.Colors.ON_SURFACE if newest else ft.Colors.ON_SURFACE_VARIANT
    dot = NOW if newest else DOT
    drawn: list[Any] = [
        cv.Line(spot.x, spot.top, spot.x, spot.foot, paint=_paint(ink, 1.5)),
        cv.Circle(spot.x, spot.y, dot, paint=ft.Paint(color=ink)),
    ]
    number = units.readable(units.value_in(found.flow.flow, "flow", system))
    if _wide(number) <= at.column:
        under = spot.y > at.aim
        y = max(spot.foot, spot.y + dot) + 1 if under else min(spot.top, spot.y - dot) - 1
        side = ft.Alignment.TOP_CENTER if under else ft.Alignment.BOTTOM_CENTER
        drawn.append(_text(spot.x, y, number, side, strong=newest))
    return drawn


def said(settings: Sequence[Measured], band: FlowBand, *, pending: bool, system: str) -> str:
    """What the strip shows, for those who do not see it."""
    wanted = t(
        "Aim: {aim}. Fine: {band}.",
        aim=units.show(band.target, "flow", system),
        band=band_text(band, system),
    )
    flows = [flow_text(one, system) for one in settings]
    if not flows:
        return f"{t('Nothing is timed yet.')} {wanted}"
    if pending:
        return f"{t('Before the last turn: {flows}.', flows='; '.join(flows))} {wanted}"
    if len(flows) == 1:
        return f"{t('Now: {flow}.', flow=flows[0])} {wanted}"
    moved = t("Flow with each turn: {flows}; now {now}.", flows="; ".join(flows[:-1]),
              now=flows[-1])  # fmt: skip
    return f"{moved} {wanted}"


@ft.component
def Strip(settings: Sequence[Measured], band: FlowBand, *, pending: bool, system: str) -> Any:
    """The strip, as wide as the screen lets it be; it takes no touch, so that one can scroll."""
    width, set_width = ft.use_state(float(theme.DRAWING_NARROW))

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    return drawing(
        said(settings, band, pending=pending, system=system),
        cv.Canvas(
            shapes(settings, band, width, pending=pending, system=system),
            height=height(),
            on_resize=fitted,
        ),
    )
