"""How much this device lets the app keep, and whether it has promised to."""

from dataclasses import dataclass
from typing import Any

from pondapp.store.browser import page


@dataclass(frozen=True, slots=True)
class Room:
    """Bytes in use and bytes allowed, as the browser estimates them."""

    used: int
    limit: int
    promised: bool
    """The browser will not clear the data by itself when space runs short."""

    @property
    def used_mb(self) -> int:
        """Megabytes in use, rounded up."""
        return -(-self.used // 1_000_000)

    @property
    def limit_mb(self) -> int:
        """Megabytes allowed, rounded down."""
        return self.limit // 1_000_000


async def room() -> Room | None:
    """What the browser says; None where it says nothing, as on a desktop."""
    try:
        import js
        from pyodide.ffi import JsException
    except ImportError:
        return None
    storage: Any = getattr(js.navigator, "storage", None)
    if storage is None or not hasattr(storage, "estimate"):
        return None
    try:
        estimate = await storage.estimate()
        promised = bool(await storage.persisted()) if hasattr(storage, "persisted") else False
        return Room(int(estimate.usage), int(estimate.quota), promised)
    except (JsException, AttributeError, TypeError, ValueError):
        return None  # private windows of some browsers refuse even to estimate


async def ask_to_stay() -> bool:
    """Ask the browser to keep the data for good; it may ask the user in turn, or refuse."""
    return bool(await page.ask("persist") == "done")
