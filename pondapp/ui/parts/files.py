"""Files to and from the user's own folders."""

import re
from collections.abc import Callable, Coroutine
from typing import Any

import flet as ft

from pondapp.store.box import StoreError
from pondapp.ui import theme
from pondapp.ui.parts import layout


async def save_file(name: str, data: bytes) -> bool:
    """Hand a file to the user; False if the user thought better of it."""
    page = ft.context.page
    saved = await ft.FilePicker().save_file(file_name=name, src_bytes=data)
    # A browser downloads without a word; elsewhere no path means that the dialog was left.
    return page.web or saved is not None


def read_picked(label: str, read: Callable[[bytes], Coroutine[Any, Any, None]]) -> ft.Control:
    """A button that lets the user pick a file and reads it.

    The browser opens its dialog only inside the touch itself, so the button carries the action.
    """
    page = ft.context.page

    def picked(event: ft.FilePickerResultEvent) -> None:
        if event.files:
            page.run_task(take, event.files[0])

    async def take(file: ft.FilePickerFile) -> None:
        if file.bytes is None:
            raise StoreError("{name} could not be read", name=file.name)
        await read(bytes(file.bytes))

    kept: Any = ft.use_ref(lambda: ft.FilePicker())
    chooser = kept.current
    chooser.on_result = picked
    return ft.OutlinedButton(
        content=ft.Text(label, size=theme.BODY, text_align=ft.TextAlign.CENTER),
        height=theme.TOUCH,
        action=ft.PickFiles(chooser, with_data=True),
        style=ft.ButtonStyle(shape=layout.rounded()),
    )


def file_name(name: str, what: str, ending: str) -> str:
    """A name that every system takes for a file."""
    plain = re.sub(r"[^\w-]+", "-", name).strip("-")[:40]
    return f"{plain or 'pond'}-{what}.{ending}"
