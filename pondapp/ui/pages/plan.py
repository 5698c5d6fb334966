"""The least-flow plan of a pond, or the conflict with each way out of it."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.pond import Pond
from pondapp.sizing.path import Branch, Line, lines_of
from pondapp.sizing.plan import Names, PondConflict, PondPlan, WayOut, names_of, plan_of, settled
from pondapp.ui.current import session_now, use_pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.assumed import assumed_links
from pondapp.ui.parts.change import keep_change, undo_button
from pondapp.ui.parts.kinds import NO_WRONG, WRONG
from pondapp.ui.parts.navigate import go
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.session import new_id
from pondapp.words import t


def _branch_lines(plan: PondPlan, branch: Branch, names: Names, system: str) -> list[ft.Control]:
    """A branch with its flow, and what passes or misses each thing on it."""
    flow = units.show(plan.branches[branch.id], "flow", system)
    rows: list[ft.Control] = [layout.pair(names.branches[branch.id], flow)]
    for thing_id in branch.feeds:
        past = plan.past.get(thing_id)
        if past and thing_id in names.things:
            words = t(
                "{through} through {thing}, {past} past it",
                through=units.show(plan.through[thing_id], "flow", system),
                thing=names.things[thing_id],
                past=units.show(past, "flow", system),
            )
            rows.append(layout.small(words))
    return rows


def _line_card(plan: PondPlan, line: Line, names: Names, system: str) -> ft.Control:
    flow = units.show(plan.lines[line.id], "flow", system)
    rows: list[ft.Control] = [layout.pair(names.lines[line.id], flow, strong=True)]
    if line.hours_per_day < 24.0:
        hours = units.significant(line.hours_per_day)
        rows.append(layout.small(t("While it runs: {hours} hours a day", hours=hours)))
    for branch in line.branches:
        rows += _branch_lines(plan, branch, names, system)
    return layout.card(rows)


def _plan(pond: Pond, plan: PondPlan, system: str) -> list[ft.Control]:
    """Flows by pump and by branch, and what holds them up."""
    total = units.show(plan.total, "flow", system)
    head: list[ft.Control] = [
        layout.marked(NO_WRONG, t("{total} in all pleases everything", total=total)),
        layout.body(layout.sentence(units.tell(plan.reason, system))),
        ShowWorking(t("the plan"), plan.steps, system),
    ]
    if any(line.hours_per_day < 24.0 for line in lines_of(pond)):
        mean = units.show(plan.daily_mean, "flow", system)
        head.insert(1, layout.body(t("As the mean of a day: {mean}.", mean=mean)))
    names = names_of(pond)
    return [
        layout.card(head, strong=True),
        *[_note(units.tell(note, system)) for note in plan.notes],
        *[_line_card(plan, line, names, system) for line in lines_of(pond)],
        layout.main_button(t("Tune the valves to it"), go(f"/pond/{pond.id}/tune")),
    ]


def _note(text: str) -> ft.Control:
    return layout.card([layout.marked(WRONG, layout.sentence(text))])


def _way(pond: Pond, way: WayOut, number: int, system: str) -> ft.Control:
    """A way out with its numbers, and the touch that takes it."""

    async def take(_: Any) -> None:
        taken = t("Way {number} is taken.", number=number)
        await keep_change(settled(pond, way, new_id), taken)

    total = units.show(way.plan.total, "flow", system)
    rows: list[ft.Control] = [
        layout.body(layout.sentence(units.tell(change, system))) for change in way.changes
    ]
    rows.append(layout.pair(t("All pumps then deliver"), total))
    rows.append(ShowWorking(t("way {number}", number=number), way.steps, system))
    rows.append(layout.second_button(t("Take way {number}", number=number), take))
    return layout.card(rows)


def _conflict(pond: Pond, plan: PondConflict, system: str) -> list[ft.Control]:
    head: list[ft.Control] = [layout.marked(WRONG, t("The wishes conflict"))]
    head += [layout.body(layout.sentence(units.tell(clash, system))) for clash in plan.clashes]
    head.append(ShowWorking(t("the conflict"), plan.steps, system))
    controls: list[ft.Control] = [layout.card(head, strong=True)]
    controls += [_note(units.tell(note, system)) for note in plan.notes]
    if plan.ways_out:
        controls.append(layout.heading(t("What settles it")))
    controls += [
        _way(pond, way, number, system) for number, way in enumerate(plan.ways_out, start=1)
    ]
    return controls


@ft.component
def PlanPage() -> Any:
    """The plan, or what stands in its way."""
    session = session_now()
    system = session.system
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    try:
        plan = plan_of(pond)
        controls = (
            _plan(pond, plan, system)
            if isinstance(plan, PondPlan)
            else _conflict(pond, plan, system)
        )
    except PondError as problem:
        controls = [layout.caution(units.tell(problem.message, system))]
    controls += assumed_links(pond, lines_of(pond), system)
    controls += undo_button(pond.id)
    return layout.screen(f"/pond/{pond.id}/plan", t("Least-flow plan"), controls)
