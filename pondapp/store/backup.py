"""Everything or one pond as one file, and back, without a risk to what is on the device.

A restore first keeps a copy of all that is there, then writes what is new, then removes what is to
go. In a browser the three are one step that happens or does not; on a desktop a cut between them
leaves too much, and the copy.
"""

import json
import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any, Literal

from pondapp.core.errors import PondError
from pondapp.core.messages import Amount
from pondapp.models.backup import FORMAT, FORMAT_VERSION, KINDS, Backup, Documents
from pondapp.models.base import Stored, StoredOfPond
from pondapp.models.entry import Entry
from pondapp.models.migrate import TooNew
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft, Preferences
from pondapp.models.reading import Reading
from pondapp.store.box import KEY, Box, StoreError
from pondapp.store.documents import ASIDE, read_text

LARGEST = 32_000_000
"""Bytes of a file that is looked at: several times the log of a lifetime."""
MOST_DOCUMENTS = 200_000
BEFORE = "before/restore"
"""Where the copy lies that is kept before a restore."""
AS_STORED = re.compile(rf"(?!before/){KEY.pattern}")

State = Literal["new", "changed", "same", "only here", "unreadable", "newer"]
How = Literal["merge", "replace"]


@dataclass(frozen=True, slots=True)
class Found:
    """One document of a file beside what is on this device."""

    kind: str
    name: str
    state: State
    reason: str = ""


@dataclass(frozen=True, slots=True)
class Preview:
    """What a file holds and what taking it in would do; nothing has been written yet."""

    backup: Backup
    found: tuple[Found, ...]

    def count(self, state: State, kind: str | None = None) -> int:
        """How many are in this state."""
        return sum(1 for one in self.found if one.state == state and kind in (None, one.kind))

    @property
    def in_file(self) -> int:
        """How many documents of the file can be read."""
        return sum(self.count(state) for state in ("new", "changed", "same"))


async def everything(box: Box, now: datetime) -> Backup:
    """All that is on the device, also what cannot be read."""
    return _sorted(dict(await box.items()), now)


def _sorted(texts: Mapping[str, str], now: datetime) -> Backup:
    read: dict[str, list[Stored]] = {kind: [] for kind in KINDS}
    as_stored: dict[str, str] = {}
    for key, text in texts.items():
        kind, _, place = key.partition("/")
        if key == BEFORE:
            continue
        try:
            read[kind].append(read_text(kind, place, KINDS[kind], text))
        except (KeyError, PondError):
            as_stored[key] = _whole(text)
    return Backup(holds="everything", saved_at=now, documents=_documents(read), as_stored=as_stored)


async def one_pond(box: Box, pond_id: str, now: datetime) -> Backup:
    """A pond and its log."""
    whole = (await everything(box, now)).documents
    ponds = tuple(pond for pond in whole.pond if pond.id == pond_id)
    if not ponds:
        raise StoreError("this pond is not on this device")
    readings = tuple(reading for reading in whole.reading if reading.pond_id == pond_id)
    entries = tuple(entry for entry in whole.entry if entry.pond_id == pond_id)
    documents = Documents(pond=ponds, reading=readings, entry=entries)
    return Backup(holds="pond", saved_at=now, documents=documents)


def plan_of(pond: Pond, now: datetime) -> Backup:
    """A pond without its log, to be shared."""
    return Backup(holds="pond", saved_at=now, documents=Documents(pond=(pond,)))


def to_bytes(backup: Backup) -> bytes:
    """The file."""
    return (backup.model_dump_json(indent=1) + "\n").encode()


def from_bytes(data: bytes) -> tuple[Backup, tuple[Found, ...]]:
    """What a file holds, and what of it cannot be read; StoreError if it is no backup."""
    if len(data) > LARGEST:
        raise StoreError(
            "the file is too large for a backup: {size} MB, where {most} MB is the most",
            size=Amount(round(len(data) / 1e6), "-"),
            most=Amount(LARGEST // 1_000_000, "-"),
        )
    plain = _plain_file(data)
    documents = plain.get("documents")
    if not isinstance(documents, dict):
        raise StoreError("the file is no backup of this app: it holds no documents")
    read: dict[str, list[Stored]] = {kind: [] for kind in KINDS}
    troubles: list[Found] = []
    as_stored: dict[str, str] = {}
    seen: set[str] = set()
    for number, (kind, entry) in enumerate(_entries(documents)):
        if number >= MOST_DOCUMENTS:
            raise StoreError("the file holds more documents than a backup can")
        _take(kind, entry, seen, read, as_stored, troubles)
    _take_as_stored(plain.get("as_stored", {}), seen, read, as_stored, troubles)
    holds = plain.get("holds")
    try:
        backup = Backup(
            holds="pond" if holds == "pond" else "everything",
            saved_at=plain["saved_at"],
            documents=_documents(read),
            as_stored=as_stored,
        )
    except (KeyError, ValueError) as error:
        raise StoreError("the file is no backup of this app: it does not say of when") from error
    return backup, tuple(troubles)


async def preview(box: Box, data: bytes) -> Preview:
    """Look at a file without taking anything from it."""
    backup, troubles = from_bytes(data)
    here = (await everything(box, backup.saved_at)).documents
    found: list[Found] = []
    for kind in KINDS:
        present = {document.place(): document for document in _of(here, kind)}
        theirs = {document.place(): document for document in _of(backup.documents, kind)}
        for place, document in theirs.items():
            mine = present.get(place)
            state: State = "new" if mine is None else "same" if mine == document else "changed"
            found.append(Found(kind, _name(document), state))
        found += [
            Found(kind, _name(document), "only here")
            for place, document in present.items()
            if place not in theirs and _in_scope(backup, document)
        ]
    return Preview(backup, (*found, *troubles))


async def restore(box: Box, backup: Backup, how: How, now: datetime) -> None:
    """Take a backup in: merge adds and updates, replace also removes what the file does not have.

    A copy of what is on the device is kept first; `take_back` returns to it. Nothing is removed
    that cannot be read here.
    """
    there = dict(await box.items())
    before = _sorted(there, now)
    changes: dict[str, str | None] = {BEFORE: to_bytes(before).decode()}
    for kind in KINDS:
        present = {document.place(): document for document in _of(before.documents, kind)}
        theirs = {document.place(): document for document in _of(backup.documents, kind)}
        for place, document in theirs.items():
            wanted = _wanted(present.get(place), document, how)
            if how == "merge":  # replacing brings the units themselves
                wanted = _in_its_units(wanted, backup)
            key = f"{kind}/{place}"
            if key in before.as_stored:  # what cannot be read here stays as it is
                continue
            if wanted != present.get(place):
                changes[key] = wanted.model_dump_json()
        if how == "replace":
            gone = [one for place, one in present.items() if place not in theirs]
            changes.update(
                {f"{kind}/{one.place()}": None for one in gone if _in_scope(backup, one)}
            )
    for key, text in backup.as_stored.items():
        if key not in there and key not in changes:
            changes[key] = text
    # Another tab may have written since: then nothing is done, and the preview is made anew.
    await box.apply(changes, {key: there.get(key) for key in changes if key != BEFORE})


async def can_take_back(box: Box) -> datetime | None:
    """Of when the copy is that was kept before the last restore; None if there is none."""
    text = await box.get(BEFORE)
    if text is None:
        return None
    try:
        return from_bytes(text.encode("utf-8", "replace"))[0].saved_at
    except StoreError:
        return None


async def take_back(box: Box, now: datetime) -> None:
    """Return to what was on the device before the last restore; that can be taken back too."""
    text = await box.get(BEFORE)
    if text is None:
        raise StoreError("there is no restore to take back")
    await restore(box, from_bytes(text.encode())[0], "replace", now)


def _wanted(mine: Stored | None, theirs: Stored, how: How) -> Stored:
    if how == "replace" or mine is None:
        return theirs
    if isinstance(mine, Preferences) and isinstance(theirs, Preferences):
        known = {container.id for container in mine.containers}
        added = tuple(one for one in theirs.containers if one.id not in known)
        return mine.model_copy(update={"containers": (*mine.containers, *added)})
    # What is half typed here is younger than any file.
    return theirs if isinstance(theirs, Pond | StoredOfPond) else mine


def _in_scope(backup: Backup, document: Stored) -> bool:
    """Whether a file of this scope says anything about a document that it does not hold."""
    if backup.holds == "everything":
        return True
    ponds = {pond.id for pond in backup.documents.pond}
    # A plan that was shared without its log leaves the log alone.
    logged = bool(backup.documents.reading or backup.documents.entry)
    return logged and isinstance(document, StoredOfPond) and document.pond_id in ponds


def _in_its_units(document: Stored, backup: Backup) -> Stored:
    """A draft of an early file says what its numbers are in: what was chosen beside it."""
    chosen = next((one.units for one in backup.documents.preferences), None)
    if isinstance(document, Draft) and document.units is None and chosen is not None:
        return document.model_copy(update={"units": chosen})
    return document


def _of(documents: Documents, kind: str) -> tuple[Stored, ...]:
    found: tuple[Stored, ...] = getattr(documents, kind)
    return found


def _documents(read: Mapping[str, list[Stored]]) -> Documents:
    return Documents.model_validate({kind: tuple(found) for kind, found in read.items()})


def _name(document: Stored) -> str:
    if isinstance(document, Pond):
        return document.name
    if isinstance(document, Reading):
        return f"{document.place_name}, {document.taken_at:%Y-%m-%d}"
    if isinstance(document, Entry):
        return f"{document.what.kind}, {document.when:%Y-%m-%d}"
    return document.id


def _plain_file(data: bytes) -> dict[str, Any]:
    try:
        plain = json.loads(data.decode("utf-8-sig"))
    except (ValueError, RecursionError) as error:
        raise StoreError("the file is damaged, or no backup of this app") from error
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        raise StoreError("the file is no backup of this app")
    version = plain.get("format_version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise StoreError("the file does not say which version of the backup format it has")
    if version > FORMAT_VERSION:
        raise TooNew(
            "the file was saved by a newer version of the app (format {found}, known up to "
            "{known}); update the app first",
            found=Amount(version, "-"),
            known=Amount(FORMAT_VERSION, "-"),
        )
    return plain


def _entries(documents: Mapping[str, Any]) -> Iterator[tuple[str, Any]]:
    for kind, entries in documents.items():
        if not isinstance(entries, list):
            raise StoreError("the file is damaged: {kind} is no list", kind=repr(kind[:40]))
        for entry in entries:
            yield kind, entry


def _take(
    kind: str,
    entry: Any,
    seen: set[str],
    read: dict[str, list[Stored]],
    as_stored: dict[str, str],
    troubles: list[Found],
) -> None:
    """Put one entry of a file where it belongs."""
    plain = entry if isinstance(entry, dict) else {}
    document_id = plain.get("id")
    place = document_id
    if kind in KINDS and issubclass(KINDS[kind], StoredOfPond):
        place = f"{plain.get('pond_id')}/{document_id}"
    key = f"{kind}/{place}"
    name = str(document_id)[:80]
    if not isinstance(document_id, str) or not KEY.fullmatch(key) or kind in (ASIDE, "before"):
        troubles.append(Found(kind[:40], name, "unreadable", "it has no id that can be used"))
        return
    if key in seen:
        troubles.append(Found(kind, name, "unreadable", "the file holds it twice"))
        return
    seen.add(key)
    _sort(key, json.dumps(entry), read, as_stored, troubles)


def _take_as_stored(
    texts: Any,
    seen: set[str],
    read: dict[str, list[Stored]],
    as_stored: dict[str, str],
    troubles: list[Found],
) -> None:
    """Texts that the app which wrote the file could not read; this one may be able to."""
    if not isinstance(texts, dict):
        raise StoreError("the file is damaged: what was kept as it is cannot be read")
    for key, text in texts.items():
        if not AS_STORED.fullmatch(key) or not isinstance(text, str) or key in seen:
            reason = "it has no place on a device"
            troubles.append(Found(key[:40], key[:80], "unreadable", reason))
        elif key.startswith(f"{ASIDE}/"):
            as_stored[key] = _whole(text)
        else:
            seen.add(key)
            _sort(key, _whole(text), read, as_stored, troubles)


def _sort(
    key: str,
    text: str,
    read: dict[str, list[Stored]],
    as_stored: dict[str, str],
    troubles: list[Found],
) -> None:
    """Put a text with the documents if it can be read, and keep it as it is if not."""
    kind, _, place = key.partition("/")
    if kind not in KINDS:
        as_stored[key] = text
        troubles.append(Found(kind, key, "newer", "this version of the app does not know it"))
        return
    try:
        read[kind].append(read_text(kind, place, KINDS[kind], text))
    except PondError as error:
        as_stored[key] = text
        state: State = "newer" if isinstance(error, TooNew) else "unreadable"
        troubles.append(Found(kind, place, state, str(error)))


def _whole(text: str) -> str:
    """Lone halves of characters, of a file with damaged bytes, have no place in JSON."""
    return text.encode("utf-8", "replace").decode()
