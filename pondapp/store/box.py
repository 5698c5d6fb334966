"""A Box: text by key, on this device."""

import re
from collections.abc import Callable
from typing import Protocol

from pondapp.core.errors import PondError

# No dot, so that a folder may use it as the separator; short enough for a file name on any system.
KEY = re.compile(r"[a-z]{1,16}(/[A-Za-z0-9_-]{1,64}){1,3}")


class StoreError(PondError):
    """The device did not keep, find or give back what was asked for."""


class Box(Protocol):
    """Text by key. Every method may raise StoreError; keys look like "pond/<id>"."""

    async def get(self, key: str) -> str | None:
        """The text under the key, or None."""

    async def put(self, key: str, text: str) -> None:
        """Keep the text under the key; once this returns, it outlives a crash of the app."""

    async def delete(self, key: str) -> None:
        """Forget the key; it need not be there."""

    async def keys(self, prefix: str = "") -> list[str]:
        """All keys that start with the prefix, sorted."""

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        """All keys that start with the prefix and their texts, sorted by key."""

    def listen(self, told: Callable[[str], None]) -> None:
        """Call with the key when another tab changes it; a box with no other tabs never calls."""


def check_key(key: str) -> str:
    """Return the key if every box can hold it; StoreError otherwise."""
    if KEY.fullmatch(key):
        return key
    raise StoreError("{key} cannot be used as a key of the storage", key=repr(key))
