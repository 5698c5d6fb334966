"""The user's own buckets and tubs."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.models.reading import Container
from pondapp.sizing.flow import volume_of_water
from pondapp.ui.current import session_now
from pondapp.ui.parts import fields, layout
from pondapp.ui.session import new_id

HOW = (
    ("printed", "Mark or print on it"),
    ("weighed", "Weighed full, less weighed empty"),
)


@ft.component
def ContainersPage() -> Any:
    """List, add and remove containers."""
    session = session_now()
    system = session.system
    typed, set_typed = ft.use_state({"name": "", "amount": "", "tolerance": ""})
    how, set_how = ft.use_state("printed")

    def note(key: str) -> Any:
        return lambda text: set_typed(lambda before: {**before, key: text})

    kind = "volume" if how == "printed" else "mass"
    amount, amount_error = fields.read_quantity(typed["amount"], kind, system)
    tolerance, tolerance_error = fields.read_quantity(typed["tolerance"], kind, system)
    volume = amount if how == "printed" or amount is None else volume_of_water(amount)
    half_width = tolerance if how == "printed" or tolerance is None else volume_of_water(tolerance)
    if volume is not None and not 1e-5 <= volume <= 10:
        volume, amount_error = None, "A container holds from 0.01 to 10,000 litres"
    if volume and half_width and half_width > volume / 2:
        half_width, tolerance_error = None, "That is more than half of it; write for example 0.2"
    ready = bool(typed["name"].strip() and volume and half_width)

    async def add(_: Any) -> None:
        if volume is None or half_width is None:
            return
        made = Container(
            id=new_id(),
            name=typed["name"].strip()[:80],
            volume_m3=volume,
            tolerance_m3=half_width,
            found_by="printed" if how == "printed" else "weighed",
        )
        kept = (*session.preferences.containers, made)
        await session.keep_preferences(session.preferences.model_copy(update={"containers": kept}))
        set_typed({"name": "", "amount": "", "tolerance": ""})

    def remove(container: Container) -> Any:
        async def handler(_: Any) -> None:
            rest = tuple(c for c in session.preferences.containers if c.id != container.id)
            await session.keep_preferences(
                session.preferences.model_copy(update={"containers": rest})
            )

        return handler

    listed = [
        layout.card(
            [
                layout.fact(
                    container.name,
                    f"{units.show(container.volume_m3, 'volume', system)} ± "
                    f"{units.show(container.tolerance_m3, 'volume', system, 2)}",
                    "weighed" if container.found_by == "weighed" else "as printed",
                ),
                layout.quiet_button(f"Remove {container.name}", remove(container)),
            ]
        )
        for container in session.preferences.containers
    ]
    unit = units.unit_for(kind, system)
    return layout.screen(
        "/containers",
        "Buckets and tubs",
        [
            *listed,
            layout.heading("Add one"),
            fields.text_field("Name", typed["name"], note("name")),
            layout.choice("How do you know what it holds?", HOW, how, set_how),
            fields.quantity_field(
                "It holds", typed["amount"], note("amount"), unit=unit, error=amount_error,
                helper="" if how == "printed" else "Weight of the water alone",
            ),
            fields.quantity_field(
                "Give or take", typed["tolerance"], note("tolerance"), unit=unit,
                error=tolerance_error, helper="How far the mark or the scale may be off",
            ),
            layout.main_button("Add this container", add, disabled=not ready),
        ],
    )  # fmt: skip
