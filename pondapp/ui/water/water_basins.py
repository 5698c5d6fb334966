"""The part of the water's screen where basins are drawn up."""

import flet as ft

from pondapp import units
from pondapp.answers.water.basin_outline import basin_picture
from pondapp.answers.water.liner import basin_liner
from pondapp.answers.water.volume import Assumptions, found_basin
from pondapp.core.base.errors import PondError
from pondapp.models.water import Basin
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import Typed
from pondapp.ui.parts.names import Texts, added, free_name, listed, take_out
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.water import water_form as form
from pondapp.ui.water.basin_drawing import BasinDrawing
from pondapp.words import t


def shown_basin(texts: Texts) -> str:
    """The basin on the screen: the one chosen, or the first."""
    names = listed(texts, form.BASINS)
    chosen = texts.get("shown", "")
    return chosen if chosen in names else names[0]


def _sides(basin: str, typed: Typed, errors: dict[str, str]) -> list[ft.Control]:
    shape = typed.text(f"{basin}.shape", "rectangle")
    asked = (*form.SIDES[shape], "depth", "slope")
    return [form.FORM.draw(typed, f"{basin}.{key}", errors) for key in asked]


def _rows(basin: str, typed: Typed, errors: dict[str, str]) -> list[ft.Control]:
    """Widths along a tape, or corner points: as many as there are."""
    shape = typed.text(f"{basin}.shape", "rectangle")
    if shape not in form.ROWS:
        return []
    key = f"{basin}.{form.ROWS[shape]}"
    rows = listed(typed.texts, key)
    asked = form.LISTS[form.ROWS[shape]].fields
    found = [
        form.FORM.draw(typed, f"{basin}.{row}.{one.key}", errors, number=number)
        for number, row in enumerate(rows, start=1)
        for one in asked
    ]
    more, less = t("Add a width"), t("Remove the last width")
    if shape == "corners":
        more, less = t("Add a corner"), t("Remove the last corner")
    buttons: list[ft.Control] = []
    if len(rows) < form.MOST_ROWS:
        grow = form.with_row(typed.texts, key)
        buttons.append(layout.quiet_button(more, lambda _: typed.put(grow)))
    if len(rows) > form.LEAST_ROWS:
        shrink = form.without_row(typed.texts, key)
        buttons.append(layout.quiet_button(less, lambda _: typed.put(shrink)))
    return [layout.pairs(found), ft.Row(buttons, wrap=True)]


def _shelves(basin: str, typed: Typed, errors: dict[str, str]) -> list[ft.Control]:
    key = f"{basin}.shelves"
    names = listed(typed.texts, key)
    lines: list[ft.Control] = []
    for number, name in enumerate(names, start=1):
        title = t("Shelf {number}", number=number)
        told = t("Shelf {number} is removed.", number=number)

        def remove(_: object, name: str = name, told: str = told) -> None:
            take_out(typed, key, name, told)

        lines += [
            layout.heading(title),
            layout.pairs(
                [
                    form.FORM.draw(typed, f"{basin}.{name}.{one.key}", errors)
                    for one in form.LISTS["shelves"].fields
                ]
            ),
            layout.aside(t("Remove shelf {number}", number=number), remove),
        ]
    if len(names) < form.MOST_SHELVES:
        grow = added(typed.texts, key, free_name(typed.texts, "s"))
        lines.append(layout.second_button(t("Add a shelf"), lambda _: typed.put(grow)))
    return lines


def _answer(drawn: Basin, system: str) -> ft.Control:
    """What one basin holds, short enough to stay in sight while one types."""
    found = found_basin(drawn)
    holds, area = t("{name} holds", name=drawn.name), units.show(found.area, "area", system)
    return layout.card(
        [
            layout.pairs(
                [
                    layout.fact(holds, units.show(found.volume, "volume", system)),
                    layout.fact(t("Open water"), area),
                ]
            )
        ]
    )


def _details(drawn: Basin, rules: Assumptions, system: str) -> list[ft.Control]:
    """Its sheet of liner, and the working."""
    try:
        sheet = basin_liner(drawn, rules)
    except PondError as trouble:
        return [layout.small(units.explain(trouble, system))]
    length, width = (units.show(side, "length", system) for side in (sheet.length, sheet.width))
    return [
        layout.card(
            [
                layout.fact(
                    t("Liner, in one piece"),
                    t("{length} by {width}", length=length, width=width),
                    t("Down the sides, over the floor, and beyond the rim by the usual overlap."),
                ),
                ShowWorking(t("liner"), sheet.steps, system),
                ShowWorking(t("volume"), found_basin(drawn).steps, system),
            ]
        )
    ]


def _picture(read: form.BasinRead, wrong: bool, system: str) -> list[ft.Control]:
    """Drawing and answer, or why there are none."""
    if read.basin:
        drawing = BasinDrawing(basin_picture(read.basin), "", system)
        return [drawing, _answer(read.basin, system)]
    words = t("The drawing appears here as soon as its sides and its depth are filled in.")
    if read.trouble:
        words = units.explain(read.trouble, system)
    elif wrong:
        words = t("Correct what is marked, and the drawing is back.")
    return [BasinDrawing(None, words, system)]


def basins_part(
    typed: Typed, read: form.WaterRead, rules: Assumptions, system: str
) -> list[ft.Control]:
    """One basin at a time: its drawing and answer beside its fields."""
    texts, errors = typed.texts, read.errors
    names = listed(texts, form.BASINS)
    basin = shown_basin(texts)
    shape = texts.get(f"{basin}.shape", "rectangle")
    title = texts.get(f"{basin}.name", "").strip() or t("Basin")
    lines: list[ft.Control] = []
    if len(names) > 1:
        called = [(name, texts.get(f"{name}.name", "").strip() or t("Basin")) for name in names]
        lines.append(
            layout.choice(t("Which basin"), called, basin, typed.note("shown"), in_rows=True)
        )
    shapes = [(value, t(name)) for value, name in form.SHAPES]
    lines.append(
        layout.choice(
            t("Its shape from above"), shapes, shape, typed.note(f"{basin}.shape"), in_rows=True
        )
    )
    mine = any(key.startswith(f"{basin}.") for key in errors)
    found = read.basins[basin]
    left = _picture(found, mine, system)

    right: list[ft.Control] = []
    if len(names) > 1:
        name_key = f"{basin}.name"
        right.append(
            fields.text_field(t("Name of this basin"), texts.get(name_key, ""),
                              typed.note(name_key))
        )  # fmt: skip
    if shape in form.SHAPE_HINTS:
        right.append(layout.small(t(form.SHAPE_HINTS[shape])))
    right += [
        layout.pairs(_sides(basin, typed, errors)),
        layout.small(
            t("Depth at the deepest place. Slope: how far a side comes in for each measure of "
              "depth; 0 is upright, 1 comes in as far as it goes down.")
        ),
        *_rows(basin, typed, errors),
        *_shelves(basin, typed, errors),
    ]  # fmt: skip
    details = _details(found.basin, rules, system) if found.basin else []
    if layout.two_columns():  # below the drawing, where there is room; else the fields come first
        left += details
    else:
        right += details
    if len(names) < form.MOST_BASINS:
        fresh = free_name(texts, "b")
        grow = {**form.new_basin(texts, fresh), "shown": fresh}
        right.append(layout.second_button(t("Add a basin"), lambda _: typed.put(grow)))
    if len(names) > 1:
        told = t("{name} is removed.", name=title)
        right.append(
            layout.second_button(
                t("Remove {name}", name=title), lambda _: take_out(typed, form.BASINS, basin, told)
            )
        )
    return [*lines, layout.halves(left, right)]
