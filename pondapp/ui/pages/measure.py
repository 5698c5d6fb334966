"""Time the bucket, see the flow, compare it with what is wanted."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.models.reading import Band, Bucket, Reading
from pondapp.sizing.flow import measured
from pondapp.sizing.plan import wanted
from pondapp.ui.current import session_now
from pondapp.ui.pages.places import OUTLETS
from pondapp.ui.parts import fields, fills, layout
from pondapp.ui.parts.answers import flow_card
from pondapp.ui.parts.navigate import say
from pondapp.ui.session import new_id
from pondapp.words import t


@ft.component
def MeasurePage() -> Any:
    """Everything timed is kept at once, so that a closed browser loses nothing."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond = session.ponds.get(params.get("pond_id", ""))
    place_id = params.get("place_id", "outlet")
    target = wanted(pond).place(place_id) if pond else None
    draft_id = fills.fills_draft_id(pond.id if pond else "none", place_id)
    entry = fills.use_fills(draft_id)
    container = entry.container
    controls: list[ft.Control] = []
    if target and pond:
        controls.append(layout.body(f"{pond.name}, {OUTLETS[target.kind]}"))
    if container is None:
        return layout.screen(f"/measure/{place_id}", t("Measure"), controls + fills.no_container())
    if target:
        controls.append(layout.body(fills.aim_text(container, target.band, system)))
    controls += fills.stopwatch(entry)
    controls += fills.fill_rows(entry, system)
    band = target.band if target else None
    found = measured(container, entry.fills, band)
    if found:
        controls.append(flow_card(found, system))

    async def save(_: Any) -> None:
        if not found:
            return
        await session.keep_reading(
            Reading(
                id=new_id(),
                pond_id=pond.id if pond else "none",
                place_id=place_id,
                place_name=target.name if target else t("Outlet"),
                taken_at=datetime.now(UTC),
                method=Bucket(container=container, fills=entry.fills),
                band=Band(
                    low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high
                ) if band else None,
                note=entry.text("note")[:4000],
            )
        )  # fmt: skip
        await entry.saved()
        say(t("Saved in the log"))
        ft.context.page.navigate(f"/pond/{pond.id}" if pond else "/measure")

    controls += [
        *fills.typed_time(entry, system),
        *fills.container_choice(entry),
        fields.text_field(t("Note"), entry.text("note"), entry.note("note"), multiline=True),
        layout.main_button(t("Save in the log"), save, disabled=found is None),
    ]
    title = target.name if target else t("Measure")
    return layout.screen(f"/measure/{draft_id}", title, controls)
