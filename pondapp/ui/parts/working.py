"""The working under a number: formula, what went in, where it comes from."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.rules.working import Source, Step, Working
from pondapp.ui.parts import layout
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

STATUS = {
    "published": "published, seen",
    "computed": "computed",
    "common practice": "common practice, no source",
    "rule of thumb": "rule of thumb, not checked",
    "from memory": "named from memory, not checked",
    "entered": "your own number",
}


def source_text(source: Source) -> str:
    """Where a formula or a value comes from, and how far that can be trusted."""
    status = STATUS[source.status]
    if source.text in (status, "entered by you"):
        return layout.sentence(t(status))
    return layout.sentence(t("{source}: {status}", source=t(source.text), status=t(status)))


def step_lines(step: Step, system: str) -> tuple[str, list[str], str]:
    """Title with the result, formula and what went in, and the source, in the reader's units."""
    result = step.result
    shown = units.show_amount(result.value, result.unit, system)
    meaning = t(result.meaning)
    title = f"{meaning[:1].upper()}{meaning[1:]}: {shown}"
    inputs = [
        f"{term.symbol} = {units.show_amount(term.value, term.unit, system)}, {t(term.meaning)}"
        for term in step.inputs
    ]
    return title, [t(step.formula), *inputs], source_text(step.source)


def _step(step: Step, system: str) -> ft.Control:
    title, lines, source = step_lines(step, system)
    formula, *inputs = lines
    return ft.Column(
        [
            written(title, size=theme.SMALL, weight=ft.FontWeight.W_600),
            written(formula, size=theme.SMALL),
            *[layout.small(line) for line in inputs],
            written(
                source, size=theme.SMALL, italic=True, color=ft.Colors.ON_SURFACE_VARIANT
            ),
        ],
        spacing=2,
        horizontal_alignment=ft.CrossAxisAlignment.STRETCH,
    )  # fmt: skip


@ft.component
def ShowWorking(of: str, working: Working, system: str) -> Any:
    """A button that unfolds the working of a number; nothing is worked out before it is asked."""
    shown, set_shown = ft.use_state(False)
    label = (
        t("Hide the working: {number}", number=of)
        if shown
        else t("Show the working: {number}", number=of)
    )
    lines: list[ft.Control] = [layout.aside(label, lambda _: set_shown(not shown))]
    if shown:
        lines += [_step(step, system) for step in working()]
    return ft.Column(lines, spacing=theme.GAP, horizontal_alignment=ft.CrossAxisAlignment.STRETCH)
