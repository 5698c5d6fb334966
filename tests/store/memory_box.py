"""A Box that forgets: for tests only."""

from collections.abc import Callable

from pondapp.store.box import check_key


class MemoryBox:
    def __init__(self) -> None:
        self.texts: dict[str, str] = {}

    async def get(self, key: str) -> str | None:
        return self.texts.get(check_key(key))

    async def put(self, key: str, text: str) -> None:
        self.texts[check_key(key)] = text

    async def delete(self, key: str) -> None:
        self.texts.pop(check_key(key), None)

    async def keys(self, prefix: str = "") -> list[str]:
        return sorted(key for key in self.texts if key.startswith(prefix))

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        return [(key, self.texts[key]) for key in await self.keys(prefix)]

    def listen(self, told: Callable[[str], None]) -> None:
        pass
