"""What follows from a feature at its pond, on a card."""

from datetime import UTC, datetime

import flet as ft

from pondapp import units
from pondapp.answers.features.at_pond import told_of
from pondapp.answers.features.kinds import kind_of
from pondapp.answers.picture.states import states_of
from pondapp.answers.plumbing.path import branch_of, lift_conflict
from pondapp.core.base.errors import PondError
from pondapp.models.circuit import WaterFeature
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


def told_card(pond: Pond, feature: WaterFeature, system: str) -> list[ft.Control]:
    """The answers of its kind, each with its working; nothing for a kind that has none."""
    try:
        worked, log = worked_now(pond), session_now().logs.readings_of(pond.id)
        found = told_of(worked, feature, states_of(worked, log, datetime.now(UTC)))
    except PondError:  # said beside the flow that it wants
        return []
    rows: list[ft.Control] = []
    branch = branch_of(pond, feature.id) if kind_of(feature).fall(feature) else None
    if branch and (conflict := lift_conflict(pond, branch)):
        rows.append(severity.row("unknown", layout.sentence(units.tell(conflict, system))))
    for one in found:
        value = units.tell(one.value, system)
        remark = units.tell(one.remark, system) if one.remark else ""
        if one.severity:
            rows.append(severity.row(one.severity, layout.sentence(value)))
            continue
        rows.append(layout.fact(t(one.label), value, remark))
        if one.steps():
            rows.append(ShowWorking(t(one.label), one.steps, system))
    return [layout.card(rows)] if rows else []
