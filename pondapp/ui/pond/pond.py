"""One pond: what is open about it, its picture, and the way to everything else about it."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.answers.log.log import until
from pondapp.ui.measuring.readings import reading_card
from pondapp.ui.parts import cautions, layout
from pondapp.ui.pond import matters
from pondapp.ui.pond.picture import PondPicture
from pondapp.ui.pond.pond_deletion import delete_button
from pondapp.ui.pond.tiles import tiles
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now, use_pond
from pondapp.words import t


@ft.component
def PondPage() -> Any:
    """The pond's own screen."""
    session = session_now()
    pond = use_pond()
    if pond is None:
        return layout.no_pond()
    log = session.logs.readings_of(pond.id)
    past = until(log, datetime.now(UTC))  # what is dated ahead is told among the open matters
    newest = layout.body(t("No readings yet."))
    if past:  # how it stands now is told by the picture alone
        newest = reading_card(past[0], session.system, judged=False)
    learned = [layout.second_button(t("What the readings tell"), go(f"/pond/{pond.id}/learned"))]
    beside: list[ft.Control] = [
        *tiles(pond, session.system),
        layout.heading(t("Newest reading")),
        newest,
        *(learned if log else ()),
        cautions.children(),
        delete_button(pond),
    ]
    left = [*matters.all_matters(pond, session.system), PondPicture(pond)]
    return layout.screen(f"/pond/{pond.id}", pond.name, left, second=beside)
