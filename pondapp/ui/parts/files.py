"""Files to and from the user's own folders."""

import re
from collections.abc import AsyncIterator, Callable, Coroutine
from dataclasses import dataclass
from typing import Any

import flet as ft

from pondapp.store.backup_file import pieces_of, whole
from pondapp.store.browser import files as browser_files
from pondapp.store.browser.page import listen
from pondapp.store.key_value_store import StoreError
from pondapp.ui.parts import layout
from pondapp.ui.shell import theme

Read = Callable[["PickedFile"], Coroutine[Any, Any, None]]


@dataclass(frozen=True, slots=True)
class PickedFile:
    """A file that the user picked: its bytes, or where the browser has them."""

    name: str
    size: int
    held: bytes | None
    there: Any

    async def pieces(self) -> AsyncIterator[bytes]:
        """Its bytes, read as they are asked for."""
        held = self.held or b""
        source = pieces_of(held) if self.there is None else browser_files.pieces(self.there)
        async for piece in source:
            yield piece


# One for the whole app: a dialog may outlive the drawing of the button that opened it. What is
# picked goes to the screen that drew its button last.
_picker: list[ft.FilePicker] = []
_reader: list[Read] = []


async def save_pieces(name: str, pieces: AsyncIterator[bytes]) -> bool:
    """Hand a file to the user that is made while it is written; False if it was not saved."""
    saved = await browser_files.save(name, pieces)
    return await save_file(name, await whole(pieces)) if saved is None else saved


async def save_file(name: str, data: bytes) -> bool:
    """Hand a file to the user; False if the user thought better of it."""
    page = ft.context.page
    saved = await ft.FilePicker().save_file(file_name=name, src_bytes=data)
    # A browser downloads without a word; elsewhere no path means that the dialog was left.
    return page.web or saved is not None


def read_picked(
    label: str, read: Read, *, pictures: bool = False, disabled: bool = False
) -> ft.Control:
    """A button that lets the user pick a file, or a picture, and reads it.

    The browser opens its dialog only inside the touch itself, so the button carries the action.
    """
    listen()
    _reader[:] = [read]
    if not _picker:
        _picker.append(ft.FilePicker(on_result=_picked))
    return ft.OutlinedButton(
        content=layout.face(label, theme.BODY, theme.TOUCH),
        # A dialog takes the focus from the page: on a slow phone that must not count as "none".
        action=ft.PickFiles(
            _picker[0],
            file_type=ft.FilePickerFileType.IMAGE if pictures else ft.FilePickerFileType.ANY,
            with_data=True,  # of a browser's file only where the page cannot hand it over
            cancel_upload_on_window_blur=False,
        ),
        style=layout.button_style(),
        disabled=disabled,
    )


def _picked(event: ft.FilePickerResultEvent) -> None:
    if event.files:
        event.page.run_task(_take, event.files[0])


async def _take(file: ft.FilePickerFile) -> None:
    there = None if file.bytes else await browser_files.picked(file.name)
    await _reader[0](_held(file) if there is None else given_file(there))


def _held(file: ft.FilePickerFile) -> PickedFile:
    """A file whose bytes came with its name."""
    if file.bytes is None:
        raise StoreError("{name} could not be read", name=file.name)
    browser_files.require_readable(file.size)
    return PickedFile(file.name, file.size, file.bytes, None)


def given_file(file: Any) -> PickedFile:
    """A file that the browser has: picked here, or opened with the app.

    Raises:
        StoreError: It is larger than anything that the app writes.
    """
    size = int(file.size)
    browser_files.require_readable(size)
    return PickedFile(str(file.name), size, None, file)


def file_name(name: str, what: str, ending: str) -> str:
    """A name that every system takes for a file."""
    plain = re.sub(r"[^\w-]+", "-", name).strip("-")[:40]
    return f"{plain or 'pond'}-{what}.{ending}"
