"""The pond as a picture, and below it a row for each of its parts, in the same order.

The rows are what is read aloud and what the keyboard reaches; a touch of a part in the drawing does
the same as one of its row.
"""

from collections.abc import Sequence
from datetime import UTC, date, datetime
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.care.severity import Severity
from pondapp.answers.log.dates import day_text
from pondapp.answers.log.log import LogItem
from pondapp.answers.picture.badges import RADIUS, UNSURE, outline, radius_of
from pondapp.answers.picture.picture import RETURN, Part, Picture, picture
from pondapp.answers.picture.primitives import Area
from pondapp.answers.picture.states import states_of
from pondapp.answers.plumbing.path import lines_of
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text, flow_text
from pondapp.ui.parts.sketch import drawn, path
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t, within

SMALL = 28.0  # side of a part that is seen and not touched
MOST_SMALL = float(theme.WIDTHS["column"])  # width of one that stands among other things
NUMBER = 1.15  # height of a number's letters beside the radius of its plate
RIM = 1.5
GLINT, GLINTS = 1500, 3  # ms that light takes down the falls, and how often when a screen opens


def plate(severity: Severity, number: str, x: float, y: float, radius: float) -> list[cv.Shape]:
    """A number, or none, on the plate that says how bad its part is."""
    ground, ink = theme.SEVERITY[severity]
    corners = outline(severity, x, y, radius)
    rim = ft.Paint(
        color=ink,
        stroke_width=RIM,
        style=ft.PaintingStyle.STROKE,
        stroke_dash_pattern=[3, 3] if severity == UNSURE else None,
    )
    style = ft.TextStyle(size=radius * NUMBER, color=ink, weight=ft.FontWeight.W_700)
    return [
        path(corners, ft.Paint(color=ground, style=ft.PaintingStyle.FILL), closed=True),
        path(corners, rim, closed=True),
        cv.Text(x, y, number, style=style, alignment=ft.Alignment.CENTER),
    ]


def shapes(drawing: Picture, *, numbered: bool = True) -> list[Any]:
    """Everything on the canvas."""
    found: list[Any] = [drawn(shape) for shape in drawing.shapes]
    for part in drawing.parts:
        radius = radius_of(part.box)
        y = part.box.top + radius + RIM
        number = str(part.number) if numbered else ""
        found += plate(part.state.severity, number, part.box.middle, y, radius)
    return found


def route_of(pond: Pond, part: Part) -> str:
    """The screen about a part."""
    return f"/pond/{pond.id}/{'path' if part.kind == RETURN else 'at'}/{part.key}"


def said_of(part: Part, system: str) -> str:
    """What was measured at a part, against what is wanted there."""
    state = part.state
    word = t(state.word)
    said = [f"{word}: {flow_text(state.found, system)}" if state.found else word]
    if state.taken_at and state.severity == "unknown":
        said.append(day_text(state.taken_at))
    lines = [", ".join(said)]
    if state.why:
        lines.append(layout.sentence(units.tell(state.why, system)).rstrip("."))
    if len(state.summed) > 1:
        places = ", ".join(state.summed)
        lines.append(t("Sum over its branches, measured at {places}", places=places))
    elif state.reading and state.reading.place_id != part.key:
        lines.append(t("Measured at {place}", place=state.reading.place_name))
    if part.planned == 0.0:
        lines.append(t("The plan lets it rest"))
    elif part.wanted:
        lines.append(t("Wanted {flow}", flow=within(band_text(part.wanted, system))))
    elif part.planned:
        lines.append(t("Planned {flow}", flow=units.show(part.planned, "flow", system)))
    return ". ".join(lines)


def _row(pond: Pond, part: Part, system: str) -> ft.Control:
    """A part in words, which opens its screen, and the way to measure there."""
    radius = theme.drawn(theme.TOUCH) * RADIUS
    size = 2 * radius + 6
    mark = cv.Canvas(
        plate(part.state.severity, str(part.number), size / 2, size / 2, radius),
        width=size,
        height=size,
    )
    weight = ft.FontWeight.W_600 if part.state.severity in ("danger", "wrong") else None
    words = ft.Column(
        [
            written(part.name, size=theme.BODY, weight=ft.FontWeight.W_600,
                    color=ft.Colors.ON_SURFACE),
            written(said_of(part, system), size=theme.SMALL, weight=weight,
                    color=ft.Colors.ON_SURFACE),
        ],
        spacing=0,
        tight=True,
        expand=True,
    )  # fmt: skip
    opens = ft.TextButton(
        content=ft.Row([mark, words], spacing=8),
        on_click=go(route_of(pond, part)),
        style=ft.ButtonStyle(
            padding=ft.Padding.only(left=theme.GAP, right=4, top=6, bottom=6),
            visual_density=ft.VisualDensity.STANDARD,
            alignment=ft.Alignment.CENTER_LEFT,
            shape=layout.rounded(),
        ),
        expand=True,
    )
    measure = layout.mark_button(
        ft.Icons.TIMER_OUTLINED,
        t("Measure at {place}", place=part.name),
        go(f"/pond/{pond.id}/measure/{part.key}"),
    )
    return ft.Row([opens, measure], spacing=0)


def _moving(drawing: Picture) -> ft.Control:
    """Light that runs down the falls some times, by the client alone, and then rests."""
    falls: list[ft.Control] = [
        ft.Container(
            left=min(x for x, _ in one.points),
            top=min(y for _, y in one.points),
            width=max(x for x, _ in one.points) - min(x for x, _ in one.points),
            height=max(y for _, y in one.points) - min(y for _, y in one.points),
            bgcolor=ft.Colors.SURFACE,
        )
        for one in drawing.shapes
        if isinstance(one, Area) and one.tone == "falling"
    ]
    clear = ft.Colors.with_opacity(0.0, ft.Colors.SURFACE)
    light = ft.Colors.with_opacity(0.8, ft.Colors.SURFACE)
    return ft.Shimmer(
        ft.Stack(falls, width=drawing.width, height=drawing.height),
        gradient=ft.LinearGradient(
            colors=[clear, clear, light, clear, clear],
            stops=[0.0, 0.78, 0.85, 0.92, 1.0],  # so that it comes to rest below the falls
            begin=ft.Alignment.TOP_CENTER,
            end=ft.Alignment.BOTTOM_CENTER,
        ),
        period=GLINT,
        direction=ft.ShimmerDirection.TTB,
        loop=GLINTS,
    )


def in_words(worked: WorkedPond) -> str:
    """What the drawing shows, in one sentence for those who hear it."""
    ways = "; ".join(
        t(
            "from {pump} through {branches}",
            pump=worked.names.lines[line.id],
            branches=", ".join(worked.names.branches[branch.id] for branch in line.branches),
        )
        for line in lines_of(worked.pond)
    )
    return t("The water path: {ways}, and back to the pond.", ways=ways)


def notes_of(drawing: Picture, system: str) -> ft.Control:
    """What the drawing does not show by itself."""
    return layout.small(" ".join(units.tell(note, system) for note in drawing.notes))


def room() -> float:
    """Width that a picture has, until its canvas tells."""
    return layout.column_width() or theme.DRAWING_NARROW


@ft.component
def PondPicture(pond: Pond) -> Any:
    """The picture with its rows, or what is wrong with the pond's numbers."""
    session = session_now()
    system = session.system
    width, set_width = ft.use_state(room())

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    try:
        worked = worked_now(pond)
        states = states_of(worked, session.logs.items_of(pond.id), datetime.now(UTC))
        drawing = picture(worked, states, width, theme.drawn(theme.TOUCH))
    except PondError as problem:
        return layout.caution(units.explain(problem, system))
    touches: list[ft.Control] = [
        ft.Container(
            left=part.box.left,
            top=part.box.top,
            width=part.box.side,
            height=part.box.side,
            border_radius=theme.RADIUS,
            on_click=go(route_of(pond, part)),
        )
        for part in drawing.parts
    ]
    falling = [_moving(drawing)] if session.device.moves else []
    canvas = cv.Canvas(
        shapes(drawing),
        content=ft.Stack([*falling, *touches]),
        height=drawing.height,
        on_resize=fitted,
    )
    seen = ft.Semantics(
        container=True, label=in_words(worked), image=True, exclude_semantics=True, content=canvas
    )
    rows = [_row(pond, part, system) for part in drawing.parts]
    what_if = layout.second_button(t("What if? Try a change"), go(f"/pond/{pond.id}/what-if"))
    return layout.column([seen, what_if, layout.tile(rows), notes_of(drawing, system)])


def _still(worked: WorkedPond, drawing: Picture) -> ft.Control:
    """A drawing of one size, told in a sentence."""
    canvas = cv.Canvas(shapes(drawing), width=drawing.width, height=drawing.height)
    return ft.Semantics(
        container=True, label=in_words(worked), image=True, exclude_semantics=True, content=canvas
    )


_kept: dict[str, tuple[Pond, Sequence[LogItem], float, date, Picture]] = {}


def small(pond: Pond) -> list[ft.Control]:
    """For the first screen: a touch of it opens the pond, as one of its name below does."""
    logs, now = session_now().logs, datetime.now(UTC)
    log, width = logs.items_of(pond.id), min(room(), MOST_SMALL)
    at = width, now.date()  # a reading of long ago says nothing of today
    known = _kept.get(pond.id)
    if not known or known[0] is not pond or known[1] is not log or known[2:4] != at:
        try:
            worked = worked_now(pond)
            states = states_of(worked, log, now)
            known = (pond, log, *at, picture(worked, states, width, SMALL))
        except PondError:  # told below it
            return []
        _kept[pond.id] = known
    drawing = known[4]
    opens = ft.Container(
        cv.Canvas(shapes(drawing, numbered=False), width=drawing.width, height=drawing.height),
        on_click=go(f"/pond/{pond.id}"),
        border_radius=theme.RADIUS,
    )
    centred = ft.Row([opens], alignment=ft.MainAxisAlignment.CENTER)
    return [ft.Semantics(exclude_semantics=True, content=centred)]


def of_plan(pond: Pond) -> list[ft.Control]:
    """For a plan that is looked at: the picture, with what its numbers are."""
    try:
        worked = worked_now(pond)
        drawing = picture(worked, {}, min(room(), MOST_SMALL), theme.drawn(theme.TOUCH))
    except PondError:  # told by the plan itself
        return []
    names = ", ".join(f"{part.number}\u00a0{part.name}" for part in drawing.parts)
    return [
        _still(worked, drawing),
        layout.body(names),
        notes_of(drawing, session_now().system),
    ]
