"""The user's own buckets and tubs."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.flow import volume_of_water
from pondapp.models.reading import Container
from pondapp.state.ids import new_id
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import use_draft
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

HOW = (
    ("printed", "Mark or print on it"),
    ("weighed", "Weighed full, less weighed empty"),
)
WHAT_IS_TYPED = {
    "printed": ("volume", "holds", "holds_give"),
    "weighed": ("mass", "weighs", "weighs_give"),
}
DRAFT = "container"
LIMITS = {"volume": (1e-5, 10.0), "mass": (0.01, 10_000.0)}


@ft.component
def ContainersPage() -> Any:
    """List, add and remove containers."""
    session = session_now()
    system = session.system
    draft = use_draft(DRAFT, {})
    typed, note = draft.texts, draft.note
    how = typed.get("how", "printed")
    kind, amount_key, give_key = WHAT_IS_TYPED[how]

    amount, amount_error = fields.read_quantity(
        typed.get(amount_key, ""), kind, system, *LIMITS[kind]
    )
    give, give_error = fields.read_quantity(typed.get(give_key, ""), kind, system)
    if amount and give and give > amount / 2:
        give, give_error = None, t("That is more than half of what it holds; write less")
    volume, half_width = amount, give
    if how == "weighed":
        volume = None if amount is None else volume_of_water(amount)
        half_width = None if give is None else volume_of_water(give)
    ready = bool(typed.get("name", "").strip() and volume and half_width)

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
        await session.settings.save(session.preferences.model_copy(update={"containers": kept}))
        draft.put({"how": how})

    def remove(container: Container) -> Any:
        async def handler(_: Any) -> None:
            rest = tuple(c for c in session.preferences.containers if c.id != container.id)
            await session.settings.save(session.preferences.model_copy(update={"containers": rest}))

        return handler

    listed = [
        layout.card(
            [
                layout.fact(
                    container.name,
                    t(
                        "{volume} ± {give}",
                        volume=units.show(container.volume_m3, "volume", system),
                        give=units.show(container.tolerance_m3, "volume", system, 2),
                    ),
                    t("weighed") if container.found_by == "weighed" else t("as printed"),
                ),
                layout.quiet_button(
                    t("Remove {container}", container=container.name), remove(container)
                ),
            ]
        )
        for container in session.preferences.containers
    ]
    unit = units.unit_for(kind, system)
    return layout.screen(
        "/containers",
        t("Buckets and tubs"),
        [
            *listed,
            layout.heading(t("Add one")),
            fields.text_field(t("Name"), typed.get("name", ""), note("name")),
            layout.choice(
                t("How do you know what it holds?"), layout.worded(HOW), how, note("how")
            ),
            fields.quantity_field(
                t("It holds"), typed.get(amount_key, ""), note(amount_key), unit=unit,
                error=amount_error,
                helper="" if how == "printed" else t("Weight of the water alone"),
            ),
            fields.quantity_field(
                t("Give or take"), typed.get(give_key, ""), note(give_key), unit=unit,
                error=give_error, helper=t("How far the mark or the scale may be off"),
            ),
            layout.main_button(t("Add this container"), add, disabled=not ready),
        ],
    )  # fmt: skip
