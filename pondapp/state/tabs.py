"""Two tabs or windows of one app: each follows what the other changes."""

import asyncio
from collections.abc import Callable, Coroutine, Iterable
from typing import Any, Protocol

from pondapp.core.base.errors import PondError
from pondapp.models.backup import KINDS
from pondapp.state.session import Session
from pondapp.store.documents import read_text
from pondapp.store.key_value_store import AT_ONCE, KEY, MANY_KEYS


class Running(Protocol):
    """A task under way."""

    def done(self) -> bool:
        """Whether it is over."""


Run = Callable[[Callable[[], Coroutine[Any, Any, None]]], Running]
PAUSE = 0.05  # seconds in which changes are gathered


class Follower:
    """Hears of each change by its key and applies it a moment later."""

    def __init__(self, session: Session, run: Run) -> None:
        self._session = session
        self._run = run  # the message comes from outside the framework, the redrawing must not
        self._keys: set[str] = set()
        self._task: Running | None = None
        session.store.listen(self.on_key_changed)

    def on_key_changed(self, key: str) -> None:
        """Another tab changed what lies under the key, or very much."""
        if key != MANY_KEYS and not KEY.fullmatch(key):  # nothing that this app says
            return
        self._keys.add(key)
        if self._task is None or self._task.done():
            self._task = self._run(self._apply)

    async def _apply(self) -> None:
        while self._keys:
            await asyncio.sleep(PAUSE)
            keys, self._keys = self._keys, set()
            if MANY_KEYS in keys or len(keys) > AT_ONCE:  # quicker than one by one
                await self._session.reload()
            else:
                await apply_changes(self._session, keys)


async def apply_changes(session: Session, keys: Iterable[str]) -> None:
    """Show what is on the device under these keys."""
    # The units come before what is typed in them.
    for key in sorted(keys, key=lambda key: not key.startswith("preferences/")):
        kind, _, storage_key = key.partition("/")
        if kind not in KINDS:
            continue
        async with session.device.writing:  # what this tab is saving just now comes first
            text = await session.store.get(key)
            try:
                found = None if text is None else read_text(kind, storage_key, KINDS[kind], text)
            except PondError:
                continue  # of a newer app in the other tab: reported at the next start
            session.apply_remote_change(kind, storage_key, found)
    session.device.on_change()
