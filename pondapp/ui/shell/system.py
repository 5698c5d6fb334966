"""What the device's system does with the app: installs it, opens files with it, shows its badge."""

from typing import Any, get_args

import flet as ft

from pondapp.state.device import Installing
from pondapp.state.session import Session
from pondapp.store.browser.page import ask, on_told

WAYS: tuple[Installing, ...] = get_args(Installing)


def listen(page: ft.Page, session: Session) -> None:
    """Hear whether the app can be installed and of files that are opened with it."""
    device = session.device

    async def note(installing: Any) -> None:
        way: Installing = next((one for one in WAYS if one == str(installing)), "no")
        if way != device.installing:
            device.installing = way
            device.on_change()

    async def take(file: Any) -> None:
        device.opened = file
        device.on_change()
        page.navigate("/backup")

    async def begin() -> None:
        await note(await ask("system"))

    # Told from outside the framework, which wants a task of its own.
    on_told("installing", lambda told: page.run_task(note, told))
    on_told("opened", lambda told: page.run_task(take, told))
    page.run_task(begin)


async def show_badge(count: int) -> None:
    """Show on the app's icon how many jobs are due; nothing where none is."""
    await ask("badge", count=count)
