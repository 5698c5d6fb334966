"""A KeyValueStore that forgets: for tests only."""

import asyncio
from collections.abc import Callable, Mapping, Sequence

from pondapp.store.key_value_store import AT_ONCE, MANY_KEYS, check_key, require_expected


class MemoryStore:
    """What one tab holds of the texts that all tabs beside it share."""

    def __init__(self, beside: "MemoryStore | None" = None) -> None:
        self.texts: dict[str, str] = beside.texts if beside else {}
        self.tabs: list[MemoryStore] = beside.tabs if beside else []
        self.tabs.append(self)
        self.told: Callable[[str], None] = lambda _: None
        self.cleared: Callable[[], None] = lambda: None
        self.deaf = False  # as in the moment before another tab's message arrives

    async def get(self, key: str) -> str | None:
        await asyncio.sleep(0)
        return self.texts.get(check_key(key))

    async def put(self, key: str, text: str) -> None:
        self._change(check_key(key), text)

    async def delete(self, key: str) -> None:
        self._change(check_key(key), None)

    async def apply(
        self,
        changes: Mapping[str, str | None],
        expected: Mapping[str, str | None] | None = None,
        done: Callable[[int], None] = lambda _: None,
    ) -> None:
        for key in changes:
            check_key(key)
        await asyncio.sleep(0)
        require_expected(self.texts, expected or {})
        done(len(expected or {}))
        for key, text in changes.items():
            self._write(key, text)
        self._tell(list(changes) if len(changes) <= AT_ONCE else [MANY_KEYS])

    def _change(self, key: str, text: str | None) -> None:
        self._write(key, text)
        self._tell([key])

    def _write(self, key: str, text: str | None) -> None:
        if text is None:
            self.texts.pop(key, None)
        else:
            self.texts[key] = text

    def _tell(self, keys: Sequence[str]) -> None:
        for tab in self.tabs:
            if tab is not self and not tab.deaf:
                for key in keys:
                    tab.told(key)

    async def get_many(self, keys: Sequence[str]) -> dict[str, str]:
        await asyncio.sleep(0)
        return {key: self.texts[key] for key in keys if key in self.texts}

    async def keys(self, prefix: str = "") -> list[str]:
        return sorted(key for key in self.texts if key.startswith(prefix))

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        await asyncio.sleep(0)
        return [(key, self.texts[key]) for key in await self.keys(prefix)]

    def listen(self, told: Callable[[str], None]) -> None:
        self.told = told
