"""Quick sizing: one number in, first sizes out."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.models.preferences import Draft
from pondapp.sizing.quick import quick_size
from pondapp.ui.current import session_now
from pondapp.ui.pages.pond_form import NEW_POND
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.answers import band_text
from pondapp.ui.parts.draft import use_draft

DRAFT = "size"
PRACTICE = "Common practice, no source."


@ft.component
def SizePage() -> Any:
    """For the shop aisle."""
    session = session_now()
    system = session.system
    typed = use_draft(DRAFT, {})
    text, note = typed.text("volume"), typed.note("volume")
    volume, error = fields.read_quantity(text, "volume", system)
    controls: list[ft.Control] = [
        fields.quantity_field(
            "The pond holds", text, note, unit=units.unit_for("volume", system), error=error
        )
    ]
    if volume is not None:
        sizes = quick_size(volume)
        bog = units.show(sizes.bog_volume, "volume", system)
        heavy = units.show(sizes.bog_volume_heavy, "volume", system)
        controls += [
            layout.card(
                [layout.fact("Pump, at its real head", band_text(sizes.pump, system),
                             f"The pond's water once an hour. {PRACTICE}")], strong=True),
            layout.card(
                [layout.fact("Bog filter", f"{bog} or more",
                             f"A tenth of the pond; {heavy} for many or large fish. {PRACTICE}"),
                 layout.fact("Flow through that bog", band_text(sizes.bog, system),
                             f"5 to 15 minutes through the bed. {PRACTICE}")]),
            layout.card(
                [layout.fact("Or a high-flow filter", band_text(sizes.high_flow, system),
                             f"The pond 2 to 4 times an hour. {PRACTICE}")]),
        ]  # fmt: skip

    async def make_pond(_: Any) -> None:
        begun = session.drafts.get(NEW_POND) or Draft(id=NEW_POND)
        texts = {**begun.texts, "shape": "typed", "volume": text}
        await session.keep_draft(begun.model_copy(update={"texts": texts}))
        ft.context.page.navigate("/new")

    controls.append(layout.quiet_button("Make a pond of it", make_pond))
    return layout.screen("/size", "Size up", controls)
