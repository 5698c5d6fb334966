"""The bytes of a backup file: written and read in pieces, so that no size of it fills the memory.

A file is lines of JSON. A damaged line loses itself only, a file that is cut off loses its end.
"""

import hashlib
import json
import re
from collections import Counter
from collections.abc import AsyncIterable, AsyncIterator, Iterator, Mapping
from dataclasses import dataclass, field
from datetime import datetime
from typing import Any

from pydantic import ValidationError

from pondapp.core.base.messages import Amount
from pondapp.models.backup import FORMAT, FORMAT_VERSION, KINDS, End, Head, Holds
from pondapp.models.base import StoredOfPond
from pondapp.models.limits import (
    LARGEST_FILE,
    LARGEST_FIRST_FORMAT,
    LARGEST_LINE,
    MOST_DOCUMENTS,
)
from pondapp.models.migrate import TooNew
from pondapp.models.pond import Pond
from pondapp.store.documents import QUARANTINES
from pondapp.store.json_text import check, parsed
from pondapp.store.key_value_store import AT_ONCE, KEY, KeyValueStore, StoreError, read_all

BEFORE = "before"
"""The kind of what is kept so that a restore can be taken back; it is in no backup."""
PIECE = 1_000_000
"""Bytes that are written or looked at in one go."""
MOST_HEAD = 10_000
"""Bytes of the first line."""
PHOTO = '"kind":"photo"'

_LINE = re.compile(r'\{"key":"([a-z0-9A-Z_/-]+)","document":(\{.*\})\}\s*')


@dataclass
class Written:
    """How many documents a file holds, by kind and by pond (none for those of no pond's log)."""

    counts: Counter[str] = field(default_factory=Counter)
    of_pond: Counter[tuple[str, str]] = field(default_factory=Counter)
    too_large: list[str] = field(default_factory=list)
    """Keys of texts that no file can hold; they stay on the device."""
    of: int = 0
    """How many there are to write."""
    size: int = 0
    """Bytes of all lines so far."""

    @property
    def share(self) -> int:
        """How much of them is written [%]."""
        return 100 * self.counts.total() // max(1, self.of)


async def pieces_of(data: bytes) -> AsyncIterator[bytes]:
    """The bytes of a file that is in memory already."""
    for at in range(0, len(data), PIECE):
        yield data[at : at + PIECE]


async def whole(pieces: AsyncIterable[bytes]) -> bytes:
    """All pieces in one."""
    return b"".join([piece async for piece in pieces])


async def written(
    store: KeyValueStore, keys: list[str], holds: Holds, now: datetime, tally: Written
) -> AsyncIterator[bytes]:
    """A file of what lies under the keys, in pieces; photos come last.

    Raises:
        StoreError: There is more than a file can hold that is to be read again.
    """
    tally.of = len(keys)
    if len(keys) > MOST_DOCUMENTS:
        raise _too_much()
    digest = hashlib.sha256()
    piece = bytearray(_head(holds, now))
    photos: list[str] = []
    for last in (False, True):
        async for key, text in read_all(store, photos if last else keys):
            if not last and PHOTO in text:
                photos.append(key)
                continue
            line = _line(key, text) if len(text) < LARGEST_LINE else b""
            if not 0 < len(line) <= LARGEST_LINE:
                tally.too_large.append(key)
                continue
            kind, _, storage_key = key.partition("/")
            tally.counts[kind] += 1
            tally.of_pond[kind, storage_key.rpartition("/")[0]] += 1
            piece += line
            tally.size += len(line)
            if tally.size > LARGEST_FILE - 2 * MOST_HEAD:  # head and end have room beside
                raise _too_much()
            if len(piece) >= PIECE:
                digest.update(piece)
                yield bytes(piece)
                piece.clear()
    digest.update(piece)
    end = End(end=dict(tally.counts), sha256=digest.hexdigest())
    yield bytes(piece) + end.model_dump_json().encode() + b"\n"


def _too_much() -> StoreError:
    return StoreError(
        "there is more here than one file can hold: {most} documents and {size} MB are the most; "
        "save each pond by itself, on its screen for sharing",
        most=Amount(MOST_DOCUMENTS, "-"),
        size=Amount(LARGEST_FILE // 1_000_000, "-"),
    )


def plan_file(pond: Pond, now: datetime) -> bytes:
    """A pond without its log, to be shared: in the first format, which every version opens."""
    about = {"format": FORMAT, "format_version": 1, "holds": "pond", "saved_at": now.isoformat()}
    documents = {"pond": [pond.model_dump(mode="json")]}
    return json.dumps({**about, "documents": documents}, indent=1).encode() + b"\n"


def _head(holds: Holds, now: datetime) -> bytes:
    return Head(holds=holds, saved_at=now).model_dump_json().encode() + b"\n"


def _line(key: str, text: str) -> bytes:
    if key.partition("/")[0] in KINDS and "\n" not in text and text[-1:] == "}":
        try:
            if isinstance(parsed(text), dict):
                return f'{{"key":"{key}","document":{text}}}\n'.encode()
        except (StoreError, UnicodeError):
            pass  # it is kept as it is
    line = {"key": key, "text": text}
    try:
        return json.dumps(line, ensure_ascii=False).encode() + b"\n"
    except UnicodeError:  # halves of characters have no bytes of their own
        return json.dumps(line).encode() + b"\n"


@dataclass
class About:
    """A file as it is read: what it says of itself, and how it ends."""

    holds: Holds = "everything"
    saved_at: datetime | None = None
    ended: bool = False
    """Whether all that was written is there."""
    changed: bool = False
    """Whether it is not, letter by letter, as it was written."""


@dataclass(frozen=True, slots=True)
class Item:
    """One document of a file, or why there is none."""

    key: str
    text: str = ""
    as_stored: bool = False
    """Whether it comes back as it is: nobody could read it when it was written."""
    problem: str = ""


async def read(pieces: AsyncIterable[bytes], about: About) -> AsyncIterator[list[Item]]:
    """The documents of a file, some at a time; what is wrong with one hides no other.

    Raises:
        StoreError: It is no backup, or of a newer format.
    """
    stream = aiter(pieces)
    begin = b""
    while b"\n" not in begin and len(begin) < MOST_HEAD:
        more = await anext(stream, None)
        if more is None:
            break
        begin += more
    first, _, _ = begin.partition(b"\n")
    if head := _head_of(first):
        about.holds, about.saved_at = head
        async for items in _of_lines(begin, stream, about):
            yield items
        return
    parts = [begin]
    size = len(begin)
    async for piece in stream:
        size += len(piece)
        if size > LARGEST_FIRST_FORMAT:
            break
        parts.append(piece)
    if size > LARGEST_FIRST_FORMAT:
        raise StoreError("the file is damaged, or no backup of this app")
    for items in _of_first_format(b"".join(parts), about):
        yield items


def _head_of(line: bytes) -> tuple[Holds, datetime] | None:
    """What the first line says; None if the file may be of the first format."""
    try:
        plain = parsed(line[:MOST_HEAD].decode("utf-8-sig"))
    except (UnicodeError, StoreError):
        return None
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        return None
    version = plain.get("format_version")
    if isinstance(version, bool) or not isinstance(version, int) or version < FORMAT_VERSION:
        return None
    _require_known(version)
    try:
        head = Head.model_validate_json(json.dumps(plain))
    except ValidationError as error:
        raise StoreError("the file is no backup of this app: it does not say of when") from error
    return head.holds, head.saved_at


def _require_known(version: int) -> None:
    if version > FORMAT_VERSION:
        raise TooNew(
            "the file was saved by a newer version of the app (format {found}, known up to "
            "{known}); update the app first",
            found=Amount(min(version, 10**9), "-"),
            known=Amount(FORMAT_VERSION, "-"),
        )


async def _of_lines(
    begin: bytes, stream: AsyncIterator[bytes], about: About
) -> AsyncIterator[list[Item]]:
    digest = hashlib.sha256()
    counts: Counter[str] = Counter()
    left = bytearray()
    skipped = 0  # bytes of a line that is too long
    head = True
    damaged = False
    piece: bytes | None = begin
    while piece is not None:
        items: list[Item] = []
        more = await anext(stream, None)
        lines = piece.split(b"\n")
        for number, part in enumerate(lines):
            ends = number < len(lines) - 1
            if skipped or len(left) + len(part) > LARGEST_LINE:
                skipped += len(left) + len(part)
                left.clear()
            else:
                left += part
            if not ends and more is not None:
                continue
            line = bytes(left)
            left.clear()
            if skipped:
                items.append(Item("", problem="a line of the file is too long to be read"))
                skipped, damaged = 0, True
            elif about.ended or head or not line.strip():
                pass
            elif end := _end_of(line):
                about.ended = Counter(end.end) == counts and not damaged
                about.changed = end.sha256 not in ("", digest.hexdigest())
            else:
                item = _item_of(line)
                items.append(item)
                counts[item.key.partition("/")[0]] += 1
                damaged |= not item.key
            head = False
            digest.update(line + b"\n" if ends else line)
        piece = more
        yield items


def _end_of(line: bytes) -> End | None:
    if not line.startswith(b'{"end":') or len(line) > MOST_HEAD:
        return None
    try:
        return End.model_validate_json(check(line.decode()))
    except (ValidationError, UnicodeError, StoreError):
        return None


def _item_of(line: bytes) -> Item:
    try:
        text = line.decode()
    except UnicodeError:
        return Item("", problem="a line of the file is damaged")
    if (found := _LINE.fullmatch(text)) and KEY.fullmatch(found[1]):
        return Item(found[1], found[2])
    try:
        plain = parsed(text, LARGEST_LINE)
    except StoreError:
        return Item("", problem="a line of the file is damaged")
    if not isinstance(plain, dict):
        return Item("", problem="a line of the file is damaged")
    key = plain.get("key")
    if not isinstance(key, str) or not KEY.fullmatch(key) or key.startswith(f"{BEFORE}/"):
        return Item("", problem="it has no place on a device")
    if "document" in plain:
        return Item(key, json.dumps(plain["document"]))
    if isinstance(plain.get("text"), str):
        return Item(key, _whole(plain["text"]), as_stored=True)
    return Item("", problem="a line of the file is damaged")


def _of_first_format(data: bytes, about: About) -> Iterator[list[Item]]:
    """One document of JSON for all, as the first versions wrote it."""
    plain = _plain_file(data)
    documents, as_stored = plain.get("documents"), plain.get("as_stored", {})
    if not isinstance(documents, dict):
        raise StoreError("the file is no backup of this app: it holds no documents")
    for kind, entries in documents.items():
        if not isinstance(entries, list):
            raise StoreError("the file is damaged: {kind} is no list", kind=repr(kind[:40]))
    if not isinstance(as_stored, dict):
        raise StoreError("the file is damaged: what was kept as it is cannot be read")
    about.holds = "pond" if plain.get("holds") == "pond" else "everything"
    about.saved_at = _moment(plain.get("saved_at"))
    about.ended = True
    for kind in list(documents):
        entries = documents.pop(kind)
        for at in range(0, len(entries), AT_ONCE):
            yield [_entry(kind, entry) for entry in entries[at : at + AT_ONCE]]
    yield [_text(key, text) for key, text in as_stored.items()]


def _moment(text: Any) -> datetime:
    try:
        return Head.model_validate({"holds": "pond", "saved_at": text}).saved_at
    except ValidationError as error:
        raise StoreError("the file is no backup of this app: it does not say of when") from error


def _plain_file(data: bytes) -> dict[str, Any]:
    try:
        plain = json.loads(check(data.decode("utf-8-sig"), LARGEST_FIRST_FORMAT))
    except (ValueError, StoreError) as error:
        raise StoreError("the file is damaged, or no backup of this app") from error
    if not isinstance(plain, dict) or plain.get("format") != FORMAT:
        raise StoreError("the file is no backup of this app")
    version = plain.get("format_version")
    if isinstance(version, bool) or not isinstance(version, int) or version < 1:
        raise StoreError("the file does not say which version of the backup format it has")
    _require_known(version)
    return plain


def _entry(kind: str, entry: Any) -> Item:
    """One entry of a file of the first format."""
    plain: Mapping[str, Any] = entry if isinstance(entry, dict) else {}
    document_id = plain.get("id")
    key = f"{kind}/{document_id}"
    if kind in KINDS and issubclass(KINDS[kind], StoredOfPond):
        key = f"{kind}/{plain.get('pond_id')}/{document_id}"
    if not isinstance(document_id, str) or not KEY.fullmatch(key) or kind in (*QUARANTINES, BEFORE):
        return Item("", problem="it has no id that can be used")
    return Item(key, json.dumps(entry))


def _text(key: str, text: Any) -> Item:
    """A text of a file of the first format that the app could not read which wrote it."""
    if not KEY.fullmatch(key) or key.startswith(f"{BEFORE}/") or not isinstance(text, str):
        return Item("", problem="it has no place on a device")
    return Item(key, _whole(text), as_stored=True)


def _whole(text: str) -> str:
    """Lone halves of characters, of a file with damaged bytes, have no place on a device."""
    return text.encode("utf-8", "replace").decode()
