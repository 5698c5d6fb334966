"""Add a pond: draw it, say what the pump feeds and how high; everything else can follow."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.planning.planned import Planned
from pondapp.answers.plumbing.path import USUAL_LIFT
from pondapp.answers.water.basin_outline import basin_picture
from pondapp.answers.water.volume import found_basin
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Rectangle, Shelf
from pondapp.state.ids import new_id
from pondapp.ui.parts import cautions, fields, layout, severity
from pondapp.ui.parts.answers import target_card
from pondapp.ui.parts.draft import Typed, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.missing import findable, waiting
from pondapp.ui.plumbing.hose_fields import HOSE, LIFT
from pondapp.ui.pond.new_pond import (
    FORM,
    LIFTS,
    NEW_POND,
    PUMP,
    SHAPES,
    SHELF,
    SIDES,
    SLOPE,
    NewPond,
    asked_of_lifts,
    asked_of_sides,
    asked_of_water,
    lift_text,
    read_new_pond,
    with_sides,
)
from pondapp.ui.shell import theme
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.water.basin_drawing import BasinDrawing, cut_sketch
from pondapp.words import t

BEGIN = {"shape": "ellipse", "high_flow": "no"}
PUMP_TEXTS = ("pump_name", *PUMP, *(one.key for one in HOSE))
SKETCH_SHELF = Shelf(depth_m=0.35, width_m=0.45)  # plain to see on a drawing of a thumb's width


def _pump_fact(planned: Planned, system: str) -> ft.Control:
    """What the pump is to deliver: the flow of the plan that the saved pond will have."""
    flow = sum(planned.flows.values())
    return layout.fact(
        t("The pump must give"),
        units.show(flow, "flow", system),
        t("Each filter and fall on its usual branch: change that on the water path."),
    )


def sides_text(basin: Basin, system: str) -> str:
    """How the sides of a basin go down, in a sentence."""
    if not basin.shelves:
        if basin.side_slope:
            return t("Without a shelf; its sides slope.")
        return t("Without a shelf; its sides go straight down.")
    shelf = basin.shelves[0]
    depth, width = (units.show(size, "width", system) for size in (shelf.depth_m, shelf.width_m))
    if basin.side_slope:
        return t(
            "With a shelf {width} wide, {depth} below the water; its sides slope.",
            width=width, depth=depth,
        )  # fmt: skip
    return t(
        "With a shelf {width} wide, {depth} below the water; its sides go straight down.",
        width=width, depth=depth,
    )  # fmt: skip


@cache
def _sketched(sides: str) -> Basin:
    """A basin that shows what a choice of sides means."""
    return Basin(
        id=sides,
        name=sides,
        outline=Rectangle(length_m=3.2, width_m=2.0),
        depth_m=1.0,
        side_slope=0.45 if "sloping" in sides else 0.0,
        shelves=(SKETCH_SHELF,) if "shelf" in sides else (),
    )


def _how_sides_go(typed: Typed, errors: dict[str, str], system: str) -> list[ft.Control]:
    """Shelf and slope: chosen by a drawing, then put right by what was measured."""
    width, height = theme.SKETCH_CUT
    sketches = [
        cut_sketch(basin_picture(_sketched(sides)), width, theme.drawn(height))
        for sides, _ in SIDES
    ]

    def choose(sides: str) -> None:
        typed.put(with_sides(typed.newest(), sides, system))

    parts = asked_of_sides(typed.texts)
    asked = [FORM.draw(typed, key, errors) for key in parts]
    told = []
    if SHELF[0] in parts:
        told.append(t("Type your own shelf; a usual one is filled in to begin with."))
    if SLOPE[0] in parts:
        told.append(t("Slope 0.3: a side comes in by 3 for each 10 that it goes down."))
    label = t("How its sides go down")
    choice = layout.choice(
        label, layout.worded(SIDES), typed.text("sides"), choose, drawings=sketches
    )
    return [
        findable(label, choice),
        *([layout.pairs(asked)] if asked else []),
        *([layout.small(" ".join(told))] if told else []),
    ]  # fmt: skip


def _holds(read: NewPond, typed: Typed, system: str) -> list[ft.Control]:
    """What a drawn pond holds; no more than that while nobody said how its sides go down."""
    if read.basin is None:
        return []
    volume = units.show(found_basin(read.basin).volume, "volume", system)
    if typed.text("sides"):
        fact = layout.fact(t("The pond holds"), volume, sides_text(read.basin, system))
    else:
        why = t("Less if it has a shelf or its sides slope: choose above how they go down.")
        fact = layout.fact(t("The pond holds at most"), volume, why)
    return [layout.card([fact], strong=True)]


def _drawing(read: NewPond, system: str) -> list[ft.Control]:
    """The pond to scale as far as it is typed."""
    if read.basin:
        return [BasinDrawing(basin_picture(read.basin), "", system)]
    words = t("Your pond is drawn here as soon as its sides and its depth are filled in.")
    if read.trouble:
        words = units.explain(read.trouble, system)
    return [BasinDrawing(None, words, system)]


@dataclass(frozen=True, slots=True)
class _Water:
    """The parts of what is asked and told about the water, in the order of a phone."""

    shape: ft.Control
    drawing: Sequence[ft.Control]
    sizes: Sequence[ft.Control]
    holds: Sequence[ft.Control]


def _water(read: NewPond, typed: Typed, system: str) -> _Water:
    """The volume that is known, or the drawing and what was measured."""
    shape, errors = typed.text("shape", "typed"), read.errors
    asked = [FORM.draw(typed, key, errors) for key in asked_of_water(typed.texts)]
    choice = layout.choice(
        t("Its shape from above"), layout.worded(SHAPES), shape, typed.note("shape"), in_rows=True
    )
    if shape == "typed":
        return _Water(choice, (), asked, ())
    more = t("Another outline, or a second basin: save it, then go to its water.")
    sizes = [layout.pairs(asked), *_how_sides_go(typed, errors, system), layout.small(more)]
    return _Water(choice, _drawing(read, system), sizes, _holds(read, typed, system))


def _features(read: NewPond, typed: Typed, system: str) -> list[ft.Control]:
    """What the pump feeds, each with its height where it is there."""
    errors, lifts = read.errors, asked_of_lifts(typed.texts)
    usual = units.show(USUAL_LIFT, "head", system)
    empty = t("0 is the same level; empty: {lift} assumed", lift=usual)

    def lift(kind: str) -> list[ft.Control]:
        key = LIFTS[kind]
        if key not in lifts:
            return []
        return [FORM.draw(typed, key, errors, begin=lift_text(typed.texts, key), helper=empty)]

    return [
        layout.heading(t("What the pump feeds")),
        FORM.draw(typed, "bog", errors),
        *lift("bog"),
        FORM.draw(typed, "lip", errors),
        *lift("lip"),
        layout.choice(t("A high-flow filter (foam and loose media)?"), layout.yes_no(),
                      typed.text("high_flow", "no"), typed.note("high_flow"), in_rows=True),
        *lift("high_flow"),
    ]  # fmt: skip


def _pump_and_hose(read: NewPond, typed: Typed, system: str) -> list[ft.Control]:
    """The label of a pump, and one hose to everything."""
    errors = read.errors
    usual = units.show(USUAL_LIFT, "head", system)
    _, length, bore = (one.key for one in HOSE)
    lift: list[ft.Control] = []
    if asked_of_lifts(typed.texts) == (LIFT.key,):
        told = t("Outlet above the water; empty: {lift} assumed", lift=usual)
        lift.append(FORM.draw(typed, LIFT.key, errors, helper=told))
    return [
        fields.text_field(t("Name of the pump"), typed.text("pump_name"), typed.note("pump_name")),
        *[FORM.draw(typed, key, errors) for key in PUMP],
        *lift,
        layout.pairs([FORM.draw(typed, key, errors) for key in (length, bore)]),
        layout.small(t("Hose empty: a short one, wide enough, is assumed.")),
        cautions.mains(),
    ]


def _answers(made: Pond, *, typed_volume: bool, system: str) -> list[ft.Control]:
    """What each place wants, and what the pump must give."""
    try:
        worked = worked_now(made)
        found, planned = worked.targets, worked.planned
    except PondError as problem:
        return [layout.caution(units.explain(problem, system))]
    answers: list[ft.Control] = []
    if typed_volume:
        volume = units.show(found.volume, "volume", system)
        answers.append(layout.card([layout.fact(t("The pond holds"), volume)], strong=True))
    *places, pump = found.places
    answers += [target_card(place, system) for place in places]
    if planned.conflict:
        told = layout.sentence(units.tell(planned.conflict, system))
        conflict = severity.card("wrong", t("This can't all work"), [layout.body(told)])
        return [*answers, target_card(pump, system), conflict]
    return [*answers, layout.card([_pump_fact(planned, system)])]


@ft.component
def PondFormPage() -> Any:
    """Every keystroke is kept as a draft; drawing and results follow while typing."""
    session = session_now()
    system = session.system
    typed = use_draft(NEW_POND, BEGIN, FORM)
    read = read_new_pond(typed.texts, system, NEW_POND)
    made = read.pond

    async def keep(_: Any) -> None:
        if made is None:
            return
        kept = made.model_copy(update={"id": new_id()})
        await session.ponds.save(kept)
        await typed.drop()
        ft.context.page.navigate(f"/pond/{kept.id}")

    answers: list[ft.Control] = []
    if made:
        answers += _answers(made, typed_volume=read.basin is None, system=system)
    else:
        answers += waiting(read.missing, wrong=bool(read.errors or read.trouble))
    answers.append(layout.main_button(t("Save the pond"), keep, disabled=made is None))
    known = any(typed.text(key).strip() for key in PUMP_TEXTS)
    feeds = [
        *_features(read, typed, system),
        fold("pump", t("Pump and hose, if you know them"),
             lambda: _pump_and_hose(read, typed, system), opened=known),
    ]  # fmt: skip
    name = fields.text_field(t("Name of the pond"), typed.text("name"), typed.note("name"),
                             error=read.errors.get("name"))  # fmt: skip
    water = _water(read, typed, system)
    if layout.two_columns():  # all that is asked, and beside it all that follows from it
        form = [name, water.shape, *water.sizes, *feeds]
        follows = [*water.drawing, *water.holds, *answers]
    else:  # the drawing at what it shows
        form = [name, water.shape, *water.drawing, *water.sizes, *water.holds, *feeds]
        follows = answers
    return layout.screen("/new", t("Add a pond"), form, second=follows)
