"""What if: changes are tried on the pond's picture, beside the pond as it is saved."""

from collections.abc import Callable, Mapping
from datetime import UTC, datetime
from typing import Any, cast

import flet as ft
import flet.canvas as cv

from pondapp import units
from pondapp.answers.features.kinds import PUMP
from pondapp.answers.log.water_tests import standing
from pondapp.answers.picture.picture import Part, Picture, picture
from pondapp.answers.pond import WorkedPond
from pondapp.answers.what_if.apply import Refused, applied
from pondapp.answers.what_if.changes import Changes, Value, What, changes_of, texts_of
from pondapp.answers.what_if.start import as_entered, as_read
from pondapp.answers.what_if.told import ToxicAmmonia, differences, rests_on, toxic_ammonia
from pondapp.answers.what_if.trial import Trial
from pondapp.answers.what_if.tried_state import TriedState
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.measuring.stopwatch import bounced
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import with_doubt
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.parts.fold import fold
from pondapp.ui.parts.kept import kept
from pondapp.ui.parts.no_pump import to_pumps
from pondapp.ui.plumbing.what_is_new import as_it_was
from pondapp.ui.pond.picture import in_words, room, shapes
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go, say
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.tuning.tuning import use_turned
from pondapp.ui.what_if import moves, results
from pondapp.words import t

PART, BEGIN = "part", "begin"
"""Among the texts: the part that is in hand, and how the valves stand to begin with."""
MEASURED, PLAN = "measured", "plan"
DRAWN_DIGITS = 2
_kept: list[tuple[Any, ...]] = []


def trials_of(pond: Pond, turned_at: Mapping[str, datetime]) -> tuple[Trial, Trial]:
    """The saved pond as its readings say that it is, and as it was entered: worked out once."""
    worked, log = worked_now(pond), session_now().logs.items_of(pond.id)
    known = (worked, log, dict(turned_at), datetime.now(UTC).date())
    if not _kept or _kept[0][:-1] != known:
        entered = as_entered(worked)
        read = as_read(worked, log, turned_at, datetime.now(UTC)) if log else entered
        _kept[:] = [(*known, (read, entered))]
    found: tuple[Trial, Trial] = _kept[0][-1]
    return found


def _as_drawn(tried: TriedState, changes: Changes) -> dict[str, float]:
    """Flows as finely as a hose is drawn, so that what nobody sees is not drawn anew.

    A branch that is shut has none, whatever else is not known.
    """
    shut = {key: 0.0 for key in tried.worked.names.branches if changes.shuts(key)}
    return shut | {key: float(f"{flow:.{DRAWN_DIGITS}g}") for key, flow in tried.flows.items()}


def _beside(texts: Mapping[str, str]) -> dict[str, str]:
    """What a draft holds beside the changes themselves."""
    return {**{one: texts.get(one, "") for one in (PART, BEGIN)}, **moves.labels_in(texts)}


def _drawing(
    drawn: Picture, worked: WorkedPond, chosen: str, choose: Callable[[str], Any], fitted: Any
) -> ft.Control:
    """The picture; a touch of a part takes it in hand."""

    def take(key: str) -> Callable[[Any], Any]:
        return lambda _: choose(key)

    words = in_words(worked)

    def make() -> ft.Control:
        touches: list[ft.Control] = [
            ft.Container(
                left=part.box.left,
                top=part.box.top,
                width=part.box.side,
                height=part.box.side,
                border_radius=theme.RADIUS,
                border=ft.Border.all(theme.RING, ft.Colors.PRIMARY) if part.key == chosen else None,
                on_click=take(part.key),
            )
            for part in drawn.parts
        ]
        canvas = cv.Canvas(
            shapes(drawn), content=ft.Stack(touches), height=drawn.height, on_resize=fitted
        )
        return ft.Semantics(
            container=True, label=words, image=True, exclude_semantics=True, content=canvas
        )

    return kept((drawn, chosen, words), make)


def _choice_of_part(drawn: Picture, chosen: str, choose: Callable[[str], Any]) -> ft.Control:
    """The parts in words, for those who do not touch the drawing."""
    options = [(part.key, f"{part.number} {part.name}") for part in drawn.parts]
    return kept(
        (*options, chosen),
        lambda: layout.choice(t("What to change"), options, chosen, choose, in_rows=True),
    )


def _moves(part: Part, handle: moves.Moves) -> list[ft.Control]:
    for line in handle.tried.worked.lines:
        saved = next(one for one in handle.trial.worked.lines if one.id == line.id)
        if part.kind == PUMP and line.id == part.key:
            return list(moves.of_line(handle, saved))
        for branch in saved.branches:
            if part.key == branch.id or part.key in branch.feeds:
                return list(moves.of_branch(handle, saved, branch, part.key))
    return [layout.small(t("On no branch yet"))]


def _summary(now: TriedState, tried: TriedState, changes: Changes, system: str) -> list[ft.Control]:
    """What the change brings, told when it changes."""
    found = [units.tell(one, system) for one in differences(now, tried)]
    if not changes.values:
        words = t("Nothing is changed yet. What you try here is saved only when you apply it.")
    else:
        told = len(now.branches) == len(tried.branches) == len(tried.worked.names.branches)
        if not told:
            found.append(t("Not every flow can be told."))
        words = " ".join(found) or t("That changes no flow that anybody could tell.")
    reasons = [
        layout.sentence(units.tell(one, system)) for line in tried.lines for one in line.reasons
    ]
    lines = [layout.body(words), *(layout.body(one) for one in reasons)]
    card = ft.Semantics(live_region=True, content=layout.card(lines, strong=bool(changes.values)))
    without = any(line.pump is None for line in tried.lines)
    return [card, *([to_pumps(tried.worked.pond.id)] if without else [])]


def _ammonia(pond: Pond, changes: Changes) -> ToxicAmmonia | None:
    logs, now = session_now().logs, datetime.now(UTC)
    return toxic_ammonia(pond, standing(pond, logs.items_of(pond.id), now), changes)


def _buttons(
    pond: Pond,
    trial: Trial,
    changes: Changes,
    typed: Typed,
    refused: Refused | None,
    refuse: Callable[[tuple[Changes, Refused]], Any],
) -> list[ft.Control]:
    """Make it the plan, or why it cannot be that, or begin again."""
    session = session_now()
    system = session.system

    async def apply(_: Any) -> None:
        if await bounced() or session.ponds.get(pond.id) is not pond:
            return
        made = applied(trial, changes)
        if isinstance(made, Refused):
            refuse((changes, made))
            return
        before = typed.newest()
        saved = await session.ponds.save(made.pond)
        # What is the plan now was never measured.
        begin = PLAN if made.as_planned else before.get(BEGIN, "")
        typed.put({**texts_of(changes.conditions), PART: before.get(PART, ""), BEGIN: begin})

        async def undo() -> None:
            if session.ponds.get(pond.id) == saved:
                await session.ponds.undo(pond.id)
                typed.put(before)

        told = t("It is the plan now.") if made.as_planned else t("It is saved.")
        say(with_doubt(told, saved, pond), undo)

    found: list[ft.Control] = []
    if changes.saved.values:
        wrong = moves.wrong_label(changes, typed.texts, system)
        found.append(layout.main_button(t("Apply: make it the plan"), apply, disabled=wrong))
        if wrong:
            words = t("First complete the label of the other pump, or choose one from the list.")
            found.append(layout.caution(words))
        if refused is not None:
            why = " ".join(layout.sentence(units.tell(one, system)) for one in refused.reasons)
            said = t("A plan cannot hold what was tried, so nothing is saved. {why}", why=why)
            found.append(ft.Semantics(live_region=True, content=layout.caution(said)))
        found.append(
            layout.small(
                t(
                    "Pump, hoses, lifts and lips are saved, and where water is moved, its flows "
                    "become what you want at each place. How the valves have to stand for that, "
                    "tuning tells."
                )
            )
        )
    if changes.conditions.values:
        found.append(
            layout.small(t("Clogging, rest and season are not saved: they pass by themselves."))
        )
    if changes.values:
        found.append(_start_over(typed))
    else:
        found += as_it_was(pond)
    return found


def _start_over(typed: Typed) -> ft.Control:
    """Leaves everything as it is saved."""

    def start_over(_: Any) -> None:
        before = typed.newest()

        async def undo() -> None:
            typed.put(before)

        typed.put({key: before.get(key, "") for key in (PART, BEGIN)})
        say(t("Back to what was saved."), undo)

    return layout.second_button(t("Start over"), start_over)


@ft.component
def WhatIfPage() -> Any:
    """The picture, the part in hand with its moves, and both states side by side."""
    session = session_now()
    system = session.system
    pond = use_pond()
    typed = use_draft(draft_name("whatif", pond.id if pond else ""), {}, moves.LABELS)
    width, set_width = ft.use_state(room())
    refused, set_refused = ft.use_state(cast("tuple[Changes, Refused] | None", None))
    _, turned_at = use_turned(pond.id if pond else "")
    if pond is None:
        return layout.no_pond()
    route, title = f"/pond/{pond.id}/what-if", t("What if?")

    def fitted(event: Any) -> None:
        if abs(event.width - width) > 1:
            set_width(float(event.width))

    def put(what: What, key: str, value: Value | None) -> None:
        texts = typed.newest()
        known = changes_of(texts, pond, trial.worked.lines).put(what, key, value)
        typed.put({**texts_of(known), **_beside(texts)})

    # A part that is not drawn anew holds an older `put`: it must do what the newest does.
    newest_put: Any = ft.use_ref(None)
    newest_put.current = put

    def put_now(what: What, key: str, value: Value | None) -> None:
        newest_put.current(what, key, value)

    try:
        read, entered = trials_of(pond, turned_at)
        begins = typed.text(BEGIN) or MEASURED
        trial = read if begins == MEASURED else entered
        changes = changes_of(typed.texts, pond, trial.worked.lines)
        changes = moves.with_labels(changes, typed.texts, system)
        now, tried = trial.now, trial.state(changes)
        drawn = picture(
            tried.worked, tried.places, width, theme.drawn(theme.TOUCH), _as_drawn(tried, changes)
        )  # fmt: skip
        ammonia = _ammonia(pond, changes)
    except PondError as problem:
        said = [layout.caution(units.explain(problem, system))]
        changed = any(text for key, text in typed.texts.items() if key not in (PART, BEGIN))
        return layout.screen(route, title, [*said, *([_start_over(typed)] if changed else [])])
    keys = [part.key for part in drawn.parts]
    chosen = typed.text(PART) if typed.text(PART) in keys else keys[0]
    part = next(one for one in drawn.parts if one.key == chosen)

    def choose(key: str) -> None:
        typed.put({**typed.newest(), PART: key})

    def begin(how: str) -> None:
        typed.put({**typed.newest(), BEGIN: how})

    why = refused[1] if refused and refused[0] == changes else None
    handle = moves.Moves(trial, changes, tried, system, put_now, typed)
    left = [
        _drawing(drawn, tried.worked, chosen, choose, fitted),
        *_summary(now, tried, changes, system),
        _choice_of_part(drawn, chosen, choose),
        layout.card(
            [
                layout.heading(part.name),
                results.flow_numbers(part.key, now, tried, system),
                *_moves(part, handle),
            ]
        ),
        layout.card([layout.heading(t("Season")), moves.of_season(handle)]),
    ]
    if read.read or read.seen:
        options = [
            (MEASURED, t("As the readings tell")),
            (PLAN, t("As it was entered and planned")),
        ]
        what = t("What to begin with")
        left.append(kept((*options, begins), lambda: layout.choice(what, options, begins, begin)))
    right = [
        *_buttons(pond, trial, changes, typed, why, set_refused),
        layout.tile([results.of_part(one, now, tried, system) for one in drawn.parts]),
        layout.tile(list(results.of_whole(now, tried, ammonia, system))),
        fold("assumed", t("What these numbers rest on"), lambda: [
            layout.small(layout.sentence(units.tell(one, system)))
            for one in rests_on(trial, changes)
        ]),
        layout.quiet_button(t("How this works"), go("/help/what-if")),
    ]  # fmt: skip
    return layout.screen(route, title, left, second=right)
