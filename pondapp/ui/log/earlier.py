"""What an item of a log was before it was corrected."""

from collections.abc import Iterator

import flet as ft

from pondapp.answers.log.dates import moment_text
from pondapp.answers.log.log import LogItem
from pondapp.models.entry import EarlierEntry, Entry
from pondapp.models.reading import EarlierReading, Reading
from pondapp.state.ids import NO_POND
from pondapp.ui.log.log_words import headline, shortened
from pondapp.ui.methods.looks import LOOKS
from pondapp.ui.parts import layout
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


def pond_name(pond_id: str) -> str:
    """A pond by its name, and what lies in none."""
    if pond_id == NO_POND:
        return t("no pond")
    pond = session_now().ponds.get(pond_id)
    return pond.name if pond else t("a pond that is gone")


def _was(item: LogItem, one: EarlierReading | EarlierEntry, system: str) -> Iterator[str]:
    """What was another then, part by part."""
    if one.pond_id is not None:
        yield pond_name(one.pond_id)
    if isinstance(one, EarlierReading) and isinstance(item, Reading):
        if one.place_name is not None:
            yield one.place_name
        if one.method is not None:
            then = item.model_copy(update={"method": one.method, "band": None})
            yield headline(then, system).removeprefix(f"{item.place_name}: ")
            yield LOOKS[one.method.kind].how(one.method, system)
        if one.taken_at is not None:
            yield moment_text(one.taken_at)
    elif isinstance(one, EarlierEntry) and isinstance(item, Entry):
        if one.what is not None:
            yield headline(item.model_copy(update={"what": one.what}), system)
        if one.when is not None:
            yield moment_text(one.when)
    if one.note is not None:
        yield t("note: {note}", note=shortened(one.note) or "–")


def earlier_card(item: LogItem, system: str) -> list[ft.Control]:
    """Each correction: when it was made, and what stood there until then."""
    if not item.earlier:
        return []
    corrections: tuple[EarlierReading | EarlierEntry, ...] = item.earlier
    lines = [
        layout.small(
            t("Until {when}: {what}", when=moment_text(one.changed_at),
              what=", ".join(_was(item, one, system)))
        )
        for one in reversed(corrections)
    ]  # fmt: skip
    return [layout.card([layout.heading(t("What it was before")), *lines])]
