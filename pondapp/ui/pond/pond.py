"""One pond: what is open about it, its water path, and the way to everything else about it."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.measuring.readings import reading_card
from pondapp.ui.parts import cautions, layout
from pondapp.ui.plumbing.path_drawing import Scene, last_readings, path_drawing
from pondapp.ui.pond import matters
from pondapp.ui.pond.pond_deletion import delete_button
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t


def drawing_of(pond: Pond) -> list[ft.Control]:
    """The water path, or what is wrong with the pond's numbers."""
    session = session_now()
    try:
        worked = worked_now(pond)
        now = datetime.now(UTC)
        last = last_readings(session.logs.readings_of(pond.id), now)
        scene = Scene(pond, worked.wanted, worked.plan, last, session.system, now)
        return [path_drawing(scene)]
    except PondError as problem:
        return [layout.caution(units.explain(problem, session.system))]


@ft.component
def PondPage() -> Any:
    """The pond's own screen."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    log = session.logs.readings_of(pond.id)
    newest = reading_card(log[0], session.system) if log else layout.body(t("No readings yet."))
    beside: list[ft.Control] = [
        layout.links([(t("Pump health"), go(f"/pond/{pond.id}/health"))]),
        layout.heading(t("Newest reading")),
        newest,
        cautions.children(),
        delete_button(pond),
    ]
    left = [*matters.all_matters(pond, session.system), *drawing_of(pond)]
    halves = layout.halves(left, beside)
    return layout.screen(f"/pond/{pond.id}", pond.name, [halves], wide=True)
