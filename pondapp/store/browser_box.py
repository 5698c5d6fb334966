"""A Box in the browser's IndexedDB: one record per key, durable when a call returns."""

from typing import Any

import js
from pyodide.ffi import create_once_callable, to_js

STORE = "documents"


def _finished(thing: Any, done: str, failed: str) -> Any:
    """A promise for an IndexedDB request or transaction."""

    def run(resolve: Any, reject: Any) -> None:
        setattr(thing, done, create_once_callable(lambda _: resolve(None)))
        setattr(thing, failed, create_once_callable(lambda _: reject(str(thing.error))))

    return js.Promise.new(create_once_callable(run))


class BrowserBox:
    """Texts in one object store."""

    def __init__(self, database: Any) -> None:
        self._database = database

    @classmethod
    async def open(cls, name: str) -> "BrowserBox":
        """Open the database, making it at the first visit."""
        request = js.indexedDB.open(name, 1)
        request.onupgradeneeded = create_once_callable(
            lambda _: request.result.createObjectStore(STORE)
        )
        await _finished(request, "onsuccess", "onerror")
        return cls(request.result)

    def _begin(self, mode: str) -> Any:
        options = to_js({"durability": "strict"}, dict_converter=js.Object.fromEntries)
        return self._database.transaction(STORE, mode, options)

    async def items(self, prefix: str) -> dict[str, str]:
        """All texts whose key begins so."""
        store = self._begin("readonly").objectStore(STORE)
        span = js.IDBKeyRange.bound(prefix, prefix + "\uffff")
        keys, texts = store.getAllKeys(span), store.getAll(span)
        await _finished(texts, "onsuccess", "onerror")
        return dict(zip(keys.result.to_py(), texts.result.to_py(), strict=True))

    async def put(self, key: str, text: str) -> None:
        """Keep a text."""
        transaction = self._begin("readwrite")
        transaction.objectStore(STORE).put(text, key)
        await _finished(transaction, "oncomplete", "onabort")

    async def delete(self, key: str) -> None:
        """Forget a text."""
        transaction = self._begin("readwrite")
        transaction.objectStore(STORE).delete(key)
        await _finished(transaction, "oncomplete", "onabort")
