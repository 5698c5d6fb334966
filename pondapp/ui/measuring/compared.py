"""A flow beside an earlier one at the same place by another method."""

from datetime import UTC, datetime

import flet as ft

from pondapp import units
from pondapp.answers.measuring.compare import beside
from pondapp.answers.measuring.flow import FlowBand, Measured
from pondapp.answers.measuring.methods import Assumptions
from pondapp.answers.methods.kinds import METHODS
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import MARKS, interval_text, spread_text
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def compared_card(
    found: Measured, method_kind: str, pond_id: str, place_id: str, band: FlowBand | None,
    rules: Assumptions, system: str,
) -> list[ft.Control]:  # fmt: skip
    """What another method said here not long ago, and what both say together."""
    other = beside(
        found.flow, method_kind, session_now().logs.readings_of(pond_id), place_id,
        datetime.now(UTC), band, rules.measuring,
    )  # fmt: skip
    if other is None:
        return []
    lines: list[ft.Control] = [
        layout.fact(
            t("{method}, at this place", method=t(METHODS[other.reading.method.kind].name)),
            units.show(other.other.flow.flow, "flow", system),
            interval_text(other.other, system),
        ),
        layout.body(units.tell(other.sentence, system)),
    ]
    if pond_id not in session_now().ponds:  # readings without a pond name no outlet
        lines.append(layout.small(t("This holds only if both were taken at the same outlet.")))
    if other.together:
        lines.append(
            layout.fact(
                t("Both together"),
                units.show(other.together.flow, "flow", system),
                spread_text(
                    other.together.low, other.together.high, other.together.coverage, system
                ),
            )
        )
    if other.kind != "no target":
        lines.append(layout.marked(MARKS[other.kind], units.tell(other.verdict, system)))
    return [layout.card(lines)]
