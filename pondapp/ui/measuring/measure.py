"""Measure a flow at one place by any method, and hold it against what is wanted."""

from datetime import UTC, datetime
from typing import Any

import flet as ft
from pydantic import ValidationError

from pondapp import units
from pondapp.answers.features.targets import FlowBand, Target
from pondapp.answers.measuring.flow import Measured, Message
from pondapp.answers.measuring.methods import Assumptions, measured_by, rules_for
from pondapp.answers.measuring.outlook import outlook, right_times
from pondapp.answers.measuring.steadiness import steadiness_at
from pondapp.answers.methods.kinds import BUCKET, METHODS, NOTHING
from pondapp.answers.methods.method import Entered
from pondapp.answers.plumbing.path import names_of
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.models.reading import Band, Method, Reading, Steadiness
from pondapp.state.ids import NO_POND, OUTLET, new_id
from pondapp.ui.features.looks import outlet_of
from pondapp.ui.measuring import fills, pad
from pondapp.ui.measuring.compared import compared_card
from pondapp.ui.measuring.method_fields import FORM, MethodForm, method_form
from pondapp.ui.measuring.stopwatch import bounced
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.answers import band_text, flow_card
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.waterfall.waterfall_link import OTHER, lip_key, put_to_check
from pondapp.words import t


def _guide(kind: str) -> list[ft.Control]:
    """The drawing and its two steps."""
    look = LOOKS[kind]
    steps = [layout.body(f"{number}. {t(step)}") for number, step in enumerate(look.steps, start=1)]
    controls: list[ft.Control] = [layout.pictured(look.drawing(), steps)]
    if look.caution:
        controls.append(layout.caution(t(look.caution)))
    return controls


def _right(
    kind: str, entered: Entered, band: FlowBand | None, rules: Assumptions
) -> tuple[float | None, float, float] | None:
    """The times that are right, for the stopwatch."""
    window = right_times(kind, entered, band, rules)
    return (window.shortest, window.aim, window.longest) if window else None


def _aim_text(
    kind: str, entered: Entered, target: Target | None, rules: Assumptions, system: str
) -> str:
    """What to aim for: a time where one can be told, else the flow itself."""
    if target is None:
        return ""
    if LOOKS[kind].chooses_container and entered.container:
        return fills.aim_text(entered.container, target.band, rules.measuring, system)
    band = band_text(target.band, system)
    window = right_times(kind, entered, target.band, rules)
    if window is None:
        return t("Wanted here: {band}.", band=band)
    time = units.show(window.aim, "duration", system)
    return t("Aim for {time}. Wanted here: {band}.", time=time, band=band)


def _other_ways(kind: str, entry: fills.FillEntry) -> Any:
    """All methods, each with what it is good for."""

    def ways() -> list[ft.Control]:
        names = [(key, look.name) for key, look in LOOKS.items()]
        return [
            layout.choice(t("Measure by"), names, kind, entry.note("method")),
            layout.small(t(LOOKS[kind].when)),
        ]

    title = t("Other ways to measure") if kind == BUCKET else t("Measure another way")
    return fold(f"ways-{kind}", title, ways)


def _how_sure(found: Measured, system: str) -> Any:
    """What limits the accuracy, what would halve the doubt, and the working."""

    def lines() -> list[ft.Control]:
        about = (found.accuracy.limits, found.accuracy.halve) if found.accuracy else ()
        told = [
            layout.body(layout.sentence(units.tell(line, system)))
            for line in (*about, *found.limits)
        ]
        return [*told, ShowWorking(t("this flow"), found.steps, system)]

    return fold("sure", t("How sure is this, and what would be better"), lines)


def _more(entry: fills.FillEntry, kind: str, form: MethodForm, system: str) -> Any:
    """What is seldom needed."""

    def parts() -> list[ft.Control]:
        timed = fills.typed_time(entry, system) if METHODS[kind].timed else []
        container = fills.container_choice(entry) if LOOKS[kind].chooses_container else []
        note = fields.text_field(
            t("Note"), entry.text("note"), entry.note("note"), multiline=True
        )  # fmt: skip
        return [*timed, *container, *form.tolerances, note]

    return fold(f"more-{kind}", t(LOOKS[kind].more), parts)


def _no_water(place: str, yes: Any, no: Any) -> ft.Control:
    """A flow of nothing is asked about before it is stored."""
    return layout.card(
        [
            layout.heading(t("Is there no water at all?")),
            layout.body(t("Yes puts a flow of 0 at {place} in the log.", place=place)),
            layout.second_button(t("Yes, no water: save it"), yes),
            layout.second_button(t("No, some water comes"), no),
        ]
    )


def _place_name(pond: Pond | None, place_id: str, target: Target | None) -> str:
    """A branch that feeds nothing wants nothing, but it has a name."""
    if target:
        return target.name
    return (names_of(pond).branches.get(place_id) if pond else None) or t("Outlet")


def _reading(
    pond: Pond | None,
    place_id: str,
    target: Target | None,
    method: Method,
    note: str,
    steadiness: Steadiness | None,
) -> Reading:
    band = target.band if target else None
    return Reading(
        id=new_id(),
        pond_id=pond.id if pond else NO_POND,
        place_id=place_id,
        place_name=_place_name(pond, place_id, target),
        taken_at=datetime.now(UTC),
        method=method,
        band=Band(low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high)
        if band
        else None,
        note=note[:4000],
        steadiness=steadiness,
    )


def _target(pond: Pond | None, place_id: str) -> tuple[Target | None, Message | None]:
    """What is wanted at a place, or what keeps it from being known."""
    try:
        return (worked_now(pond).wanted.place(place_id) if pond else None), None
    except PondError as problem:
        return None, problem.message


def _found(
    kind: str,
    form: MethodForm,
    pond: Pond | None,
    band: FlowBand | None,
    steady: Steadiness | None,
    system: str,
) -> tuple[Method | None, Measured | None, str]:
    """The measurement and what it says, or what is wrong with it."""
    if form.wrong:
        return None, None, ""
    try:
        rules = rules_for(pond)
        method = METHODS[kind].entered(form.entered, rules)
        found = measured_by(method, band, rules.measuring, steady) if method else None
        return method, found, ""
    except PondError as problem:
        return None, None, units.explain(problem, system)
    except ValidationError:  # sides that are each possible and together are not
        return None, None, layout.sentence(t("These amounts do not fit together"))


@ft.component
def MeasurePage() -> Any:
    """Everything timed is kept at once, so that a closed browser loses nothing."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond = session.ponds.get(params.get("pond_id", ""))
    place_id = params.get("place_id", OUTLET)
    # The plan behind the target takes longer than a keystroke may.
    target, trouble = ft.use_memo(lambda: _target(pond, place_id), [pond, place_id])
    pond_id = pond.id if pond else NO_POND
    first = fills.use_fills(fills.fills_draft_id(pond_id, place_id), FORM)
    kind = first.text("method", BUCKET)
    entry = fills.use_fills(fills.fills_draft_id(pond_id, place_id, kind), FORM)
    container = entry.container
    title = target.name if target else t("Measure")
    route = f"/measure/{pond_id}/{place_id}"
    after = f"/pond/{pond.id}" if pond else "/measure"
    if "branch_id" in params:  # on the way of tuning it
        after = f"{after}/tune/{params['branch_id']}"
    form = method_form(kind, entry, pond, place_id, rules_for(pond), system, container)
    band = target.band if target else None
    steady = steadiness_at(session.logs.readings_of(pond_id), place_id, rules_for(pond).measuring)

    controls: list[ft.Control] = []
    if trouble:
        controls.append(layout.caution(layout.sentence(units.tell(trouble, system))))
    if target and pond:
        controls.append(layout.small(f"{pond.name}, {t(outlet_of(target.kind))}"))
    look = LOOKS[kind]
    if kind != BUCKET:
        controls.append(layout.heading(look.name))
    nothing = layout.quiet_button(
        t("Nothing comes out here"), lambda _: first.note("method")(NOTHING)
    )
    if look.chooses_container and container is None:
        controls += [*fills.no_container(), nothing, _other_ways(kind, first)]
        return layout.screen(route, title, controls)
    if target and not entry.running:
        controls.append(layout.body(_aim_text(kind, form.entered, target, rules_for(pond), system)))
    elif container and look.chooses_container:
        controls.append(layout.body(t("You fill: {container}.", container=container.name)))
    foot = pad.no_stopwatch(route)
    method, found, problem = _found(kind, form, pond, band, steady, system)
    if METHODS[kind].timed:
        foot = pad.stopwatch(
            entry,
            pad.Pad(
                route, pond_id, place_id, kind, title,
                _aim_text(kind, form.entered, target, rules_for(pond), system),
                t(look.to_start), t(look.to_stop),
                right=_right(kind, form.entered, band, rules_for(pond)),
                volume=METHODS[kind].amount_timed(form.entered),
                found=found,
                outlook=lambda: outlook(kind, form.entered, band, rules_for(pond), steady),
            ),
        )  # fmt: skip
    if entry.left:
        controls += [fills.come_back_card(entry), *fills.fill_rows(entry, system)]
        return layout.screen(route, title, controls, foot=foot)
    if not entry.fills and not entry.running:
        controls += _guide(kind)
    controls += fills.fill_rows(entry, system)
    controls += fills.before_turn(entry, system)
    if entry.running:
        controls += fills.while_running(entry)
        return layout.screen(route, title, controls, foot=foot)

    controls += fills.by_clock_card(entry, system)
    controls += form.fields
    if found:
        controls.append(flow_card(found, system, working=False))
    elif problem:
        controls.append(layout.caution(problem))

    async def save(_: Any) -> None:
        if method is None or found is None or await bounced():
            return
        reading = entry.with_turns(
            _reading(pond, place_id, target, method, entry.text("note"), steady)
        )
        before = entry.newest

        async def undo() -> None:
            await session.drafts.save(before)
            await session.logs.delete(reading)

        await session.logs.save_reading(reading)
        await entry.saved()
        if kind == NOTHING:  # the next time there may be water
            first.note("method")(BUCKET)
        say(t("Saved in the log"), undo)
        ft.context.page.navigate(after)

    def water_comes(_: Any) -> None:
        if kind == NOTHING:
            first.note("method")(BUCKET)
        else:
            entry.note("meter_flow")("")

    async def check(_: Any) -> None:
        if method is not None and found is not None:
            await put_to_check(lip_key(pond_id, place_id) if target else OTHER, method, found)
            ft.context.page.navigate("/waterfall")

    if found and found.dry:
        controls.append(_no_water(title, save, water_comes))
    elif found:
        controls.append(layout.main_button(t("Save in the log"), save))
        controls += fills.valve_turned(entry, container if look.chooses_container else None)
    if found and not found.dry:
        if target is None or target.kind == "lip":
            controls.append(layout.second_button(t("Check this waterfall"), check))
        beside = compared_card(found, kind, pond_id, place_id, band, rules_for(pond), system)
        controls += beside
        controls.append(_how_sure(found, system))
    if METHODS[kind].timed and not entry.fills:
        controls.append(nothing)
    controls += [_more(entry, kind, form, system), _other_ways(kind, first)]
    if pond is None and session.logs.readings_of(NO_POND):
        controls.append(layout.quiet_button(t("Measured without a pond"), go("/log")))
    controls.append(layout.quiet_button(t("How this works"), go("/help/measure")))
    return layout.screen(route, title, controls, foot=foot)
