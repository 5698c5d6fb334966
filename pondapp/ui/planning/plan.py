"""A pond's flow plan, least and good side by side; or the conflict with each way out of it."""

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any, cast

import flet as ft

from pondapp import units
from pondapp.answers.care.open_matters import Measured, measured
from pondapp.answers.features.targets import Aim, Targets, with_aim
from pondapp.answers.planning.evaluation import Evaluation, Evaluations, Running, evaluations
from pondapp.answers.planning.given import given
from pondapp.answers.planning.plan import PondConflict, PondPlan, Resolution
from pondapp.answers.planning.resolve import apply
from pondapp.answers.planning.verdict import verdict_of
from pondapp.answers.plumbing.path import Branch, Line, Names, lines_of, names_of, pump_of
from pondapp.answers.pumps.label_doubt import LABEL_DOUBTED
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.parts import labels, layout, severity
from pondapp.ui.parts.answers import AIMS, three_flows
from pondapp.ui.parts.change import save_change, undo_button
from pondapp.ui.parts.money import price_lines
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.planning.assumed import assumed_links
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

LITTLE = 5.0  # watts, or money in a year, that nobody would choose a plan for
BY_KIND, OWN = "kind", "own"
GIVEN = {
    "asked": "{thing}: {flows}; it gets its {aim}",
    "pond": "{thing}: {flows}; its {aim} was asked for, and the whole pond asks for more",
    "other": "{thing}: {flows}; its {aim} was asked for, and {other} on the same water asks for "
    "more",
}
"""Why a feature has its flow."""


def _feature_lines(
    plan: PondPlan, branch: Branch, names: Names, asked: Targets, system: str
) -> list[ft.Control]:
    """What passes each feature on a branch, beside its least, good and most."""
    rows: list[ft.Control] = []
    for feature_id in branch.feeds:
        target = asked.place(feature_id)
        if target is None or feature_id not in names.features:
            continue
        found = given(plan, branch, target, asked)
        words = t(
            GIVEN[found.why],
            thing=names.features[feature_id],
            flows=three_flows(target.band, system),
            aim=t(AIMS[target.aim]),
            other=names.features.get(found.other, ""),
        )
        rows.append(layout.small(words))
        past = plan.past.get(feature_id)
        if past:
            words = t(
                "{through} through {thing}, {past} past it",
                through=units.show(plan.through[feature_id], "flow", system),
                thing=names.features[feature_id],
                past=units.show(past, "flow", system),
            )
            rows.append(layout.small(words))
    return rows


def _line_card(plan: PondPlan, line: Line, names: Names, asked: Targets, system: str) -> ft.Control:
    flow = units.show(plan.lines[line.id], "flow", system)
    rows: list[ft.Control] = [layout.pair(names.lines[line.id], flow, strong=True)]
    if line.hours_per_day < 24.0:
        hours = units.significant(line.hours_per_day)
        rows.append(layout.small(t("While it runs: {hours} hours a day", hours=hours)))
    for branch in line.branches:
        flow = units.show(plan.branches[branch.id], "flow", system)
        rows.append(layout.pair(names.branches[branch.id], flow))
        rows += _feature_lines(plan, branch, names, asked, system)
    return layout.card(rows)


def _doubts(pond: Pond, seen: Measured, system: str) -> list[ft.Control]:
    """Pumps whose label the readings contradict: what rests on it may be otherwise."""
    pumps = [pump_of(pond, line) for line in lines_of(pond) if line.id in seen.doubted]
    told = [Message(LABEL_DOUBTED, {"name": pump.name}) for pump in pumps if pump]
    return [severity.card("unknown", units.tell(one, system)) for one in told]


def _plan(pond: Pond, plan: PondPlan, seen: Measured, system: str) -> list[ft.Control]:
    """Flows by pump and by branch, and what holds them up."""
    worked = worked_now(pond)
    bad, told = verdict_of(worked, plan, seen.proved, seen.short, seen.doubted)
    head: list[ft.Control] = [
        layout.body(layout.sentence(units.tell(plan.reason, system))),
        ShowWorking(t("the plan"), plan.steps, system),
    ]
    if any(line.hours_per_day < 24.0 for line in lines_of(pond)):
        mean = units.show(plan.daily_mean, "flow", system)
        head.insert(0, layout.body(t("As the mean of a day: {mean}.", mean=mean)))
    names, asked = names_of(pond), worked_now(pond).targets
    return [
        severity.card(bad, layout.sentence(units.tell(told, system)), head),
        *_doubts(pond, seen, system),
        *[_note(units.tell(note, system)) for note in plan.notes],
        *[layout.caution(units.tell(caution, system)) for caution in plan.cautions],
        *[_line_card(plan, line, names, asked, system) for line in lines_of(pond)],
        layout.main_button(t("Tune the valves to it"), go(f"/pond/{pond.id}/tune")),
    ]


def _note(text: str) -> ft.Control:
    return severity.card("wrong", layout.sentence(text))


def _aim_of(pond: Pond) -> str:
    """What was chosen for the whole pond, or that places have choices of their own."""
    if any(feature.aim for feature in pond.fed):
        return OWN
    return pond.aim or BY_KIND


def _chooser(pond: Pond) -> ft.Control:
    """What the plan is to give everything."""

    def choose(chosen: str) -> None:
        if chosen == OWN:
            return
        aim = None if chosen == BY_KIND else cast("Aim", chosen)
        what = t("The plan is made for it.")
        ft.context.page.run_task(save_change, with_aim(pond, aim), what)

    options = [
        (BY_KIND, t("Good for falls and jets, least for filters")),
        ("least", t("The least that will do")),
        ("good", t("The good flow for everything")),
    ]
    if _aim_of(pond) == OWN:
        options.append((OWN, t("As each place chose")))
    return layout.choice(t("What the plan gives"), options, _aim_of(pond), choose)


def running_text(running: Running, system: str) -> str:
    """Watts, and money by the month and the year."""
    return t(
        "{watts}: {cost}",
        watts=units.show_range(running.power_low, running.power_high, "power", system),
        cost=units.by_month_and_year(running.per_year_low, running.per_year_high),
    )


def _evaluation(title: str, found: Evaluation, system: str, *, told_weak: bool) -> list[ft.Control]:
    """One plan: its flow, its watts and what they cost."""
    if isinstance(found.plan, PondConflict) or found.running is None:
        return [layout.fact(title, t("This can't all work"))]
    flow = units.show(found.plan.total, "flow", system)
    remark = f"{running_text(found.running, system)}. {units.tell(found.basis, system)}"
    lines = [layout.fact(title, flow, remark)]
    if found.beyond:
        lines.append(layout.caution(units.tell(found.beyond, system)))
    if found.weak and told_weak:
        lines.append(layout.small(t("The chosen pump is too weak for it.")))
    return lines


def difference_text(found: Evaluations, system: str) -> str:
    """What the good flows cost a year beyond the least."""
    more = found.difference
    if more is None:
        return ""
    if max(more.power_high, more.per_year_high) < LITTLE:
        return t("Good costs about the same as least here.")
    return t("Good costs {more} more than least.", more=running_text(more, system))


def _side_by_side(found: Evaluations | PondError, system: str) -> list[ft.Control]:
    """The least and the good plan, and what the difference costs a year.

    Nothing where neither works: the conflict stands on top.
    """
    if isinstance(found, PondError):
        return [layout.caution(units.explain(found, system))]
    if all(isinstance(one.plan, PondConflict) for one in (found.least, found.good)):
        return []
    neither = found.least.weak is not None and found.good.weak is not None
    sides = [
        ft.Column(_evaluation(title, one, system, told_weak=not neither), col={"xs": 12, "pair": 6})
        for title, one in ((t("Least everywhere"), found.least), (t("Good everywhere"), found.good))
    ]
    labels.level(sides, layout.half_width(in_card=True))
    lines: list[ft.Control] = [layout.heading(t("Least or good?")), layout.beside(sides)]
    if neither:
        lines.append(layout.body(t("The chosen pump is too weak for either.")))
    if difference := difference_text(found, system):
        lines.append(layout.body(difference))
    lines += [layout.small(units.tell(one, system)) for one in found.fixed]
    return [layout.card(lines)]


def shared_changes(ways: Sequence[Sequence[str]]) -> list[str]:
    """What each of several ways asks for besides its own: told once, before all of them."""
    if len(ways) < 2:
        return []
    shared = [one for one in ways[0] if all(one in way for way in ways)]
    return shared if all(len(way) > len(shared) for way in ways) else []


def _way(
    pond: Pond, way: Resolution, number: int, changes: Sequence[str], system: str
) -> ft.Control:
    """A way out with its own changes and its numbers, and the touch that takes it."""

    async def take(_: Any) -> None:
        await save_change(
            apply(worked_now(pond), way, new_id), t("Done: {change}", change=changes[0])
        )

    total = units.show(way.plan.total, "flow", system)
    rows: list[ft.Control] = [layout.body(change) for change in changes]
    rows.append(layout.pair(t("All pumps then deliver"), total))
    rows.append(ShowWorking(t("way {number}", number=number), way.steps, system))
    name = t("Use this: {change}", change=changes[0])
    rows.append(layout.second_button(t("Use this"), take, full_name=name))
    return layout.card(rows)


def _conflict(pond: Pond, plan: PondConflict, seen: Measured, system: str) -> list[ft.Control]:
    head = [
        layout.body(layout.sentence(units.tell(conflict, system))) for conflict in plan.conflicts
    ]
    head.append(ShowWorking(t("the conflict"), plan.steps, system))
    controls = [severity.card("wrong", t("This can't all work"), head)]
    controls += _doubts(pond, seen, system)
    controls += [_note(units.tell(note, system)) for note in plan.notes]
    if plan.resolutions:
        controls.append(layout.heading(t("How to make it work")))
    told = [
        [layout.sentence(units.tell(change, system)) for change in way.changes]
        for way in plan.resolutions
    ]
    shared = shared_changes(told)
    if shared:
        lines = [layout.small(t("With each of the ways below")), *map(layout.body, shared)]
        controls.append(layout.card(lines))
    for number, (way, changes) in enumerate(zip(plan.resolutions, told, strict=True), start=1):
        own = [change for change in changes if change not in shared]
        controls.append(_way(pond, way, number, own, system))
    return controls


@ft.component
def PlanPage() -> Any:
    """The plan and what else it could be, or what stands in its way."""
    session = session_now()
    system = session.system
    pond = use_pond()

    def both() -> Evaluations | PondError | None:
        try:
            return evaluations(worked_now(pond)) if pond else None
        except PondError as problem:
            return problem

    # Both plans with their pumps take longer than a draw may.
    found = ft.use_memo(both, [pond])
    if pond is None:
        return layout.no_pond()
    try:
        worked, log = worked_now(pond), session.logs.items_of(pond.id)
        plan, seen = worked.plan, measured(worked, log, datetime.now(UTC))
        controls = (
            _plan(pond, plan, seen, system)
            if isinstance(plan, PondPlan)
            else _conflict(pond, plan, seen, system)
        )
        controls.append(_chooser(pond))
        compared = _side_by_side(found, system) if found else []
        if compared:
            controls += [*compared, *price_lines(pond, system)]
    except PondError as problem:
        controls = [layout.caution(units.explain(problem, system))]
    controls += assumed_links(pond, lines_of(pond), system)
    controls += undo_button(pond.id)
    return layout.screen(f"/pond/{pond.id}/plan", t("Flow plan"), controls)
