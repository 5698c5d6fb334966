"""One place on the water path: what it wants and why, what is planned, what was measured."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.features.kinds import PUMP, kind_of
from pondapp.answers.features.rules_behind import rules_behind
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.plumbing.path import feature_of, lines_of, names_of
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.features.told import told_card
from pondapp.ui.measuring.readings import reading_card
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import aim_text, band_text
from pondapp.ui.parts.working import ShowWorking, source_text
from pondapp.ui.plumbing.on_path import on_path
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


def rule_card(pond: Pond, kind: str, system: str) -> ft.Control:
    """The rules behind a band, each with its value and its source."""
    rules = rules_behind(pond, kind)
    sources = [source_text(rule.source) for rule in rules]
    same = len(set(sources)) == 1
    facts: list[ft.Control] = []
    for rule, source in zip(rules, sources, strict=True):
        remarks = [t("Changed by you.")] if rule.changed else []
        remarks += [] if same else [source]
        value = units.tell(rule.value, system)
        facts.append(layout.fact(t(rule.label), value, " ".join(remarks)))
    if same:
        facts.append(layout.small(sources[0]))
    return layout.card([layout.heading(t("The rule behind it")), *facts])


def _facts(pond: Pond, place_id: str, system: str) -> list[ft.Control]:
    """Wanted band, planned flow, and what is led past."""
    worked = worked_now(pond)
    plan = worked.plan
    target = worked.targets.place(place_id) or worked.wanted.place(place_id)
    facts: list[ft.Control] = []
    if target:
        rule = units.tell(target.rule, system)
        facts.append(layout.fact(t("Wanted"), band_text(target.band, system), rule))
        if target.kind != PUMP:
            facts.append(layout.small(aim_text(target, system)))
        facts.append(ShowWorking(target.name, target.steps, system))
    if not isinstance(plan, PondPlan):
        return [*facts, layout.body(t("It can't all work: see the plan."))]
    planned, past = plan.at(place_id), plan.past.get(place_id)
    if planned is not None:
        facts.append(layout.fact(t("Planned"), units.show(planned, "flow", system)))
    if past:
        facts.append(layout.fact(t("Led past it"), units.show(past, "flow", system)))
    return facts


@ft.component
def AtPlacePage() -> Any:
    """A feature or a pump, opened from the water path."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond, place_id = session.ponds.get(params.get("pond_id", "")), params.get("place_id", "")
    if pond is None:
        return layout.no_pond()
    route = f"/pond/{pond.id}/at/{place_id}"
    feature = feature_of(pond, place_id)
    line = next((line for line in lines_of(pond) if line.id == place_id), None)
    if feature is None and line is None:
        gone = [layout.body(t("This is not on the water path any more."))]
        return layout.screen(route, t("Not there"), gone)
    names = names_of(pond)
    name = names.features[feature.id] if feature else names.lines[place_id]
    controls: list[ft.Control] = []
    try:
        controls.append(layout.card(_facts(pond, place_id, system), strong=True))
    except PondError as problem:
        controls.append(layout.caution(units.explain(problem, system)))
    measure = go(f"/pond/{pond.id}/measure/{place_id}")
    controls.append(layout.main_button(t("Measure at {place}", place=name), measure))
    if feature:
        edit = go(f"/pond/{pond.id}/things/{feature.id}")
        controls.append(layout.second_button(t("Change its size or wanted range"), edit))
        if feature.kind == "bog":
            build = go(f"/pond/{pond.id}/at/{feature.id}/build")
            controls.append(layout.second_button(t("How to build it"), build))
        controls += told_card(pond, feature, system)
        controls += on_path(pond, feature)
    else:
        here = f"/pond/{pond.id}"
        controls.append(
            layout.links(
                [
                    (t("Name, hours and T-pieces"), go(f"{here}/path/{place_id}")),
                    (t("Hose, lift and fittings"), go(f"{here}/plumbing")),
                    (t("Pumps to choose from"), go(f"{here}/pumps")),
                ]
            )
        )
    kind = feature.kind if feature else PUMP
    if (feature is None or kind_of(feature).rules) and not (feature and feature.band):
        controls.append(rule_card(pond, kind, system))
    readings = [one for one in session.logs.readings_of(pond.id) if one.place_id == place_id]
    if readings and readings[0].method.kind == "nothing":
        off = go(f"/pond/{pond.id}/log/pump-off")
        controls.append(layout.second_button(t("The pump stands still: what first?"), off))
    if readings:
        controls.append(layout.heading(t("Readings here")))
        log = f"/pond/{pond.id}/log"
        controls += [
            reading_card(reading, system, opens=f"{log}/{reading.id}") for reading in readings
        ]
    return layout.screen(route, name, controls)
