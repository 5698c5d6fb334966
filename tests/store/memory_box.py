"""A Box that forgets: for tests only."""

from collections.abc import Callable, Mapping

from pondapp.store.box import check_key, require_expected


class MemoryBox:
    def __init__(self) -> None:
        self.texts: dict[str, str] = {}

    async def get(self, key: str) -> str | None:
        return self.texts.get(check_key(key))

    async def put(self, key: str, text: str) -> None:
        self.texts[check_key(key)] = text

    async def delete(self, key: str) -> None:
        self.texts.pop(check_key(key), None)

    async def apply(
        self, changes: Mapping[str, str | None], expected: Mapping[str, str | None] | None = None
    ) -> None:
        for key in changes:
            check_key(key)
        require_expected(self.texts, expected or {})
        for key, text in changes.items():
            if text is None:
                self.texts.pop(key, None)
            else:
                self.texts[key] = text

    async def keys(self, prefix: str = "") -> list[str]:
        return sorted(key for key in self.texts if key.startswith(prefix))

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        return [(key, self.texts[key]) for key in await self.keys(prefix)]

    def listen(self, told: Callable[[str], None]) -> None:
        pass
