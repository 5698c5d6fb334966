"""One branch: time its fills against the aim, see how far off it is and which way to turn."""

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.aims import fill_aim
from pondapp.answers.measuring.flow import Measured, fill_time
from pondapp.answers.measuring.methods import measured_by, rules_for
from pondapp.answers.measuring.outlook import Outlook, outlook
from pondapp.answers.measuring.steadiness import steadiness_at
from pondapp.answers.methods.kinds import BUCKET, NOTHING
from pondapp.answers.methods.method import Entered
from pondapp.answers.plumbing.path import Line, lines_of
from pondapp.answers.tuning.flow_sets import BranchPlace, InHand, LatestReading, branch_places
from pondapp.answers.tuning.tune import deviation, standing, state_of, valve_effect
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Method, Reading
from pondapp.state.ids import new_id
from pondapp.ui.measuring import fills, pad
from pondapp.ui.measuring.readings import when_and_how
from pondapp.ui.measuring.stopwatch import bounced
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import DRY, band_text, flow_text, interval_text
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import TURNED, region, use_turned
from pondapp.words import t


def _find(
    pond: Pond | None, branch_id: str, in_hand: InHand | None = None
) -> tuple[Line, BranchPlace] | None:
    for line in lines_of(pond) if pond else ():
        if pond and any(branch.id == branch_id for branch in line.branches):
            for place in branch_places(worked_now(pond), line, in_hand):
                if place.branch.id == branch_id:
                    return line, place
    return None


def fill_times(
    found: Measured, place: BranchPlace, method: Method, system: str
) -> list[ft.Control]:
    """How long a fill takes and is to take, where a container was filled."""
    if not isinstance(method, Bucket) or place.conflict is not None:
        return []
    told = t(
        "A fill takes {mean}; the aim is {aim}.",
        mean=units.show(fill_time(method.container, found), "duration", system),
        aim=units.show(method.container.volume_m3 / place.band.target, "duration", system),
    )
    return [layout.body(told)]


MARKS = {
    "in": ft.Icons.CHECK_CIRCLE,
    "off": ft.Icons.BUILD_CIRCLE,
    "open": ft.Icons.HELP_OUTLINE,
    "conflict": ft.Icons.CALL_SPLIT,
}


def verdict(found: Measured, place: BranchPlace, method: Method, system: str) -> list[ft.Control]:
    """Flow and fill time against the aim, and which way to turn."""
    off = deviation(found, place)
    interval = (
        []
        if found.dry
        else [layout.small(f"{flow_text(found, system)}: {interval_text(found, system)}")]
    )
    return [
        layout.marked(DRY if found.dry else MARKS[off.state], units.tell(off.sentence, system)),
        *fill_times(found, place, method, system),
        layout.body(units.tell(off.turn, system)),
        *interval,
    ]


def effects(
    pond: Pond,
    line: Line,
    place: BranchPlace,
    found: Measured,
    container: Container | None,
    system: str,
) -> list[ft.Control]:
    """What turning this valve does to the others, by the circuit as entered."""
    session = session_now()
    try:
        moved = valve_effect(
            worked_now(pond), line, session.logs.readings_of(pond.id), place.branch.id,
            found.flow.flow, datetime.now(UTC), lambda _: container,
        )  # fmt: skip
    except PondError as problem:
        said = units.explain(problem, system)
        return [layout.card([layout.heading(t("By the pipes as entered")), layout.body(said)])]
    lines: list[ft.Control] = []
    if moved.opening.template:
        lines.append(layout.body(units.tell(moved.opening, system)))
    for other in moved.others:
        lines.append(
            layout.body(
                t(
                    "{name}: {before} now, about {then} then.",
                    name=other.name,
                    before=units.show(other.before, "flow", system, 2),
                    then=units.show_range(other.low, other.high, "flow", system),
                )
            )
        )
    if moved.ranges:
        lines.append(
            layout.small(
                t("A range, since flows alone do not tell a weak pump from half shut valves.")
            )
        )
    if moved.assumed_open:
        lines.append(
            layout.small(
                t("Taken as wide open, since not timed today: {names}.",
                  names=", ".join(moved.assumed_open))
            )
        )  # fmt: skip
    lines += [layout.small(units.tell(note, system)) for note in moved.notes]
    if not lines:
        return []
    lines.append(ShowWorking(t("the branches after the turn"), lambda: moved.working, system))
    return [layout.card([layout.heading(t("When this valve is at its aim")), *lines])]


def _right(container: Container, place: BranchPlace) -> tuple[float | None, float, float] | None:
    """The fill times that are right."""
    if place.conflict is not None:
        return None
    window = fill_aim(container, place.band, place.rules)
    return window.shortest, window.aim, window.longest


def _outlook(pond: Pond, place: BranchPlace, entry: fills.FillEntry) -> Sequence[Outlook]:
    """What the next fill can say."""
    if place.conflict is not None:
        return ()
    entered = Entered({}, fills=entry.fills, container=entry.container)
    steady = steadiness_at(session_now().logs.readings_of(pond.id), place.place_id, place.rules)
    return outlook(BUCKET, entered, place.band, rules_for(pond), steady)


def _aim(container: Container | None, place: BranchPlace, system: str) -> ft.Control:
    """The fill time to aim for, or the flow where there is nothing to fill."""
    if place.conflict is not None:
        return layout.caution(layout.sentence(units.tell(place.conflict, system)))
    if container is not None:
        return layout.body(fills.aim_text(container, place.band, place.rules, system))
    return layout.body(
        t(
            "Aim: {aim}. Fine: {band}.",
            aim=units.show(place.band.target, "flow", system),
            band=band_text(place.band, system),
        )
    )


@ft.component
def TuneBranchPage() -> Any:
    """Fills, verdict, valve; again until it is right."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond, branch_id = session.ponds.get(params.get("pond_id", "")), params.get("branch_id", "")
    pond_id = pond.id if pond else ""
    turned, turned_at = use_turned(pond_id)
    try:
        at = _find(pond, branch_id)
    except PondError:
        at = None
    place_id = at[1].place_id if at else ""
    entry = fills.use_fills(fills.fills_draft_id(pond_id, place_id))
    route = f"/pond/{pond_id}/tune/{branch_id}"
    another_way = f"{route}/measure/{place_id}"
    look = LOOKS[BUCKET]
    if pond is None or at is None:
        gone = [layout.body(t("This branch carries no water by the plan."))]
        return layout.screen(route, t("Not there"), gone)
    container = entry.container
    line, place = _find(pond, branch_id, lambda _: container) or at
    steady = steadiness_at(session.logs.readings_of(pond_id), place_id, place.rules)
    now = datetime.now(UTC)
    found: Measured | None = None
    method: Method | None = None
    seen: LatestReading | None = None
    if container is not None and entry.fills:
        method = Bucket(container=container, fills=entry.fills)
        found = measured_by(method, place.band, place.rules, steady)
    elif not entry.running:
        try:
            log = session.logs.readings_of(pond.id)
            seen = standing(pond, state_of(pond, place, log, turned_at, now), now)
        except PondError:
            seen = None  # the list of branches says what is wrong
    if seen is not None:
        found, method = seen.found, seen.reading.method

    async def keep(_: Any) -> None:
        if method is None or await bounced():
            return
        band, before = place.band, entry.newest
        reading = Reading(
            id=new_id(),
            pond_id=pond.id,
            place_id=place.place_id,
            place_name=place.place_name,
            taken_at=datetime.now(UTC),
            method=method,
            band=Band(low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high),
            steadiness=steady,
        )

        async def undo() -> None:
            await session.drafts.save(before)
            await session.logs.delete(reading)

        await session.logs.save_reading(entry.with_turns(reading))
        await entry.saved()
        say(t("Saved in the log"), undo)
        ft.context.page.navigate(f"/pond/{pond.id}/tune")

    def note_turn() -> None:
        stamp = datetime.now(UTC).isoformat()
        turned.put({**turned.texts, f"{TURNED}{branch_id}": stamp})
        entry.turned(container)

    async def anew(_: Any) -> None:
        if not await bounced():
            note_turn()

    def nothing_comes(_: Any) -> None:
        entry.note("method")(NOTHING)
        ft.context.page.navigate(another_way)

    controls: list[ft.Control] = [_aim(container, place, system)]
    foot = pad.no_stopwatch(route)
    if container is not None:
        # After the advice to turn the valve, what is timed next is another flow.
        turn_first = bool(found and entry.fills and deviation(found, place).state == "off")
        foot = pad.stopwatch(
            entry,
            pad.Pad(
                route, pond_id, place_id, BUCKET, place.name, "",
                t("First fill after the turn of the valve") if turn_first else t(look.to_start),
                t(look.to_stop),
                right=_right(container, place),
                volume=container.volume_m3,
                found=found if entry.fills else None,
                outlook=lambda: _outlook(pond, place, entry),
                anew=turn_first,
                branch_id=branch_id,
            ),
        )  # fmt: skip
    if entry.left:
        controls += [fills.come_back_card(entry), *fills.fill_rows(entry, system)]
        return layout.screen(route, place.name, controls, foot=foot)
    if container is not None:
        controls += fills.fill_rows(entry, system)
        controls += fills.before_turn(entry, system)
    if entry.running:
        controls += fills.while_running(entry)
    controls += fills.by_clock_card(entry, system)
    if found and method:
        off = deviation(found, place)
        told = region(verdict(found, place, method, system))
        when = [layout.small(when_and_how(seen.reading, system))] if seen else []
        controls.append(layout.card([*when, told], strong=True))
        turned_it = t("I turned the valve: time it again")
        # What stands in the log already is kept as it is by leaving this screen.
        if off.state == "in":
            keeps = [] if seen else [layout.main_button(t("Save this setting"), keep)]
            controls += [*keeps, layout.second_button(turned_it, anew)]
        else:
            keeps = [] if seen else [layout.second_button(t("Keep it as it is"), keep)]
            turn = layout.main_button if off.state == "off" else layout.second_button
            controls += [turn(turned_it, anew), *keeps]
        if off.state == "off":
            controls += effects(pond, line, place, found, container, system)
    if container is not None:
        controls.append(
            fold(
                "more",
                t("Container, typed time"),
                lambda: [*fills.typed_time(entry, system), *fills.container_choice(entry)],
            )
        )
    if not entry.running and not entry.fills:
        if not (found and found.dry):
            controls.append(layout.quiet_button(t("Nothing comes out here"), nothing_comes))
        controls.append(layout.quiet_button(t("Measure another way"), go(another_way)))
    return layout.screen(route, place.name, controls, foot=foot)
