"""What the screens about tuning and the pump's health share: the line in hand, sets of flows."""

from collections.abc import Mapping
from datetime import datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.log.dates import day_text
from pondapp.answers.measuring.methods import rules_for
from pondapp.answers.measuring.steadiness import steadiness_at
from pondapp.answers.plumbing.path import Line, lines_of, names_of
from pondapp.answers.tuning.flow_sets import Change, FlowAt, InHand, ToFill
from pondapp.models.pond import Pond
from pondapp.ui.measuring import fills
from pondapp.ui.parts import layout
from pondapp.ui.parts.draft import Typed, draft_name, use_draft
from pondapp.ui.pumps.line_asked import shelf_draft
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

TURNED = "turned."


def day(at: datetime) -> str:
    """A day as people here write it."""
    return day_text(at)


def use_line(pond: Pond | None) -> tuple[Line | None, list[ft.Control]]:
    """The line in hand, and the choice of it where there are several; the pump shelf shares it."""
    typed = use_draft(shelf_draft(pond.id if pond else ""), {})
    if pond is None:
        return None, []
    lines, names = lines_of(pond), names_of(pond).lines
    chosen = next((line for line in lines if line.id == typed.text("line")), lines[0])
    if len(lines) == 1:
        return chosen, []
    options = [(line.id, names[line.id]) for line in lines]
    return chosen, [layout.choice(t("Which pump"), options, chosen.id, typed.note("line"))]


def use_turned(pond_id: str) -> tuple[Typed, dict[str, datetime]]:
    """When the valve of each branch was last turned, by the branch's id."""
    typed = use_draft(draft_name("tune", pond_id), {})
    return typed, turned_in(typed.texts)


def turned_in(texts: Mapping[str, str]) -> dict[str, datetime]:
    """The same, as a draft keeps it."""
    return {
        key.removeprefix(TURNED): datetime.fromisoformat(text)
        for key, text in texts.items()
        if key.startswith(TURNED) and text
    }


def change_text(change: Change, system: str) -> str:
    """A flow of now against what it was."""
    then, now = (units.show(flow, "flow", system) for flow in (change.then, change.now))
    if change.now == 0.0:
        return t("{then} then, no water now", then=then)
    share = units.show(change.share, "share", system, 2)
    span = units.show_range(change.low, change.high, "share", system)
    holds = units.show(change.rule.coverage, "share", system)
    return (
        t("{then} then, {now} now: {share} of it ({span}, a {holds} interval)", then=then, now=now,
          share=share, span=span, holds=holds)
        if change.told
        else t("{then} then, {now} now: no change that shows ({span}, a {holds} interval)",
               then=then, now=now, span=span, holds=holds)
    )  # fmt: skip


def flow_line(place: FlowAt, coverage: float, system: str) -> ft.Control:
    """A flow of a set as it was."""
    half = units.show(place.half_width_m3_s, "flow", system, 2)
    flow = units.show(place.flow_m3_s, "flow", system)
    holds = units.show(coverage, "share", system)
    told = t("{flow} give or take {half} ({share} interval)", flow=flow, half=half, share=holds)
    return layout.fact(place.place_name, told)


def region(controls: list[ft.Control]) -> Any:
    """Words that are told when they change; no control that can be pressed among them."""
    return ft.Semantics(live_region=True, content=ft.Column(controls, spacing=6))


def in_hand(pond: Pond) -> InHand:
    """What is filled at each place of a pond, and how steady its fills have been."""
    readings = session_now().logs.readings_of(pond.id)

    def at(place_id: str) -> ToFill:
        steady = steadiness_at(readings, place_id, rules_for(pond).measuring)
        return ToFill(fills.container_at(pond.id, place_id), steady)

    return at
