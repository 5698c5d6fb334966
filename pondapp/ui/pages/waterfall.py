"""Check a waterfall: its flow against its width."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.sizing.waterfall import check_sheet, lip_wants
from pondapp.ui.current import session_now
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.answers import band_text
from pondapp.ui.parts.draft import use_draft
from pondapp.ui.parts.navigate import go

DRAFT = "waterfall"


@ft.component
def WaterfallPage() -> Any:
    """Width and flow in, what the sheet will look like out."""
    system = session_now().system
    typed = use_draft(DRAFT, {})
    texts, note = typed.texts, typed.note
    width, width_error = fields.read_quantity(texts.get("lip", ""), "width", system)
    flow, flow_error = fields.read_quantity(texts.get("flow", ""), "flow", system)
    controls: list[ft.Control] = [
        fields.quantity_field("Width of the lip", texts.get("lip", ""), note("lip"),
                              unit=units.unit_for("width", system), error=width_error),
        fields.quantity_field("Flow over it", texts.get("flow", ""), note("flow"),
                              unit=units.unit_for("flow", system), error=flow_error,
                              helper="As measured; leave empty to see what it wants"),
    ]  # fmt: skip
    if width is not None:
        controls.append(
            layout.card(
                [
                    layout.fact(
                        "This lip wants",
                        band_text(lip_wants(width), system),
                        "By the usual flow per width of lip. Common practice, no source.",
                    )
                ],
                strong=True,
            )
        )
    if width is not None and flow is not None:
        check = check_sheet(width, flow)
        fed = units.show(check.width_fed, "width", system)
        share = units.significant(100 * check.share, 2)
        controls.append(
            layout.card(
                [
                    layout.fact("Of a full sheet", f"{share} %"),
                    layout.fact("This flow feeds a full sheet on a lip of", fed),
                ]
            )
        )
    controls.append(layout.main_button("Measure the flow", go("/measure")))
    return layout.screen("/waterfall", "Check a waterfall", controls)
