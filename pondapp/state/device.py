"""The storage of this device as one tab uses it: one write after the other, and what went wrong."""

import asyncio
from collections.abc import AsyncIterator, Awaitable, Callable
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from typing import Any, Literal

from pondapp.store.documents import LoadError
from pondapp.store.key_value_store import Changed, KeyValueStore, StoreError

Installing = Literal["no", "ask", "menu"]


@dataclass
class Device:
    """What all parts of the session share."""

    store: KeyValueStore
    reload: Callable[[], Awaitable[None]]
    """Reads everything anew."""
    on_saved: Callable[[str], None]
    """Called with the pond of what was saved, before it is held."""
    on_change: Callable[[], None] = lambda: None
    """Called when something that screens show has changed."""
    load_errors: list[LoadError] = field(default_factory=list)
    refused: StoreError | None = None
    """Why nothing could be read at the start: then nothing is saved either."""
    moves: bool = False
    """Whether what moves for its own sake may: not where the device is set so, or tells nothing."""
    installing: Installing = "no"
    """Whether the app can be installed: by asking for it, or in the browser's own menu."""
    opened: Any = None
    """A file of the browser that was opened with the app, until a screen takes it."""
    writing: asyncio.Lock = field(default_factory=asyncio.Lock)
    """Held while a document is compared and saved, so that this tab is not taken for two."""

    @asynccontextmanager
    async def exclusive(
        self, what: str, on_conflict: Callable[[], Awaitable[None]] | None = None
    ) -> AsyncIterator[None]:
        """Save one after the other; if another tab was faster, show its version and say so."""
        try:
            async with self.writing:
                yield
        except Changed as error:
            await (on_conflict or self.reload)()
            raise Changed(
                "Another tab or window changed {what} a moment ago, so nothing was saved here. "
                "Look at what is saved now, then save again.",
                what=what,
            ) from error
