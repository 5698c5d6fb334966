"""What the readings tell: flows by all of them, what they let expect, and what to read next."""

from collections.abc import Sequence
from datetime import UTC, datetime
from functools import partial
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.learning.page import Told, told_of
from pondapp.answers.learning.predictions import FlowTold
from pondapp.answers.plumbing.path import pump_of
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text, rules_at, state_text
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.no_pump import no_pump
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import in_hand, use_line, use_turned
from pondapp.words import t, within


def _flows(
    told: Sequence[FlowTold], coverage: float, system: str, *, now: bool = False
) -> list[ft.Control]:
    """Flows with their intervals, and how much of that is from readings; of now, how they stand."""
    controls: list[ft.Control] = []
    for one in told:
        if one.told and one.flow == 0.0:
            controls.append(layout.fact(one.name, t("It may stay dry.")))
            continue
        if not one.close:
            words = (
                t("Not known closely enough: read it again.")
                if now
                else t("Not known closely enough.")
            )
            controls.append(layout.fact(one.name, words))
            continue
        flow = units.show(one.flow, "flow", system)
        span = units.show_range(one.low, one.high, "flow", system, 3)
        share = units.show(coverage, "share", system)
        brought = t("{share} from readings", share=units.show(one.share, "share", system, 2))
        told_so = t("{span} ({share} interval). {how}.", span=span, share=share, how=brought)
        if one.open:
            told_so = f"{told_so} {t('Its readings do not agree: read it once more.')}"
        if now:
            told_so = f"{told_so} {_standing(one, system)}".strip()
        controls.append(layout.fact(one.name, flow, told_so))
        if now:
            controls.append(ShowWorking(one.name, one.working, system))
    return controls


def _standing(one: FlowTold, system: str) -> str:
    """How a flow stands against what is wanted, as the picture has it, and if it may have moved."""
    if one.state is None or one.wanted is None:
        return ""
    said = [t("Not decided by now: read it again.")]
    if one.state.severity != "unknown":
        said = [layout.sentence(state_text(one.state, system))]
        said += [t("By now that may have changed: read it again.")] if one.moved else []
    wanted = t("Wanted {flow}", flow=within(band_text(one.wanted, system)))
    return " ".join([*said, layout.sentence(wanted)])


def _next(pond: Pond, told: Told, system: str) -> list[ft.Control]:
    """Where a reading would tell most."""
    if told.next is None:
        return [layout.body(t("One more reading would tell little more now."))]
    where = told.next
    before, after = (
        units.show(half, "flow", system, 2) for half in (where.before, where.after)
    )  # fmt: skip
    place = where.place.place_name
    words = (
        t("A reading at {place} tells most now: its flow is known to {before} either way, and "
          "then to {after}.", place=place, before=before, after=after)
        if where.close
        else t("A reading at {place} tells most now: its flow is hardly known, and then to "
               "{after} either way.", place=place, after=after)
    )  # fmt: skip
    if where.after <= 0.0:
        words = t("A reading at {place} tells most now: nobody knows its flow.", place=place)
    return [
        layout.body(words),
        layout.main_button(
            t("Time a fill at {place}", place=place),
            go(f"/pond/{pond.id}/measure/{where.place.place_id}"),
        ),
    ]  # fmt: skip


def _parts(told: Told, system: str) -> list[ft.Control]:
    controls: list[ft.Control] = [layout.heading(t("What was learned"))]
    for part in told.parts:
        if part.learned:
            share = t("{share} from readings", share=units.show(part.share, "share", system, 2))
            words = units.tell(part.sentence, system)
            controls.append(layout.fact(part.name, words, layout.sentence(share)))
            controls.append(ShowWorking(part.name, part.working, system))
    controls += [layout.body(units.tell(one, system)) for one in told.valves]
    silent = ", ".join(part.name for part in told.parts if not part.learned)
    if silent:
        words = t("These readings tell too little of: {names}.", names=silent)
        controls.append(layout.body(words))
    return controls


def _ahead(told: Told, system: str) -> list[ft.Control]:
    """Where each place is heading since the last cleaning, as its chart says it."""
    controls: list[ft.Control] = [layout.heading(t("Looking ahead"))]
    for place in told.ahead:
        lines = [layout.small(place.name)]
        lines += [layout.body(layout.sentence(units.tell(one, system))) for one in place.sentences]
        controls.append(ft.MergeSemantics(ft.Column(lines, spacing=2)))
    return controls


def _misfits(told: Told, system: str) -> list[ft.Control]:
    """What does not fit, with what it may be and what would decide."""
    if not told.misfits:
        return []
    lines = [layout.body(units.tell(one, system)) for one in told.misfits]
    lines.append(
        layout.body(
            t("If something was cleaned, turned or changed before, put that in the log with its "
              "day.")
        )
    )  # fmt: skip
    return [layout.card([layout.heading(t("What does not fit")), *lines])]


def _answer(told: Told, coverage: float, system: str) -> list[ft.Control]:
    """All sections that have something to say."""
    now = [layout.heading(t("Flow now, by all readings"))]
    now += _flows(told.read_of(told.now), coverage, system, now=True)
    unread = ", ".join(one.name for one in told.now if one.unread)
    if unread:
        now.append(layout.body(t("Not read yet: {names}.", names=unread)))
    if told.rests_on:
        now.append(layout.small(units.tell(told.rests_on, system)))
    controls: list[ft.Control] = [layout.card(now, strong=True)]
    controls += _misfits(told, system)
    clean = [layout.heading(t("Once the pump is cleaned"))]
    clean += _flows(told.read_of(told.clean), coverage, system)
    clean += [layout.body(units.tell(one, system)) for one in told.cleanings]
    controls.append(layout.card(clean))
    if told.turn:
        place = told.turn.place
        aim = units.show(place.band.target, "flow", system)
        title = t("With {place} set to {aim}", place=place.place_name, aim=aim)
        others = _flows(told.read_of(told.turn.others), coverage, system)
        controls.append(layout.card([layout.heading(title), *others]))
    if told.ahead:
        controls.append(layout.card(_ahead(told, system)))
    controls.append(layout.card(_parts(told, system)))
    for pump, flows in told.pumps:
        controls.append(
            fold(
                f"pump {pump.id}", t("With {pump} instead", pump=pump.name),
                partial(_flows, told.read_of(flows), coverage, system),
            )
        )  # fmt: skip
    return controls


@ft.component
def LearnedPage() -> Any:
    """What the readings of a pump's line tell."""
    session = session_now()
    system = session.system
    pond = use_pond()
    line, which = use_line(pond)
    _, turned_at = use_turned(pond.id if pond else "")
    log = session.logs.items_of(pond.id) if pond else []

    hand = in_hand(pond) if pond else None

    def found() -> Told | PondError | None:
        if pond is None or line is None:
            return None
        try:
            return told_of(worked_now(pond), line, log, turned_at, datetime.now(UTC), hand)
        except PondError as problem:
            return problem

    told = ft.use_memo(found, [pond, line, log, turned_at])
    if pond is None or told is None:
        return layout.no_pond()
    route, title = f"/pond/{pond.id}/learned", t("What the readings tell")
    if not session.logs.is_read(pond.id):
        return layout.screen(route, title, [*which, layout.body(t("Reading the log."))])
    if line is not None and pump_of(pond, line) is None:
        return layout.screen(route, title, [*which, no_pump(pond.id)])
    if isinstance(told, PondError):
        said = layout.caution(units.explain(told, system))
        return layout.screen(route, title, [*which, said])
    controls = [*which, *_next(pond, told, system)]
    if told.read:
        controls += _answer(told, rules_at(pond.id).coverage, system)
    else:
        words = (
            t("No reading can be used yet.")
            if told.misfits
            else t("No flow behind this pump is in the log yet.")
        )
        controls[len(which) : len(which)] = [layout.body(words), *_misfits(told, system)]
    controls.append(layout.quiet_button(t("How this works"), go("/help/learned")))
    return layout.screen(route, title, controls)
