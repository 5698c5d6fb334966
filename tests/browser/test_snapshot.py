"""Starts from a snapshot of Python's memory: the same app, and never worse than without one."""

import os
import signal
import time
from contextlib import suppress
from pathlib import Path

import pytest
from phones import (
    BOOT,
    VOLUME,
    Host,
    Phone,
    choose,
    open_app,
    press,
    shows,
    type_into,
    wait_offline,
    wait_true,
)
from playwright.sync_api import Error, Page, expect

from pondapp.web import bundle, places, site

OPEN = """const open = (name, made = false) => new Promise((done) => {
  const asked = indexedDB.open(name);
  asked.onupgradeneeded = () => {
    if (made) asked.result.createObjectStore("parts");
    else asked.transaction.abort();
  };
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => done(null);
});
const answered = (asked) => new Promise((done, failed) => {
  asked.onsuccess = () => done(asked.result);
  asked.onerror = () => failed(asked.error);
});
const SNAPSHOT = "pondapp-snapshot /some/where/";
"""
VERSION = f"""async () => {{
  {OPEN}
  const kept = await open(SNAPSHOT);
  if (kept === null) return null;
  const facts = await answered(kept.transaction("parts").objectStore("parts").get("facts"));
  kept.close();
  return facts.python;
}}"""
"""What the snapshot is of; null where there is none."""
SPOIL = f"""async (how) => {{
  {OPEN}
  const [whole, other] = how === "keep" ? [SNAPSHOT, "aside"] : ["aside", SNAPSHOT];
  const from = await open(whole);
  const held = from.transaction("parts").objectStore("parts");
  const [keys, values] = await Promise.all([held.getAllKeys(), held.getAll()].map(answered));
  from.close();
  const parts = new Map(keys.map((key, at) => [key, values[at]]));
  const facts = parts.get("facts");
  const middle = facts.places[facts.places.length >> 1];
  if (how === "half") for (const at of facts.places) if (at > middle) parts.delete(at);
  if (how === "one bit") parts.get(middle)[1000] ^= 1;
  if (how === "empty") parts.clear();
  if (how === "elsewhere") facts.table = 1;
  if (how === "of an older version") facts.python = "0123456789abcdef";
  const to = await open(other, true);
  const put = to.transaction("parts", "readwrite").objectStore("parts");
  put.clear();
  for (const [key, value] of parts) put.put(value, key);
  await new Promise((done) => {{ put.transaction.oncomplete = done; }});
  to.close();
}}"""
"""Puts a spoilt one in its place, from the whole one that is kept aside."""
ANY = f"""async () => {{
  {OPEN}
  (await open(SNAPSHOT, true)).close();
}}"""
"""Puts something in its place that takes room, whatever it is."""
FULL = b"""
{ // what is kept has no room, until the snapshot goes
  const { put } = IDBObjectStore.prototype;
  const { deleteDatabase } = IDBFactory.prototype;
  let full = true;
  IDBObjectStore.prototype.put = function (...args) {
    if (full) throw new DOMException("full", "QuotaExceededError");
    return put.apply(this, args);
  };
  IDBFactory.prototype.deleteDatabase = function (name) {
    if (name.startsWith("pondapp-snapshot ")) full = false;
    return deleteDatabase.call(this, name);
  };
}
"""
REFUSED = {
    "refused": "Object.defineProperty(window, 'localStorage', { get() { throw Error('no'); } })",
    "full": (
        "const { setItem } = Storage.prototype;"
        "Storage.prototype.setItem = function (...args) {"
        " if (this === localStorage) throw Error('full'); setItem.apply(this, args); };"
    ),
}
"""What a browser may do with the small store in which starts are counted."""
COUNT = "(localStorage.getItem('pondapp-restoring /some/where/') ?? ' none').split(' ')[1]"
"""Starts from it that were not seen to end well, and those after them that went without."""
TELLING = {
    "main.py": b"""
import early, dataclasses, sys
ahead = "flet.controls.theme" in sys.modules
codes = dataclasses.exec.__closure__[0].cell_contents
before = len(codes)
import flet.controls.theme, late
print("CODES", ahead, before, len(codes))
from pondapp.ui.shell.app import start
start()
""",
    "late.py": b"print('LATE')",  # in no snapshot, since it is no module of the app
}
"""Says how many codes of dataclasses wait, before and after a module that has many."""
MADE = "document.documentElement.dataset.snapshot"


def make_snapshot(phone: Phone, address: str) -> Page:
    """A first visit with a pause in it, long enough for a snapshot."""
    page = phone.start()
    open_app(page, address)
    wait_offline(page)
    assert comes_of_making(page) == "made"
    return page


def kill_pages(phone: Phone) -> None:
    """As a phone that is short of memory does: all of the page ends, and the browser lives on."""
    assert phone.process is not None
    for folder in Path("/proc").iterdir():
        with suppress(OSError, ValueError):
            kind = (folder / "cmdline").read_bytes()
            if os.getpgid(int(folder.name)) == phone.process.pid and b"--type=renderer" in kind:
                os.kill(int(folder.name), signal.SIGKILL)


def new_page(ended: Page) -> Page:
    """Another page, once the browser has noticed that its spare one ended too."""
    for _ in range(20):
        with suppress(Error):
            return ended.context.new_page()
        time.sleep(0.5)
    return ended.context.new_page()


def comes_of_making(page: Page) -> str:
    page.wait_for_selector("html[data-snapshot]", state="attached", timeout=BOOT)
    return str(page.evaluate(MADE))


def started_from(page: Page) -> str:
    page.wait_for_selector("html[data-python]", state="attached", timeout=BOOT)
    return str(page.evaluate("document.documentElement.dataset.python"))


def keep_a_pond(page: Page, address: str, name: str) -> None:
    page.goto("about:blank")  # else only another screen of the running app is opened
    open_app(page, f"{address}#/new")
    fill_pond(page, name)


def fill_pond(page: Page, name: str) -> None:
    type_into(page, "Name of the pond", name)
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    press(page, "Save the pond")
    expect(page.get_by_role("heading", name=name)).to_be_attached(timeout=BOOT)


def test_later_starts_take_up_the_snapshot_and_do_real_work(phone: Phone, site_host: Host) -> None:
    page = make_snapshot(phone, site_host.address)
    assert started_from(page) == "begun"
    ponds = ("Heron Hollow", "Toad Terrace")
    ids = []
    for pond in ponds:
        phone.kill()
        phone.requests.clear()
        page = phone.start()
        keep_a_pond(page, site_host.address, pond)
        assert started_from(page) == "restored"
        wait_true(page, f"{COUNT} === '0'")
        ids.append(page.url)
        assert not any(url.endswith("pack.bin") for url in phone.requests), "all was read ahead"
    assert len(set(ids)) == 2, "two starts from one memory made the same name for two things"
    open_app(page, site_host.address)
    for pond in ponds:
        page.get_by_text(pond).first.wait_for(state="attached")
    assert phone.errors == []


def test_a_spoilt_or_old_snapshot_goes_and_the_start_is_as_without(
    phone: Phone, site_host: Host
) -> None:
    page = make_snapshot(phone, site_host.address)
    page.evaluate(SPOIL, "keep")
    for how in ("half", "one bit", "elsewhere", "empty", "of an older version"):
        page.evaluate(SPOIL, how)
        open_app(page, site_host.address)
        assert started_from(page) == "begun", how
        wait_true(page, f"({VERSION})().then((found) => found === null)")
        assert page.evaluate(COUNT) in ("0", "none"), "the device is not blamed"
    assert phone.errors == []


def test_a_start_that_dies_of_it_is_followed_by_one_without(phone: Phone, site_host: Host) -> None:
    page = make_snapshot(phone, site_host.address)
    page.goto(site_host.address, wait_until="commit")
    wait_true(page, f"{COUNT} === '1'")
    kill_pages(phone)
    page = new_page(page)
    for count, start in (("2", "begun"), ("0", "restored")):
        open_app(page, site_host.address)
        assert started_from(page) == start
        wait_true(page, f"{COUNT} === '{count}'")

    page.goto(site_host.address, wait_until="commit")  # one that the reader leaves is none
    wait_true(page, f"{COUNT} === '1'")
    page.goto(f"{site_host.address}icons/icon-192.png")
    assert page.evaluate("localStorage.getItem('pondapp-restoring /some/where/')").endswith(" 0")

    of = page.evaluate("localStorage.getItem('pondapp-restoring /some/where/')").split()[0]
    page.evaluate(f"localStorage.setItem('pondapp-restoring /some/where/', '{of} 4')")
    open_app(page, site_host.address)  # twice is enough: it only takes room here
    assert started_from(page) == "begun"
    wait_true(page, f"({VERSION})().then((found) => found === null)")


def test_code_of_dataclasses_is_compiled_and_modules_come_when_they_are_asked_for(
    phone: Phone, tmp_path: Path
) -> None:
    host = Host(tmp_path / "telling")
    host.deploy(site.best_files({**bundle.app_files(places.PACKAGE), **TELLING}, print))
    told: list[str] = []
    page = phone.start()
    page.on("console", lambda message: told.append(message.text))
    open_app(page, host.address)
    assert "LATE" in told
    read, before, after = next(line for line in told if line.startswith("CODES")).split()[1:]
    assert read == "False"
    assert int(before) > 500
    assert int(before) - int(after) > 40
    wait_offline(page)
    assert comes_of_making(page) == "made"
    phone.kill()
    host.stop()

    told.clear()
    page = phone.start()
    page.on("console", lambda message: told.append(message.text))
    open_app(page, host.address)
    assert started_from(page) == "restored"
    assert "LATE" in told


def test_two_tabs_make_one_and_take_up_the_same(phone: Phone, site_host: Host) -> None:
    one = phone.start()
    open_app(one, site_host.address)
    two = one.context.new_page()
    open_app(two, site_host.address)
    wait_offline(two)
    told = sorted(comes_of_making(page) for page in (one, two))
    assert told in (["kept", "made"], ["made", "made elsewhere"])
    for page in (one, two):
        page.bring_to_front()
        open_app(page, site_host.address)
        assert started_from(page) == "restored"
    keep_a_pond(two, site_host.address, "Newt Nook")
    one.bring_to_front()
    shows(one, "Newt Nook")
    assert phone.errors == []


def test_it_gives_way_to_what_the_reader_saves(
    phone: Phone, site_of_app: Path, tmp_path: Path
) -> None:
    host = Host(tmp_path / "full")
    host.deploy(
        {
            path.relative_to(site_of_app).as_posix(): path.read_bytes()
            for path in site_of_app.rglob("*")
            if path.is_file()
        }
    )
    worker = host.folder / "worker.js"
    worker.write_bytes(worker.read_bytes() + FULL)
    page = phone.start()
    open_app(page, f"{host.address}#/new")
    page.evaluate(ANY)
    fill_pond(page, "Frog Fen")
    assert page.evaluate(VERSION) is None
    assert page.evaluate("localStorage.getItem(pondappName('making'))").endswith(" 2")
    page.goto("about:blank")
    open_app(page, host.address)
    shows(page, "Frog Fen")
    host.stop()


@pytest.mark.parametrize("how", REFUSED)
def test_where_no_starts_can_be_counted_the_app_starts_without_one(
    phone: Phone, site_host: Host, how: str
) -> None:
    page = phone.start()
    page.add_init_script(REFUSED[how])
    keep_a_pond(page, site_host.address, "Uncounted Ooze")
    assert started_from(page) == "begun"
    wait_offline(page)
    time.sleep(8)  # in which one would be begun
    assert page.evaluate(MADE) is None
    assert phone.errors == []
