"""The branches of a pump on the way to their flows: which comes first, what is in, what is kept."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.methods import rules_for
from pondapp.answers.plumbing.path import Line, pump_of
from pondapp.answers.tuning.evidence import Evidence
from pondapp.answers.tuning.flow_sets import flow_set, set_of, with_tuned
from pondapp.answers.tuning.tune import (
    SEVERITY,
    BranchState,
    TuningOrder,
    all_in,
    changes_since,
    order,
    states,
)
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.measuring.readings import when
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.answers import band_text, flow_text
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.no_pump import to_pumps
from pondapp.ui.parts.written import written
from pondapp.ui.plumbing.what_is_new import as_it_was
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import (
    change_text,
    day,
    flow_line,
    in_hand,
    region,
    use_line,
    use_turned,
)
from pondapp.words import t

WORDS = {
    "to do": "Not timed yet",
    "open": "Not decided yet",
    "conflict": "This can't all work",
    "again": "Time it again: a valve was turned since",
    "old": "Time it again: measured too long ago",
    "replaced": "Time it again: measured with the old pump",
    "rebuilt": "Time it again: measured before the water path was changed",
    "cleaned": "Time it again: measured before the cleaning",
    "too much": "More than this pump can give: check the container, the time, and which pump runs",
    "differs": "Two readings differ",
}
"""What is to be said of a state besides how bad it is."""


def _row(pond: Pond, number: int, state: BranchState, system: str) -> ft.Control:
    """A branch: its place in the order, its aim, and how far it is."""
    place = state.place
    said = [t(WORDS[state.state])] if state.state in WORDS else []
    if state.seen:
        said += [flow_text(state.seen.found, system), when(state.seen.reading)]
    aim = (
        layout.sentence(units.tell(place.conflict, system))
        if place.conflict
        else t(
            "Aim: {aim}. Fine: {band}.",
            aim=units.show(place.band.target, "flow", system),
            band=band_text(place.band, system),
        )
    )
    name = f"{number}. {place.name}"
    lines: list[ft.Control] = [
        ft.Row(
            [
                written(name, size=theme.BODY + 2, weight=ft.FontWeight.W_600, expand=True,
                        color=ft.Colors.ON_SURFACE),
                layout.way_on(),
            ]
        ),
        written(aim, size=theme.SMALL, color=ft.Colors.ON_SURFACE_VARIANT),
        severity.row(SEVERITY[state.state], ", ".join(said)),
    ]  # fmt: skip
    if state.why:
        lines.append(layout.small(units.tell(state.why, system)))
    opener = layout.card_button(lines, go(f"/pond/{pond.id}/tune/{place.branch.id}"))
    return layout.tile([opener])


def _ordered(found: Sequence[BranchState], first: TuningOrder | None) -> list[BranchState]:
    if first is None:
        return list(found)
    rank = {place.branch.id: number for number, (place, _) in enumerate(first.turns)}
    return sorted(found, key=lambda state: rank.get(state.place.branch.id, len(rank)))


def _why(first: TuningOrder | None, trouble: PondError | None, system: str) -> list[ft.Control]:
    """Why in this order."""
    if trouble is not None:
        said = units.explain(trouble, system)
        return [layout.body(t("Which valve comes first is not known: {why}", why=said))]
    return [layout.body(units.tell(line, system)) for line in (first.why if first else ())]


def _planned(found: Sequence[BranchState], system: str) -> list[ft.Control]:
    """What the plan gives, where an aim is not quite that."""
    places = [one.place for one in found if one.place.conflict is None]
    if not any(place.off_plan for place in places):
        return []
    flows = (f"{place.name} {units.show(place.planned, 'flow', system)}" for place in places)
    told = t(
        "The plan gives: {flows}. Aims lie so far inside what is fine that a few fills can tell.",
        flows=", ".join(flows),
    )
    return [layout.small(told)]


def _kept(
    pond: Pond, line: Line, turned_at: Mapping[str, datetime], system: str
) -> list[ft.Control]:
    """What was kept as tuned, and the flows of now against it."""
    kept = set_of(pond.tuned, line)
    if kept is None:
        return []
    rules, log = rules_for(pond).measuring, session_now().logs.items_of(pond.id)
    evidence = Evidence(worked_now(pond), log, datetime.now(UTC), turned_at)
    changes = {change.place_name: change for change in changes_since(kept, evidence)}
    lines: list[ft.Control] = [
        layout.fact(place.place_name, change_text(changes[place.place_name], system))
        if place.place_name in changes
        else flow_line(place, rules.coverage, system)
        for place in kept.places
    ]
    if not changes:
        lines.append(layout.small(t("New readings at these places are compared with it here.")))
    return [layout.heading(t("As tuned on {day}", day=day(kept.at))), layout.card(lines)]


@ft.component
def TunePage() -> Any:
    """Pick the branch to set; when all are in, keep the set."""
    session = session_now()
    system = session.system
    pond = use_pond()
    line, which = use_line(pond)
    typed, turned_at = use_turned(pond.id if pond else "")
    if pond is None or line is None:
        return layout.no_pond()
    route = f"/pond/{pond.id}/tune"
    try:
        found = states(
            worked_now(pond), line, session.logs.items_of(pond.id), turned_at, datetime.now(UTC),
            in_hand(pond),
        )  # fmt: skip
    except PondError as problem:
        said = units.explain(problem, system)
        return layout.screen(route, t("Tune"), [*which, layout.caution(said)])
    first: TuningOrder | None = None
    trouble: PondError | None = None
    if len(found) > 1:
        try:
            first = order(worked_now(pond), line)
        except PondError as problem:
            trouble = problem
    ready, kept = all_in(found), set_of(pond.tuned, line)
    seen = [state.seen for state in found if state.seen]
    again = kept is not None and {place.reading_id for place in kept.places} == {
        one.reading.id for one in seen
    }

    async def keep(_: Any) -> None:
        await save_change(
            with_tuned(pond, flow_set(line, seen, datetime.now(UTC))), t("Saved as tuned")
        )
        typed.put({})

    rows = [_row(pond, n, s, system) for n, s in enumerate(_ordered(found, first), 1)]
    count = sum(state.state == "in" for state in found)
    told = (
        t("Every branch is right, and saved as tuned.")
        if ready and again
        else t("Every branch is right. Save this as tuned.")
        if ready
        else t("Right so far: {count} of {all} branches.", count=count, all=len(found))
    )
    controls: list[ft.Control] = [
        *which,
        region([layout.body(told)]),
        *rows,
        *as_it_was(pond, (line,), told=False),
        *_planned(found, system),
        *([] if ready else _why(first, trouble, system)),
        *([to_pumps(pond.id)] if trouble and pump_of(pond, line) is None else []),
        layout.main_button(t("Save as tuned"), keep, disabled=again or not ready),
        *_kept(pond, line, turned_at, system),
    ]
    if not found:
        controls = [*which, layout.body(t("Nothing is planned for this pump yet."))]
    controls.append(layout.quiet_button(t("How this works"), go("/help/tune")))
    return layout.screen(route, t("Tune"), controls)
