"""Files of the browser in pieces: what is in them need not fit into Python's memory."""

import asyncio
import sys
from collections.abc import AsyncIterable, AsyncIterator, Sequence
from typing import Any

from pondapp.core.base.messages import Amount
from pondapp.models.limits import LARGEST_FILE
from pondapp.store.browser import page
from pondapp.store.key_value_store import StoreError

IN_BROWSER = sys.platform == "emscripten"
PIECE = 1_000_000
"""Bytes that are read in one go."""
PATIENCE = 5.0
"""Seconds for the page to hand over what was picked; it comes by another way than its name."""
PAUSE = 0.05


async def picked(name: str) -> Any:
    """The browser's own file of the one that was just picked; None on a desktop."""
    if not IN_BROWSER:
        return None
    for _ in range(round(PATIENCE / PAUSE)):
        file = page.last_picked()
        if file is not None and str(file.name) == name:
            page.forget_picked()
            return file
        await asyncio.sleep(PAUSE)
    raise StoreError("{name} could not be read", name=name)


def require_readable(size: int) -> None:
    """Refuse a file that is larger than anything that the app writes, before it is read."""
    if size > LARGEST_FILE:
        raise StoreError(
            "the file is too large for a backup: {size} MB, where {most} MB is the most",
            size=Amount(round(size / 1e6), "-"),
            most=Amount(LARGEST_FILE // 1_000_000, "-"),
        )


async def pieces(file: Any) -> AsyncIterator[bytes]:
    """The bytes of a picked file, read as they are asked for."""
    from pyodide.ffi import JsException

    size = int(file.size)
    for at in range(0, size, PIECE):
        try:
            buffer = await file.slice(at, min(at + PIECE, size)).arrayBuffer()
        except JsException as error:  # moved or changed since it was picked
            raise StoreError("{name} could not be read", name=str(file.name)) from error
        yield buffer.to_bytes()


async def save(name: str, data: AsyncIterable[bytes]) -> bool | None:
    """Hand a file to the user's downloads; None where the page cannot do it, as on a desktop."""
    if not IN_BROWSER:
        return None
    whole = blob([blob([piece]) async for piece in data])
    return bool(await page.ask("save", name=name, data=whole) == "done")


def blob(parts: Sequence[Any]) -> Any:
    """Bytes, or such, put together where the browser keeps them: outside Python's memory."""
    import js
    from pyodide.ffi import to_js

    return js.Blob.new(to_js([to_js(part) for part in parts]))
