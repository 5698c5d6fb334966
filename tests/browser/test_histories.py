"""A few histories by chance in Chromium: its storage, its Python, two tabs, and real faults.

The app's own session and storage do what users do; there is no screen, so that it goes quickly.
`tests/bench/histories.py` lives hundreds without a browser.
"""

import json
import random
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

sys.path.insert(0, str(Path(__file__).parent.parent / "store"))

import deeds
from histories import live
from phones import BOOT, PREFIX, Host, Phone
from playwright.sync_api import Page

from pondapp.web import bundle, places, site

HISTORIES, STEPS = 10, 14

# The app's session, which does as the page says and tells what came of it.
DRIVER = b'''"""Do deeds."""

import asyncio
import json

import flet_js
import js
from pyodide.ffi import create_proxy

import deeds
from pondapp.core.errors import PondError
from pondapp.store.browser_box import BrowserBox
from pondapp.ui import tabs
from pondapp.ui.session import Session

session = Session(BrowserBox())
channel = js.BroadcastChannel.new("deeds")
tasks = set()


def run(do):
    task = asyncio.ensure_future(do())
    tasks.add(task)
    task.add_done_callback(tasks.discard)
    return task


async def answer(number, deed):
    try:
        if deed == ["held"]:
            said = await deeds.held(Session(BrowserBox()))
        elif deed == ["rest"]:
            await asyncio.sleep(4 * tabs.PAUSE)
            said = True
        else:
            await deeds.do(session, deed)
            said = True
    except deeds.NotBegun:
        said = None
    except (PondError, deeds.NotDone):
        said = False
    channel.postMessage(json.dumps({"of": flet_js.tab, "number": number, "said": said}))


def heard(event):
    told = json.loads(event.data)
    if told.get("to") == flet_js.tab:
        run(lambda: answer(told["number"], told["deed"]))


async def begin():
    await session.load()
    await session.read_logs()
    tabs.Follower(session, run)
    channel.onmessage = create_proxy(heard)
    channel.postMessage(json.dumps({"of": flet_js.tab, "number": 0, "said": "ready"}))


async def start_connection(_send):
    """No screen is connected."""


flet_js.start_connection = start_connection
run(begin)
'''
PAGE = {
    "deeds.html": b"<!DOCTYPE html><title>Deeds</title><script src='deeds.js'></script>",
    "deeds.js": b"""
const channel = new BroadcastChannel("deeds");
const said = new Map();
channel.onmessage = ({ data }) => {
  const told = JSON.parse(data);
  if (told.of === location.hash) said.set(told.number, told.said);
};
const worker = new Worker("worker.js", { type: "module" });
worker.postMessage({ documentUrl: document.URL, tab: location.hash });
const tell = (number, deed) =>
  channel.postMessage(JSON.stringify({ to: location.hash, number, deed }));
const fault = new BroadcastChannel("test-fault");
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
# In the worker: the storage has no room while the test says so.
FULL = b"""
{
  let full = false;
  new BroadcastChannel("test-fault").onmessage = ({ data }) => { full = data.full; };
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...args) {
    if (full) throw new DOMException("full", "QuotaExceededError");
    return put.apply(this, args);
  };
}
"""


class There:
    """Two tabs of one browser, which can be killed."""

    def __init__(self, phone: Phone, host: Host) -> None:
        self.phone, self.host, self.number = phone, host, 0
        self.pages: list[Page] = []
        self.start()

    def start(self) -> None:
        first = self.phone.start()
        self.pages = [first, first.context.new_page()]
        self.anew()

    def anew(self) -> None:
        """Nothing of what was in hand is left: only what is stored."""
        for tab in (0, 1):
            self.open(tab)
        for tab in (0, 1):
            self.wait(tab, 0)

    def open(self, tab: int) -> None:
        page = self.pages[tab]
        page.goto("about:blank")
        page.goto(f"{self.host.address}deeds.html#{tab}")

    def wait(self, tab: int, number: int) -> Any:
        deadline = time.monotonic() + BOOT / 1000
        while not self.pages[tab].evaluate(f"said.has({number})"):
            assert time.monotonic() < deadline, "Python does not answer"
            self.pages[tab].wait_for_timeout(5)
        return self.pages[tab].evaluate(f"said.get({number})")

    def tell(self, tab: int, deed: list[Any]) -> int:
        self.number += 1
        self.pages[tab].evaluate(f"tell({self.number}, {json.dumps(deed)})")
        return self.number

    def do(self, tab: int, deed: list[Any]) -> bool | None:
        said: bool | None = self.wait(tab, self.tell(tab, deed))
        return said

    def cut(self, tab: int, deed: list[Any], whole: bool, chance: random.Random) -> None:
        self.tell(tab, deed)
        self.pages[tab].wait_for_timeout(chance.uniform(0, 40))
        if whole:
            self.phone.kill()
            self.start()
            return
        self.pages[tab].evaluate("worker.terminate()")
        self.anew()

    def rest(self) -> None:
        for tab in (0, 1):
            self.wait(tab, self.tell(tab, ["rest"]))

    def fill_up(self, full: bool) -> None:
        self.pages[0].evaluate(f"fault.postMessage({{ full: {json.dumps(full)} }})")
        self.pages[0].context.set_offline(full)  # there is no network either
        self.rest()

    def clear(self) -> None:
        self.pages[0].evaluate("clear()")

    def held(self) -> deeds.Found:
        found: deeds.Found = self.wait(0, self.tell(0, ["held"]))
        return found


@pytest.fixture(scope="module")
def driven(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Host]:
    driver = (Path(__file__).parent / "deeds.py").read_bytes()
    files = {**bundle.app_files(places.PACKAGE), "main.py": DRIVER, "deeds.py": driver}
    host = Host(tmp_path_factory.mktemp("driven") / "site")
    host.deploy(site.best_files(files, print))
    host.deploy({**PAGE, "worker.js": FULL + (host.folder / "worker.js").read_bytes()})
    yield host
    host.stop()


@pytest.mark.slow
@pytest.mark.timeout(600)
def test_nothing_acknowledged_is_lost(phone: Phone, driven: Host) -> None:
    device, lost, acknowledged = There(phone, driven), [], 0
    for seed in range(HISTORIES):
        device.anew()
        model = live(device, random.Random(seed), STEPS)
        lost += [f"history {seed}, {one}" for one in model.lost]
        acknowledged += model.acknowledged
    assert lost == []
    assert acknowledged > HISTORIES
