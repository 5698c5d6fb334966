"""Whether a hose was changed or only its entry, which decides what earlier readings still say."""

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.answers.plumbing.path import Line, line_name, lines_of
from pondapp.answers.plumbing.path_edits import with_line
from pondapp.answers.plumbing.plumbing import line_of
from pondapp.answers.plumbing.pump_history import places_behind, read_only_before, rebuilds
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.parts.change import DOUBTED, save_change
from pondapp.ui.parts.draft import Typed
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

NEW, BUILT, ENTRY = "new", "built", "entry"


def what_is_new(pond: Pond, line: Line, made: Pond | None, typed: Typed) -> list[ft.Control]:
    """The question, where what is typed changes a hose of a line in which something was read."""
    changed = line_of(made, line.id) if made else None
    places = places_behind(line)
    read = any(one.place_id in places for one in session_now().logs.readings_of(pond.id))
    if changed is None or not read or not rebuilds(changed, line):
        return []
    options = [
        (BUILT, t("The hose itself: what was measured before says nothing of it")),
        (ENTRY, t("Only this entry: it was like this all along")),
    ]
    return [layout.choice(t("What is new here"), options, typed.text(NEW, BUILT), typed.note(NEW))]


def only_entry(typed: Typed) -> bool:
    """Whether the answer is that only the entry was changed."""
    return typed.text(NEW, BUILT) == ENTRY


def as_it_was(pond: Pond, lines: Sequence[Line] = (), *, told: bool = True) -> list[ft.Control]:
    """What was taken for a change of the hoses, and the way back where only the entry changed.

    Each line has its own way back: the hose of another one may really be new.

    Args:
        pond: The pond.
        lines: The lines that it is about; all of them, if none is given.
        told: Whether to say what was taken for it; not where it stands at each place already.
    """
    readings, now = session_now().logs.readings_of(pond.id), datetime.now(UTC)
    every = lines or lines_of(pond)
    doubted = [one for one in every if read_only_before(one, readings, now)]
    if not doubted:
        return []

    def way_back(line: Line) -> ft.Control:
        async def count(_: Any) -> None:
            made = with_line(pond, line.id, rebuilt_at=None)
            await save_change(made, t("What was measured before counts again"), corrected=True)

        back = t("Only the entry changed: it was like this all along")
        if len(every) > 1:
            back = t("{place}. {name}", place=line_name(pond, line), name=back)
        return layout.quiet_button(back, count)

    return [*([layout.small(t(DOUBTED))] if told else []), *map(way_back, doubted)]
