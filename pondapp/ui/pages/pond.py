"""One pond: what each place wants, what was last measured there, and the log."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.models.reading import Reading
from pondapp.sizing.flow import FlowBand, measured
from pondapp.sizing.targets import targets, water_volume
from pondapp.ui.current import session_now
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import MARKS, interval_text, target_card
from pondapp.ui.parts.navigate import go


def reading_line(reading: Reading, system: str) -> tuple[str, str]:
    """A reading as two lines: when and where, and what it says."""
    band: FlowBand | None = None
    if reading.band:
        wanted = reading.band
        band = FlowBand(low=wanted.low_m3_s, target=wanted.target_m3_s, high=wanted.high_m3_s)
    found = measured(reading.container, reading.fills, band)
    when = reading.taken_at.astimezone().strftime("%Y-%m-%d %H:%M")
    first = f"{when}, {reading.place_name}"
    if found is None:
        return first, "every fill was struck out"
    flow = units.show(found.flow.flow, "flow", system)
    verdict = "" if band is None else f"  {MARKS[found.kind]} {units.tell(found.verdict, system)}"
    return first, f"{flow}, {interval_text(found, system)}{verdict}"


def reading_card(reading: Reading, system: str) -> ft.Control:
    """A reading in the log."""
    first, second = reading_line(reading, system)
    fills = ", ".join(
        f"{units.significant(fill.seconds)} s{' (struck out)' if fill.struck else ''}"
        for fill in reading.fills
    )
    lines: list[ft.Control] = [
        layout.body(first),
        layout.body(second),
        layout.small(f"{reading.container.name}: {fills}"),
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
            [layout.fact("The pond holds", units.show(water_volume(pond.water), "volume", system))],
            strong=True,
        )
    ]
    for place in found.places:
        last = next((reading for reading in log if reading.place_id == place.place_id), None)
        extra: list[ft.Control] = []
        if last:
            extra.append(layout.body(f"Last: {reading_line(last, system)[1]}"))
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
    controls += [
        layout.caution(
            "small children drown in centimetres of water. Fence or grid the pond, and never "
            "leave them alone beside it."
        ),
        layout.quiet_button("Change this pond", go(f"/pond/{pond.id}/edit")),
    ]
    return layout.screen(f"/pond/{pond.id}", pond.name, controls)
