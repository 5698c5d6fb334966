"""Readings as the log and the water path show them."""

import flet as ft

from pondapp import units
from pondapp.models.reading import Reading
from pondapp.sizing.dates import moment_text
from pondapp.sizing.methods import measured_reading
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import how_measured, interval_text, verdict_row
from pondapp.words import t


def result_lines(reading: Reading, system: str) -> list[ft.Control]:
    """What a reading says: the flow with its interval, and the verdict."""
    found = measured_reading(reading)
    if found is None:
        return [layout.body(t("Every fill was struck out."))]
    flow = units.show(found.flow.flow, "flow", system)
    lines: list[ft.Control] = [layout.body(f"{flow}: {interval_text(found, system)}")]
    if found.kind != "no target":
        lines.append(verdict_row(found, system))
    return lines


def when(reading: Reading) -> str:
    """Local date and time of a reading."""
    return moment_text(reading.taken_at)


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
