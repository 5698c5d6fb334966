"""The user's own buckets and tubs."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.measuring.flow import volume_of_water
from pondapp.models.base import Limits, limits_of
from pondapp.models.reading import Container
from pondapp.state.ids import new_id
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.draft import use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.missing import waiting
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

HOW = (
    ("printed", "Mark or print on it"),
    ("weighed", "Weighed full, less weighed empty"),
)
HOLDS, GIVE = "It holds", "Give or take"
MAY_BE_OFF = "How far the mark or the scale may be off"
AMOUNT, TOLERANCE = limits_of(Container, "volume_m3"), limits_of(Container, "tolerance_m3")


def _of_water(volume: Limits) -> Limits:
    """The weight of as much water."""
    kilogram = volume_of_water(1.0)
    return Limits(volume.low / kilogram, volume.high / kilogram, volume.above)


FORM = Form(
    (
        QuantityField("holds", HOLDS, "volume", AMOUNT, needed=True),
        QuantityField("holds_tolerance", GIVE, "volume", TOLERANCE, MAY_BE_OFF, needed=True,
                      zero=False),
        QuantityField("weighs", HOLDS, "mass", _of_water(AMOUNT), "Weight of the water alone",
                      needed=True),
        QuantityField("weighs_tolerance", GIVE, "mass", _of_water(TOLERANCE), MAY_BE_OFF,
                      needed=True, zero=False),
    )
)  # fmt: skip
WHAT_IS_TYPED = {"printed": ("holds", "holds_tolerance"), "weighed": ("weighs", "weighs_tolerance")}
DRAFT = "container"


@ft.component
def ContainersPage() -> Any:
    """List, add and remove containers."""
    session = session_now()
    system = session.system
    draft = use_draft(DRAFT, {}, FORM)
    typed, note = draft.texts, draft.note
    how = typed.get("how", "printed")
    keys = WHAT_IS_TYPED[how]
    read = FORM.read(typed, system, only=keys)
    amount, tolerance = (read.values.get(key) for key in keys)

    if amount and tolerance and tolerance > amount / 2:
        tolerance = None
        read.errors[keys[1]] = t("That is more than half of what it holds; write less")
    volume, half_width = amount, tolerance
    if how == "weighed":
        volume = None if amount is None else volume_of_water(amount)
        half_width = None if tolerance is None else volume_of_water(tolerance)
    name = typed.get("name", "").strip()
    if wrong := fields.name_error(name):
        read.errors["name"] = wrong
    missing = [] if name else [t("Name")]
    missing += [t(FORM[key].label) for key in read.missing]
    ready = not (missing or read.errors)

    async def add(_: Any) -> None:
        if volume is None or half_width is None:
            return
        made = Container(
            id=new_id(),
            name=name,
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
                layout.aside(t("Remove {container}", container=container.name), remove(container)),
            ]
        )
        for container in session.preferences.containers
    ]
    return layout.screen(
        "/containers",
        t("Buckets and tubs"),
        [
            *listed,
            layout.heading(t("Add one")),
            fields.text_field(t("Name"), typed.get("name", ""), note("name"),
                              error=read.errors.get("name")),
            layout.choice(
                t("How do you know what it holds?"), layout.worded(HOW), how, note("how")
            ),
            *(FORM.draw(draft, key, read.errors) for key in keys),
            *waiting(missing, wrong=bool(read.errors)),
            layout.main_button(t("Add this container"), add, disabled=not ready),
        ],
    )  # fmt: skip
