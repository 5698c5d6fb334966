"""Deleting a pond: off the screens at once, from the device once it cannot be undone any more."""

from contextlib import suppress

from pondapp.models.base import Stored
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.state.device import Device
from pondapp.state.drafts import Drafts, is_about
from pondapp.state.logs import KINDS, Logs
from pondapp.state.ponds import Ponds
from pondapp.store.documents import Step, list_all, take_steps
from pondapp.store.key_value_store import Changed

TRIES = 9  # nobody saves so often at once


class PondDeletion:
    """A pond goes with its log and with what is half done about it."""

    def __init__(self, device: Device, ponds: Ponds, logs: Logs, drafts: Drafts) -> None:
        self._device = device
        self._ponds = ponds
        self._logs = logs
        self._drafts = drafts

    def is_pending(self, pond: Pond) -> bool:
        """Whether it is marked as deleted, and nobody changed it since."""
        return self._ponds.pending_deletion.get(pond.id) is pond

    def mark_deleted(self, pond_id: str) -> Pond | None:
        """Take a pond off the screens; what is on the device stays until it is deleted."""
        pond = self._ponds.mark_deleted(pond_id)
        self._logs.sort_all_anew()
        if pond is not None:
            self._device.on_change()
        return pond

    def restore(self, pond: Pond) -> None:
        """Put a pond that is marked as deleted on the screens again."""
        if self._ponds.restore(pond):
            self._device.on_change()

    def restore_for(self, draft: Draft) -> None:
        """Somebody types about a pond that is marked as deleted here."""
        for pond in list(self._ponds.pending_deletion.values()):
            if is_about(draft, pond.id, self._ponds):
                self.restore(pond)

    async def delete(self, pond: Pond) -> None:
        """Delete a pond that is still marked, its log, and what is half done, in one step.

        Raises:
            Changed: Another tab saved something of this pond that is not known here; nothing is
                deleted then, and the pond is on the screens again.
        """
        if not self.is_pending(pond):
            return
        await self._logs.read(pond.id)
        drafts = self._drafts.about(pond.id, self._ponds)
        try:
            async with self._device.writing:
                if not self.is_pending(pond):  # restored while waiting
                    return
                await self._delete_all(pond)
        except Changed as error:
            await self._device.reload()
            raise Changed(
                "Another tab or window saved something of {what} a moment ago, so it was not "
                "deleted. Look at it, then delete it again.",
                what=pond.name,
            ) from error
        self._ponds.discard(pond.id)
        self._logs.discard(pond.id)
        for draft_id in drafts:
            self._drafts.discard(draft_id)
        self._device.on_change()

    async def _delete_all(self, pond: Pond) -> None:
        store = self._device.store
        steps = [Step("pond", pond.id, Pond, None, pond)]
        steps += await self._draft_steps(pond.id)
        steps += await self._log_steps(pond.id)
        await take_steps(store, steps)
        late = [key for kind in KINDS for key in await store.keys(f"{kind}/{pond.id}/")]
        late += [f"draft/{draft.id}" for draft in await self._drafts_about(pond.id)]
        if late:  # saved while this was under way: with its pond it can be seen
            await self._put_back(steps)
            raise Changed("{key} was changed in another tab", key=late[0])

    async def _put_back(self, deleted: list[Step]) -> None:
        """Undo steps that deleted something, but for what another tab has saved there since."""
        found = {f"{step.kind}/{step.storage_key}": step.over for step in deleted}
        for _ in range(TRIES):
            there = await self._device.store.get_many(list(found))
            texts = {
                key: document.model_dump_json()
                for key, document in found.items()
                if isinstance(document, Stored) and key not in there
            }
            with suppress(Changed):  # saved by now
                await self._device.store.apply(texts, dict.fromkeys(texts))
                return

    async def _drafts_about(self, pond_id: str) -> list[Draft]:
        """What is half done about a pond, as it is on the device."""
        found = await list_all(self._device.store, "draft", Draft)
        return [draft for draft in found.documents if is_about(draft, pond_id, self._ponds)]

    async def _draft_steps(self, pond_id: str) -> list[Step]:
        """Steps that delete what is half done; Changed where another tab typed since."""
        steps: list[Step] = []
        for draft in await self._drafts_about(pond_id):
            if self._drafts.stored.get(draft.id) != draft:
                raise Changed("{key} was changed in another tab", key=draft.id)
            steps.append(Step("draft", draft.id, Draft, None, draft))
        return steps

    async def _log_steps(self, pond_id: str) -> list[Step]:
        """Steps that delete the log of a pond; Changed where it holds what is not known here."""
        known = {item.id: item for item in self._logs.items_of(pond_id)}
        steps: list[Step] = []
        for kind, model in KINDS.items():
            found = await list_all(self._device.store, kind, model, pond_id)
            for item in found.documents:
                if known.get(item.id) != item:
                    raise Changed("{key} was changed in another tab", key=item.id)
                steps.append(Step(kind, item.storage_key(), model, None, item))
        return steps
