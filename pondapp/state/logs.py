"""The logs of ponds: each is read by itself, on the first look or in the background."""

import asyncio
from collections.abc import Iterable
from contextlib import suppress
from typing import Any

from pondapp.answers.log.log import Item, LogItem, newest_first
from pondapp.core.base.errors import PondError
from pondapp.models.base import Stored
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading
from pondapp.state.device import Device
from pondapp.state.ids import NO_POND
from pondapp.state.ponds import Ponds
from pondapp.store.documents import (
    ANYTHING,
    LoadError,
    Step,
    delete,
    list_all,
    read_text,
    save,
    sort_by_pond,
    take_steps,
)
from pondapp.store.key_value_store import StoreError
from pondapp.words import t

PARTS_OF_KEY = 3  # kind, pond and id
KINDS: dict[str, type[Reading] | type[Entry]] = {"reading": Reading, "entry": Entry}


def kind_of(item: LogItem) -> str:
    """The kind of document that an item is stored as."""
    return "reading" if isinstance(item, Reading) else "entry"


class Logs:
    """Readings and other entries; a log grows without end, so each is read when it is needed."""

    def __init__(self, device: Device, ponds: Ponds) -> None:
        self._device = device
        self._ponds = ponds
        self.readings: dict[str, Reading] = {}
        self.entries: dict[str, Entry] = {}
        self._reads: dict[str, asyncio.Task[None]] = {}
        self._sorting: asyncio.Task[list[LoadError]] | None = None
        self._read: set[str] = set()
        self._asked: set[str] = set()
        self._gone: set[str] = set()
        """Storage keys of what was deleted since: a log that is being read may bring it back."""
        self._sorted: dict[str, list[LogItem]] = {}

    def forget(self) -> None:
        """Hold nothing: everything is to be read anew."""
        self.readings, self.entries, self._sorted = {}, {}, {}
        self._reads, self._read, self._sorting, self._gone = {}, set(), None, set()

    # ---- reading

    async def read_all(self, pause: float = 0.0) -> None:
        """Read the log of every pond, one after the other, with a pause [s] for the screen."""
        for pond_id in (*self._ponds, NO_POND, *await self._ponds_gone()):
            await asyncio.sleep(pause)
            await self.read(pond_id)
            self._device.on_change()  # the first screen says how each pond is, and what is saved

    async def _ponds_gone(self) -> list[str]:
        """Ponds that are not on this device while something of their log is."""
        store = self._device.store
        try:
            keys = [key.split("/") for kind in KINDS for key in await store.keys(f"{kind}/")]
        except StoreError:
            return []  # reading the logs tells of it
        found = {parts[1] for parts in keys if len(parts) == PARTS_OF_KEY}
        return sorted(found - {NO_POND, *self._ponds, *self._ponds.pending_deletion})

    def read(self, pond_id: str) -> asyncio.Task[None]:
        """Read a log, once; await this to have all of it."""
        if pond_id not in self._reads:
            self._reads[pond_id] = asyncio.create_task(self._read_log(pond_id))
        return self._reads[pond_id]

    async def _read_log(self, pond_id: str) -> None:
        store, found, reads = self._device.store, list[LoadError](), self._reads
        try:
            if self._sorting is None:
                self._sorting = asyncio.create_task(sort_by_pond(store, "reading", Reading))
                found += await self._sorting
            else:
                await self._sorting
            readings = await list_all(store, "reading", Reading, pond_id)
            entries = await list_all(store, "entry", Entry, pond_id)
            if reads is not self._reads:  # everything was loaded anew meanwhile
                return
            found += [*readings.errors, *entries.errors]
            # What was saved meanwhile is newer than what was read.
            self.readings = self._still_there(readings.documents) | self.readings
            self.entries = self._still_there(entries.documents) | self.entries
        except StoreError as failure:
            if self._device.refused is None:  # else it is said already
                found.append(LoadError(f"reading/{pond_id}", str(failure)))
        self._device.load_errors += found
        self._read.add(pond_id)
        self._sort_anew(pond_id)
        if found or pond_id in self._asked:
            self._device.on_change()

    def _still_there(self, found: Iterable[Item]) -> dict[str, Item]:
        return {item.id: item for item in found if item.storage_key() not in self._gone}

    def is_read(self, pond_id: str) -> bool:
        """Whether a pond's log is all there; until then it looks empty."""
        return pond_id in self._read

    # ---- what screens ask

    def items_of(self, pond_id: str) -> list[LogItem]:
        """Everything in a pond's log, newest first; empty while it is being read."""
        if pond_id not in self._read:
            self._asked.add(pond_id)
            self.read(pond_id)
        if pond_id not in self._sorted:
            # What is left of ponds that are gone is shown with what never had one.
            known = {*self._ponds, *self._ponds.pending_deletion}
            mine = (
                item
                for item in self.all_items()
                if item.pond_id == pond_id or (pond_id == NO_POND and item.pond_id not in known)
            )
            self._sorted[pond_id] = newest_first(mine)
        return self._sorted[pond_id]

    def readings_of(self, pond_id: str) -> list[Reading]:
        """A pond's readings, newest first."""
        return [item for item in self.items_of(pond_id) if isinstance(item, Reading)]

    def all_items(self) -> tuple[LogItem, ...]:
        """Everything of all logs that are read."""
        return (*self.readings.values(), *self.entries.values())

    def newest(self, item: LogItem) -> LogItem | None:
        """What a reading or an entry is by now; None if it is gone."""
        found: LogItem | None = self._held(item).get(item.id)
        return found

    def _held(self, item: LogItem) -> dict[str, Any]:
        return self.readings if isinstance(item, Reading) else self.entries

    # ---- changes

    async def save_reading(self, reading: Reading) -> None:
        """Save a reading."""
        known = self.readings.get(reading.id)
        async with self._device.exclusive(reading.place_name, lambda: self._read_again(reading)):
            await save(self._device.store, "reading", reading, over=known or ANYTHING)
            await self._ponds.save_if_missing(reading.pond_id)
        self._hold(reading)

    async def save_entry(self, entry: Entry) -> None:
        """Save any other entry of a log."""
        known = self.entries.get(entry.id)
        async with self._device.exclusive(t("the log"), lambda: self._read_again(entry)):
            await save(self._device.store, "entry", entry, over=known or ANYTHING)
            await self._ponds.save_if_missing(entry.pond_id)
        self._hold(entry)

    def _hold(self, item: LogItem) -> None:
        self._device.on_saved(item.pond_id)
        self._held(item)[item.id] = item
        self._changed(item.pond_id)

    def hold(self, items: Iterable[LogItem]) -> None:
        """Hold what has just been saved, all at once."""
        for item in items:
            self._held(item)[item.id] = item
            self._sort_anew(item.pond_id)

    async def move(self, item: LogItem, before: LogItem) -> None:
        """Save an item with another pond, and delete it where it was, in one step."""
        kind, model = kind_of(item), type(item)
        async with self._device.exclusive(t("the log"), lambda: self._read_again(before)):
            there = Step(kind, before.storage_key(), model, None, self.newest(before) or ANYTHING)
            here = Step(kind, item.storage_key(), model, item, None)
            await take_steps(self._device.store, [here, there])
        self._held(item)[item.id] = item
        self._changed(before.pond_id)
        self._changed(item.pond_id)

    async def delete(self, item: LogItem) -> None:
        """Delete a reading or an entry; saving it again takes that back."""
        async with self._device.exclusive(t("the log"), lambda: self._read_again(item)):
            over = self.newest(item) or ANYTHING
            await delete(
                self._device.store, kind_of(item), item.storage_key(), type(item), over=over
            )
            self._held(item).pop(item.id, None)
            self._gone.add(item.storage_key())
        self._changed(item.pond_id)

    async def _read_again(self, item: LogItem) -> None:
        """Show one item of a log as it is on the device."""
        kind, storage_key = kind_of(item), item.storage_key()
        text = await self._device.store.get(f"{kind}/{storage_key}")
        with suppress(PondError):  # what a newer app wrote is reported at the next start
            found = read_text(kind, storage_key, type(item), text) if text else None
            self.apply_remote_change(kind, storage_key, found)
        self._device.on_change()

    def apply_remote_change(self, kind: str, storage_key: str, found: Stored | None) -> None:
        """Another tab saved this, or deleted what was there."""
        held: dict[str, Any] = self.readings if kind == "reading" else self.entries
        item_id = storage_key.rpartition("/")[2]
        if found is None:
            self._gone.add(storage_key)
            if (mine := held.get(item_id)) and mine.storage_key() == storage_key:
                del held[item_id]  # else it was moved, and lies elsewhere by now
        else:
            held[item_id] = found
        if isinstance(found, Reading | Entry) and found.pond_id in self._ponds.pending_deletion:
            # Somebody works on it.
            self._ponds.restore(self._ponds.pending_deletion[found.pond_id])
            self._device.on_change()
        self.sort_all_anew()

    def discard(self, pond_id: str) -> None:
        """Hold nothing of a pond that is gone."""
        for item in list(self.items_of(pond_id)):
            self._held(item).pop(item.id, None)
        self._sorted.pop(pond_id, None)

    def sort_all_anew(self) -> None:
        """Something of several logs is another now."""
        self._sorted.clear()

    def _sort_anew(self, pond_id: str) -> None:
        self._sorted.pop(pond_id, None)
        self._sorted.pop(NO_POND, None)  # it holds what is left of ponds that are gone

    def _changed(self, pond_id: str) -> None:
        self._sort_anew(pond_id)
        self._device.on_change()
