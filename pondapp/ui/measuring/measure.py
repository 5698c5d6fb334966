"""Measure a flow at one place by any method, and hold it against what is wanted."""

from dataclasses import dataclass, replace
from datetime import UTC, datetime
from typing import Any

import flet as ft
from pydantic import ValidationError

from pondapp import units
from pondapp.answers.features.targets import FlowBand, Target
from pondapp.answers.measuring.flow import Measured, Message
from pondapp.answers.measuring.methods import Assumptions, measured_by, rules_for
from pondapp.answers.measuring.outlook import right_times
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
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text, flow_card
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.parts.written import written
from pondapp.ui.shell import pad_room, theme
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.waterfall.waterfall_link import OTHER, lip_key, put_to_check
from pondapp.words import t, tn


def _guide(kind: str) -> list[ft.Control]:
    """The drawing and its two steps."""
    look = LOOKS[kind]
    line = layout.small if pad_room.beside() else layout.body  # a phone on its side is low
    steps = [line(f"{number}. {t(step)}") for number, step in enumerate(look.steps, start=1)]
    controls: list[ft.Control] = [layout.pictured(look.drawing(), steps)]
    if look.caution:
        controls.append(layout.caution(t(look.caution)))
    return controls


def _aim(
    kind: str,
    entered: Entered,
    band: FlowBand | None,
    rules: Assumptions,
    steadiness: Steadiness | None,
    system: str,
) -> tuple[str, str]:
    """What to aim for, in a line: a time where one can be told; and what else has to be known."""
    if band is None:
        return "", ""
    if LOOKS[kind].chooses_container and entered.container:
        measuring = rules.measuring
        return fills.right_times_text(entered.container, band, measuring, steadiness, system)
    wanted = band_text(band, system)
    window = right_times(kind, entered, band, rules, steadiness)
    if window is None:
        return t("Wanted here: {band}.", band=wanted), ""
    time = units.show(window.aim, "duration", system)
    return t("Aim for {time}. Wanted here: {band}.", time=time, band=wanted), ""


def _what_and_aim(kind: str, entry: fills.FillEntry, aim: str, more: str) -> list[ft.Control]:
    """What is filled and what to aim for: a line or two, always at the top."""
    look = LOOKS[kind]
    if look.chooses_container:
        told = [fills.container_chip(entry, aim)]
        return [*told, layout.small(more)] if more else told
    name = layout.heading(look.name)
    return [name, layout.small(aim)] if aim else [name]


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


def _tolerances(form: MethodForm) -> list[ft.Control]:
    """How far each amount may be off, where there are such amounts."""
    if not form.tolerances:
        return []
    return [fold("tolerances", t("Give or take"), lambda: form.tolerances)]


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


@dataclass(frozen=True, slots=True)
class Measuring:
    """Where and how something is measured, and what of it is not saved yet."""

    pond: Pond | None
    place_id: str
    kind: str
    """The way of measuring."""
    first: fills.FillEntry
    """The draft that also says by which way is measured there."""
    entry: fills.FillEntry

    @property
    def pond_id(self) -> str:
        """Under which readings are stored."""
        return self.pond.id if self.pond else NO_POND


def use_measuring() -> Measuring:
    """What the address of a screen names."""
    params = ft.use_route_params()
    pond = session_now().ponds.get(params.get("pond_id", ""))
    # Without its pond a place is no place: presses that come there are kept without a pond too.
    place_id = params.get("place_id", OUTLET) if pond else OUTLET
    at = (pond.id if pond else NO_POND, place_id)
    first = fills.use_fills(fills.fills_draft_id(*at), FORM)
    kind = first.text("method", BUCKET)
    entry = fills.use_fills(fills.fills_draft_id(*at, kind), FORM)
    return Measuring(pond, place_id, kind, first, entry)


def _others(route: str) -> ft.Control:
    """The way to all that is seldom needed."""
    name = t("Other ways, typed time, note")
    mark = ft.Icon(ft.Icons.MORE_VERT, semantics_label=name)
    return ft.IconButton(mark, on_click=go(f"{route}/more"))


def _short_save(save: layout.Click) -> ft.Control:
    """Save in the title bar, where there is no room for it above the stopwatch."""
    return ft.FilledButton(
        written(t("Save"), size=theme.BODY, semantics_label=t("Save in the log")),
        height=theme.TOUCH, on_click=save, style=layout.button_style(),
    )  # fmt: skip


def _to_start(found: Measured | None, words: str) -> str:
    """When to start the stopwatch, or that nothing more has to be timed."""
    if not found or not found.enough or found.severity == "wrong":  # then turn the valve first
        return words
    return tn(
        "{count} fill is enough: save it, or time one more",
        "{count} fills: enough. Save them, or time one more",
        found.counted,
    )


@ft.component
def MeasurePage() -> Any:
    """Everything timed is kept at once, so that a closed browser loses nothing."""
    session = session_now()
    system = session.system
    params, route = ft.use_route_params(), ft.use_view_path()
    at = use_measuring()
    pond, place_id, kind, entry = at.pond, at.place_id, at.kind, at.entry
    # The plan behind the target takes longer than a keystroke may.
    target, trouble = ft.use_memo(lambda: _target(pond, place_id), [pond, place_id])
    container = entry.container
    title = target.name if target else t("Measure")
    after = f"/pond/{pond.id}" if pond else "/measure"
    if "branch_id" in params:  # on the way of tuning it
        after = f"{after}/tune/{params['branch_id']}"
    rules = rules_for(pond)
    form = method_form(kind, entry, pond, place_id, rules, system, container)
    band = target.band if target else None
    steady = steadiness_at(session.logs.readings_of(at.pond_id), place_id, rules.measuring)
    look, others = LOOKS[kind], [_others(route)]

    head: list[ft.Control] = []
    if pond is None and params.get("pond_id", NO_POND) != NO_POND:
        gone = t("This pond is not on this device.")
        head.append(layout.caution(f"{gone} {t('What you time is kept without a pond.')}"))
    if trouble:
        head.append(layout.caution(layout.sentence(units.tell(trouble, system))))
    if look.chooses_container and container is None:
        parts = [*head, *fills.no_container()]
        return layout.screen(route, title, parts, others, foot=pad.no_stopwatch(route))
    aim, more = _aim(kind, form.entered, band, rules, steady, system)
    head += _what_and_aim(kind, entry, aim, more)
    if entry.left:
        head.append(fills.come_back_card(entry))
    method, found, problem = None, None, ""
    if not entry.left:
        method, found, problem = _found(kind, form, pond, band, steady, system)
    foot = pad.no_stopwatch(route)
    wanted = f"{container.name}. {aim}" if aim and container and look.chooses_container else aim
    coming = replace(form.entered, fills=()) if entry.left else form.entered
    if METHODS[kind].timed:
        foot = pad.stopwatch(
            entry,
            pad.Pad(
                route, at.pond_id, place_id, kind, title, wanted,
                _to_start(found, t(look.to_start)), t(look.to_stop),
                coming, band, rules, steady,
                found=found,
                asked=METHODS[kind].asked(found),
            ),
        )  # fmt: skip
        head += [fills.fill_chips(entry, system), *fills.before_turn(entry, system)]
    head += fills.while_running(entry) if entry.running else fills.by_clock_card(entry, system)

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
            at.first.note("method")(BUCKET)
        say(t("Saved in the log"), undo)
        ft.context.page.navigate(after)

    def water_comes(_: Any) -> None:
        if kind == NOTHING:
            at.first.note("method")(BUCKET)
        else:
            entry.note("meter_flow")("")

    async def check(_: Any) -> None:
        if method is not None and found is not None:
            await put_to_check(lip_key(at.pond_id, place_id) if target else OTHER, method, found)
            ft.context.page.navigate("/waterfall")

    tail: list[ft.Control] = []
    if found and found.dry:
        tail += [_no_water(title, save, water_comes), flow_card(found, system)]
    elif found and not entry.running:
        if METHODS[kind].timed and pad_room.is_tight():
            others = [_short_save(save), *others]
        else:
            tail.append(layout.main_button(t("Save in the log"), save))
        tail += fills.valve_turned(entry, container if look.chooses_container else None)
        tail.append(flow_card(found, system))
        if target is None or target.kind == "lip":
            tail.append(layout.second_button(t("Check this waterfall"), check))
        tail += compared_card(found, kind, at.pond_id, place_id, band, rules, system)
        tail.append(_how_sure(found, system))
    elif problem:
        tail.append(layout.caution(problem))
    if not entry.fills and not entry.running:
        tail += _guide(kind)
    if target and pond:
        tail.append(layout.small(f"{pond.name}, {t(outlet_of(target.kind))}"))
    # Three blocks, so that a field stays the same one whatever comes or goes above it.
    blocks = (head, [*form.fields, *_tolerances(form)], tail)
    return layout.screen(
        route, title, [layout.column(block) for block in blocks if block], others, foot=foot
    )  # fmt: skip
