"""Everything or one pond as one file, and back, without a risk to what is on the device.

A restore writes what is new, keeps beside it what was there under the same keys, and removes what
is to go. In a browser that is one step that happens or does not; on a desktop a cut leaves too
much, and what is kept.
"""

import asyncio
import json
from collections import Counter
from collections.abc import AsyncIterable, AsyncIterator, Callable, Iterable
from contextlib import suppress
from dataclasses import dataclass, field
from datetime import datetime
from typing import Literal

from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount
from pondapp.models.backup import KINDS, Holds
from pondapp.models.base import is_reserved
from pondapp.models.entry import Entry
from pondapp.models.limits import EARLIEST, MOST_DOCUMENTS, MOST_PHOTOS, MOST_TAKEN_IN
from pondapp.models.migrate import TooNew
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences, UnitSystem
from pondapp.store.backup_file import (
    BEFORE,
    PHOTO,
    About,
    Item,
    Written,
    pieces_of,
    read,
    written,
)
from pondapp.store.documents import QUARANTINES, own_id, read_text, reason_of
from pondapp.store.json_text import parsed
from pondapp.store.key_value_store import Changed, KeyValueStore, StoreError, read_all
from pondapp.store.merging import merged

COPY = f"{BEFORE}/restore"
"""Says of when and where the texts are kept that the last restore took the place of."""
KEPT = '{"kept"'
"""How it begins; early versions kept a whole backup file there."""
NEW = BEFORE
"""The kind, beside copies of documents, of lists of keys under which nothing lay."""
KEYS_AT_ONCE = 2000
"""In one such list."""
LOOSE = "none"
"""The pond id of readings without a pond."""
MOST_NAMED = 200
"""Documents of a file that are named; of the others there is a count."""

State = Literal["new", "changed", "same", "only here", "unreadable", "newer"]
How = Literal["merge", "replace"]


@dataclass(frozen=True, slots=True)
class Found:
    """One document of a file that cannot be read here."""

    kind: str
    name: str
    state: State
    reason: str = ""


@dataclass
class Preview:
    """What a file holds and what taking it in would do; nothing has been written yet."""

    holds: Holds
    saved_at: datetime
    complete: bool
    """Whether the file is all that it was: else nothing may be removed for its sake."""
    touched: bool
    """Whether somebody changed it since it was saved."""
    counts: Counter[tuple[str, State]] = field(default_factory=Counter)
    ponds: list[str] = field(default_factory=list)
    """Names of the ponds in the file."""
    names: dict[str, str] = field(default_factory=dict)
    """The same by the ponds' ids."""
    of_pond: dict[str, Counter[tuple[str, str]]] = field(default_factory=dict)
    """By the id of each pond of which merging changes something: what is new, and which of two
    versions stays."""
    units: UnitSystem | None = None
    """What was chosen where the file was written."""
    problems: list[Found] = field(default_factory=list)
    incoming: dict[str, str] = field(default_factory=dict)
    """By key: the documents that are new or differ."""
    as_stored: dict[str, str] = field(default_factory=dict)
    """By key: texts that cannot be read here and come back as they are."""
    here: dict[str, str | None] = field(default_factory=dict)
    """What lies under these keys on the device."""
    only_here: dict[str, str] = field(default_factory=dict)
    """What replacing removes."""
    photos: list[tuple[datetime, str]] = field(default_factory=list)
    """New photos and their keys."""
    later: int = 0
    """How many more are new or differ than are taken in at once: they come the next time."""
    photos_here: Counter[bool] = field(default_factory=Counter)
    """How many photos the device has; those under True are removed by replacing."""

    def count(self, state: State, kind: str | None = None) -> int:
        """How many are in this state."""
        return sum(
            number
            for (one, its), number in self.counts.items()
            if its == state and kind in (None, one)
        )

    @property
    def may_replace(self) -> bool:
        """Whether all of the file is known: else nothing may be removed for its sake."""
        return self.complete and not self.later

    def too_many_photos(self, how: How) -> list[str]:
        """Keys of the photos that find no room beside those that stay: the oldest of the file."""
        if how == "replace" and self.holds == "everything":
            return []  # it becomes as it was, whatever that was
        staying = self.photos_here[False] + (self.photos_here[True] if how == "merge" else 0)
        room = max(0, MOST_PHOTOS - staying)
        return [key for _, key in sorted(self.photos, reverse=True)[room:]]

    def needs(self, how: How) -> tuple[int, int]:
        """Bytes that a restore writes, and those of the copy by which it can be taken back."""
        writes = sum(map(len, self.incoming.values())) + sum(map(len, self.as_stored.values()))
        keeps = sum(len(text or "") for text in self.here.values())
        if how == "replace":
            keeps += sum(map(len, self.only_here.values()))
        return writes, keeps


def everything(
    store: KeyValueStore, now: datetime, tally: Written | None = None, pond_id: str | None = None
) -> AsyncIterator[bytes]:
    """A file of all that is on the device, also what cannot be read, or of a pond and its log."""
    return _everything(store, now, tally or Written(), pond_id)


async def _everything(
    store: KeyValueStore, now: datetime, tally: Written, pond_id: str | None
) -> AsyncIterator[bytes]:
    keys = [key for key in await store.keys() if not key.startswith(f"{BEFORE}/")]
    if pond_id is not None:
        if f"pond/{pond_id}" not in keys:
            raise StoreError("this pond is not on this device")
        starts = (f"reading/{pond_id}/", f"entry/{pond_id}/")
        keys = [key for key in keys if key == f"pond/{pond_id}" or key.startswith(starts)]
    async for piece in written(
        store, keys, "everything" if pond_id is None else "pond", now, tally
    ):
        yield piece
        await asyncio.sleep(0)  # a long log must not hold up the screen


async def preview(store: KeyValueStore, file: bytes | AsyncIterable[bytes]) -> Preview:
    """Look at a file without taking anything from it; StoreError if it is no backup."""
    about = About()
    look = _Look(store, set(await store.keys()))
    async for items in read(pieces_of(file) if isinstance(file, bytes) else file, about):
        await look.take(items)
        await asyncio.sleep(0)
    if about.saved_at is None:
        raise StoreError("the file is damaged, or no backup of this app")
    look.found.holds, look.found.saved_at = about.holds, about.saved_at
    look.found.complete, look.found.touched = about.ended, about.changed
    await look.end()
    return look.found


class _Look:
    """Compares a file with the device while it is read."""

    def __init__(self, store: KeyValueStore, keys: set[str]) -> None:
        self.store, self.keys = store, keys
        self.found = Preview("everything", EARLIEST, complete=False, touched=False)
        self.seen: set[str] = set()
        self.size = 0
        self.logs: set[str] = set()

    async def take(self, items: Iterable[Item]) -> None:
        """Look at some documents of the file."""
        usable: list[tuple[Item, str]] = []
        for item in items:
            kind, _, storage_key = item.key.partition("/")
            if not item.key or kind == BEFORE:
                reason = item.problem or "it has no place on a device"
                self._problem(kind, storage_key, "unreadable", reason)
                continue
            renamed = _with_own_ids(item)
            if renamed.key in self.seen:
                self._problem(kind, storage_key, "unreadable", "the file holds it twice")
                continue
            self.seen |= {item.key, renamed.key}
            usable.append((renamed, kind))
        if len(self.seen) > MOST_DOCUMENTS:
            raise StoreError(
                "the file holds more documents than a backup can: {most} are the most",
                most=Amount(MOST_DOCUMENTS, "-"),
            )
        wanted = [item.key for item, _ in usable if item.key in self.keys]
        there = dict([found async for found in read_all(self.store, wanted)])
        for item, kind in usable:
            self._compare(item, kind, there.get(item.key))

    def _compare(self, item: Item, kind: str, mine: str | None) -> None:
        key, text = item.key, item.text
        storage_key = key.partition("/")[2]
        if kind in ("reading", "entry"):
            self.logs.add(storage_key.partition("/")[0])
        if mine == text and not item.as_stored:
            self.found.counts[kind, "same"] += 1
            if kind == "pond":
                self._name(text)
            if kind == "preferences":
                with suppress(PondError):  # as damaged as here
                    self.found.units = read_text(kind, storage_key, Preferences, text).units
            return
        if kind in QUARANTINES:
            self._keep_as_it_is(key, text, mine)
            return
        if kind not in KINDS:
            self._keep_as_it_is(key, text, mine)
            self._problem(kind, key, "newer", "this version of the app does not know it")
            return
        try:
            document = read_text(kind, storage_key, KINDS[kind], text)
        except PondError as error:
            self._keep_as_it_is(key, text, mine)
            state: State = "newer" if isinstance(error, TooNew) else "unreadable"
            self._problem(kind, storage_key, state, reason_of(error))
            return
        if isinstance(document, Pond):
            self.found.ponds.append(document.name)
            self.found.names[document.id] = document.name
        if isinstance(document, Preferences):
            self.found.units = document.units
        made = document.model_dump_json()
        state = "new" if mine is None else "same" if mine == made else "changed"
        told: str = state
        if mine is not None and state == "changed":
            try:
                known = read_text(kind, storage_key, KINDS[kind], mine)
                one = merged(known, document)
                told = one.outcome if one else state
                if known == document:
                    state = "same"
                elif told == "same":
                    self._hold(self.found.incoming, key, made, len(mine))
                    self.found.here[key] = mine
                    state = "same"
            except TooNew:  # what a newer app saved here stays as it is
                self._problem(
                    kind, storage_key, "newer", "a newer version of the app saved it here"
                )
                return
            except PondError:
                pass  # what is damaged here is kept beside, and the file's takes its place
        self.found.counts[kind, state] += 1
        if state == "same":
            return
        if not self._hold(self.found.incoming, key, made, len(mine or "")):
            return
        if kind in ("pond", "reading", "entry"):
            pond_id = storage_key.partition("/")[0]
            self.found.of_pond.setdefault(pond_id, Counter())[kind, told] += 1
        self.found.here[key] = mine
        if isinstance(document, Entry) and document.what.kind == "photo" and mine is None:
            self.found.photos.append((document.when, key))

    def _name(self, text: str) -> None:
        if (name := parsed(text).get("name")) and isinstance(name, str):
            self.found.ponds.append(name[:80])

    def _hold(self, held: dict[str, str], key: str, text: str, beside: int = 0) -> bool:
        """Keep what is new until one says how to take it in, while there is room for that."""
        # The first always fits: each time that a file is taken in brings some more of it.
        fits = not self.size or self.size + len(text) + beside <= MOST_TAKEN_IN
        if self.found.later or not fits:
            self.found.later += 1
            return False
        self.size += len(text) + beside
        held[key] = text
        return True

    def _keep_as_it_is(self, key: str, text: str, mine: str | None) -> None:
        if mine is None:
            self._hold(self.found.as_stored, key, text)

    def _problem(self, kind: str, name: str, state: State, reason: str) -> None:
        self.found.counts[kind, state] += 1
        if len(self.found.problems) < MOST_NAMED:
            self.found.problems.append(Found(kind[:40], name[:80], state, reason))

    async def end(self) -> None:
        """What is on the device only, and whether its photos leave room for more."""
        keys = sorted(key for key in self.keys - self.seen if self._in_scope(key))
        going: set[str] = set()
        async for key, text in read_all(self.store, keys):
            kind, _, storage_key = key.partition("/")
            try:
                read_text(kind, storage_key, KINDS[kind], text)
            except PondError:
                continue  # what cannot be read is never removed
            self.found.counts[kind, "only here"] += 1
            if self.found.may_replace:
                going.add(key)
                self.found.only_here[key] = text
        if self.found.photos:
            mine = sorted(key for key in self.keys if key.startswith("entry/"))
            async for key, text in read_all(self.store, mine):
                if PHOTO in text:
                    self.found.photos_here[key in going] += 1

    def _in_scope(self, key: str) -> bool:
        """Whether the file says anything about a document that it does not hold."""
        kind, _, storage_key = key.partition("/")
        if kind not in KINDS:
            return False
        if self.found.holds == "everything":
            return True
        # A plan that was shared without its log leaves the log alone.
        pond_id, logged, _ = storage_key.partition("/")
        return bool(logged) and pond_id in self.logs and f"pond/{pond_id}" in self.seen


def _with_own_ids(item: Item) -> Item:
    """The document under an id that is no word of the app itself; its pond's too.

    Readings without a pond lie under such a word, and stay there.
    """
    kind, *ids = item.key.split("/")
    reserved = [one for one in ids if is_reserved(one) and not (one == LOOSE and len(ids) > 1)]
    if kind not in ("pond", "reading", "entry") or not reserved:
        return item
    try:
        plain = parsed(item.text)
    except StoreError:
        return item
    if not isinstance(plain, dict):
        return item
    for name in ("id", "pond_id"):
        if plain.get(name) in reserved:
            plain[name] = own_id(plain[name])
    key = "/".join([kind, *(own_id(one) if one in reserved else one for one in ids)])
    return Item(key, json.dumps(plain))


async def restore(
    store: KeyValueStore,
    look: Preview,
    how: How,
    now: datetime,
    *,
    keep_copy: bool = True,
    done: Callable[[int], None] = lambda _: None,
) -> bool:
    """Take a file in: merge adds and updates, replace also removes what the file does not have.

    What it takes the place of is kept, so that `undo_restore` can return to it, unless there is no
    room for that. Nothing is removed that cannot be read here. `done` hears how far it is [%].
    False if all of it is as in the file already: then the restore before can still be taken back.

    Raises:
        Changed: Another tab has written since the file was looked at; nothing was done.
        StoreError: There is no room, or the file is not complete and was to replace.
    """
    if how == "replace" and not look.may_replace:
        raise StoreError("the file is not complete, so nothing is removed here")
    left_out = set(look.too_many_photos(how))
    changes: dict[str, str | None] = {
        key: _wanted(key, look.here[key], text, how, look.units)
        for key, text in look.incoming.items()
        if key not in left_out
    }
    changes.update(look.as_stored)
    here = {**dict.fromkeys(look.as_stored), **look.here}
    if how == "merge":
        beside = _beside(look)
        there = dict([found async for found in read_all(store, list(beside))])
        here.update({key: there.get(key) for key in beside})
        changes.update({key: there.get(key, text) for key, text in beside.items()})
    if how == "replace":
        changes.update(dict.fromkeys(look.only_here))
        here.update(look.only_here)
    changes = {key: text for key, text in changes.items() if text != here[key]}
    if not changes:
        return False
    try:
        before = {key: here[key] for key in changes}
        await _apply(store, changes, before, now, done, keep_copy=keep_copy)
    except Changed as error:
        raise Changed(
            "Another tab or window changed what is here since the file was looked at, so nothing "
            "was taken in. Choose the file again."
        ) from error
    return True


async def _apply(
    store: KeyValueStore,
    changes: dict[str, str | None],
    here: dict[str, str | None],
    now: datetime,
    done: Callable[[int], None],
    *,
    keep_copy: bool = True,
) -> None:
    """Write and remove in one step, and keep beside it what was there."""
    earlier = [key for key in await store.keys(f"{BEFORE}/") if key != COPY]
    number = 1 + max((int(key.split("/")[1]) for key in earlier), default=0)
    step: dict[str, str | None] = {}
    if keep_copy:
        step[COPY] = json.dumps({"kept": number, "saved_at": now.isoformat()})
        # What was set aside is only ever added.
        ours = {key: text for key, text in here.items() if key.count("/") < 3}
        new = [key for key, text in ours.items() if text is None]
        for at in range(0, len(new), KEYS_AT_ONCE):
            step[f"{BEFORE}/{number}/{NEW}/{at}"] = json.dumps(new[at : at + KEYS_AT_ONCE])
        for key, text in ours.items():
            if text is not None:
                step[f"{BEFORE}/{number}/{key}"] = text
    else:
        step[COPY] = None
    step.update(changes)
    step.update(dict.fromkeys(earlier))
    # Another tab may have written since: then nothing is done, and one looks anew.
    steps = len(here) + len(step)
    await store.apply(step, here, lambda number: done(100 * number // steps))


async def can_undo_restore(store: KeyValueStore) -> datetime | None:
    """Of when the last restore is that can be taken back; None if there is none."""
    text = await store.get(COPY)
    if text is None:
        return None
    try:
        if text.startswith(KEPT):
            return _kept(text)[1]
        return (await preview(store, text.encode("utf-8", "replace"))).saved_at
    except StoreError:
        return None


def _kept(text: str) -> tuple[int, datetime]:
    plain = parsed(text)
    try:
        return int(plain["kept"]), datetime.fromisoformat(plain["saved_at"])
    except (KeyError, TypeError, ValueError) as error:
        raise StoreError("its text is damaged") from error


async def undo_restore(
    store: KeyValueStore, now: datetime, *, done: Callable[[int], None] = lambda _: None
) -> None:
    """Undo the last restore; that can be taken back too.

    What was done since to other documents stays. `done` hears how far it is [%].
    """
    text = await store.get(COPY)
    if text is None:
        raise StoreError("there is no restore to take back")
    if not text.startswith(KEPT):
        await restore(store, await preview(store, text.encode("utf-8", "replace")), "replace", now)
        return
    start = f"{BEFORE}/{_kept(text)[0]}/"
    kept = [found async for found in read_all(store, await store.keys(start))]
    changes: dict[str, str | None] = {}
    for kept_key, kept_text in kept:
        key = kept_key.removeprefix(start)
        if key.startswith(f"{NEW}/"):
            changes.update(dict.fromkeys(parsed(kept_text)))
        else:
            changes[key] = kept_text or None  # early versions kept an empty text for nothing
    there = dict([found async for found in read_all(store, list(changes))])
    await _apply(store, changes, {key: there.get(key) for key in changes}, now, done)


def _beside(look: Preview) -> dict[str, str]:
    """By key: versions of ponds that were changed on both devices, which are kept twice."""
    found = {}
    for key, text in look.incoming.items():
        kind, _, storage_key = key.partition("/")
        mine = look.here[key]
        tally = look.of_pond.get(storage_key, Counter())
        if kind != "pond" or mine is None or not tally[kind, "both"]:
            continue
        documents = (read_text(kind, storage_key, Pond, one) for one in (mine, text))
        one = merged(*documents)
        if one and one.beside:
            found[f"pond/{one.beside.id}"] = one.beside.model_dump_json()
    return found


def _wanted(key: str, mine: str | None, theirs: str, how: How, chosen: UnitSystem | None) -> str:
    """What is to lie under a key where a document of the file meets what is here.

    Given the units that were chosen where the file was written: an early draft does not say them.
    """
    kind, _, storage_key = key.partition("/")
    if how == "replace":
        return theirs
    if mine is None:
        if kind == "draft" and chosen is not None:
            draft = read_text(kind, storage_key, Draft, theirs)
            if draft.units is None:
                return draft.model_copy(update={"units": chosen}).model_dump_json()
        return theirs
    try:
        here = read_text(kind, storage_key, KINDS[kind], mine)
    except PondError:
        return theirs
    one = merged(here, read_text(kind, storage_key, KINDS[kind], theirs))
    if one:
        return mine if one.outcome == "mine" else str(one.document.model_dump_json())
    if isinstance(here, Preferences):
        known = {container.id for container in here.containers}
        containers = read_text(kind, storage_key, Preferences, theirs).containers
        added = tuple(one for one in containers if one.id not in known)
        return here.model_copy(update={"containers": (*here.containers, *added)}).model_dump_json()
    return mine  # what is half typed here is younger than any file
