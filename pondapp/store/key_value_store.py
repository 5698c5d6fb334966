"""A KeyValueStore: text by key, on this device."""

import re
from collections.abc import AsyncIterator, Callable, Mapping, Sequence
from typing import Protocol

from pondapp.core.base.errors import PondError

# No dot, so that a folder may use it as the separator; short enough for a file name on any system.
KEY = re.compile(r"[a-z]{1,16}(/[A-Za-z0-9_-]{1,64}){1,4}")
AT_ONCE = 200
"""Texts that are read or written in one go, so that the screen is answered in between."""
MANY_KEYS = "*"
"""What a listener is told in the place of a key when too many changed to be told one by one."""


class StoreError(PondError):
    """The device did not keep, find or give back what was asked for."""


class Changed(StoreError):
    """Somebody else, another tab, wrote in the meantime; nothing of one's own was written."""


class KeyValueStore(Protocol):
    """Text by key. Every method may raise StoreError; keys look like "pond/<id>"."""

    cleared: Callable[[], None]
    """Called when somebody, or the browser, deleted everything while the store was in use."""

    async def get(self, key: str) -> str | None:
        """The text under the key, or None."""

    async def put(self, key: str, text: str) -> None:
        """Keep the text under the key; once this returns, it outlives a crash of the app."""

    async def delete(self, key: str) -> None:
        """Forget the key; it need not be there."""

    async def apply(
        self,
        changes: Mapping[str, str | None],
        expected: Mapping[str, str | None] | None = None,
        done: Callable[[int], None] = lambda _: None,
    ) -> None:
        """Keep several texts and forget the keys that have None, in the order given.

        A browser does all of it or nothing; a folder keeps all texts before it forgets anything.
        Changed, with nothing written, when a key does not hold what is expected of it. Now and
        then `done` hears how many keys are dealt with, of both; none of it counts until the end.
        """

    async def get_many(self, keys: Sequence[str]) -> dict[str, str]:
        """The texts under the keys that are there."""

    async def keys(self, prefix: str = "") -> list[str]:
        """All keys that start with the prefix, sorted."""

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        """All keys that start with the prefix and their texts, sorted by key."""

    def listen(self, told: Callable[[str], None]) -> None:
        """Call with the key when another tab changes it; a store with no other tabs never calls.

        With MANY_KEYS instead when it changes more than AT_ONCE in one step.
        """


async def read_all(store: KeyValueStore, keys: Sequence[str]) -> AsyncIterator[tuple[str, str]]:
    """The keys that are there and their texts, so many at once as fit."""
    for at in range(0, len(keys), AT_ONCE):
        for item in (await store.get_many(keys[at : at + AT_ONCE])).items():
            yield item


def require_expected(found: Mapping[str, str | None], expected: Mapping[str, str | None]) -> None:
    """Changed if what was found under any key is not what is expected there."""
    for key, text in expected.items():
        if found.get(key) != text:
            raise Changed("{key} was changed in another tab", key=key)


def check_key(key: str) -> str:
    """Return the key if every store can hold it; StoreError otherwise."""
    if KEY.fullmatch(key):
        return key
    raise StoreError("{key} cannot be used as a key of the storage", key=repr(key))
