"""Time the bucket, see the flow, compare it with what is wanted."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp import units
from pondapp.models.preferences import Draft
from pondapp.models.reading import Band, Bucket, Container, Fill, Reading
from pondapp.sizing.flow import fill_window, measured
from pondapp.sizing.targets import targets
from pondapp.ui import theme
from pondapp.ui.current import session_now
from pondapp.ui.pages.places import OUTLETS
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.answers import flow_card
from pondapp.ui.parts.navigate import go, say
from pondapp.ui.parts.stopwatch import Stopwatch
from pondapp.ui.session import new_id

LONGEST_FILL = 86_400.0


@ft.component
def MeasurePage() -> Any:
    """Everything timed is kept at once, so that a closed browser loses nothing."""
    session = session_now()
    system = session.system
    params = ft.use_route_params()
    pond = session.ponds.get(params.get("pond_id", ""))
    place_id = params.get("place_id", "outlet")
    target = targets(pond).place(place_id) if pond else None
    draft_id = f"fills-{pond.id if pond else 'none'}-{place_id}"
    draft, set_draft = ft.use_state(session.drafts.get(draft_id) or Draft(id=draft_id))

    def keep(**changes: Any) -> None:
        changed = draft.model_copy(update=changes)
        set_draft(changed)
        ft.context.page.run_task(session.keep_draft, changed)

    def note(key: str) -> Any:
        return lambda text: keep(texts={**draft.texts, key: text})

    containers = session.preferences.containers
    chosen = draft.texts.get("container", "")
    container: Container | None = next(
        (c for c in containers if c.id == chosen), containers[0] if containers else None
    )
    controls: list[ft.Control] = []
    if target and pond:
        controls.append(layout.body(f"{pond.name}, {OUTLETS[target.kind]}"))
    if container is None:
        controls += [
            layout.body("Add the bucket or tub that you will fill first."),
            layout.main_button("Add a container", go("/containers")),
        ]
        return layout.screen(f"/measure/{place_id}", "Measure", controls)
    if target:
        window = fill_window(container, target.band)
        aim = f"Aim for {units.show(window.aim, 'duration', system)} in {container.name}."
        if window.longest is not None:
            shortest = units.significant(window.shortest or 0.0)
            longest = units.show(window.longest, "duration", system)
            aim += (
                f" Anything from {shortest} to {longest} is fine."
                if window.shortest
                else f" {longest} or less is fine."
            )
        controls.append(layout.body(aim))

    def stop(seconds: float) -> None:
        if seconds <= LONGEST_FILL:
            keep(started_at=None, fills=(*draft.fills, Fill(seconds=round(seconds, 3))))
        else:
            keep(started_at=None)

    controls.append(
        Stopwatch(draft.started_at, lambda pressed: keep(started_at=pressed), stop),
    )
    if draft.started_at is not None:
        controls.append(
            layout.quiet_button("Throw this fill away", lambda _: keep(started_at=None))
        )

    def strike(index: int) -> Any:
        def handler(_: Any) -> None:
            fill = draft.fills[index]
            turned = fill.model_copy(update={"struck": not fill.struck})
            keep(fills=(*draft.fills[:index], turned, *draft.fills[index + 1 :]))

        return handler

    for index, fill in enumerate(draft.fills):
        text = f"Fill {index + 1}: {units.show(fill.seconds, 'duration', system)}"
        controls.append(
            ft.Row(
                [
                    ft.Text(text + (", struck out" if fill.struck else ""), size=theme.BODY),
                    layout.quiet_button(
                        f"Take fill {index + 1} back"
                        if fill.struck
                        else f"Strike fill {index + 1}",
                        strike(index),
                    ),
                ],
                alignment=ft.MainAxisAlignment.SPACE_BETWEEN,
                wrap=True,
            )
        )
    band = target.band if target else None
    found = measured(container, draft.fills, band)
    if found:
        controls.append(flow_card(found, system))

    typed = draft.texts.get("seconds", "")
    seconds, error = fields.read_quantity(typed, "duration", system)
    if seconds is not None and seconds > LONGEST_FILL:
        seconds, error = None, "Write a time of at most a day"

    def add_typed(_: Any) -> None:
        if seconds is not None:
            keep(
                fills=(*draft.fills, Fill(seconds=seconds, typed=True)),
                texts={**draft.texts, "seconds": ""},
            )

    async def save(_: Any) -> None:
        if not found:
            return
        await session.keep_reading(
            Reading(
                id=new_id(),
                pond_id=pond.id if pond else "none",
                place_id=place_id,
                place_name=target.name if target else "Outlet",
                taken_at=datetime.now(UTC),
                method=Bucket(container=container, fills=draft.fills),
                band=Band(
                    low_m3_s=band.low, target_m3_s=band.target, high_m3_s=band.high
                ) if band else None,
                note=draft.texts.get("note", "")[:4000],
            )
        )  # fmt: skip
        await session.drop_draft(draft_id)
        set_draft(Draft(id=draft_id, texts={"container": container.id}))
        say("Saved in the log")
        ft.context.page.navigate(f"/pond/{pond.id}" if pond else "/measure")

    controls += [
        fields.quantity_field(
            "Or type a fill time", typed, note("seconds"),
            unit=units.unit_for("duration", system), error=error,
        ),
        layout.second_button("Add this time", add_typed, disabled=seconds is None),
        layout.choice(
            "Container", [(c.id, c.name) for c in containers], container.id, note("container")
        ),
        layout.quiet_button("Add or remove containers", go("/containers")),
        fields.text_field("Note", draft.texts.get("note", ""), note("note"), multiline=True),
        layout.main_button("Save in the log", save, disabled=found is None),
    ]  # fmt: skip
    title = target.name if target else "Measure"
    return layout.screen(f"/measure/{draft_id}", title, controls)
