"""What the app keeps in the browser, looked at and changed past the app."""

from collections.abc import Mapping
from typing import Any

from playwright.sync_api import Page

CHANGE = """(change) => new Promise((done, failed) => {
  const asked = indexedDB.open(pondappName("data"));
  asked.onupgradeneeded = () => asked.result.createObjectStore("texts"); // before Python did
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const deed = asked.result.transaction("texts", "readwrite");
    const texts = deed.objectStore("texts");
    for (const [key, text] of Object.entries(change)) texts.put(text, key);
    const [keys, all] = [texts.getAllKeys(), texts.getAll()];
    deed.oncomplete = () => {
      asked.result.close();
      done(Object.fromEntries(keys.result.map((key, i) => [key, all.result[i]])));
    };
    deed.onabort = () => failed(deed.error);
  };
})"""


def kept(page: Page, change: Mapping[str, str] | None = None) -> dict[str, Any]:
    """All that lies on the device, by key, after putting something there."""
    found: dict[str, Any] = page.evaluate(CHANGE, dict(change or {}))
    return found
