"""Faults that a phone meets, on the built site: nothing that was acknowledged is lost."""

import time
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from phones import (
    BOOT,
    VOLUME,
    Host,
    Phone,
    choose,
    give_file,
    open_app,
    press,
    shows,
    touch,
    type_into,
    wait_offline,
    wait_started,
    wait_true,
)
from playwright.sync_api import Page, expect

# In front of the worker's program: its storage fails while the test says so.
FAILING = b"""
{
  const ear = new BroadcastChannel("test-fault");
  let fault = null;
  ear.onmessage = ({ data }) => {
    fault = data.fault;
    ear.postMessage("heard");
  };
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (...args) {
    if (fault) throw new DOMException("refused", fault);
    return put.apply(this, args);
  };
}
"""

REFUSING = b"""
IDBFactory.prototype.open = () => { throw new DOMException("refused", "SecurityError"); };
"""


HARM = """(fault) => new Promise((done) => {
  const harm = new BroadcastChannel("test-fault");
  harm.onmessage = () => { harm.close(); done(); };
  harm.postMessage({ fault });
})"""


def fill_form(page: Page, name: str) -> None:
    press(page, "Add a pond")
    type_into(page, "Name of the pond", name)
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    type_into(page, "Bog filter", "100")


def stored(page: Page, script: str) -> Any:
    """Do something with the app's stored texts, past the app."""
    return page.evaluate(
        """(script) => new Promise((done, failed) => {
          const asked = indexedDB.open(pondappName("data"));
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
    page.evaluate(HARM, fault)
    press(page, "Save the pond")
    shows(page, said)
    assert "pond/" not in str(stored(page, "keys"))
    page.evaluate(HARM, None)
    page.keyboard.press("Escape")
    press(page, "Save the pond")
    shows(page, "No readings yet")
    assert "pond/" in str(stored(page, "keys"))


def test_storage_refused_from_the_start_is_said_and_the_app_can_be_used(
    phone: Phone, failing: Host
) -> None:
    worker = failing.folder / "worker.js"
    worker.write_bytes(REFUSING + worker.read_bytes())
    page = phone.start()
    open_app(page, failing.address)
    shows(page, "Nothing is kept here")
    press(page, "Close")
    shows(page, "does not let this page keep data")
    press(page, "Measure a flow")
    touch(page, "Start")
    expect(page.get_by_role("button", name="Stop").first).to_be_attached()
    page.wait_for_timeout(600)
    touch(page, "Stop")
    expect(page.get_by_role("button", name="Strike fill 1").first).to_be_attached()


def test_damaged_documents_hide_no_good_one(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    fill_form(page, "Whole and well")
    press(page, "Save the pond")
    shows(page, "No readings yet")
    before = set(stored(page, "keys"))
    stored(page, "damage")
    phone.kill()

    page = phone.start()
    begun = time.monotonic()
    open_app(page, site_address)
    expect(page.get_by_role("button", name="Whole and well")).to_be_attached()
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
    press(one, "Save the pond")
    shows(one, "No readings yet")
    two.bring_to_front()
    expect(two.get_by_role("button", name="Seen in both")).to_be_attached()


ANOTHER_TAB = """(to) => new Promise((done, failed) => {
  const asked = indexedDB.open(pondappName("data"));
  asked.onerror = () => failed(asked.error);
  asked.onsuccess = () => {
    const deed = asked.result.transaction("texts", "readwrite");
    const texts = deed.objectStore("texts");
    const within = IDBKeyRange.bound("entry/invented-example/", "entry/invented-example/~");
    texts.openCursor(within).onsuccess = ({ target }) => {
      const cursor = target.result;
      if (!cursor) return;
      const { key } = cursor;  // it moves on
      const entry = JSON.parse(cursor.value);
      if (entry.note.startsWith("Lilies")) {
        cursor.update(JSON.stringify({ ...entry, note: to }));
        deed.oncomplete = () => {
          new BroadcastChannel(pondappName("changes")).postMessage(key);
          asked.result.close();
          done(key);
        };
      }
      cursor.continue();
    };
  };
})"""


def test_an_entry_that_another_tab_changed_is_not_overwritten_unseen(
    used_phone: Phone, site_address: str
) -> None:
    """What is typed is shared between tabs; what was saved past it is shown, and one chooses."""
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    page.wait_for_url("**/pond/invented-example")
    log = f"{site_address}#/pond/invented-example/log"
    page.goto(f"{log}/new-note")
    type_into(page, "Note", "Lilies split")
    press(page, "Save in the log")
    shows(page, "Add to the log")
    mine = "entry/invented-example/"
    own = f"{mine}invented-example-cleaned"  # of the example's own log
    (key,) = [key for key in stored(page, "keys") if key.startswith(mine) and key != own]
    page.goto(f"{log}/{key.rsplit('/', 1)[1]}")
    type_into(page, "Note", "Lilies split in two")
    assert page.evaluate(ANOTHER_TAB, "Lilies split in three") == key

    shows(page, "This was changed meanwhile")
    shows(page, "Lilies split in three")
    press(page, "Keep both, mine as a new entry")
    shows(page, "Add to the log")
    for words in ("Lilies split in three", "Lilies split in two"):
        shows(page, words)


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
    page.evaluate("document.documentElement.dataset.update = ''")
    page.evaluate(f"{look}.then(() => true, () => true)")
    if harm == "error 500":  # it began, and is given up with the first file that fails
        page.wait_for_selector("html[data-update=redundant]", state="attached", timeout=BOOT)
    assert page.evaluate("pondappUpdate.ready") is False
    phone.kill()

    page = phone.start()
    page.goto(host.address)
    wait_started(page)
    shows(page, "trial A")
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
    press(page, "Save the pond")
    shows(page, "No readings yet")
    pond = page.url.rsplit("/", 1)[1]
    page.evaluate(
        "navigator.clipboard.writeText = (text) => {"
        "window.copied = text; return Promise.resolve(); }"
    )
    page.goto(f"{site_address}#/pond/{pond}/share")
    press(page, "Copy the link")
    wait_true(page, "Boolean(window.copied)")
    link = page.evaluate("copied")
    page.goto(f"{site_address}#/backup")
    with page.expect_download(timeout=BOOT) as download:
        press(page, "Save a backup file")
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
    give_file(page, "Restore from a file", file)
    shows(page, "new: 1")
    assert not any(key.startswith("pond/") for key in stored(page, "keys"))
    press(page, "Restore", exact=True)
    shows(page, "Take back the restore")
    assert f"pond/{pond}" in stored(page, "keys")
