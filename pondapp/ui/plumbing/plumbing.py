"""Hose, lift and fittings of each pump: what every run takes, and what a wider one would save."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.plumbing.path import Line, line_name, lines_of
from pondapp.answers.plumbing.pipe_names import size_text
from pondapp.answers.plumbing.plumbing import MAIN, LineAnswer, RunAnswer, line_answer, put_pipe
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.money import price_lines
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.plumbing.run_answer import pipe_text, run_lines
from pondapp.ui.plumbing.run_form import run_draft
from pondapp.ui.plumbing.what_is_new import as_it_was
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


def _run_card(pond: Pond, line: Line, answer: RunAnswer, whole: LineAnswer) -> ft.Control:
    """One run: what it is, what it takes, and the way to change it."""
    system = session_now().system
    counted, wider = answer.counted, answer.wider
    name = t("Main run") if counted.key == MAIN else counted.name

    async def widen(_: Any) -> None:
        if wider is None:
            return
        pipe = wider.of(counted.pipe)
        taken = put_pipe(pond, line.id, counted.key, pipe)
        await session_now().drafts.delete(run_draft(pond.id, line.id, counted.key))
        await save_change(taken, t("{name}: {size} now", name=name, size=size_text(pipe, system)))

    lines: list[ft.Control] = [
        layout.heading(name),
        layout.body(pipe_text(answer, system)),
        *run_lines(answer, whole, system),
        layout.second_button(
            t("Change: {name}", name=name), go(f"/pond/{pond.id}/plumbing/{line.id}/{counted.key}")
        ),
    ]
    if wider and wider.pump_head > 0.0 and not counted.assumed:
        size = size_text(wider.of(counted.pipe), system)
        label = t("Take {size}: {name}", size=size, name=name)
        lines.append(layout.aside(label, widen))
    return layout.card(lines)


def _line_part(pond: Pond, line: Line, several: bool) -> list[ft.Control]:
    """A pump's place: the head that it must make, and its runs."""
    system = session_now().system
    controls: list[ft.Control] = []
    if several:
        controls.append(layout.heading(line_name(pond, line)))
    try:
        worked = worked_now(pond)
        answer = line_answer(worked, line, worked.planned.flows)
    except PondError as problem:
        told = units.explain(problem, system)
        return [*controls, layout.card([layout.body(told)])]
    needs = answer.network.needs
    head = layout.fact(
        t("Head at the pump"),
        units.show(answer.head, "head", system),
        t("At {flow} in all; the branch {name} sets it.", name=needs.neediest.name,
          flow=units.show(answer.flow, "flow", system)),
    )  # fmt: skip
    working = ShowWorking(t("the head at the pump"), answer.steps, system)
    controls.append(layout.card([head, working], strong=True))
    cards = [_run_card(pond, line, run, answer) for run in answer.runs]
    controls.append(layout.side_by_side(cards))
    if line.main is None:
        label = (
            t("Add a main run to {name}", name=line_name(pond, line))
            if several
            else t("Add a main run before the T-piece")
        )
        controls.append(
            layout.quiet_button(label, go(f"/pond/{pond.id}/plumbing/{line.id}/{MAIN}"))
        )
    return controls


@ft.component
def PlumbingPage() -> Any:
    """Every run of hose and pipe at its planned flow."""
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    lines = lines_of(pond)
    controls: list[ft.Control] = []
    for line in lines:
        controls += _line_part(pond, line, len(lines) > 1)
    controls += as_it_was(pond)
    choose = layout.main_button(t("Choose a pump"), go(f"/pond/{pond.id}/pumps"))
    controls.append(layout.narrow(choose))
    controls += price_lines(pond, session_now().system)
    return layout.screen(
        f"/pond/{pond.id}/plumbing", t("Hose, lift and fittings"), controls, wide=True
    )
