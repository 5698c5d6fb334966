"""Choose where to measure."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.state.ids import NO_POND, OUTLET
from pondapp.ui.measuring import unsaved
from pondapp.ui.measuring.readings import reading_card
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text
from pondapp.ui.shell import places
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

SHOWN = 3  # readings without a pond


def _places(pond: Pond, system: str) -> ft.Control:
    """A pond's places, each with the flow that is wanted there."""
    try:
        found = worked_now(pond).wanted.places
    except PondError as problem:
        return layout.caution(units.explain(problem, system))
    return layout.links(
        [
            (
                f"{place.name}: {band_text(place.band, system)}",
                go(f"/measure/{pond.id}/{place.place_id}"),
            )
            for place in found
        ]
    )


@ft.component
def PlacesPage() -> Any:
    """Every outlet of every pond, that in hand first, and a flow with no pond at all."""
    session = session_now()
    system = session.system
    in_hand = places.pond_in_hand()
    ponds = sorted(session.ponds.values(), key=lambda pond: (pond.id != in_hand, pond.name.lower()))
    controls: list[ft.Control] = unsaved.lines()
    for pond in ponds:
        controls += [layout.heading(pond.name), _places(pond, system)]
    # One place of a pond is what one comes for; without a pond there is only this.
    just = layout.second_button if ponds else layout.main_button
    controls.append(just(t("Just measure, no pond"), go(f"/measure/{NO_POND}/{OUTLET}")))
    loose = session.logs.readings_of(NO_POND)
    if loose:
        controls.append(layout.heading(t("Measured without a pond")))
        controls += [
            reading_card(reading, system, opens=f"/log/{reading.id}") for reading in loose[:SHOWN]
        ]
        controls.append(
            layout.quiet_button(t("All of them ({count})", count=len(loose)), go("/log"))
        )
    return layout.screen("/measure", t("Measure where?"), controls)
