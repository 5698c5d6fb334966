"""Is the pump well: what it gives against what it should, what it lost, and where to look."""

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any, cast

import flet as ft

from pondapp import units
from pondapp.answers.log.log import until
from pondapp.answers.plumbing.path import Line
from pondapp.answers.pumps.health import (
    Health,
    Valves,
    can_be_slowed,
    has_valves,
    health,
    usual_valves,
)
from pondapp.answers.pumps.lost_since import baseline, missing_places
from pondapp.answers.tuning.evidence import Doubt, Evidence
from pondapp.answers.tuning.flow_sets import flow_set, with_clean
from pondapp.answers.tuning.line_flow import LineFlow, line_flow
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading
from pondapp.ui.keeping.calculators import to_pump_off
from pondapp.ui.measuring.readings import when
from pondapp.ui.parts import cautions, layout, severity
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import draft_name, use_draft
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import change_text, day, region, use_line
from pondapp.words import t


def _measured(now: LineFlow, system: str) -> ft.Control:
    """The flow of now, and the readings it comes from."""
    where = ", ".join(one.reading.place_name for one in now.seen)
    how = (
        t("The sum of {places}, {day}", places=where, day=day(now.at))
        if now.summed
        else t("Measured as a whole, {day}", day=when(now.seen[0].reading))
    )
    flow = units.show(now.flow, "flow", system)
    if now.flow == 0.0:
        return layout.fact(t("It gives"), t("no water"), layout.sentence(how))
    half = units.show(now.doubt, "flow", system, 2)
    told = t(
        "Give or take {half} ({share} interval). {how}.",
        half=half, share=units.show(now.coverage, "share", system), how=how,
    )  # fmt: skip
    return layout.fact(t("It gives"), flow, told)


def _numbers(found: Health, system: str) -> list[ft.Control]:
    """What it should give, what is left, and where each number comes from."""
    facts: list[ft.Control] = [_measured(found.now, system)]
    if found.expected is not None:
        facts.append(
            layout.fact(
                t("It should give, every valve open"),
                units.show(found.expected, "flow", system),
                t("From its curve, the lift and the hoses as entered."),
            )
        )
    if found.condition is not None:
        head = units.show(found.condition.head_taken, "head", system, 2)
        words = t(
            "Head that hoses and lift alone take at this flow, every valve open: {head}.", head=head
        )
        facts.append(layout.small(words))
    since = found.since
    if since is not None:
        on = day(since.kept.at)
        title = t("Since it was clean, {day}", day=on) if since.clean else (
            t("Since it was tuned, {day}", day=on)
        )  # fmt: skip
        facts.append(layout.fact(title, change_text(since.change, system)))
    facts += [
        layout.small(layout.sentence(units.tell(note, system))) for note in found.notes
    ]  # fmt: skip
    if found.condition is not None:
        facts.append(ShowWorking(t("this pump as new"), found.condition.steps, system))
    if since is not None and since.working:
        facts.append(ShowWorking(t("where flow was lost"), lambda: since.working, system))
    return facts


OUTDATED: Mapping[Doubt, str] = {
    "replaced": "Measured with the old pump: time it again.",
    "rebuilt": "Measured before the water path was changed: time it again.",
    "cleaned": "Measured before the cleaning: time it again.",
    "old": "Measured too long ago to say how the pump is today: time it again.",
    "too much": "More than this pump can give: check the container, the time, and which pump runs.",
}
"""Why the newest flow does not tell how the pump is today, but for what contradicts it."""


def _answer(found: Health, outdated: str, system: str) -> list[ft.Control]:
    """The verdict, what to do, and the numbers behind it; of old flows only what was then."""
    verdict = found.verdict
    lines = (*([verdict.why] if verdict.why else []), *found.tells)
    below: list[ft.Control] = [layout.body(units.tell(line, system)) for line in lines]
    first, shown = units.tell(verdict.sentence, system), found.severity
    if outdated:
        below.insert(0, layout.body(first))
        first, shown = outdated, "unknown"
    told = severity.card(shown, first, below)
    controls: list[ft.Control] = [region([told])]
    if verdict.state == "clean it":
        controls.append(cautions.mains())
    controls.append(layout.card(_numbers(found, system)))
    return controls


def _to_measure(pond: Pond, line: Line, log: list[Reading]) -> list[ft.Control]:
    """What to do while there is no flow."""
    names = ", ".join(place.name for place in missing_places(worked_now(pond), line, log))
    words = (
        t("Time a fill at each of {names}, within a day: their sum is the pump's flow.",
          names=names)
        if names
        else t("The branches were timed on different days: time them all again.")
    )  # fmt: skip
    return [
        layout.body(words),
        layout.main_button(t("Time the branches"), go(f"/pond/{pond.id}/tune")),
        to_pump_off(pond),
    ]


def _valve_choice(pond: Pond, line: Line) -> list[tuple[str, str]]:
    """How the valves may stand."""
    kept = baseline(pond, line)
    slow = can_be_slowed(pond, line)
    options = [("open", t("All wide open, pump at full speed") if slow else t("All wide open"))]
    if kept:
        options.append(("kept", t("As they were on {day}", day=day(kept[0].at))))
    return [*options, ("other", t("Half shut, or I do not know"))]


@ft.component
def HealthPage() -> Any:
    """The pump's health."""
    session = session_now()
    system = session.system
    pond = use_pond()
    line, which = use_line(pond)
    typed = use_draft(draft_name("health", pond.id if pond else ""), {})
    if pond is None or line is None:
        return layout.no_pond()
    log = until(session.logs.readings_of(pond.id), datetime.now(UTC))
    route, key = f"/pond/{pond.id}/health", f"valves.{line.id}"
    title = t("Pump health")
    options = _valve_choice(pond, line)
    known = {value for value, _ in options}
    preset = usual_valves(pond, line)
    chosen = typed.text(key, preset)
    valves = cast(Valves, chosen) if chosen in known else preset
    worked = worked_now(pond)
    try:
        now = line_flow(worked, line, log)
        if now is None:
            return layout.screen(route, title, [*which, *_to_measure(pond, line, log)])
        found = health(worked, line, log, valves)
        evidence = Evidence(worked, session.logs.items_of(pond.id), datetime.now(UTC))
        doubt, why = evidence.doubt_of(now.readings), evidence.why(now.readings)
    except PondError as problem:
        said = layout.caution(units.explain(problem, system))
        return layout.screen(route, title, [*which, said])

    async def mark_clean(_: Any) -> None:
        made = flow_set(line, now.seen, datetime.now(UTC))
        await save_change(with_clean(pond, made), t("Saved as the clean pump"))

    controls: list[ft.Control] = [*which]
    if has_valves(pond, line):
        controls.append(
            layout.choice(t("How the valves stand"), options, valves, typed.note(key))
        )  # fmt: skip
    outdated = units.tell(why, system) if why else t(OUTDATED[doubt]) if doubt else ""
    if doubt == "replaced":
        # Held against the curve of the pump of now it would say something that is not so.
        shown = severity.card("unknown", outdated, [_measured(now, system)])
        controls = [*which, region([shown])]
    elif found is not None:
        controls += _answer(found, outdated, system)
    controls.append(layout.main_button(t("Time the branches again"), go(f"/pond/{pond.id}/tune")))
    if not now.dry and not doubt:
        controls.append(layout.second_button(t("Save as the clean pump"), mark_clean))
    controls.append(to_pump_off(pond))
    return layout.screen(route, title, controls)
