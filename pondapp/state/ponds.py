"""The ponds that are open, and what each was before its last changes."""

from collections.abc import Iterable
from contextlib import suppress
from datetime import UTC, datetime

from pondapp.answers.plumbing.pump_history import with_changes_noted
from pondapp.models.base import Stored
from pondapp.models.pond import Pond
from pondapp.state.by_id import ById
from pondapp.state.device import Device
from pondapp.store.documents import save
from pondapp.store.key_value_store import Changed
from pondapp.store.merging import following


class Ponds(ById[Pond]):
    """Ponds by their id."""

    def __init__(self, device: Device) -> None:
        super().__init__()
        self._device = device
        self.undo_stack: dict[str, list[Pond]] = {}
        """What each pond was since the app was started, the newest last."""
        self.pending_deletion: dict[str, Pond] = {}
        """Ponds that the user deleted and can still have back: nothing of them is gone yet."""

    def show(self, ponds: Iterable[Pond]) -> None:
        """Hold what was read from the device."""
        self._held = {pond.id: pond for pond in ponds}

    def forget_changes(self) -> None:
        """Everything is read anew: nothing done before can be undone."""
        self.undo_stack.clear()
        self.pending_deletion.clear()

    async def save(self, pond: Pond, *, corrected: bool = False) -> Pond:
        """Save a pond; what it was before can be had back.

        A pump that was replaced is noted, and when hoses were changed, unless what was entered of
        them is only corrected.
        """
        async with self._device.exclusive(pond.name):
            before = self.get(pond.id)
            known = before or self.pending_deletion.get(pond.id)
            if before is not None and before != pond:
                now = datetime.now(UTC)
                noted = with_changes_noted(pond, before, now, corrected=corrected)
                pond = following(noted, before)
            await save(self._device.store, "pond", pond, over=known)
            self._device.on_saved(pond.id)
            if before is not None and before != pond:
                self.undo_stack.setdefault(pond.id, []).append(before)
            self.hold(pond)
        self._device.on_change()
        return pond

    def hold(self, pond: Pond) -> None:
        """Hold what has just been saved."""
        self._held[pond.id] = pond
        self.pending_deletion.pop(pond.id, None)

    async def undo(self, pond_id: str) -> None:
        """Undo the last change of a pond since the app was started."""
        stack = self.undo_stack.get(pond_id)
        if not stack:
            return
        async with self._device.exclusive(stack[-1].name):
            now = self.get(pond_id)
            then = stack[-1] if now is None else following(stack[-1], now)
            await save(self._device.store, "pond", then, over=now)
            self._held[pond_id] = then
            stack.pop()
        self._device.on_change()

    async def save_if_missing(self, pond_id: str) -> None:
        """What was saved of a pond must be seen: another tab may have deleted it a moment ago."""
        pond = self.get(pond_id)
        if pond is not None and await self._device.store.get(f"pond/{pond_id}") is None:
            with suppress(Changed):  # it is there by now
                await save(self._device.store, "pond", pond, over=None)

    def mark_deleted(self, pond_id: str) -> Pond | None:
        """Take a pond off the screens; what is on the device stays."""
        pond = self._held.pop(pond_id, None)
        if pond is not None:
            self.pending_deletion[pond_id] = pond
        return pond

    def restore(self, pond: Pond) -> bool:
        """Put a pond that is marked as deleted on the screens again; whether it was marked."""
        if self.pending_deletion.get(pond.id) is not pond:
            return False
        self._held[pond.id] = self.pending_deletion.pop(pond.id)
        return True

    def discard(self, pond_id: str) -> None:
        """Hold nothing of a pond that is gone."""
        self.pending_deletion.pop(pond_id, None)
        self.undo_stack.pop(pond_id, None)

    def apply_remote_change(self, pond_id: str, found: Stored | None) -> None:
        """Another tab saved this, or deleted what was there."""
        if isinstance(found, Pond):
            self._held[pond_id] = found
        else:
            self._held.pop(pond_id, None)
        self.undo_stack.pop(pond_id, None)  # undoing here would undo the other's change
        self.pending_deletion.pop(pond_id, None)
