"""All that the app holds in memory while it runs, and how it is read from the device."""

import asyncio
from collections.abc import Iterable

from pondapp.answers.care.backup_due import own_items
from pondapp.answers.log.log import LogItem
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.models.base import Stored
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.state.device import Device
from pondapp.state.logs import Logs, kind_of
from pondapp.state.pond_deletion import PondDeletion
from pondapp.state.ponds import Ponds
from pondapp.state.settings import Settings
from pondapp.store.browser.room import ask_to_stay
from pondapp.store.documents import Step, free_reserved, list_all, take_steps
from pondapp.store.key_value_store import KeyValueStore, StoreError


class Session:
    """The parts of what is held, each with a subject of its own, put together."""

    def __init__(self, store: KeyValueStore) -> None:
        self.device = Device(store, self.reload, self._ask_to_stay)
        self.settings = Settings(self.device)
        self.drafts = self.settings.drafts
        self.ponds = Ponds(self.device)
        self.drafts.on_first_saved = self.ponds.save_if_missing
        self.logs = Logs(self.device, self.ponds)
        self.deletion = PondDeletion(self.device, self.ponds, self.logs, self.drafts)
        self._asking: asyncio.Future[bool] | None = None
        """Held, so that a question that is under way is not dropped."""

    @property
    def store(self) -> KeyValueStore:
        """Where everything is stored."""
        return self.device.store

    @property
    def preferences(self) -> Preferences:
        """What the user chose."""
        return self.settings.current

    @property
    def system(self) -> str:
        """The unit system in use."""
        return self.preferences.units

    async def load(self) -> None:
        """Read all but the logs from the device; what can't be read is reported, not lost.

        What is typed or timed and not saved yet stays in hand.
        """
        async with self.device.writing:
            await self._load()

    async def _load(self) -> None:
        try:
            await free_reserved(self.store)
            ponds = await list_all(self.store, "pond", Pond)
        except StoreError as failure:
            self.device.refused, self.drafts.failure_reported = failure, True
            raise
        self.device.refused = None
        drafts = await list_all(self.store, "draft", Draft)
        preferences = await list_all(self.store, "preferences", Preferences)
        self.ponds.show(ponds.documents)
        self.logs.forget()
        unsaved = self.drafts.unsaved(drafts.documents)  # before other units come
        self.settings.show(preferences.documents)
        self.drafts.show(drafts.documents, unsaved)
        self.device.load_errors = [
            error for part in (ponds, drafts, preferences) for error in part.errors
        ]

    async def reload(self) -> None:
        """After a restore, or what another tab did: what is shown is what is on the device."""
        self.ponds.forget_changes()
        await self.load()
        self.device.on_change()
        await self.logs.read_all()

    async def add_pond(self, pond: Pond, log: Iterable[LogItem]) -> None:
        """Save a pond with its log in one step; the screen that is opened next shows it."""
        items = tuple(log)
        known = self.ponds.get(pond.id) or self.ponds.pending_deletion.get(pond.id)
        steps = [Step("pond", pond.id, Pond, pond, known)]
        steps += [Step(kind_of(one), one.storage_key(), type(one), one) for one in items]
        async with self.device.exclusive(pond.name):
            await take_steps(self.store, steps)
        self.device.on_saved(pond.id)
        self.ponds.hold(pond)
        self.logs.hold(items)

    def apply_remote_change(self, kind: str, storage_key: str, found: Stored | None) -> None:
        """Another tab saved this, or deleted what was there."""
        document_id = storage_key.rpartition("/")[2]
        if kind == "pond":
            self.ponds.apply_remote_change(document_id, found)
            self.logs.sort_all_anew()
        elif kind == "draft":
            if isinstance(found, Draft) and found != self.drafts.stored.get(document_id):
                self.deletion.restore_for(found)
            self.drafts.apply_remote_change(document_id, found)
        elif kind == "preferences":
            self.settings.apply_remote_change(document_id, found)
        else:
            self.logs.apply_remote_change(kind, storage_key, found)

    def _ask_to_stay(self, pond_id: str) -> None:
        """Ask the browser to keep everything once there is something of one's own to lose."""
        if pond_id == EXAMPLE or self._asking is not None:
            return
        if all(one == EXAMPLE for one in self.ponds) and not own_items(self.logs.all_items()):
            self._asking = asyncio.ensure_future(ask_to_stay())
