"""Faults that a phone meets, on the built site: nothing that was acknowledged is lost.

KILLS sets how often the browser is killed in the middle of saving.
"""

import json
import os
import random
import re
import sys
import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from phones import BOOT, Host, Phone, open_app, scroll_to, see, wait_offline, wait_true
from playwright.sync_api import Page, expect

from pondapp.web import bundle, places, site

QUICK = 30_000  # ms; two cores draw in software here
KILLS = int(os.environ.get("KILLS", "20"))

# The app's own session and storage, saving as fast as they can and telling of each save.
SAVER = b'''"""Save without a pause."""

import asyncio
import itertools
import json
from datetime import UTC, datetime, timedelta

import flet_js

from pondapp.models.backup import Backup, Documents
from pondapp.models.pond import Pond
from pondapp.models.preferences import Draft
from pondapp.models.reading import MeterReading, Reading
from pondapp.models.water import TypedVolume
from pondapp.store import backup
from pondapp.store.browser_box import BrowserBox
from pondapp.ui.session import Session


def pond(place: str, number: int) -> Pond:
    return Pond(id=place, name=str(number), water=TypedVolume(volume_m3=1))


def clock(number: int) -> datetime:
    """A clock that somebody keeps setting back and forth."""
    return datetime.now(UTC) - timedelta(days=number * 37 % 400)


async def save_for_ever() -> None:
    session = Session(BrowserBox())
    await session.load()
    await session._reading_log("p")
    found = {
        "draft": session.drafts["d"].texts["n"] if "d" in session.drafts else "-1",
        "pond": session.ponds["p"].name if "p" in session.ponds else "-1",
        "readings": sorted(int(one.note) for one in session.readings.values()),
        "restored": [session.ponds[k].name for k in ("a", "b", "c") if k in session.ponds],
        "troubles": [str(trouble) for trouble in session.troubles],
    }
    print("FOUND " + json.dumps(found))
    begin = 1 + max(int(found["draft"]), int(found["pond"]), *found["readings"], -1)
    for number in itertools.count(begin):
        await session.keep_draft(Draft(id="d", texts={"n": str(number), "long": "x" * 3000}))
        print(f"SAVED draft {number}")
        await session.keep_pond(pond("p", number))
        print(f"SAVED pond {number}")
        await session.keep_reading(
            Reading(
                id=f"r{number}", pond_id="p", place_id="lip", place_name="Lip", note=str(number),
                taken_at=clock(number), band=None,
                method=MeterReading(flow_m3_s=1e-3, tolerance=0.05),
            )
        )
        print(f"SAVED reading {number}")
        if number % 4 == 0:
            three = tuple(pond(place, number) for place in "abc")
            taken = Backup(
                holds="pond", saved_at=datetime.now(UTC), documents=Documents(pond=three)
            )
            await backup.restore(session.box, taken, "merge", datetime.now(UTC))
            for one in three:
                session.ponds[one.id] = one
            print(f"SAVED restored {number}")


async def start_connection(_send: object) -> None:
    """No screen is connected: this is about the storage."""


flet_js.start_connection = start_connection
saving = asyncio.ensure_future(save_for_ever())
'''

# A page without a screen: Python and the storage start in a third of the time.
SAVER_PAGE = {
    "saver.html": b"<!DOCTYPE html><title>Saver</title><script src='saver.js'></script>",
    "saver.js": b"new Worker('worker.js', { type: 'module' })"
    b".postMessage({ documentUrl: document.URL, tab: 'saver' });",
}

# In front of the worker's program: its storage fails while the test says so.
FAILING = b"""
{
  const ear = new BroadcastChannel("test-fault");
  let fault = null;
  ear.onmessage = ({ data }) => { fault = data; };
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...args) {
    if (fault) throw new DOMException("refused", fault);
    return put.apply(this, args);
  };
}
"""


def button(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).first.click(timeout=QUICK)


def type_into(page: Page, name: str, text: str) -> None:
    field = page.get_by_role("textbox", name=name).first
    field.click(timeout=QUICK)
    field.press("ControlOrMeta+a")
    page.keyboard.type(text)


def shows(page: Page, text: str) -> None:
    expect(page.get_by_text(re.compile(text)).first).to_be_attached(timeout=QUICK)


def fill_form(page: Page, name: str) -> None:
    button(page, "Add a pond")
    type_into(page, "Name of the pond", name)
    type_into(page, "Volume", "1000")
    type_into(page, "Bog filter", "100")


def save_form(page: Page) -> None:
    save = page.get_by_role("button", name="Save the pond")
    scroll_to(save)
    save.click(timeout=QUICK)


def stored(page: Page, script: str) -> Any:
    """Do something with the app's stored texts, past the app."""
    return page.evaluate(
        """(script) => new Promise((done, failed) => {
          const asked = indexedDB.open("pondapp");
          asked.onupgradeneeded = () => asked.result.createObjectStore("texts");
          asked.onerror = () => failed(asked.error);
          asked.onsuccess = () => {
            const deed = asked.result.transaction("texts", "readwrite");
            const texts = deed.objectStore("texts");
            const steps = {
              damage() {
                texts.put('{"schema_version": 1, "id": "cut", "na', "pond/cut");
                texts.put("", "pond/empty");
                texts.put(5, "pond/number");
                texts.put({ an: "object" }, "pond/object");
                texts.put(new Uint8Array(9), "reading/none/bytes");
                texts.put("x".repeat(50_000_000), "pond/huge");
                texts.put('{"schema_version": 99, "id": "far"}', "pond/far");
              },
              clear() { texts.clear(); },
              keys() { steps.answer = texts.getAllKeys(); },
            };
            steps[script]();
            deed.oncomplete = () => {
              asked.result.close();
              done(steps.answer ? steps.answer.result : null);
            };
            deed.onabort = () => failed(deed.error);
          };
        })""",
        script,
    )


@pytest.fixture(scope="module")
def saver(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Host]:
    folder = tmp_path_factory.mktemp("saver") / "site"
    files = {**bundle.app_files(places.PACKAGE), "main.py": SAVER}
    site.write(site.site_files(files), folder, compress=False)
    host = Host(folder)
    host.deploy(SAVER_PAGE)
    yield host
    host.stop()


@pytest.fixture
def failing(tmp_path: Path, site_of_app: Path) -> Iterator[Host]:
    """The app's site with a storage that fails on demand."""
    host = Host(tmp_path / "failing")
    host.deploy(
        {
            str(path.relative_to(site_of_app)): path.read_bytes()
            for path in site_of_app.rglob("*")
            if path.is_file()
        }
    )
    worker = host.folder / "worker.js"
    worker.write_bytes(worker.read_bytes() + FAILING)
    yield host
    host.stop()


class Told:
    """What the saver has told so far."""

    def __init__(self, page: Page) -> None:
        self.found: dict[str, Any] | None = None
        self.saved = {"draft": -1, "pond": -1, "restored": -1}
        self.readings: set[int] = set()
        page.on("console", lambda message: self.hear(message.text))

    def hear(self, text: str) -> None:
        if text.startswith("FOUND "):
            self.found = json.loads(text[6:])
        elif text.startswith("SAVED "):
            _, kind, number = text.split()
            if kind == "reading":
                self.readings.add(int(number))
            else:
                self.saved[kind] = int(number)


@pytest.mark.slow
@pytest.mark.timeout(60 + KILLS * 60)
def test_browser_killed_while_saving(phone: Phone, saver: Host) -> None:
    chance = random.Random(20)
    acknowledged = {"draft": -1, "pond": -1, "restored": -1}
    readings: set[int] = set()
    saves = 0
    for kill in range(KILLS + 1):
        page = phone.start()
        told = Told(page)
        page.goto(f"{saver.address}saver.html")
        deadline = time.monotonic() + BOOT / 1000
        while told.found is None:
            assert time.monotonic() < deadline, "the saver did not start"
            page.wait_for_timeout(20)
        found = told.found
        assert found["troubles"] == [], f"after kill {kill}"
        for kind in ("draft", "pond"):
            assert int(found[kind]) >= acknowledged[kind], f"after kill {kill}"
        assert set(found["readings"]) >= readings, f"after kill {kill}"
        assert len(set(found["restored"])) <= 1, f"half a restore after kill {kill}"
        if acknowledged["restored"] >= 0:
            assert len(found["restored"]) == 3
            assert int(found["restored"][0]) >= acknowledged["restored"]
        page.wait_for_timeout(chance.uniform(30, 900))
        phone.kill()
        for kind, number in told.saved.items():
            acknowledged[kind] = max(acknowledged[kind], number)
        saves += len(told.readings)
        readings |= told.readings
    sys.stdout.write(f"\nkilled {KILLS} times, {saves} readings acknowledged, none lost\n")
    assert saves > KILLS


@pytest.mark.parametrize(
    ("fault", "said"),
    [("QuotaExceededError", "no room left"), ("SecurityError", "does not let this page keep data")],
)
def test_full_or_refused_storage_is_said_and_the_form_stays(
    phone: Phone, failing: Host, fault: str, said: str
) -> None:
    page = phone.start()
    open_app(page, failing.address)
    fill_form(page, "Kept in hand")
    page.evaluate(
        "(fault) => { window.harm = new BroadcastChannel('test-fault');"
        "harm.postMessage(fault); return true; }",
        fault,
    )
    page.wait_for_timeout(300)
    save_form(page)
    shows(page, said)
    assert "pond/" not in str(stored(page, "keys"))
    page.evaluate("harm.postMessage(null)")
    page.wait_for_timeout(300)
    page.keyboard.press("Escape")
    save_form(page)
    shows(page, "No readings yet")
    assert "pond/" in str(stored(page, "keys"))


def test_damaged_documents_hide_no_good_one(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    fill_form(page, "Whole and well")
    save_form(page)
    shows(page, "No readings yet")
    before = set(stored(page, "keys"))
    stored(page, "damage")
    phone.kill()

    page = phone.start()
    begun = time.monotonic()
    open_app(page, site_address)
    expect(page.get_by_role("button", name="Whole and well")).to_be_attached(timeout=BOOT)
    assert time.monotonic() - begun < BOOT / 1000
    for key in ("pond/cut", "pond/empty", "pond/number", "pond/object", "pond/huge", "pond/far"):
        shows(page, f"{key} could not be read")
    kept = set(stored(page, "keys"))
    assert kept >= before
    assert kept >= {"pond/cut", "pond/huge", "pond/far"}  # where they were, for a later app
    assert "Error running app" not in page.content()


def test_two_tabs_see_each_other(phone: Phone, site_address: str) -> None:
    one = phone.start()
    open_app(one, site_address)
    two = one.context.new_page()
    two.set_viewport_size({"width": 390, "height": 844})
    open_app(two, site_address)
    one.bring_to_front()
    fill_form(one, "Seen in both")
    save_form(one)
    shows(one, "No readings yet")
    two.bring_to_front()
    expect(two.get_by_role("button", name="Seen in both")).to_be_attached(timeout=QUICK)


@pytest.mark.parametrize("harm", ["html for everything", "error 500", "server gone"])
def test_a_server_that_answers_nonsense_while_updating(
    phone: Phone, host: Host, trial_files_b: dict[str, bytes], harm: str
) -> None:
    page = phone.start()
    open_app(page, host.address)
    wait_offline(page)
    html = b"<!DOCTYPE html><title>Sign in to the network</title>"
    if harm == "html for everything":
        host.deploy(dict.fromkeys(trial_files_b, html))
    if harm == "error 500":
        host.deploy(trial_files_b)
        host.failing.update(Path(path).name for path in trial_files_b if path != "sw.js")
    if harm == "server gone":
        host.stop()
    look = "navigator.serviceWorker.getRegistration().then(one => one.update())"
    page.evaluate(f"{look}.then(() => true, () => true)")
    page.wait_for_timeout(3000)
    assert page.evaluate("pondappUpdate.ready") is False
    phone.kill()

    page = phone.start()
    page.goto(host.address)
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=BOOT)
    see(page)
    page.get_by_text("trial A").wait_for(state="attached", timeout=BOOT)
    if harm == "server gone":
        host.start(0)  # so that the fixture has something to stop
        return
    host.failing.clear()
    host.deploy(trial_files_b)
    page.evaluate(f"{look}.then(() => true, () => true)")
    wait_true(page, "pondappUpdate.ready")


def test_a_backup_brings_everything_back_and_a_link_is_looked_at_first(
    phone: Phone, site_address: str, tmp_path: Path
) -> None:
    page = phone.start()
    open_app(page, site_address)
    fill_form(page, "Moved along")
    save_form(page)
    shows(page, "No readings yet")
    pond = page.url.rsplit("/", 1)[1]
    page.evaluate(
        "navigator.clipboard.writeText = (text) => {"
        "window.copied = text; return Promise.resolve(); }"
    )
    page.goto(f"{site_address}#/pond/{pond}/share")
    button(page, "Copy the link")
    wait_true(page, "Boolean(window.copied)")
    link = page.evaluate("copied")
    page.goto(f"{site_address}#/backup")
    with page.expect_download(timeout=BOOT) as download:
        button(page, "Save a backup file")
    file = tmp_path / "backup.json"
    download.value.save_as(file)
    assert "Moved along" in file.read_text()
    stored(page, "clear")
    phone.kill()

    page = phone.start()
    open_app(page, link)
    shows(page, "Moved along")
    assert not any(key.startswith("pond/") for key in stored(page, "keys"))  # only looked at
    page.goto(f"{site_address}#/backup")
    with page.expect_file_chooser(timeout=BOOT) as chooser:
        button(page, "Restore from a file")
    chooser.value.set_files(file)
    shows(page, "new: 1")
    assert not any(key.startswith("pond/") for key in stored(page, "keys"))
    page.get_by_role("button", name="Restore", exact=True).last.click(timeout=QUICK)
    shows(page, "Take back the restore")
    assert f"pond/{pond}" in stored(page, "keys")
