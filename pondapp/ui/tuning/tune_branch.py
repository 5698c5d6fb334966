"""One branch: time its fills against the aim, see how far off it is and which way to turn."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.flow import Measured, fill_time
from pondapp.answers.measuring.methods import measured_by, rules_for
from pondapp.answers.measuring.steadiness import steadiness_at
from pondapp.answers.methods.kinds import BUCKET, NOTHING
from pondapp.answers.methods.method import Entered
from pondapp.answers.plumbing.path import Line, lines_of
from pondapp.answers.tuning.evidence import Evidence
from pondapp.answers.tuning.flow_sets import (
    BranchPlace,
    InHand,
    LatestReading,
    ToFill,
    branch_places,
)
from pondapp.answers.tuning.tune import (
    SEVERITY,
    Deviation,
    deviation,
    standing,
    state_of,
    valve_effect,
)
from pondapp.answers.tuning.turns import (
    TimedSetting,
    TurnAdvice,
    advice_of_turns,
    settings_before,
)
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Bucket, Container, Method, Reading, Steadiness
from pondapp.state.ids import new_id
from pondapp.ui.measuring import fills, pad
from pondapp.ui.measuring.readings import when_and_how
from pondapp.ui.measuring.stopwatch import bounced
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.answers import band_text, flow_text, interval_text
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.strip import Strip
from pondapp.ui.tuning.tuning import use_turned
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


def _to_do(off: Deviation, advice: TurnAdvice | None, system: str) -> ft.Control:
    """What to do now, in a line; told when it changes."""
    words = off.turn if off.state == "off" else off.sentence
    if advice is not None and advice.turn is not None:
        words = advice.turn
    elif advice is not None and not advice.way_too:
        words = advice.told
    told = severity.line(SEVERITY[off.state], units.tell(words, system))
    return ft.Semantics(live_region=True, content=told)


def _why(
    found: Measured,
    place: BranchPlace,
    method: Method,
    off: Deviation,
    advice: TurnAdvice | None,
    system: str,
) -> ft.Control:
    """How far off it is, what the last turn did, and how sure both are."""
    lines: list[ft.Control] = []
    if off.state == "off":
        lines.append(layout.body(units.tell(off.sentence, system)))
    else:
        lines.append(layout.body(units.tell(off.turn, system)))
    if advice is not None and advice.way_too:
        told = (advice.told, advice.opening, advice.likely)
        lines += [layout.body(units.tell(one, system)) for one in told if one is not None]
        if advice.turn is not None:
            lines.append(layout.small(units.tell(off.turn, system)))
    lines += fill_times(found, place, method, system)
    if not found.dry:
        interval = interval_text(found, system)
        lines.append(layout.small(f"{flow_text(found, system)}: {interval}"))
    return layout.card(lines)


def effects(
    pond: Pond,
    line: Line,
    place: BranchPlace,
    found: Measured,
    container: Container | None,
    steady: Steadiness | None,
    system: str,
    *,
    by_table: bool,
) -> list[ft.Control]:
    """What turning this valve does to the others, by the circuit as entered.

    By a table it also says how far open the valve is then, where its turns say nothing of that.
    """
    session = session_now()
    try:
        moved = valve_effect(
            worked_now(pond), line, session.logs.readings_of(pond.id), place.branch.id,
            found.flow.flow, datetime.now(UTC), lambda _: ToFill(container, steady),
        )  # fmt: skip
    except PondError as problem:
        said = units.explain(problem, system)
        return [layout.card([layout.heading(t("By the pipes as entered")), layout.body(said)])]
    lines: list[ft.Control] = []
    if by_table and moved.opening.template:
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


def _aim(
    container: Container | None, place: BranchPlace, steady: Steadiness | None, system: str
) -> ft.Control:
    """The fill time to aim for, or the flow where there is nothing to fill."""
    if place.conflict is not None:
        return layout.caution(layout.sentence(units.tell(place.conflict, system)))
    if container is not None:
        return layout.body(fills.aim_text(container, place.band, place.rules, steady, system))
    return layout.body(
        t(
            "Aim: {aim}. Fine: {band}.",
            aim=units.show(place.band.target, "flow", system),
            band=band_text(place.band, system),
        )
    )


def _turned_button(on_click: layout.Click, *, wanted: bool, disabled: bool) -> ft.Control:
    """The one way to say that the valve was turned; loud while turning it is what is to be done."""
    button = layout.main_button if wanted else layout.second_button
    return ft.Container(
        button(t("Valve turned"), on_click, disabled=disabled), height=theme.tall(theme.TOUCH_MAIN)
    )


OPENINGS = 10  # places of the handle that people tell apart


def _handle(entry: fills.FillEntry) -> Any:
    """Where the handle stands, for those who like to note it: the advice gets nearer by it."""
    opened = entry.draft.opened
    names = [(str(n), f"{100 * n // OPENINGS} %") for n in range(1, OPENINGS)]
    names.append((str(OPENINGS), t("open")))
    chosen = "" if opened is None else str(round(OPENINGS * opened))
    stands = dict(names).get(chosen, t("not noted"))

    def parts() -> list[ft.Control]:
        clear = layout.quiet_button(t("Don't note it"), lambda _: entry.keep(opened=None))
        return [
            layout.small(
                t("If you note it at two settings or more, the advice how far to turn gets nearer.")
            ),
            layout.choice(
                t("How far open the valve is"), names, chosen,
                lambda value: entry.keep(opened=int(value) / OPENINGS), in_rows=True,
            ),
            *([clear] if chosen else ()),
        ]  # fmt: skip

    return fold("handle", t("Handle now: {share}", share=stands), parts)


@ft.component
def TuneBranchPage() -> Any:
    """Fills, verdict, valve; again until it is right."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond, branch_id = session.ponds.get(params.get("pond_id", "")), params.get("branch_id", "")
    pond_id = pond.id if pond else ""
    _, turned_at = use_turned(pond_id)
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
    steady = steadiness_at(session.logs.readings_of(pond_id), place_id, at[1].rules)
    line, place = _find(pond, branch_id, lambda _: ToFill(container, steady)) or at
    now = datetime.now(UTC)
    found: Measured | None = None
    method: Method | None = None
    seen: LatestReading | None = None
    if container is not None and entry.fills:
        method = Bucket(container=container, fills=entry.fills)
        found = measured_by(method, place.band, place.rules, steady)
    elif not entry.running:
        try:
            log = session.logs.items_of(pond.id)
            evidence = Evidence(worked_now(pond), log, now, turned_at)
            seen = standing(pond, state_of(evidence, place, turned_at), now)
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

    async def anew(_: Any) -> None:
        if not await bounced():
            entry.turned(container)
            await pad.note_turn(pond.id, branch_id)

    def nothing_comes(_: Any) -> None:
        entry.note("method")(NOTHING)
        ft.context.page.navigate(another_way)

    off = deviation(found, place) if found else None
    wrong = off is not None and off.state == "off"
    # After the advice to turn the valve, what is timed next is another flow.
    turn_first = wrong and bool(entry.fills)
    foot = pad.no_stopwatch(route)
    if container is not None:
        foot = pad.stopwatch(
            entry,
            pad.Pad(
                route, pond_id, place_id, BUCKET, place.name, "",
                t("First fill after the turn of the valve") if turn_first else t(look.to_start),
                t(look.to_stop),
                Entered({}, fills=entry.fills, container=container),
                place.band if place.conflict is None else None, rules_for(pond), steady,
                found=found if entry.fills else None,
                anew=turn_first,
                branch_id=branch_id,
            ),
        )  # fmt: skip
    if entry.left:
        left = [fills.come_back_card(entry), *fills.fill_rows(entry, system)]
        return layout.screen(
            route, place.name, [_aim(container, place, steady, system), *left], foot=foot
        )
    others = [at for branch, at in turned_at.items() if branch != branch_id]
    before = settings_before(entry.draft.before_turn, place, steady, others, now)
    advice: TurnAdvice | None = None
    if found and container is not None and turn_first:
        stands = TimedSetting(found, container, entry.draft.opened)
        advice = advice_of_turns(place, before, stands)
    shown = [*(one.found for one in before), *([found] if found and not found.dry else ())]
    # Nothing stands above the button in any state, so that it never moves.
    controls: list[ft.Control] = [
        _turned_button(anew, wanted=wrong, disabled=entry.running or not (entry.fills or found))
    ]
    aim = _aim(container, place, steady, system)
    # Where demands exclude each other there is no aim to draw.
    strip = (
        [Strip(shown, place.band, pending=found is None, system=system)]
        if place.conflict is None
        else []
    )
    timed = [*fills.fill_rows(entry, system), *fills.before_turn(entry, system)]
    if entry.running:
        controls += [*fills.while_running(entry), *strip, aim, *timed]
        return layout.screen(route, place.name, controls, foot=foot)
    controls += fills.by_clock_card(entry, system)
    if found and method and off:
        controls.append(_to_do(off, advice, system))
        # What stands in the log already is kept as it is by leaving this screen.
        if not seen and off.state == "in":
            controls.append(layout.main_button(t("Save this setting"), keep))
        if seen:
            controls.append(layout.small(when_and_how(seen.reading, system)))
        controls += [*strip, _why(found, place, method, off, advice, system)]
        if not seen and off.state != "in":
            controls.append(layout.second_button(t("Keep it as it is"), keep))
        controls += [*([] if place.conflict else [aim]), *timed]
    else:
        controls += [aim, *strip, *timed]
    if container is not None and place.valve != "none":
        controls.append(_handle(entry))
    if found and wrong:
        learned = advice is not None and advice.turn is not None
        controls += effects(
            pond, line, place, found, container, steady, system, by_table=not learned
        )
    if container is not None:
        controls.append(
            fold(
                "more",
                t("Container, typed time"),
                lambda: [*fills.typed_time(entry, system), *fills.container_choice(entry)],
            )
        )
    if not entry.fills:
        if not (found and found.dry):
            controls.append(layout.quiet_button(t("Nothing comes out here"), nothing_comes))
        controls.append(layout.quiet_button(t("Measure another way"), go(another_way)))
    return layout.screen(route, place.name, controls, foot=foot)
