"""Answers in words: bands, flows and verdicts."""

import flet as ft

from pondapp import units
from pondapp.answers.features.kinds import PUMP
from pondapp.answers.features.targets import FlowBand, Target
from pondapp.answers.log.dates import day_text
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.measuring.methods import MeasuringAssumptions, rules_for
from pondapp.answers.methods.kinds import METHODS, NOTHING
from pondapp.answers.picture.states import PlaceState
from pondapp.core.base.errors import PondError
from pondapp.ui.parts import layout
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

# Shape and word carry the state, not colour.
MARKS = {
    "within": ft.Icons.CHECK_CIRCLE,
    "below": ft.Icons.ARROW_CIRCLE_DOWN,
    "above": ft.Icons.ARROW_CIRCLE_UP,
    "undecided": ft.Icons.HELP_OUTLINE,
}
DRY = ft.Icons.FORMAT_COLOR_RESET


def rules_at(pond_id: str) -> MeasuringAssumptions:
    """By which rules the flows of a pond are judged; by the app's own where its cannot be."""
    try:
        return rules_for(session_now().ponds.get(pond_id)).measuring
    except PondError:
        return rules_for(None).measuring


def mark_of(found: Measured, other: ft.IconData) -> ft.IconData:
    """The mark of a measurement; another one where nothing is wanted that it could be held to."""
    return DRY if found.dry else MARKS.get(found.kind, other)


def flow_text(found: Measured, system: str) -> str:
    """A measured flow in a few words, with no more digits than are known."""
    if found.dry:
        return t("no water")
    if found.rough:
        return t("about {flow}", flow=units.show(found.flow.flow, "flow", system, 2))
    return units.show(found.flow.flow, "flow", system)


def state_text(state: PlaceState, system: str) -> str:
    """How a place is, and what was measured there and when, where that says so."""
    word = t(state.word)
    if state.found is None or state.taken_at is None or state.why:
        return word
    day = day_text(state.taken_at)
    if state.found.dry:
        return t("{word}, as measured on {day}", word=word, day=day)
    flow = units.show(state.found.flow.flow, "flow", system)
    return t("{word}, as measured: {flow} on {day}", word=word, flow=flow, day=day)


def band_text(band: FlowBand, system: str) -> str:
    """A band as people say it."""
    low = units.show(band.low, "flow", system)
    if band.high is None:
        return t("{least} or more", least=low)
    number = units.readable(units.value_in(band.low, "flow", system))
    return t("{least} to {most}", least=number, most=units.show(band.high, "flow", system))


AIMS = {"least": "least flow", "good": "good flow"}


def three_flows(band: FlowBand, system: str) -> str:
    """Least, good and most of a band, each by its name."""
    least = units.show(band.low, "flow", system)
    good = units.show(band.target, "flow", system)
    if band.high is None:
        return t("least {least}, good {good}", least=least, good=good)
    most = units.show(band.high, "flow", system)
    return t("least {least}, good {good}, most {most}", least=least, good=good, most=most)


def aim_text(target: Target, system: str) -> str:
    """The good flow of a place, and which flow the plan gives it at least."""
    return t(
        "Good at {good}; the plan gives its {aim} or more.",
        good=units.show(target.band.target, "flow", system),
        aim=t(AIMS[target.aim]),
    )


def target_card(target: Target, system: str) -> ft.Control:
    """The flow that a place wants, and why."""
    wants = layout.fact(
        t("{place} needs", place=target.name),
        band_text(target.band, system),
        units.tell(target.rule, system),
    )
    lines: list[ft.Control] = [wants]
    if target.kind != PUMP:
        lines.append(layout.small(aim_text(target, system)))
    lines.append(ShowWorking(target.name, target.steps, system))
    return layout.card(lines)


def interval_text(found: Measured, system: str) -> str:
    """The range that holds the true flow in about 95 of 100 cases, or as the rule has it."""
    return spread_text(found.flow.low, found.flow.high, found.coverage, system)


def spread_text(low: float, high: float, coverage: float, system: str) -> str:
    """An interval of flows, so that it is plain what the two numbers are."""
    span = units.show_range(low, high, "flow", system, digits=3)
    return t("{span} ({share} interval)", span=span, share=units.show(coverage, "share", system))


def verdict_row(found: Measured, system: str) -> ft.Control:
    """The verdict: a mark and its words, in the colours of how bad it is."""
    ground, ink = theme.SEVERITY[found.severity]
    mark = mark_of(found, MARKS["undecided"])
    return ft.Container(
        layout.marked(mark, units.tell(found.verdict, system), ink),
        padding=ft.Padding.symmetric(horizontal=theme.GAP, vertical=theme.GAP / 2),
        border_radius=theme.RADIUS,
        bgcolor=ground,
    )


def flow_card(found: Measured, system: str) -> ft.Control:
    """Flow, interval, verdict and what to do next; announced when it changes."""
    flow = t(METHODS[NOTHING].name) if found.dry else flow_text(found, system)
    lines: list[ft.Control] = [
        written(flow, size=theme.figure(theme.FIGURE), weight=ft.FontWeight.W_600)
    ]
    if found.dry:
        lines += [layout.body(units.tell(line, system)) for line in found.limits]
    else:
        lines.append(layout.body(interval_text(found, system)))
    if found.kind != "no target":
        lines.append(verdict_row(found, system))
    lines += [layout.body(layout.sentence(units.tell(line, system))) for line in found.advice]
    # A control inside the region would turn its words into a label, read as one breath.
    told = ft.Semantics(live_region=True, content=ft.Column(lines, spacing=6))
    return layout.card([told], strong=found.kind == "no target")
