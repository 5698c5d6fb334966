"""Large devices: how their texts get into a browser, and whether all of them are there."""

import hashlib
import sys
import time
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from phones import Name, finished
from playwright.sync_api import Page

from pondapp.models.pond import Pond
from pondapp.models.water import TypedVolume

sys.path.insert(0, str(Path(__file__).parent.parent / "bench"))

import backup as shape

AT_ONCE = 5000
"""Texts that are handed to the page in one go."""
# How long the page, and Python in its worker, gave no sign of life; and what the screen said.
METER = """
window.meter = (() => {
  let [screen, python, asked, last] = [0, 0, null, performance.now()];
  const said = new Set();
  setInterval(() => {
    const now = performance.now();
    screen = Math.max(screen, now - last);
    last = now;
    if (asked !== null) python = Math.max(python, now - asked);
    if (document.documentElement.dataset.halted) said.add(document.documentElement.dataset.halted);
  }, 20);
  setInterval(() => {
    for (const node of document.querySelectorAll("flt-semantics, flt-semantics *")) {
      for (const text of [node.textContent, node.getAttribute("aria-label") || ""]) {
        const found = /The file is being [a-z ]+[.:]( \\d+ %)?/.exec(text);
        if (found) said.add(found[0]);
      }
    }
  }, 200);
  window.Worker = class extends Worker {
    constructor(...args) {
      super(...args);
      this.addEventListener("message", ({ data }) => {
        if (!data.pong || asked === null) return;
        python = Math.max(python, performance.now() - asked);
        asked = null;
      });
    }
    postMessage(data, ...more) {
      if (data?.ping) asked = performance.now();
      super.postMessage(data, ...more);
    }
  };
  return {
    forget() {
      [screen, python] = [0, 0];
      last = performance.now();
      said.clear();
    },
    read() {
      const words = [...said];
      const few = words.length > 4 ? [...words.slice(0, 2), "...", words.at(-1)] : words;
      return { screen, python, words: few.join(" | ") };
    },
  };
})();
"""
PUT = """(pairs) => new Promise((done, failed) => {
  const asked = indexedDB.open(pondappName("data"), 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore("texts");
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const deed = asked.result.transaction("texts", "readwrite");
    for (const [key, text] of pairs) deed.objectStore("texts").put(text, key);
    deed.oncomplete = () => { asked.result.close(); done(); };
    deed.onabort = () => failed(deed.error);
  };
})"""
# For each kind of document: how many, their letters, and a hash of all keys and texts.
KEPT = """async (atOnce) => {
  const answered = (asked) => new Promise((done, failed) => {
    asked.onsuccess = () => done(asked.result);
    asked.onerror = () => failed(asked.error);
  });
  const data = await answered(indexedDB.open(pondappName("data"), 1));
  const texts = () => data.transaction("texts").objectStore("texts");
  const kinds = {};
  let after = null;
  for (;;) {
    const range = after === null ? null : IDBKeyRange.lowerBound(after, true);
    const keys = await answered(texts().getAllKeys(range, atOnce));
    if (keys.length === 0) break;
    const found = await answered(texts().getAll(range, atOnce));
    for (const [number, key] of keys.entries()) {
      const bytes = new TextEncoder().encode(`${key}\\n${found[number]}`);
      const hash = new Uint8Array(await crypto.subtle.digest("SHA-256", bytes));
      const kind = kinds[key.split("/")[0]] ??=
        { documents: 0, letters: 0, hash: Array(32).fill(0) };
      kind.documents += 1;
      kind.letters += found[number].length;
      hash.forEach((byte, place) => { kind.hash[place] ^= byte; });
    }
    after = keys.at(-1);
  }
  data.close();
  return kinds;
}"""
LEFT_OUT = ("before", "preferences")
"""Kinds that a restore keeps apart, and that saving a backup itself changes."""


def texts(readings: int) -> dict[str, str]:
    """So many readings, as many photos as a device may hold, and a damaged text of 20 MB."""
    memory = shape.Memory()
    finished(shape.fill(memory, readings))
    pond = Pond(id="p", name="Large", water=TypedVolume(volume_m3=9))
    return {**memory.texts, "pond/p": pond.model_dump_json()}


@dataclass(frozen=True)
class Kept:
    """All that is stored, in short: two are equal when every key and every letter is."""

    kinds: tuple[tuple[str, int, int, str], ...]
    """For each kind: its documents, their letters, and the hashes of all of them put together."""

    @classmethod
    def of(cls, texts: Mapping[str, str]) -> "Kept":
        """The same of texts that are here."""
        found: dict[str, tuple[int, int, int]] = {}
        for key, text in texts.items():
            kind = key.partition("/")[0]
            documents, letters, whole = found.get(kind, (0, 0, 0))
            digest = hashlib.sha256(f"{key}\n{text}".encode()).digest()
            whole ^= int.from_bytes(digest)
            found[kind] = (documents + 1, letters + len(text), whole)
        return cls(
            tuple(
                (kind, documents, letters, f"{whole:064x}")
                for kind, (documents, letters, whole) in sorted(found.items())
                if kind not in LEFT_OUT
            )
        )

    @property
    def documents(self) -> int:
        return sum(kind[1] for kind in self.kinds)

    @property
    def letters(self) -> int:
        return sum(kind[2] for kind in self.kinds)

    def without(self, kind: str) -> "Kept":
        """The same without one kind."""
        return Kept(tuple(one for one in self.kinds if one[0] != kind))

    def against(self, other: "Kept") -> str:
        """In which kinds they differ."""
        mine, theirs = ({kind[0]: kind[1:3] for kind in one.kinds} for one in (self, other))
        return ", ".join(
            f"{kind} {mine.get(kind)} {theirs.get(kind)}" for kind in sorted({*mine, *theirs})
        )


def kept_on(page: Page) -> Kept:
    """What the app keeps in this browser."""
    found = page.evaluate(KEPT, AT_ONCE)
    return Kept(
        tuple(
            (kind, one["documents"], one["letters"], bytes(one["hash"]).hex())
            for kind, one in sorted(found.items())
            if kind not in LEFT_OUT
        )
    )


def put(page: Page, texts: Mapping[str, str]) -> None:
    """Write texts past the app."""
    some: list[tuple[str, str]] = []
    size = 0
    for pair in texts.items():
        some.append(pair)
        size += len(pair[1])
        if len(some) == AT_ONCE or size > 10_000_000:
            page.evaluate(PUT, some)
            some, size = [], 0
    page.evaluate(PUT, some)


def give_path(page: Page, name: Name, file: Path) -> None:
    """Press a button that asks for a file and pick one of any size, which the browser reads."""
    browser = page.context.new_cdp_session(page)
    browser.send("Page.enable")
    browser.send("Page.setInterceptFileChooserDialog", {"enabled": True})
    opened: list[int] = []
    browser.on("Page.fileChooserOpened", lambda event: opened.append(event["backendNodeId"]))
    page.get_by_role("button", name=name).first.evaluate("control => hands.click(control)")
    deadline = time.monotonic() + 60
    while not opened:
        assert time.monotonic() < deadline, "no file was asked for"
        page.wait_for_timeout(20)
    browser.send("DOM.setFileInputFiles", {"files": [str(file)], "backendNodeId": opened[0]})
    browser.send("Page.setInterceptFileChooserDialog", {"enabled": False})
    browser.detach()


def word_shown(page: Page, words: str, seconds: float, or_else: str = "\0") -> None:
    """Wait for words on the screen, or others; what halts the app meanwhile is only noted."""
    deadline = time.monotonic() + seconds
    while not page.evaluate(
        """(words) => [...document.querySelectorAll("flt-semantics, flt-semantics *")].some(
          (node) => words.some((one) => node.textContent.includes(one) ||
            (node.getAttribute("aria-label") || "").includes(one)))""",
        [words, or_else],
    ):
        assert time.monotonic() < deadline, f"never shown: {words}"
        page.wait_for_timeout(100)
