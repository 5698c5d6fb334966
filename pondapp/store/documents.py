"""Save, load, list and delete documents by kind, and lose none that cannot be read.

A document lies under "<kind>/<storage key>": its id, or "<pond>/<id>" if it is of a pond's log.
One that cannot be read stays there and is copied to "quarantine/<kind>/<storage key>/<n>"; the
copies are never changed. One saved by a newer version of the app is left exactly as it is: neither
saving nor deleting touches it.
"""

import json
from collections.abc import Iterable
from contextlib import suppress
from dataclasses import dataclass
from enum import Enum
from typing import Any, Generic, TypeVar

from pydantic import ValidationError

from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Amount, phrase
from pondapp.models.base import FAR_DATE, OWN_WORD, Stored, StoredOfPond, is_reserved
from pondapp.models.limits import EARLIEST, LARGEST_DOCUMENT, LATEST, LONGEST_ID, RESERVED
from pondapp.models.migrate import TooNew, migrated, version_of
from pondapp.models.pond import Pond
from pondapp.store.browser.page import SMALL, reading
from pondapp.store.json_text import check, parsed
from pondapp.store.key_value_store import Changed, KeyValueStore, StoreError, read_all

QUARANTINE = "quarantine"
EARLY_QUARANTINE = "aside"
"""What the quarantine was called by early versions: what lies there stays."""
QUARANTINES = (QUARANTINE, EARLY_QUARANTINE)
OUT_OF_BOUNDS = {
    FAR_DATE: phrase(
        "its date is not from {first} to {last}",
        first=str(EARLIEST.year), last=str(LATEST.year - 1),
    ),
    OWN_WORD: "an id in it is a word of the app itself",
}  # fmt: skip
"""What is said of a value that a limit refuses, by the kind of the error."""


Model = TypeVar("Model", bound=Stored)


class Anything(Enum):
    """Stands for a document that the caller knows nothing about."""

    ANYTHING = "anything"


ANYTHING = Anything.ANYTHING


@dataclass(frozen=True, slots=True)
class LoadError:
    """A stored document that could not be read."""

    key: str
    reason: str


@dataclass(frozen=True, slots=True)
class Listed(Generic[Model]):
    """The documents of one kind, and those that could not be read."""

    documents: tuple[Model, ...]
    errors: tuple[LoadError, ...]


async def save(
    store: KeyValueStore, kind: str, document: Model, *, over: Model | Anything | None = ANYTHING
) -> None:
    """Keep the document; durable on return.

    A text under the same key that cannot be read is copied to the quarantine first; StoreError if
    it comes from a newer version of the app. Given the document that it takes the place of (None:
    there is none), Changed if another tab has put something else there.
    """
    key = _key(kind, document.storage_key())
    made = document.model_dump_json()
    if len(made) > LARGEST_DOCUMENT:  # else it could not be read again
        raise StoreError(
            "this is too much text to be kept in one place: {size} MB, where {most} MB is the "
            "most; make it shorter",
            size=Amount(-(-len(made) // 100_000) / 10, "-"),
            most=Amount(LARGEST_DOCUMENT / 1e6, "-"),
        )
    text = await store.get(key)
    there = await _make_room(store, key, kind, document.storage_key(), type(document), text)
    if isinstance(over, Anything):
        await store.put(key, made)
        return
    if not _same(there, over):
        raise Changed("{key} was changed in another tab", key=key)
    await store.apply({key: made}, {key: text})


def _same(there: Stored | None, over: Stored | None) -> bool:
    """Whether a document is the one that the caller knows, also if it only was written since."""
    if there is None or over is None:
        return there is over
    return there == over or there == type(over).model_validate_json(over.model_dump_json())


async def list_all(
    store: KeyValueStore, kind: str, model: type[Model], pond_id: str | None = None
) -> Listed[Model]:
    """Read all documents of a kind, or those of one pond; one that is unreadable hides no other."""
    documents: list[Model] = []
    errors: list[LoadError] = []
    within = f"{kind}/" if pond_id is None else f"{kind}/{pond_id}/"
    async for key, text in read_all(store, await store.keys(within)):
        try:
            documents.append(read_text(kind, key.removeprefix(f"{kind}/"), model, text))
        except PondError as error:
            errors.append(await _load_error(store, key, text, error))
    return Listed(tuple(documents), tuple(errors))


async def delete(
    store: KeyValueStore,
    kind: str,
    storage_key: str,
    model: type[Stored] | None = None,
    *,
    over: Stored | Anything = ANYTHING,
) -> None:
    """Forget a document; it need not be there.

    Given the document as the caller knows it, Changed if another tab has put something else there.
    Given its model, a text that cannot be read is copied to the quarantine, and one from a newer
    version of the app is left alone with a StoreError. Without it, only text that is no document
    is copied there.
    """
    key = _key(kind, storage_key)
    text = await store.get(key)
    there = await _make_room(store, key, kind, storage_key, model, text)
    if isinstance(over, Anything) or text is None:
        await store.delete(key)
        return
    if not _same(there, over):
        raise Changed("{key} was changed in another tab", key=key)
    await store.apply({key: None}, {key: text})


@dataclass(frozen=True, slots=True)
class Step:
    """One document of several that are saved or forgotten together."""

    kind: str
    storage_key: str
    model: type[Stored]
    document: Stored | None
    """What is to lie there; None: nothing."""
    over: Stored | Anything | None = ANYTHING
    """What it takes the place of, as the caller knows it; None: there is nothing."""


async def take_steps(store: KeyValueStore, steps: Iterable[Step]) -> None:
    """Save and forget several documents at once: all of it or, where the store can, nothing.

    Changed, with nothing done, if another tab has put something else in one of the places.
    """
    changes: dict[str, str | None] = {}
    expected: dict[str, str | None] = {}
    for step in steps:
        key = _key(step.kind, step.storage_key)
        text = await store.get(key)
        there = await _make_room(store, key, step.kind, step.storage_key, step.model, text)
        if not isinstance(step.over, Anything) and not _same(there, step.over):
            raise Changed("{key} was changed in another tab", key=key)
        changes[key] = None if step.document is None else step.document.model_dump_json()
        expected[key] = text
    await store.apply(changes, expected)


async def sort_by_pond(
    store: KeyValueStore, kind: str, model: type[StoredOfPond]
) -> list[LoadError]:
    """Move documents that early versions kept under their id alone to their pond's others.

    What cannot be read stays and is returned.
    """
    errors: list[LoadError] = []
    for key in await store.keys(f"{kind}/"):
        document_id = key.removeprefix(f"{kind}/")
        if "/" in document_id:
            continue
        text = await store.get(key) or ""
        try:
            document = read_text(kind, document_id, model, text)
        except PondError as error:
            errors.append(await _load_error(store, key, text, error))
            continue
        there = _key(kind, document.storage_key())
        newer = await store.get(there)
        with suppress(Changed):  # another tab does the same
            await store.apply({there: newer or text, key: None}, {there: newer, key: text})
    return errors


async def free_reserved(store: KeyValueStore) -> None:
    """Give ponds a new id whose id is a word of the app itself; their logs stay where they are.

    Early versions took such a pond from a link. Readings without a pond lie under one of the words,
    and would be deleted with it.
    """
    for key, text in (await store.get_many([f"pond/{word}" for word in sorted(RESERVED)])).items():
        word = key.removeprefix("pond/")
        with suppress(PondError):  # what cannot be read stays, and is reported
            pond = read_text("pond", word, Pond, text)
            moved = pond.model_copy(update={"id": own_id(word)})
            there = _key("pond", moved.id)
            newer = await store.get(there)
            with suppress(Changed):  # another tab does the same
                await store.apply(
                    {there: newer or moved.model_dump_json(), key: None}, {there: newer, key: text}
                )


def own_id(document_id: str) -> str:
    """The id under which a document from outside is taken in: never a word of the app itself."""
    return f"own-{document_id}"[:LONGEST_ID] if is_reserved(document_id) else document_id


def _key(kind: str, storage_key: str) -> str:
    if kind in QUARANTINES:
        raise StoreError("what was set aside cannot be saved, loaded or deleted as a document")
    return f"{kind}/{storage_key}"


def _plain(text: str) -> dict[str, Any]:
    data = parsed(text)
    if not isinstance(data, dict):
        raise StoreError("its text is not a document")
    return data


def read_text(kind: str, storage_key: str, model: type[Model], text: str) -> Model:
    """The document in the text; TooNew, or another PondError if it cannot be read."""
    if len(text) < SMALL:
        return _read_text(kind, storage_key, model, text)
    with reading(f"{kind}/{storage_key}"):
        return _read_text(kind, storage_key, model, text)


def _read_text(kind: str, storage_key: str, model: type[Model], text: str) -> Model:
    check(text)
    with suppress(ValidationError, UnicodeError):
        # Nearly every text is in order: what else there is to know is found out if it is not.
        document = model.model_validate_json(text)
        says_version = "schema_version" in document.model_fields_set
        if says_version and storage_key in (document.storage_key(), document.id):
            return document
    data = _plain(text)
    wanted = int(model.model_fields["schema_version"].default)
    current = migrated(kind, data, wanted)
    try:
        # The text itself when it is current: what was written is what is checked.
        document = model.model_validate_json(
            text if version_of(data) == wanted else json.dumps(current)
        )
    except (ValidationError, UnicodeError) as error:
        raise StoreError("{reason}", reason=_first_reason(error)) from error
    # Early versions kept a reading under its id alone.
    if storage_key not in (document.storage_key(), document.id):
        raise StoreError("it holds the document {other}", other=repr(document.id))
    return document


def _first_reason(error: ValidationError | UnicodeError) -> str:
    if isinstance(error, UnicodeError):
        return "its text is damaged"
    first = error.errors(include_url=False)[0]
    if first["type"] in OUT_OF_BOUNDS:
        return OUT_OF_BOUNDS[first["type"]]
    place = ".".join(str(part) for part in first["loc"])
    return f"{place}: {first['msg']}" if place else first["msg"]


def reason_of(error: PondError) -> str:
    """The sentence of an error, which another language can still say."""
    values = {key: str(value) for key, value in error.message.values.items()}
    return phrase(error.message.template, **values)


async def _load_error(store: KeyValueStore, key: str, text: str, error: PondError) -> LoadError:
    """Copy what cannot be read to the quarantine, and say what is wrong with it."""
    reason = reason_of(error)
    if not isinstance(error, TooNew):
        try:
            await _quarantine(store, key, text)
        except StoreError as failure:  # a full or locked disk must not hide the other documents
            reason = phrase(
                "{reason} (and no copy could be made: {failure})",
                reason=reason, failure=reason_of(failure),
            )  # fmt: skip
    return LoadError(key, reason)


async def _quarantine(store: KeyValueStore, key: str, text: str) -> None:
    """Copy the text to the next free number, unless it is there already."""
    prefix = f"{QUARANTINE}/{key}/"
    copies = await store.items(prefix)
    early = await store.items(f"{EARLY_QUARANTINE}/{key}/")
    if any(copy == text for _, copy in (*copies, *early)):
        return
    ends = [name.removeprefix(prefix) for name, _ in copies]
    taken = [int(end) for end in ends if end.isdecimal()]
    await store.put(f"{prefix}{max(taken, default=0) + 1}", text)


async def _make_room(
    store: KeyValueStore,
    key: str,
    kind: str,
    storage_key: str,
    model: type[Model] | None,
    text: str | None,
) -> Model | None:
    """Make sure that nothing is lost when the text goes; returns the document in it, if read."""
    if text is None:
        return None
    try:
        if model is not None:
            return read_text(kind, storage_key, model, text)
        version_of(_plain(text))
    except TooNew as error:
        raise StoreError("{key} is left as it is: {reason}", key=key, reason=str(error)) from error
    except PondError:
        await _quarantine(store, key, text)
    return None
