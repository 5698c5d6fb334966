"""The stopwatch of the page, as tests press it, and what the app keeps of it."""

import json
from typing import Any

from kept import kept
from phones import BOOT, Phone, Thumb, counted, wait_true
from playwright.sync_api import Page

OUTLET = "#/measure/none/outlet"
DRAFT = "draft/fills-none-outlet-bucket"
SHORT, PAUSE = 450, 1050  # ms: the shortest fill that counts, and the least between two
EVEN = 2000  # ms: so long that fills on a busy machine differ too little to ask for more of them
RUNNING = "document.documentElement.dataset.pad === 'running'"
SHOWN = "window.pondappPad !== undefined && !document.getElementById('pad').hidden"
# In front of all programs: Python is let in when the test says so.
HELD = """
(() => {
  const Now = window.Worker;
  const held = [];
  let free = false;
  window.Worker = class {
    constructor(...parts) {
      if (free) return new Now(...parts);
      this.parts = parts;
      this.letters = [];
      held.push(this);
    }
    postMessage(...letter) {
      if (this.worker) this.worker.postMessage(...letter);
      else this.letters.push(letter);
    }
    terminate() { this.worker?.terminate(); }
  };
  window.letPythonIn = () => {
    free = true;
    for (const one of held.splice(0)) {
      one.worker = new Now(...one.parts);
      one.worker.onmessage = (event) => one.onmessage?.(event);
      one.worker.onerror = (event) => one.onerror?.(event);
      for (const letter of one.letters) one.worker.postMessage(...letter);
    }
  };
})();
"""
ALL = """(what) => new Promise((done, failed) => {
  const asked = indexedDB.open(pondappName("pad"));
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const all = asked.result.transaction(what).objectStore(what).getAll();
    all.onsuccess = () => { asked.result.close(); done(all.result); };
    all.onerror = () => failed(all.error);
  };
})"""


def held_where(condition: str) -> str:
    """A script that holds Python only then; an empty page has no storage to ask."""
    return f"if (location.origin !== 'null' && {condition}) {{{HELD}}}"


def stopwatch_at(page: Page, address: str) -> Thumb:
    """Open an address and wait for no more than the stopwatch."""
    page.goto("about:blank")
    page.goto(address, wait_until="commit")
    wait_true(page, SHOWN)
    return Thumb(page)


def python_there(page: Page) -> None:
    """Wait until the first screen of the app is drawn."""
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=BOOT)


def wait_kept(page: Page, presses: int) -> list[dict[str, Any]]:
    """Wait until so many presses of this page are on the device."""
    wait_true(page, f"pondappPad.presses.filter((one) => one.kept).length >= {presses}")
    return counted(page)


def waiting(page: Page) -> list[dict[str, Any]]:
    """The presses that Python has not said to be saved."""
    found: list[dict[str, Any]] = page.evaluate(ALL, "presses")
    return found


def last_shown(page: Page, route: str) -> dict[str, Any]:
    """What the page keeps of the stopwatch at an address, for the next start."""
    states: list[dict[str, Any]] = page.evaluate(ALL, "places")
    return next((one for one in states if one["route"] == route), {})


def draft(page: Page, key: str = DRAFT) -> dict[str, Any]:
    """What is timed at a place, as it is saved; nothing where nothing is."""
    found: dict[str, Any] = json.loads(kept(page).get(key, '{"fills": []}'))
    return found


def fills(page: Page, key: str = DRAFT) -> list[float]:
    """The fills at a place, as they are saved [s]."""
    return [one["seconds"] for one in draft(page, key)["fills"]]


def settled(page: Page) -> None:
    """Wait until every press is saved by the app, and none waits."""
    python_there(page)
    for _ in range(1200):
        if not waiting(page):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"presses wait: {waiting(page)}")


def time_fills(thumb: Thumb, count: int, wait: int = SHORT) -> list[float]:
    """Time so many fills, and return the times between the browser's own stamps [s]."""
    page = thumb.page
    before = len(counted(page))
    for _ in range(count):
        thumb.press()
        page.wait_for_timeout(wait)
        thumb.press()
        page.wait_for_timeout(PAUSE)
    presses = counted(page)[before:]
    return [(b["t"] - a["t"]) / 1000 for a, b in zip(presses[::2], presses[1::2], strict=True)]


def in_app(phone: Phone, address: str) -> Page:
    """Start the browser anew, at the stopwatch, with Python."""
    page = phone.start()
    stopwatch_at(page, address + OUTLET)
    settled(page)
    return page
