"""Ponds that come and go whole: the invented example, and deleting with a way back."""

import asyncio
from datetime import UTC, datetime
from typing import Any

import flet as ft

from pondapp.answers.sharing.example import (
    EXAMPLE,
    example_entries,
    example_pond,
    example_readings,
)
from pondapp.models.pond import Pond
from pondapp.store.browser import page as browser
from pondapp.ui.parts import layout
from pondapp.ui.shell import notice
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t


async def _load_example(_: Any) -> None:
    session = session_now()
    notice.take_away()  # maybe it says that the example is deleted
    now = datetime.now(UTC)
    await session.add_pond(example_pond(), (*example_readings(now), *example_entries(now)))
    session.logs.items_of(EXAMPLE)  # asked for here: the first screen asks for no log
    ft.context.page.navigate(f"/pond/{EXAMPLE}")


def delete_pond(pond_id: str) -> None:
    """Take a pond away; it and its readings are deleted once the undo has passed."""
    session = session_now()
    session.logs.items_of(pond_id)  # read now: what another tab saves from here on is newer
    pond = session.deletion.mark_deleted(pond_id)
    if pond is None:
        return

    undone: list[bool] = []

    async def restore() -> None:
        undone.append(True)
        session.deletion.restore(pond)

    async def delete() -> None:
        await asyncio.sleep(notice.UNDO_SECONDS)
        if undone:
            return
        if session.deletion.is_pending(pond):
            await session.deletion.delete(pond)
        elif pond.id in session.ponds and pond.id != EXAMPLE:  # which may have been taken in again
            say(t("{pond} was not deleted: another tab or window works on it.", pond=pond.name))

    say(t("{pond} is deleted, with its readings.", pond=pond.name), undo=restore)
    ft.context.page.run_task(delete)


def example_buttons() -> list[ft.Control]:
    """For the first screen: load the example while there is no pond; take it away once loaded."""
    ponds = session_now().ponds
    if EXAMPLE in ponds:
        return [layout.quiet_button(t("Remove the example pond"), lambda _: delete_pond(EXAMPLE))]
    if not ponds:
        return [layout.quiet_button(t("Look round an example pond"), _load_example)]
    return []


def delete_button(pond: Pond) -> ft.Control:
    """For the foot of a pond's own screen."""

    async def delete(_: Any) -> None:
        await browser.ask("instead", seconds=1.0, route="/")  # Back must not lead to what is gone
        ft.context.page.navigate("/")
        delete_pond(pond.id)

    return layout.quiet_button(t("Delete this pond"), delete)
