"""Change the water path: T-pieces, valves, the order of features, pumps and their hours."""

from typing import Any, cast

import flet as ft

from pondapp import units
from pondapp.answers.features.kinds import PUMP
from pondapp.answers.plumbing.path import (
    Branch,
    Line,
    Names,
    assumed_length,
    assumed_lift,
    feature_of,
    left_dry,
    lines_of,
    names_of,
)
from pondapp.answers.plumbing.path_edits import (
    Valve,
    add_branch,
    add_line,
    move_branch,
    remove_branch,
    remove_line,
    set_valve,
    with_branch,
    with_line,
)
from pondapp.models.base import limits_of
from pondapp.models.limits import MOST_BRANCHES, MOST_LINES
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.features.looks import icon_of
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.change import save_change, undo_button
from pondapp.ui.parts.draft import draft_name, seen, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.revert import saved_by
from pondapp.ui.plumbing.on_path import changing
from pondapp.ui.plumbing.run_answer import run_text
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.words import t, within

VALVES = {"none": "No valve", "ball": "Ball valve", "gate": "Gate valve"}
FORM = Form(
    (
        QuantityField(
            "hours", "It runs", "number", limits_of(Line, "hours_per_day"),
            "24 unless it is on a timer", needed=True, unit="hours a day",
        ),
    )
)  # fmt: skip


def _in_order(branch: Branch, names: Names) -> str:
    """What a branch feeds, in words."""
    feeds = [names.features[item] for item in branch.feeds if item in names.features]
    return t(", then ").join(feeds) if feeds else t("Straight back to the pond")


def _lift_and_hose(pond: Pond, branch: Branch, system: str) -> str:
    """Lift and hose of a branch, each told as assumed while nobody entered it."""
    height, guessed = assumed_lift(pond, branch)
    lift = t("Lift {height}", height=units.show(height, "head", system))
    hose = t("{length} of hose", length=units.show(assumed_length(pond), "length", system))
    parts = [
        t("{value}, assumed", value=lift) if guessed else lift,
        run_text(branch.pipe, system) if branch.pipe else t("{value}, assumed", value=hose),
    ]
    return "; ".join(parts)


def _branch_row(pond: Pond, branch: Branch, names: Names) -> ft.Control:
    lines: list[ft.Control] = [
        layout.titled(ft.Icons.SUBDIRECTORY_ARROW_RIGHT, names.branches[branch.id]),
        layout.body(_in_order(branch, names)),
        layout.small(_lift_and_hose(pond, branch, session_now().system)),
        layout.small(t(VALVES[branch.valve])),
    ]
    return layout.tile([layout.card_button(lines, go(f"/pond/{pond.id}/path/{branch.id}"))])


def _line(pond: Pond, line: Line, names: Names) -> ft.Control:
    name = names.lines[line.id]
    hours = t("Round the clock")
    if line.hours_per_day < 24.0:
        hours = t("{hours} hours a day", hours=units.significant(line.hours_per_day))
    pump: list[ft.Control] = [layout.titled(icon_of(PUMP), name), layout.small(hours)]
    rows: list[ft.Control] = [
        layout.tile([layout.card_button(pump, go(f"/pond/{pond.id}/path/{line.id}"))]),
        layout.pipe([_branch_row(pond, branch, names) for branch in line.branches]),
    ]
    if len(line.branches) < MOST_BRANCHES:
        what = t("A T-piece is added after {pump}.", pump=name)
        add = changing(lambda: add_branch(pond, line.id, new_id), what)
        rows.append(layout.second_button(t("Add a T-piece after {pump}", pump=name), add))
    return layout.pipe(rows)


@ft.component
def PathPage() -> Any:
    """All pumps with their branches, to be changed by touch."""
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    names = names_of(pond)
    controls: list[ft.Control] = [_line(pond, line, names) for line in lines_of(pond)]
    for feature in left_dry(pond):
        rows: list[ft.Control] = [
            layout.titled(icon_of(feature.kind), names.features[feature.id]),
            layout.small(t("No branch feeds it yet.")),
        ]
        opens = go(f"/pond/{pond.id}/at/{feature.id}")
        controls.append(layout.tile([layout.card_button(rows, opens)]))
    if len(lines_of(pond)) < MOST_LINES:
        add = changing(lambda: add_line(pond, new_id), t("A pump is added."))
        controls.append(layout.second_button(t("Add a pump"), add))
    new_feature = go(f"/pond/{pond.id}/things")
    controls.append(layout.quiet_button(t("Add a filter, lip or jet"), new_feature))
    controls += undo_button(pond.id)
    return layout.screen(f"/pond/{pond.id}/path", t("Change the water path"), controls)


def _choices(pond: Pond, line: Line, branch: Branch, names: Names) -> list[ft.Control]:
    """What about a branch is kept with one touch."""

    def valve(chosen: str) -> None:
        what = f"{names.branches[branch.id]}: {within(t(VALVES[chosen]))}."
        changed = set_valve(pond, branch.id, cast("Valve", chosen))
        ft.context.page.run_task(save_change, changed, what)

    def hang(chosen: str) -> None:
        changed = move_branch(pond, branch.id, chosen, new_id)
        what = t("{pump} feeds {branch} now.", branch=names.branches[branch.id],
                 pump=names.lines[chosen])  # fmt: skip
        ft.context.page.run_task(save_change, changed, what)

    valves = [(key, t(text)) for key, text in VALVES.items()]
    controls: list[ft.Control] = [
        layout.choice(t("Valve at its start"), valves, branch.valve, valve)
    ]
    if len(lines_of(pond)) > 1:
        pumps = [(one.id, names.lines[one.id]) for one in lines_of(pond)]
        controls.append(layout.choice(t("Its pump"), pumps, line.id, hang))
    return controls


def _fed_by(pond: Pond, branch: Branch, names: Names) -> list[ft.Control]:
    """The features on a branch in order, each to be opened."""
    features = [feature for item in branch.feeds if (feature := feature_of(pond, item)) is not None]
    if not features:
        return [layout.body(t("It goes straight back to the pond."))]
    return [
        layout.heading(t("It feeds, in order")),
        layout.links(
            [
                (names.features[feature.id], go(f"/pond/{pond.id}/at/{feature.id}"))
                for feature in features
            ]
        ),
    ]


@ft.component
def BranchPart(pond: Pond, line: Line, branch: Branch) -> Any:
    """One branch: its name, its valve, its pump, and what it feeds."""
    names = names_of(pond)
    begin = {"name": branch.name, **seen(branch.name)}
    typed = use_draft(draft_name("branch", pond.id, branch.id), begin)
    name = typed.text("name").strip()
    error = fields.name_error(name)

    async def keep(_: Any) -> None:
        changed = with_branch(pond, branch.id, name=name)
        await save_change(changed, t("It is called {name}.", name=name))
        await typed.drop()

    async def remove(_: Any) -> None:
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond.id}/path")
        await save_change(
            remove_branch(pond, branch.id), t("{branch} is removed.", branch=branch.name)
        )

    controls: list[ft.Control] = [
        *_choices(pond, line, branch, names),
        *_fed_by(pond, branch, names),
        layout.body(_lift_and_hose(pond, branch, session_now().system)),
        layout.links(
            [
                (
                    t("Its hose, lift and fittings"),
                    go(f"/pond/{pond.id}/plumbing/{line.id}/{branch.id}"),
                ),
                (t("Tune its valve"), go(f"/pond/{pond.id}/tune/{branch.id}")),
            ]
        ),
        fields.text_field(t("Name of the branch"), typed.text("name"), typed.note("name"),
                          error=error),
    ]  # fmt: skip
    same = name == branch.name
    save = layout.second_button(t("Save the name"), keep, disabled=not name or bool(error) or same)
    controls += saved_by(save, typed, begin)
    if len(line.branches) > 1:
        controls.append(layout.quiet_button(t("Remove this branch and its T-piece"), remove))
    controls += undo_button(pond.id)
    return layout.column(controls)


@ft.component
def PumpPart(pond: Pond, line: Line) -> Any:
    """One pump's place: its name and its hours."""
    name_here = names_of(pond).lines[line.id]
    hours_here = line.hours_per_day
    system = session_now().system
    begin = {
        "name": line.name,
        **FORM.write({"hours": hours_here}, system),
        **seen(line.name, hours_here),
    }
    typed = use_draft(draft_name("line", pond.id, line.id), begin, FORM)
    name = typed.text("name").strip()
    name_error = fields.name_error(name)
    read = FORM.read(typed.texts, system)
    hours = read.values.get("hours")

    async def keep(_: Any) -> None:
        if hours is None:
            return
        changed = with_line(pond, line.id, name=name, hours_per_day=hours)
        await save_change(changed, t("{pump} is saved.", pump=name))
        await typed.drop()

    async def remove(_: Any) -> None:
        await typed.drop()
        ft.context.page.navigate(f"/pond/{pond.id}/path")
        what = t("{pump} is removed; another pump feeds its branches now.", pump=name_here)
        await save_change(remove_line(pond, line.id), what)

    ready = bool(name) and not name_error and hours is not None
    controls: list[ft.Control] = [
        fields.text_field(t("Name of this pump's place"), typed.text("name"), typed.note("name"),
                          error=name_error),
        FORM.draw(typed, "hours", read.errors),
    ]  # fmt: skip
    controls += saved_by(layout.main_button(t("Save"), keep, disabled=not ready), typed, begin)
    if len(line.branches) < MOST_BRANCHES:
        what = t("A T-piece is added after {pump}.", pump=name_here)
        add = changing(lambda: add_branch(pond, line.id, new_id), what)
        controls.append(layout.second_button(t("Add a T-piece after it"), add))
    if len(lines_of(pond)) > 1:
        controls.append(layout.quiet_button(t("Remove this pump"), remove))
    controls += undo_button(pond.id)
    return layout.column(controls)


@ft.component
def PathPartPage() -> Any:
    """A branch or a pump's place, opened from the water path."""
    params = ft.use_route_params()
    pond = session_now().ponds.get(params.get("pond_id", ""))
    part_id = params.get("part_id", "")
    if pond is None:
        return layout.no_pond()
    route = f"/pond/{pond.id}/path/{part_id}"
    names = names_of(pond)
    for line in lines_of(pond):
        if line.id == part_id:
            return layout.screen(route, names.lines[line.id], [PumpPart(pond, line)])
        for branch in line.branches:
            if branch.id == part_id:
                part = BranchPart(pond, line, branch)
                return layout.screen(route, names.branches[branch.id], [part])
    gone = [layout.body(t("This is not on the water path any more."))]
    return layout.screen(route, t("Not there"), gone)
