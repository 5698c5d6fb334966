"""How a bog filter is built: cut through to scale, and each of its parts in words."""

from collections.abc import Mapping
from typing import Any

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.features.bog import COARSE
from pondapp.answers.features.bog_build import BogBuild, bog_build
from pondapp.answers.features.bog_section import BogSection, Part, bog_section
from pondapp.answers.plumbing.path import feature_of, names_of
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import BogFilter
from pondapp.ui.parts import layout
from pondapp.ui.parts.sketch import drawn
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

PLATE = 11.0  # radius of a number's plate
HIGH = 300.0  # most that a drawing is high
TITLES: dict[Part, str] = {
    "plants": "Plants",
    "overflow": "Overflow",
    "gravel": "Gravel",
    "coarse": "Coarse stones",
    "pipes": "Pipes with slots",
    "inlet": "Inlet",
}


def _facts(build: BogBuild, system: str) -> Mapping[Part, tuple[str, str]]:
    """What is told of each part: its amount, and how it is made."""

    def show(value: float, kind: str, digits: int = 3) -> str:
        return units.show(value, kind, system, digits)

    layers, pipes = build.layers, build.pipes
    overflow = t("It runs off as a thin film.")
    if build.overflow is not None:
        overflow = t(
            "Water stands {head} over an edge of {width}.",
            head=show(build.overflow.head, "small", 2), width=show(build.overflow.width, "width"),
        )  # fmt: skip
    return {
        "plants": (
            t("{count} on {area}", count=build.plants.count, area=show(layers.area, "area")),
            t(
                "Roots in the gravel, {over} of water over it: marsh plants. What wants its "
                "crown dry goes where you heap the gravel up.",
                over=show(layers.over, "small"),
            ),
        ),
        "overflow": (
            t("{over} over the gravel", over=show(layers.over, "small")),
            f"{overflow} " + t("The edge is {edge} higher.", edge=show(layers.edge, "width")),
        ),
        "gravel": (
            show(layers.gravel, "width"),
            t("{volume}, washed, of one size.", volume=show(layers.area * layers.gravel, "volume")),
        ),
        "coarse": (
            show(layers.coarse, "width"),
            t(
                "{volume} of stones of {low} to {high}, so that no gravel gets into the slots.",
                volume=show(layers.area * layers.coarse, "volume"),
                low=show(COARSE[0], "width"), high=show(COARSE[1], "width"),
            ),
        ),
        "pipes": (
            t("{length} in all, {count} side by side", length=show(pipes.length, "length"),
              count=pipes.pipes),
            t(
                "{slots} slots of {width} by {long}, one every {apart}: an open area of {area}. "
                "Close the far ends with caps that come off, to rinse them.",
                slots=pipes.slots, width=show(pipes.slot_width, "small"),
                long=show(pipes.slot_length, "small"), apart=show(pipes.apart, "small", 2),
                area=show(pipes.open_area, "area"),
            ),
        ),
        "inlet": (
            t("{flow} from the pump", flow=show(build.flow, "flow")),
            t("Down to the pipes at the floor, so that water rises through all of the bed."),
        ),
    }  # fmt: skip


def _said(build: BogBuild, system: str) -> str:
    """What the drawing shows, for those who do not see it."""
    layers = build.layers
    coarse, gravel, over, side = (
        units.show(size, "width", system)
        for size in (layers.coarse, layers.gravel, layers.over, layers.side)
    )
    return t(
        "Drawing to scale: a bed {side} wide, cut through. From below: pipes in {coarse} of coarse "
        "stones, {gravel} of gravel, {over} of water, plants.",
        side=side, coarse=coarse, gravel=gravel, over=over,
    )  # fmt: skip


def _canvas(section: BogSection, said: str, resized: Any) -> ft.Control:
    """The drawing, with the numbers of its parts."""
    ink, ground = ft.Colors.ON_SURFACE, ft.Colors.SURFACE
    shapes: list[Any] = [drawn(shape) for shape in section.shapes]
    radius = theme.drawn(PLATE)
    style = ft.TextStyle(size=radius * 1.15, color=ink, weight=ft.FontWeight.W_700)
    for plate in section.plates:
        fill = ft.Paint(color=ground, style=ft.PaintingStyle.FILL)
        rim = ft.Paint(color=ink, stroke_width=1.5, style=ft.PaintingStyle.STROKE)
        shapes += [
            cv.Circle(plate.x, plate.y, radius, paint=fill),
            cv.Circle(plate.x, plate.y, radius, paint=rim),
            cv.Text(plate.x, plate.y, str(plate.number), style=style,
                    alignment=ft.Alignment.CENTER),
        ]  # fmt: skip
    canvas = cv.Canvas(shapes, height=section.height, on_resize=resized)
    return ft.Semantics(label=said, image=True, content=canvas)


@ft.component
def BogDrawing(build: BogBuild, system: str) -> Any:
    """The bog cut through, as wide as the screen lets it be."""
    width, set_width = ft.use_state(float(theme.DRAWING_NARROW))

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    section = bog_section(build.layers, build.pipes.pipes, width, HIGH, theme.drawn(PLATE))
    words = t("Cut through, as a square bed of its area. To scale.")
    if section.stretch > 1:
        words += " " + t(
            "The section is drawn {times} times as deep as it is.", times=section.stretch
        )
    return ft.Column(
        [_canvas(section, _said(build, system), fitted), layout.small(words)],
        spacing=6,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )


def _answer(build: BogBuild, pond_id: str, system: str) -> list[ft.Control]:
    """Each part, the head over the bed, its weight, and what to mind."""
    facts = _facts(build, system)
    rows: list[ft.Control] = [
        layout.fact(f"{number}. {t(TITLES[part])}", *facts[part])
        for number, part in enumerate(TITLES, start=1)
    ]
    rows.append(ShowWorking(t("Pipes with slots"), build.pipes.steps, system))
    head = layout.fact(
        t("Head over the bed"),
        units.tell(build.head, system),
        t("Of clean gravel at this flow. Roots and dirt multiply it: when water stands higher than "
          "the overflow alone explains, rinse the bed."),
    )  # fmt: skip
    weight = layout.fact(
        t("Full of water it weighs"),
        units.show(build.weight, "mass", system, 2),
        t("On firm, level ground only; ask somebody who builds before it stands on a wall, a roof "
          "or a deck."),
    )  # fmt: skip
    lines: list[ft.Control] = [head, ShowWorking(t("Head over the bed"), build.loss.steps, system)]
    return [
        layout.card(rows, strong=True),
        *(layout.caution(layout.sentence(units.tell(one, system))) for one in build.cautions),
        layout.card([*lines, weight]),
        layout.small(
            t("Layers, pipes and slots are common practice; each is a rule that you can change.")
        ),
        layout.caution(
            t("Small children drown in centimetres of water: fence the bog as you do the pond.")
        ),
        layout.links(
            [
                (t("What to buy for it, and why"), go(f"/pond/{pond_id}/shopping")),
                (t("The rules behind it"), go(f"/pond/{pond_id}/rules")),
            ]
        ),
    ]


@ft.component
def BuildBogPage() -> Any:
    """One bog filter of a pond, as it is built."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    place_id = ft.use_route_params().get("place_id", "")
    route = f"/pond/{pond.id}/at/{place_id}/build"
    bog = feature_of(pond, place_id)
    if not isinstance(bog, BogFilter):
        gone = [layout.body(t("This is no bog filter of the pond any more."))]
        return layout.screen(route, t("Not there"), gone)
    title = t("How to build it: {name}", name=names_of(pond).features[bog.id])
    try:
        build = bog_build(worked_now(pond), bog)
    except PondError as problem:
        refused = [layout.caution(units.explain(problem, session.system))]
        return layout.screen(route, title, refused)
    drawing = [BogDrawing(build, session.system)]
    answer = _answer(build, pond.id, session.system)
    return layout.screen(route, title, drawing, second=answer)
