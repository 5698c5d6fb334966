"""Readings as the log and the water path show them."""

from collections.abc import Iterator

import flet as ft

from pondapp import units
from pondapp.answers.log.dates import moment_text
from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.methods.kinds import METHODS, NOTHING
from pondapp.answers.tuning.turns import flow_of_set
from pondapp.core.base.errors import PondError
from pondapp.models.reading import Reading
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import layout
from pondapp.ui.parts.answers import flow_text, interval_text, rules_at, verdict_row
from pondapp.ui.shell.navigate import go
from pondapp.words import t


def result_lines(reading: Reading, system: str, *, judged: bool = True) -> list[ft.Control]:
    """What a reading says: the flow with its interval, and the verdict by what was wanted then."""
    try:
        found = measured_reading(reading, rules_at(reading.pond_id))
    except PondError as problem:
        return [layout.caution(units.explain(problem, system))]
    if found is None:
        return [layout.body(t("Every fill was struck out."))]
    said = t(METHODS[NOTHING].name)
    if not found.dry:
        said = f"{flow_text(found, system)}: {interval_text(found, system)}"
    lines: list[ft.Control] = [layout.body(said)]
    if judged and found.kind != "no target":
        lines.append(verdict_row(found, system))
    return lines


def can_be(reading: Reading) -> bool:
    """Whether its numbers are those of a flow."""
    try:
        measured_reading(reading, rules_at(reading.pond_id))
    except PondError:
        return False
    return True


def when(reading: Reading) -> str:
    """Local date and time of a reading."""
    return moment_text(reading.taken_at)


def _how(reading: Reading, system: str) -> str:
    return LOOKS[reading.method.kind].how(reading.method, system)


def _of_the_valve(reading: Reading, system: str) -> Iterator[str]:
    """Where its handle stood, and what was timed in the same visit before it was turned there."""
    if reading.opened is not None:
        yield t("The valve was {share} open.", share=units.show(reading.opened, "share", system))
    told = []
    for one in (one for one in reading.before_turn if one.fills):
        found = flow_of_set(one, rules_at(reading.pond_id))
        told.append(
            flow_text(found, system)
            if found
            else ", ".join(units.show(fill.seconds, "duration", system) for fill in one.fills)
        )
    if told:
        yield t("Timed before that, not counted: {flows}.", flows="; ".join(told))


def when_and_how(reading: Reading, system: str) -> str:
    """When a reading was taken and what was read."""
    return f"{when(reading)}. {_how(reading, system)}"


def reading_card(
    reading: Reading, system: str, opens: str = "", *, judged: bool = True
) -> ft.Control:
    """A reading in the log; it opens a screen where one is named."""
    lines = [
        layout.small(f"{when(reading)}, {reading.place_name}"),
        *result_lines(reading, system, judged=judged),
        layout.small(_how(reading, system)),
    ]
    if not opens:
        lines += [layout.small(line) for line in _of_the_valve(reading, system)]
    if reading.note:
        lines.append(layout.small(reading.note))
    return layout.tile([layout.card_button(lines, go(opens))]) if opens else layout.card(lines)
