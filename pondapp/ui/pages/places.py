"""Choose where to measure."""

from typing import Any

import flet as ft

from pondapp.sizing.plan import wanted
from pondapp.ui.current import session_now
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import band_text
from pondapp.ui.parts.navigate import go

OUTLETS = {
    "bog": "outlet of the bog filter",
    "high_flow": "outlet of the high-flow filter",
    "lip": "waterfall lip",
    "jet": "jet",
    "skimmer": "skimmer return",
    "pump": "pump outlet",
}


@ft.component
def PlacesPage() -> Any:
    """Every outlet of every pond, and a flow with no pond at all."""
    session = session_now()
    controls: list[ft.Control] = [
        layout.main_button("Just measure, no pond", go("/measure/none/outlet"))
    ]
    for pond in sorted(session.ponds.values(), key=lambda pond: pond.name.lower()):
        controls.append(layout.heading(pond.name))
        controls += [
            layout.second_button(
                f"{OUTLETS[place.kind].capitalize()}: {band_text(place.band, session.system)}",
                go(f"/measure/{pond.id}/{place.place_id}"),
            )
            for place in wanted(pond).places
        ]
    return layout.screen("/measure", "Measure where?", controls)
