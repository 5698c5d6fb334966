"""The shelf: the pumps to choose from, judged in the pond's own circuit, best first."""

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.care.open_matters import SHORT, measured
from pondapp.answers.plumbing.path import Line, line_name, lines_of
from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.pumps.label_doubt import LABEL_DOUBTED
from pondapp.answers.pumps.pumps import (
    ESTIMATED,
    TARIFF,
    YEARS,
    Option,
    PumpAnswer,
    PumpComparison,
    PumpRanking,
    compare,
    curves,
    fall_time,
    fall_times,
    limits,
    shelf,
    tariff_of,
    with_assumption,
    with_fall_time,
    years_counted,
)
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.models.base import Limits
from pondapp.models.pond import Pond
from pondapp.ui.parts import cautions, layout, severity
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.money import price_text, whose_money
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.planning.assumed import assumed_links
from pondapp.ui.pumps.line_asked import line_named, shelf_draft
from pondapp.ui.pumps.pump_answer import answer_lines
from pondapp.ui.pumps.pump_chart import PumpChart
from pondapp.ui.shell import theme
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

FORM = Form(
    (
        QuantityField("tariff", "Price of electricity", "tariff", Limits(*limits(TARIFF))),
        QuantityField("years", "Years", "number", Limits(*limits(YEARS))),
        QuantityField(
            "hours", "Waterfall, hours a day", "hours",
            Limits(*fall_times()),
        ),
    )
)  # fmt: skip
COSTING = tuple(one.key for one in FORM.fields)


def counted_with(pond: Pond, texts: Mapping[str, str], system: str) -> tuple[Pond, dict[str, str]]:
    """The pond with the price of electricity, years and hours as typed, and what is wrong."""
    read = FORM.read(texts, system)
    tariff, years, hours = (read.values.get(key) for key in COSTING)
    if tariff is not None:
        pond = with_assumption(pond, TARIFF, tariff)
    if years is not None:
        pond = with_assumption(pond, YEARS, years)
    if hours is not None:
        pond = with_fall_time(pond, hours)
    return pond, read.errors


def _asked(found: PumpRanking, system: str) -> list[ft.Control]:
    """What the circuit asks of its pump."""
    needs = found.network.needs
    watts = units.show_range(found.power_low, found.power_high, "power", system)
    return [
        layout.fact(
            t("The pump must give"),
            t("{flow} at a head of {head}", flow=units.show(needs.flow, "flow", system),
              head=units.show(needs.head, "head", system)),
            t("A typical small pump draws {watts} for that.", watts=watts),
        ),
        *([layout.caution(units.tell(found.beyond, system))] if found.beyond else ()),
    ]  # fmt: skip


def _option_lines(title: str, option: Option, years: float) -> list[ft.Control]:
    names = t(" and ").join(pump.name for pump in option.pumps)
    return [
        layout.fact(
            title,
            names,
            t(
                "{cost} for electricity; {total} with the purchase over {years} years.",
                cost=units.by_month_and_year(option.per_year),
                total=units.about_money(option.total),
                years=units.significant(years),
            ),
        )
    ]


def _compared(found: PumpComparison, system: str) -> list[ft.Control]:
    """One pump for all beside two, of which one rests."""
    lines: list[ft.Control] = []
    for title, option in (
        (t("One pump for everything"), found.one),
        (t("Two pumps, {names} on a timer", names=", ".join(found.on_timer)), found.two),
    ):
        if isinstance(option, Option):
            lines += _option_lines(title, option, found.years)
        else:
            lines.append(
                layout.fact(title, t("Not yet"), layout.sentence(units.tell(option, system)))
            )
    if found.saved_per_year is not None and found.saved_in_all is not None:
        lines.append(layout.body(_saved(found.saved_per_year, found.saved_in_all, found.years)))
    lines.append(
        layout.small(
            t(
                "The timer runs {hours} h a day. While it rests, {flow} go round; the mean of the "
                "day falls by {short}.",
                hours=units.significant(found.hours),
                flow=units.show(found.rest_flow, "flow", system),
                short=units.show(found.short_of, "flow", system),
            )
        )
    )
    lines += [layout.small(layout.sentence(units.tell(note, system))) for note in found.notes]
    return lines


def _saved(yearly: float, in_all: float, years: float) -> str:
    counted = units.significant(years)
    if yearly <= 0:
        return t("Two cost {more} more to run.", more=units.by_month_and_year(-yearly))
    if in_all <= 0:
        return t("Two save {less}, which does not pay for them within {years} years.",
                 less=units.by_month_and_year(yearly), years=counted)  # fmt: skip
    return t(
        "Two save {less}, and {sum} over {years} years.",
        less=units.by_month_and_year(yearly),
        sum=units.about_money(in_all),
        years=counted,
    )


def _costing(
    pond: Pond, tried: Pond, typed: Typed, errors: dict[str, str], system: str
) -> ft.Control:
    """What costs are counted with, folded until somebody wants to change it."""
    basis = (
        t(
            "Based on {price}, {years} years, and a waterfall timer at {hours} a day.",
            price=price_text(tried, system),
            years=units.significant(years_counted(tried)),
            hours=units.show(fall_time(tried), "hours", system),
        ),
        whose_money(),
    )
    told = layout.small(" ".join(basis).strip())

    amounts = (tariff_of(pond), years_counted(pond), fall_time(pond))
    saved = FORM.write(dict(zip(COSTING, amounts, strict=True)), system)

    def unfold(_: Any) -> None:
        typed.put({**typed.texts, **saved})

    def fold() -> None:
        typed.put({key: text for key, text in typed.texts.items() if key not in {*COSTING, *saved}})

    async def keep(_: Any) -> None:
        fold()
        await save_change(tried, t("The costs are worked out again"))

    if "tariff" not in typed.texts:
        return layout.card([told, layout.aside(t("Change what the costs are based on"), unfold)])
    entries = [FORM.draw(typed, key, errors) for key in COSTING]
    same = all(typed.text(key) == text for key, text in saved.items())
    button = (
        layout.aside(t("Hide this"), lambda _: fold())
        if same and not errors
        else layout.second_button(t("Save these figures"), keep, disabled=bool(errors))
    )
    column = ft.Column(
        entries, spacing=theme.GAP, horizontal_alignment=ft.CrossAxisAlignment.STRETCH
    )
    return layout.card([told, column, button])


def _pump_card(
    answer: PumpAnswer, found: PumpRanking, pond: Pond, line: Line, opened: bool, on_open: Any
) -> ft.Control:
    """One pump on the shelf: what it gives, what it costs, and what can be done with it."""
    system = session_now().system
    pump = answer.pump
    chosen = line.pump_id == pump.id and bool(pond.lines)

    async def choose(_: Any) -> None:
        taken = with_line(pond, line.id, pump_id=None if chosen else pump.id)
        told = (
            t("{name} is no longer chosen", name=pump.name)
            if chosen
            else t("{name} is chosen", name=pump.name)
        )
        await save_change(taken, told)

    place = t("{place}. {name}", place=answer.place, name=pump.name)
    log = session_now().logs.items_of(pond.id)
    seen = measured(worked_now(pond), log, datetime.now(UTC)) if chosen else None
    doubted = seen is not None and line.id in seen.doubted
    lines = answer_lines(answer, found, system, place, doubted=doubted)
    if seen and line.id in seen.short:
        told = Message(SHORT, {"name": pump.name})
        lines.insert(1, severity.card("wrong", units.tell(told, system)))
    elif doubted:
        told = Message(LABEL_DOUBTED, {"name": pump.name})
        lines.insert(1, severity.card("unknown", units.tell(told, system)))
    if chosen:
        lines.insert(1, layout.body(t("Your choice")))
    if opened and answer.ranked:
        drawn = curves(found.network, pump, answer.speed)
        lines.append(PumpChart(drawn, pump.name, system))
        if drawn.trouble:
            lines.append(layout.small(layout.sentence(units.tell(drawn.trouble, system))))
        if answer.ranked.candidate.curve.estimate:
            lines.append(layout.small(layout.sentence(units.tell(ESTIMATED, system))))
        if drawn.settles:
            lines.append(ShowWorking(t("the flow it gives"), drawn.steps, system))
        if answer.steps():
            lines.append(ShowWorking(t("its costs"), answer.steps, system))
    buttons = [
        layout.aside(t("Change {name}", name=pump.name), go(f"/pond/{pond.id}/pumps/{pump.id}"))
    ]
    if answer.ranked:
        label = (
            t("Hide the curve of {name}", name=pump.name)
            if opened
            else t("Show the curve of {name}", name=pump.name)
        )
        buttons.insert(0, layout.aside(label, on_open))
    label = t("Don't use {name}", name=pump.name) if chosen else t("Choose {name}", name=pump.name)
    lines.append(layout.second_button(label, choose))
    return layout.card([*lines, *buttons])


def _line_choice(pond: Pond, line: Line, typed: Typed) -> list[ft.Control]:
    lines = lines_of(pond)
    if len(lines) == 1:
        return []
    names = [(one.id, line_name(pond, one)) for one in lines]
    return [layout.choice(t("A pump for"), names, line.id, typed.note("line"))]


@ft.component
def PumpsPage() -> Any:
    """The pumps at hand, best first, and what one against two would cost."""
    session = session_now()
    system = session.system
    pond = use_pond()
    opened, set_opened = ft.use_state("")
    typed = use_draft(shelf_draft(pond.id if pond else ""), {}, FORM)
    if pond is None:
        return layout.no_pond()
    tried, errors = counted_with(pond, typed.texts, system)
    line = line_named(tried, typed.text("line"))
    controls = _line_choice(pond, line, typed)
    add = layout.main_button(t("Add a pump from its box"), go(f"/pond/{pond.id}/pumps/new"))
    pipes = layout.second_button(t("Hose, lift and fittings"), go(f"/pond/{pond.id}/plumbing"))
    route, title = f"/pond/{pond.id}/pumps", t("Pumps")
    try:
        worked = worked_now(tried)
        planned = worked.planned
        found = shelf(worked, line, planned.flows)
    except PondError as problem:
        told = layout.body(units.explain(problem, system))
        return layout.screen(route, title, [*controls, told, pipes, add, cautions.mains()])
    controls.append(layout.card(_asked(found, system), strong=True))
    controls += assumed_links(tried, (line,), system)
    if planned.conflict:
        own = (planned.by_branch.get(branch.id) for branch in line.branches)
        nearest = next((one for one in own if one), planned.conflict)
        conflict = layout.sentence(units.tell(nearest, system))
        controls.append(
            layout.small(
                t(
                    "This can't all work; each part gets its least here. {conflict}",
                    conflict=conflict,
                )
            )
        )
    if not found.answers:
        controls.append(
            layout.body(t("Type in the pumps you can get: each is tried in this pond's pipes."))
        )
    controls.append(add)

    def toggle(pump_id: str) -> Any:
        return lambda _: set_opened("" if opened == pump_id else pump_id)

    controls += [
        _pump_card(answer, found, pond, line, opened == answer.pump.id, toggle(answer.pump.id))
        for answer in found.answers
    ]
    if not found.answers:
        return layout.screen(route, title, [*controls, pipes, cautions.mains()])
    compared = compare(worked, line, planned.flows)
    lines = (
        _compared(compared, system)
        if isinstance(compared, PumpComparison)
        else [layout.body(layout.sentence(units.tell(compared, system)))]
    )
    beside = [
        layout.heading(t("One pump, or two with the waterfall on a timer")),
        layout.card(lines),
        _costing(pond, tried, typed, errors, system),
        pipes,
        cautions.mains(),
    ]
    return layout.screen(route, title, controls, second=beside)
