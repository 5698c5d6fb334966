"""Files to and from the user's own folders."""

import re
from collections.abc import Callable, Coroutine
from typing import Any

import flet as ft

from pondapp.store.box import StoreError
from pondapp.ui import theme
from pondapp.ui.parts import layout

Read = Callable[[bytes], Coroutine[Any, Any, None]]

# One for the whole app: a dialog may outlive the drawing of the button that opened it. What is
# picked goes to the screen that drew its button last.
_picker: list[ft.FilePicker] = []
_reader: list[Read] = []


async def save_file(name: str, data: bytes) -> bool:
    """Hand a file to the user; False if the user thought better of it."""
    page = ft.context.page
    saved = await ft.FilePicker().save_file(file_name=name, src_bytes=data)
    # A browser downloads without a word; elsewhere no path means that the dialog was left.
    return page.web or saved is not None


def read_picked(label: str, read: Read, *, pictures: bool = False) -> ft.Control:
    """A button that lets the user pick a file, or a picture, and reads it.

    The browser opens its dialog only inside the touch itself, so the button carries the action.
    """
    _reader[:] = [read]
    if not _picker:
        _picker.append(ft.FilePicker(on_result=_picked))
    return ft.OutlinedButton(
        content=layout.face(label, theme.BODY, theme.TOUCH),
        # A dialog takes the focus from the page: on a slow phone that must not count as "none".
        action=ft.PickFiles(
            _picker[0],
            file_type=ft.FilePickerFileType.IMAGE if pictures else ft.FilePickerFileType.ANY,
            with_data=True,
            cancel_upload_on_window_blur=False,
        ),
        style=layout.button_style(),
    )


def _picked(event: ft.FilePickerResultEvent) -> None:
    if event.files:
        event.page.run_task(_take, event.files[0])


async def _take(file: ft.FilePickerFile) -> None:
    if file.bytes is None:
        raise StoreError("{name} could not be read", name=file.name)
    await _reader[0](bytes(file.bytes))


def file_name(name: str, what: str, ending: str) -> str:
    """A name that every system takes for a file."""
    plain = re.sub(r"[^\w-]+", "-", name).strip("-")[:40]
    return f"{plain or 'pond'}-{what}.{ending}"
