"""Two tabs of the app in one Chromium without a screen, to which a test says what is done.

The app's own session, storage and Python do it; there is no screen, so that it goes quickly.
"""

import json
import random
import time
from pathlib import Path
from typing import Any

import deeds
from phones import BOOT, PREFIX, Host, Phone
from playwright.sync_api import Page

from pondapp.web import bundle, places, site

# The app's session, which does as the page says and tells what came of it.
DRIVER = b'''"""Do deeds."""

import asyncio
import json
from itertools import cycle

import flet_js
import js
from pyodide.ffi import create_proxy

import deeds
from pondapp.core.base.errors import PondError
from pondapp.state import tabs
from pondapp.state.session import Session
from pondapp.store.browser.browser_store import BrowserStore
from pondapp.ui.shell import touch

store = BrowserStore()
session, changes, marks = Session(store), store._channel, set()
channel = js.BroadcastChannel.new("deeds")
tasks = set()


def run(do):
    task = asyncio.ensure_future(do())
    tasks.add(task)
    task.add_done_callback(tasks.discard)
    return task


def now():
    return js.performance.timeOrigin + js.performance.now()


async def switch_for_ever(number):
    """Tell of each switch that is done."""
    for done, units in enumerate(cycle(["us", "imperial", "metric"]), start=1):
        await deeds.do(session, ["units", units])
        tell(number, done)


async def rest(mark):
    """Hear all that the other tab has told, which comes before its mark, and take it over."""
    changes.postMessage(mark)
    while mark not in marks or any(task is not asyncio.current_task() for task in tasks):
        await asyncio.sleep(tabs.PAUSE)
    return True


def tell(number, said):
    channel.postMessage(json.dumps({"of": flet_js.tab, "number": number, "said": said}))


async def answer(number, deed, at):
    """Begin at a moment of a clock that both tabs share [ms], and tell how it ended."""
    await asyncio.sleep(max(0, at - now()) / 1000)
    try:
        if deed == ["held"]:
            said = await deeds.held(Session(BrowserStore()))
        elif deed[0] == "rest":
            said = await rest(f"mark/{deed[1]}")
        elif deed == ["forms"]:
            said = await deeds.forms(Session(BrowserStore()))
        elif deed == ["switch for ever"]:
            await switch_for_ever(number)
        else:
            said = await deeds.do(session, deed)
    except deeds.NotBegun:
        said = None
    except (PondError, deeds.NotDone):
        said = False
    tell(number, said)


def heard(event):
    told = json.loads(event.data)
    if told.get("to") == flet_js.tab:
        run(lambda: answer(told["number"], told["deed"], told["at"]))


async def begin():
    touch.listen()
    touch._run.clear()  # these tabs keep their names over a new start, which no page does
    await session.load()
    await session.logs.read_all()
    tabs.Follower(session, run)
    changes.addEventListener("message", create_proxy(lambda event: marks.add(event.data)))
    channel.onmessage = create_proxy(heard)
    tell(0, "ready")


async def start_connection(_send):
    """No screen is connected."""


flet_js.start_connection = start_connection
run(begin)
'''
PAGE = {
    "deeds.html": b"<!DOCTYPE html><title>Deeds</title><script src='deeds.js'></script>",
    "deeds.js": b"""
const said = new Map();
const ours = new BroadcastChannel("deeds");
ours.onmessage = ({ data }) => {
  const told = JSON.parse(data);
  if (told.of === location.hash) said.set(told.number, told.said);
};
const worker = new Worker(`worker.js${location.search}`, { type: "module" });
worker.onerror = (event) => said.set(0, event.message || "the worker did not start");
worker.onmessage = ({ data }) => {
  if (data.error || data.dead) said.set(0, data.error || data.dead);
};
worker.postMessage({ documentUrl: document.URL, tab: location.hash });
const now = () => performance.timeOrigin + performance.now();
const tell = (number, deed, at) =>
  ours.postMessage(JSON.stringify({ to: location.hash, number, deed, at }));

// What befalls both tabs; done when both have heard.
const fault = new BroadcastChannel("test-fault");
const befall = (what) => new Promise((done) => {
  let heard = 0;
  fault.onmessage = () => { heard += 1; if (heard === 2) done(true); };
  fault.postMessage(what);
});
const stored = () => new Promise((done) => {
  indexedDB.open("pondapp-data """
    + PREFIX.encode()
    + b"""").onsuccess = ({ target }) => {
    const asked = target.result.transaction("texts").objectStore("texts").getAll();
    asked.onsuccess = () => { target.result.close(); done(asked.result); };
  };
});
const clear = () => new Promise((done, failed) => {
  indexedDB.open("pondapp-data """
    + PREFIX.encode()
    + b"""").onsuccess = ({ target }) => {
    const deed = target.result.transaction("texts", "readwrite");
    deed.objectStore("texts").clear();
    deed.oncomplete = () => { target.result.close(); done(true); };
    deed.onabort = () => failed(deed.error);
  };
});
""",
}
# In front of the worker's program: while the test says so, the storage has no room, and the
# device's clock is off. What the stopwatch reads, nobody can set.
FAULTS = b"""
{
  let full = false;
  let shift = Number(new URLSearchParams(location.search).get("shift"));
  const TrueDate = Date;
  globalThis.Date = class extends TrueDate {
    constructor(...parts) { super(...(parts.length ? parts : [TrueDate.now() + shift])); }
    static now() { return TrueDate.now() + shift; }
  };
  const ear = new BroadcastChannel("test-fault");
  ear.onmessage = ({ data }) => {
    if (data === "heard") return; // the other tab's
    full = data.full ?? full;
    shift = data.shift ?? shift;
    ear.postMessage("heard");
  };
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...args) {
    if (full) throw new DOMException("full", "QuotaExceededError");
    return put.apply(this, args);
  };
}
"""
PROMPT = 40  # ms within which a deed is ended in the middle


def host_of_deeds(folder: Path) -> Host:
    """Serves the page that does as it is told, with the app's own worker, session and storage."""
    driver = (Path(__file__).parent / "deeds.py").read_bytes()
    files = {**bundle.app_files(places.PACKAGE), "main.py": DRIVER, "deeds.py": driver}
    host = Host(folder)
    host.deploy(site.best_files(files, print))
    host.deploy({**PAGE, "worker.js": FAULTS + (host.folder / "worker.js").read_bytes()})
    return host


class There:
    """Two tabs of one browser, which can be killed."""

    def __init__(self, phone: Phone, host: Host) -> None:
        self.phone, self.host, self.number, self.shift = phone, host, 0, 0.0
        self.pages: list[Page] = []
        self.start()

    def start(self) -> None:
        """Start the browser."""
        first = self.phone.start()
        self.pages = [first, first.context.new_page()]
        self.anew()

    def anew(self) -> None:
        """Start both tabs: nothing of what was in hand is left, only what is stored."""
        for tab, page in enumerate(self.pages):
            page.goto("about:blank")
            page.goto(f"{self.host.address}deeds.html?shift={1000 * self.shift:.0f}#{tab}")
        for tab in (0, 1):
            ready = self.said(tab, 0)
            assert ready == "ready", ready

    def said(self, tab: int, number: int) -> Any:
        """Wait for what a tab says of a deed."""
        deadline = time.monotonic() + BOOT / 1000
        while not self.pages[tab].evaluate(f"said.has({number})"):
            assert time.monotonic() < deadline, "Python does not answer"
            self.pages[tab].wait_for_timeout(5)
        return self.pages[tab].evaluate(f"said.get({number})")

    def tell(self, tab: int, deed: list[Any], at: float = 0.0) -> int:
        """Have a tab do something, at a moment [ms] of the clock that both tabs share."""
        self.number += 1
        self.pages[tab].evaluate(f"tell({self.number}, {json.dumps(deed)}, {at})")
        return self.number

    def do(self, tab: int, deed: list[Any]) -> Any:
        return self.said(tab, self.tell(tab, deed))

    def both(self, first: list[Any], second: list[Any], apart: float) -> tuple[Any, Any]:
        """One deed in each tab, the second so many milliseconds after the first (or before)."""
        begin = float(self.pages[0].evaluate("now()")) + 150 + max(0.0, -apart)
        numbers = self.tell(0, first, begin), self.tell(1, second, begin + apart)
        return self.said(0, numbers[0]), self.said(1, numbers[1])

    def cut(self, tab: int, deed: list[Any], whole: bool, chance: random.Random) -> None:
        self.tell(tab, deed)
        self.pages[tab].wait_for_timeout(chance.uniform(0, PROMPT))
        self.end(tab, whole)

    def end(self, tab: int, whole: bool) -> None:
        """End the browser, or the worker of one tab, and start again."""
        if whole:
            self.phone.kill()
            self.start()
            return
        self.pages[tab].evaluate("worker.terminate()")
        self.anew()

    def written_in(self) -> set[str | None]:
        """The units that the texts on the device say they are in: of forms and settings."""
        documents = [json.loads(text) for text in self.pages[0].evaluate("stored()")]
        return {document["units"] for document in documents if "units" in document}

    def rest(self) -> None:
        self.number += 1
        mark = self.number
        numbers = [self.tell(tab, ["rest", mark]) for tab in (0, 1)]
        for tab in (0, 1):
            self.said(tab, numbers[tab])

    def wait(self, least: float, most: float) -> None:  # noqa: ARG002 - no longer than needed
        self.pages[0].wait_for_timeout(1000 * least)

    def set_clock(self, seconds: float) -> None:
        self.shift += seconds
        self.pages[0].evaluate(f"befall({{ shift: {1000 * self.shift:.0f} }})")

    def fill_up(self, full: bool) -> None:
        self.pages[0].evaluate(f"befall({{ full: {json.dumps(full)} }})")

    def unplug(self, gone: bool) -> None:
        self.pages[0].context.set_offline(gone)

    def clear(self) -> None:
        self.pages[0].evaluate("clear()")

    def held(self) -> deeds.Found:
        found: deeds.Found = self.do(0, ["held"])
        return found
