"""One pond: what each place wants, what was last measured there, and the log."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.models.reading import Reading
from pondapp.sizing.methods import measured_reading
from pondapp.sizing.targets import targets
from pondapp.ui.current import session_now
from pondapp.ui.parts import cautions, layout
from pondapp.ui.parts.answers import how_measured, interval_text, target_card, verdict_row
from pondapp.ui.parts.leaving import delete_button
from pondapp.ui.parts.navigate import go


def result_lines(reading: Reading, system: str) -> list[ft.Control]:
    """What a reading says: the flow with its interval, and the verdict."""
    found = measured_reading(reading)
    if found is None:
        return [layout.body("Every fill was struck out.")]
    flow = units.show(found.flow.flow, "flow", system)
    lines: list[ft.Control] = [layout.body(f"{flow}: {interval_text(found, system)}")]
    if found.kind != "no target":
        lines.append(verdict_row(found, system))
    return lines


def when(reading: Reading) -> str:
    """Local date and time of a reading."""
    return reading.taken_at.astimezone().strftime("%Y-%m-%d %H:%M")


def reading_card(reading: Reading, system: str) -> ft.Control:
    """A reading in the log."""
    lines = [
        layout.small(f"{when(reading)}, {reading.place_name}"),
        *result_lines(reading, system),
        layout.small(how_measured(reading.method, system)),
    ]
    if reading.note:
        lines.append(layout.small(reading.note))
    return layout.card(lines)


@ft.component
def PondPage() -> Any:
    """The pond's own screen."""
    session = session_now()
    system = session.system
    pond = session.ponds.get(ft.use_route_params().get("pond_id", ""))
    if pond is None:
        missing = [layout.body("This pond is not on this device.")]
        return layout.screen("/pond", "No such pond", missing)
    found = targets(pond)
    log = session.log(pond.id)
    controls: list[ft.Control] = [
        layout.card(
            [layout.fact("The pond holds", units.show(found.volume, "volume", system))],
            strong=True,
        )
    ]
    for place in found.places:
        last = next((reading for reading in log if reading.place_id == place.place_id), None)
        extra: list[ft.Control] = []
        if last:
            extra.append(layout.small(f"Last measured {when(last)}"))
            extra += result_lines(last, system)
        extra.append(
            layout.second_button(
                f"Measure at {place.name}", go(f"/measure/{pond.id}/{place.place_id}")
            )
        )
        controls.append(target_card(place, system, extra))
    spare = found.over_the_top()
    if spare > 0:
        text = units.show(spare, "flow", system)
        controls.append(
            layout.body(f"Send at least {text} past the bog: over its top or through a T-piece.")
        )
    controls.append(layout.heading("Log"))
    if not log:
        controls.append(layout.body("No readings yet."))
    controls += [reading_card(reading, system) for reading in log]
    controls += [cautions.children(), delete_button(pond)]
    return layout.screen(f"/pond/{pond.id}", pond.name, controls)
