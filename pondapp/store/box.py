"""Text by key on this device: the one interface that everything is kept through."""

from typing import Protocol

from pondapp.core.errors import PondError


class StoreError(PondError):
    """The device refused to keep or to give back a document."""


class Box(Protocol):
    """Keeps text under keys such as "pond/abc"; a change is durable when its call returns."""

    async def items(self, prefix: str) -> dict[str, str]:
        """All texts whose key begins so."""

    async def put(self, key: str, text: str) -> None:
        """Keep a text."""

    async def delete(self, key: str) -> None:
        """Forget a text; no error if there is none."""
