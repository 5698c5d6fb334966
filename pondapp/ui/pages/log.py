"""The log of a pond: every reading, newest first."""

from typing import Any

import flet as ft

from pondapp.ui.current import session_now
from pondapp.ui.parts import layout
from pondapp.ui.parts.readings import reading_card
from pondapp.words import t


@ft.component
def LogPage() -> Any:
    """What was measured at a pond."""
    session = session_now()
    pond = session.ponds.get(ft.use_route_params().get("pond_id", ""))
    if pond is None:
        return layout.no_pond()
    cards = [reading_card(reading, session.system) for reading in session.log(pond.id)]
    return layout.screen(
        f"/pond/{pond.id}/log",
        t("Log of {pond}", pond=pond.name),
        cards or [layout.body(t("No readings yet."))],
    )
