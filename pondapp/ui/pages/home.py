"""The first screen: the three uses, and the ponds."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.sizing.volume import water_volume
from pondapp.ui.current import session_now
from pondapp.ui.parts import keeping, layout, leaving
from pondapp.ui.parts.navigate import go
from pondapp.words import t


@ft.component
def HomePage() -> Any:
    """What can be done, in one touch each."""
    session = session_now()
    ponds = sorted(session.ponds.values(), key=lambda pond: pond.name.lower())
    controls: list[ft.Control] = [
        layout.main_button("Measure a flow", go("/measure")),
        layout.second_button("Size up", go("/size")),
        layout.second_button("Check a waterfall", go("/waterfall")),
        layout.heading("Your ponds"),
    ]
    if not ponds:
        controls.append(layout.body("None yet. Add yours, and every reading has a target."))
    controls += [
        layout.second_button(
            f"{pond.name}: {units.show(water_volume(pond), 'volume', session.system)}",
            go(f"/pond/{pond.id}"),
        )
        for pond in ponds
    ]
    controls.append(layout.quiet_button("Add a pond", go("/new")))
    controls += leaving.example_buttons()
    controls += [
        layout.caution(f"{trouble.key} could not be read and was set aside: {trouble.reason}")
        for trouble in session.troubles
    ]
    controls += keeping.reminder()
    controls.append(layout.quiet_button("Units and containers", go("/settings")))
    controls.append(layout.quiet_button(t("Backup and restore"), go("/backup")))
    return layout.screen("/", "pondapp", controls)
