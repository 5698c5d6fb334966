"""Save a changed pond, say so, and offer to undo it."""

from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.answers.plumbing.pump_history import read_only_before
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

DOUBTED = "What was measured before the change says nothing of it now."


def with_doubt(what: str, saved: Pond, before: Pond | None) -> str:
    """What is said of a saved change, and that it left open what was measured, where it did."""
    known = {line.id: line.rebuilt_at for line in before.lines} if before else {}
    readings, now = session_now().logs.readings_of(saved.id), datetime.now(UTC)
    if any(
        line.rebuilt_at != known.get(line.id) and read_only_before(line, readings, now)
        for line in saved.lines
    ):
        return f"{layout.sentence(what)} {t(DOUBTED)}"
    return what


async def save_change(pond: Pond, what: str, *, corrected: bool = False) -> None:
    """Save the pond; one touch on Undo restores what it was.

    Args:
        pond: The changed pond.
        what: What is said of it.
        corrected: Whether its hoses are as they were, and only what was entered was wrong.
    """
    session = session_now()
    before = session.ponds.get(pond.id)
    if before == pond:
        return
    saved = await session.ponds.save(pond, corrected=corrected)

    async def undo() -> None:
        # Not once it was changed again: that would take back something else.
        if session.ponds.get(pond.id) == saved:
            await session.ponds.undo(pond.id)

    say(with_doubt(what, saved, before), undo=undo if before is not None else None)


def undo_button(pond_id: str) -> list[ft.Control]:
    """Undoes the last change of a pond, and the one before it with the next touch."""
    session = session_now()
    if not session.ponds.undo_stack.get(pond_id):
        return []

    async def undo(_: Any) -> None:
        await session.ponds.undo(pond_id)

    return [layout.quiet_button(t("Undo the last change"), undo)]
