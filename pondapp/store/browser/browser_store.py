"""A KeyValueStore in the browser: IndexedDB, one record per key."""

import asyncio
import itertools
import re
from collections.abc import Awaitable, Callable, Mapping, Sequence
from typing import Any

import js
from pyodide.ffi import JsException, create_proxy, jsnull, to_js

from pondapp.store.browser import page
from pondapp.store.key_value_store import (
    AT_ONCE,
    MANY_KEYS,
    StoreError,
    check_key,
    require_expected,
)

VERSION = 1
TEXTS = "texts"


def _is_nothing(value: Any) -> bool:
    # JavaScript's undefined arrives as None, its null as jsnull.
    return value is None or value is jsnull


def _text(value: Any) -> str:
    # A record that is not text is not ours; in its printed form it is reported as unreadable.
    return value if isinstance(value, str) else str(value)


class _Full(StoreError):
    """There is no room left on the device."""


def _name(error: Any) -> str:
    """The browser's own name of an error."""
    if _is_nothing(error):
        return "unknown reason"
    # One that was thrown, and not told by an event, comes wrapped, with its name in the text.
    found = re.search(r"\b[A-Z][A-Za-z]+Error\b", str(error))
    return str(getattr(error, "name", error)) if found is None else found[0]


def _failure(error: Any) -> StoreError:
    """What the browser said, as a sentence."""
    name = _name(error)
    if name == "QuotaExceededError":
        return _Full("this device has no room left for the app's data; nothing was saved")
    if name == "VersionError":
        return StoreError("a newer version of the app is in use here; reload the page")
    if name in ("SecurityError", "InvalidAccessError"):
        return StoreError("the browser does not let this page keep data; check its privacy setting")
    return StoreError("the browser's storage failed: {reason}", reason=name)


async def _first_event(target: Any, *names: str) -> str:
    """Wait for the first of these events and return its name.

    The caller must not have waited since it made the target, or the event may be over already.
    """
    happened: asyncio.Future[str] = asyncio.get_running_loop().create_future()

    def settle(event: Any) -> None:
        if not happened.done():
            happened.set_result(str(event.type))

    listener = create_proxy(settle)
    for name in names:
        target.addEventListener(name, listener)
    try:
        return await happened
    finally:
        for name in names:
            target.removeEventListener(name, listener)
        listener.destroy()


class _Turns:
    """One transaction in many turns: looks at what is expected to be there, then writes.

    The last answer of each turn asks for the next; between two of them the worker does other work.
    """

    def __init__(
        self,
        changes: Mapping[str, str | None],
        expected: Mapping[str, str | None],
        done: Callable[[int], None],
    ) -> None:
        self.failure: StoreError | None = None
        self._looks, self._writes = iter(expected.items()), iter(changes.items())
        self._looked: list[tuple[str, str | None, Any]] = []
        self._done, self._count = done, 0
        self._proxy = create_proxy(self._turn)
        self._texts: Any = None

    def begin(self, texts: Any) -> list[Any]:
        """Ask for the first; the others follow."""
        self._texts = texts
        self._turn()
        return []

    def end(self) -> None:
        """Nothing is answered any more."""
        self._proxy.destroy()

    def _turn(self, _event: Any = None) -> None:
        # An exception would end in the browser's console, not where it is waited for.
        try:
            for key, text, request in self._looked:
                held = request.result
                require_expected({key: None if _is_nothing(held) else _text(held)}, {key: text})
            self._done(self._count)
            last = self._look() or self._write()
            if last is not None:
                last.addEventListener("success", self._proxy)
        except (StoreError, JsException) as error:
            self.failure = error if isinstance(error, StoreError) else _failure(error)
            self._texts.transaction.abort()

    def _look(self) -> Any:
        ask = self._texts
        self._looked = [
            # Of one that is to be missing, its text need not be fetched.
            (key, text, ask.getKey(key) if text is None else ask.get(key))
            for key, text in itertools.islice(self._looks, AT_ONCE)
        ]
        self._count += len(self._looked)
        return self._looked[-1][2] if self._looked else None

    def _write(self) -> Any:
        last = None
        for key, text in itertools.islice(self._writes, AT_ONCE):
            last = self._texts.delete(key) if text is None else self._texts.put(text, key)
            self._count += 1
        return last


class BrowserStore:
    """Records in one object store; other tabs hear of each change by its key."""

    def __init__(self) -> None:
        import flet_js

        self._name = str(flet_js.database)
        self._connection: Any = None
        self._opening = asyncio.Lock()
        self._channel: Any = js.BroadcastChannel.new(page.name("changes"))
        self._told: Any = None
        self.cleared: Callable[[], None] = lambda: None
        # Called by every connection for as long as the store lives, so never destroyed.
        self._on_lost = create_proxy(self._lost)

    async def get(self, key: str) -> str | None:
        """The text under the key, or None."""
        check_key(key)
        (value,) = await self._run("readonly", lambda texts: [texts.get(key)])
        return None if _is_nothing(value) else _text(value)

    async def put(self, key: str, text: str) -> None:
        """Keep the text under the key; returns when the browser says it is on the disk."""
        check_key(key)
        await self._write(lambda: self._run("readwrite", lambda texts: [texts.put(text, key)]))
        self._channel.postMessage(key)

    async def delete(self, key: str) -> None:
        """Forget the key; it need not be there."""
        check_key(key)
        await self._write(lambda: self._run("readwrite", lambda texts: [texts.delete(key)]))
        self._channel.postMessage(key)

    async def apply(
        self,
        changes: Mapping[str, str | None],
        expected: Mapping[str, str | None] | None = None,
        done: Callable[[int], None] = lambda _: None,
    ) -> None:
        """All of it or nothing, in one transaction that no other tab can write into."""
        for key in changes:
            check_key(key)

        async def in_turns() -> None:
            turns = _Turns(changes, expected or {}, done)
            try:
                await self._run("readwrite", turns.begin)
            except StoreError as error:
                raise (turns.failure or error) from error
            finally:
                turns.end()

        await self._write(in_turns)
        for key in changes if len(changes) <= AT_ONCE else (MANY_KEYS,):
            self._channel.postMessage(key)

    async def get_many(self, keys: Sequence[str]) -> dict[str, str]:
        """The texts under the keys that are there, in one transaction."""
        if not keys:
            return {}
        found = await self._run("readonly", lambda texts: [texts.get(key) for key in keys])
        texts = zip(keys, found, strict=True)
        return {key: _text(text) for key, text in texts if not _is_nothing(text)}

    async def keys(self, prefix: str = "") -> list[str]:
        """All keys that start with the prefix, sorted."""
        (keys,) = await self._run("readonly", lambda texts: [texts.getAllKeys(*_range(prefix))])
        return [str(key) for key in keys]

    async def items(self, prefix: str = "") -> list[tuple[str, str]]:
        """All keys that start with the prefix and their texts, sorted by key."""
        within = _range(prefix)
        # Both in one transaction: no other tab can write between them.
        keys, texts = await self._run(
            "readonly", lambda texts: [texts.getAllKeys(*within), texts.getAll(*within)]
        )
        return [(str(key), _text(text)) for key, text in zip(keys, texts, strict=True)]

    def listen(self, told: Callable[[str], None]) -> None:
        """Call with the key when another tab changes it; replaces the listener before."""
        old = self._told
        self._told = create_proxy(lambda event: told(str(event.data)))
        self._channel.onmessage = self._told
        if old is not None:
            old.destroy()

    async def _write(self, write: Callable[[], Awaitable[object]]) -> None:
        """Write; where the device is full, again once what only makes starts faster is gone."""
        try:
            await write()
        except _Full:
            if not await page.make_room():
                raise
            await write()

    async def _run(self, mode: str, ask: Callable[[Any], list[Any]]) -> list[Any]:
        """Put the requests to the store in one transaction and return their results."""
        try:
            transaction = await self._transaction(mode)
            requests = ask(transaction.objectStore(TEXTS))
            ended = await _first_event(transaction, "complete", "abort")
        except JsException as error:
            self._forget()
            raise _failure(error) from error
        if ended == "abort":
            # Phones cut the connection of a page that slept; the next try opens a new one.
            self._forget()
            raise _failure(transaction.error)
        return [request.result for request in requests]

    async def _transaction(self, mode: str) -> Any:
        # Without "strict" a browser may report completion while the text is still in a buffer.
        options = to_js({"durability": "strict"}, dict_converter=js.Object.fromEntries)
        connection = await self._open()
        try:
            return connection.transaction(TEXTS, mode, options)
        except JsException:  # the connection was cut unnoticed; nothing has been asked of it yet
            self._forget()
            return (await self._open()).transaction(TEXTS, mode, options)

    async def _open(self) -> Any:
        async with self._opening:
            if self._connection is None:
                self._connection = await self._new_connection()
            return self._connection

    async def _new_connection(self) -> Any:
        factory: Any = getattr(js, "indexedDB", None)
        if _is_nothing(factory):
            raise StoreError("this browser has no storage for the app's data")
        request = factory.open(self._name, VERSION)

        def make(_event: Any) -> None:
            request.result.createObjectStore(TEXTS)

        maker = create_proxy(make)
        request.addEventListener("upgradeneeded", maker)
        try:
            happened = await _first_event(request, "success", "error", "blocked")
        finally:
            request.removeEventListener("upgradeneeded", maker)
            maker.destroy()
        if happened == "blocked":
            raise StoreError("another tab still runs an older version of the app; close it")
        if happened == "error":
            raise _failure(request.error)
        connection = request.result
        # A newer app in another tab can only change the store once this connection lets go.
        connection.addEventListener("versionchange", self._on_lost)
        connection.addEventListener("close", self._on_lost)
        return connection

    def _lost(self, event: Any) -> None:
        """The browser cuts the connection: for a newer app in another tab, or to delete it all."""
        event.target.close()
        self._connection = None
        if event.type == "close" or _is_nothing(event.newVersion):
            self.cleared()

    def _forget(self) -> None:
        if self._connection is not None:
            self._connection.close()
            self._connection = None


def _range(prefix: str) -> list[Any]:
    """Arguments that limit a request to keys with this prefix."""
    # Keys are ASCII, so the last code unit there is comes after every continuation.
    return [js.IDBKeyRange.bound(prefix, prefix + "\uffff")] if prefix else []
