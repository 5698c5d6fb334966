"""Python or the screen dies, hangs or never comes: that is said, and the next start comes up."""

import re
import threading
import urllib.request
import zlib
from base64 import urlsafe_b64encode
from collections.abc import Iterator
from pathlib import Path

import pytest
from kept import kept
from phones import (
    BOOT,
    PREFIX,
    Host,
    Phone,
    choose,
    field_holds,
    finished,
    load_again,
    open_app,
    press,
    shows,
    type_into,
    wait_started,
    wait_true,
)
from playwright.sync_api import Page, expect

from pondapp.store.backup_file import About, pieces_of, read
from pondapp.store.link import WORDS
from pondapp.web import bundle, places, serve, site

# The app without its guard against deep nesting, which then ends Python for real.
DEADLY = b'''"""Start the app without its guard."""

from pondapp.store import documents, json_text

documents.check = json_text.check = lambda text, *_: text

from pondapp.ui.shell.app import start

start()
'''
# In the worker: does what no app of ours does, when the test says so.
EAR = b"""
{
  const ear = new BroadcastChannel("test-fault");
  ear.onmessage = async ({ data }) => {
    if (data.hang) for (const end = Date.now() + data.hang; Date.now() < end;);
    if (data.ask) ear.postMessage(await fetch(data.ask, { mode: "no-cors" })
      .then(() => "reached", (error) => `refused: ${error.message}`));
  };
}
"""
WORKERS = """
window.workers = [];
window.Worker = class extends Worker {
  constructor(...args) { super(...args); workers.push(this); }
};
"""
ASK = """(url) => new Promise((done) => {
  const ear = new BroadcastChannel("test-fault");
  ear.onmessage = ({ data }) => { ear.close(); done(data); };
  ear.postMessage({ ask: url });
})"""
HALT = "html[data-halted]"
BARS = """() => {
  document.documentElement.style.fontSize = "200%";
  const bar = document.getElementById("bar");
  document.getElementById("bar-text").hidden = true;
  bar.children[1].textContent = "Neue Fassung: neu starten";
  bar.hidden = false;
  const told = document.createElement("div");
  told.id = "left-out";
  told.append("Der letzte Start endete beim Lesen von pond/3f2a9c1d7b604f7e9d1c2b3a4f5e6d7c.");
  document.body.append(told);
  return [bar, told].map((one) => {
    const { top } = one.getBoundingClientRect();
    const rights = [...one.children].map((each) => each.getBoundingClientRect().right);
    const most = Math.max(0, ...rights);
    return { top, most, wide: one.scrollWidth };
  });
}"""
DEEP = "[" * 200_000


def quick(files: dict[str, bytes]) -> dict[str, bytes]:
    """The same site, of less patience."""
    boot = files["boot.js"]
    for patience in (b"SILENT = 20_000", b"BROKEN = 8000"):
        assert boot.count(patience) == 1
        boot = boot.replace(patience, patience.split()[0] + b" = 3000")
    return {**files, "boot.js": boot, "worker.js": files["worker.js"] + EAR}


@pytest.fixture(scope="module")
def deadly_files() -> dict[str, bytes]:
    return quick(site.best_files({**bundle.app_files(places.PACKAGE), "main.py": DEADLY}, print))


@pytest.fixture
def deadly(tmp_path: Path, deadly_files: dict[str, bytes]) -> Iterator[Host]:
    host = Host(tmp_path / "deadly")
    host.deploy(deadly_files)
    yield host
    host.stop()


def deep_link(address: str) -> str:
    squeeze = zlib.compressobj(9, wbits=-15, zdict=WORDS)
    data = squeeze.compress(DEEP.encode()) + squeeze.flush()
    return f"{address}#/shared/1{urlsafe_b64encode(data).decode().rstrip('=')}"


def halted(page: Page, by: str) -> None:
    page.wait_for_selector(f"html[data-halted={by}]", state="attached", timeout=BOOT)
    expect(page.get_by_role("alertdialog")).to_be_visible()


def test_a_link_that_kills_python_is_left_out_of_the_next_start(phone: Phone, deadly: Host) -> None:
    page = phone.start()
    page.goto(deep_link(deadly.address))
    halted(page, "python")
    expect(page.get_by_text("while a link was being opened")).to_be_visible()
    with page.expect_navigation(timeout=BOOT):
        page.get_by_role("button", name="Start without the link").click()
    wait_started(page)
    expect(page.get_by_role("button", name="Measure a flow")).to_be_attached()
    expect(page.locator("#left-out")).to_contain_text("the link is left out")
    wait_true(page, "localStorage.getItem(pondappName('ended')) === null")
    assert "#/shared" not in page.url

    page.goto("about:blank")
    page.goto(deep_link(deadly.address))  # the same link again, and the browser ends meanwhile
    halted(page, "python")
    phone.kill()
    page = phone.start()
    open_app(page, deadly.address)
    expect(page.get_by_role("button", name="Measure a flow")).to_be_attached()
    count = page.evaluate("localStorage.getItem(pondappName('restoring'))")
    assert count is None or count.endswith(" 0")  # the snapshot is not blamed


def test_a_document_that_kills_python_is_left_out_and_stays(phone: Phone, deadly: Host) -> None:
    page = phone.start()
    open_app(page, deadly.address)
    kept(page, {"pond/deep": DEEP})
    page.reload()
    halted(page, "python")
    expect(page.get_by_text("while reading pond/deep")).to_be_visible()
    with page.expect_navigation(timeout=BOOT):
        page.get_by_role("button", name="Start without this document").click()
    wait_started(page)
    shows(page, "pond/deep could not be read")
    load_again(page)  # and those after it; no start is left half-way: its page may crash
    shows(page, "pond/deep could not be read")
    before, page = page, page.context.new_page()  # of a process that ended no Python yet
    before.close()
    page.goto(f"{deadly.address}?safe")
    expect(page.get_by_label("pond/deep", exact=True)).to_be_checked()
    page.get_by_label("pond/deep", exact=True).uncheck()
    page.get_by_role("button", name="Start the app as usual").click()
    halted(page, "python")  # it was only asked for again


def test_a_killed_worker_is_noticed_and_what_was_typed_is_there_again(
    phone: Phone, deadly: Host
) -> None:
    page = phone.start()
    page.add_init_script(WORKERS)
    open_app(page, f"{deadly.address}#/new")
    type_into(page, "Name of the pond", "Half a name")
    page.wait_for_timeout(500)
    page.evaluate("workers[0].terminate()")
    halted(page, "silent")
    with page.expect_navigation(timeout=BOOT):
        page.get_by_role("button", name="Start again").click()
    wait_started(page)
    page.goto(f"{deadly.address}#/new")
    field_holds(page, "Name of the pond", "Half a name")


def test_a_busy_python_is_no_dead_one_nor_is_a_sleeping_page(phone: Phone, deadly: Host) -> None:
    page = phone.start()
    open_app(page, deadly.address)
    page.evaluate("new BroadcastChannel('test-fault').postMessage({ hang: 6000 })")
    halted(page, "silent")
    expect(page.get_by_text("It may still be at work")).to_be_visible()
    expect(page.get_by_role("alertdialog")).to_have_count(0)  # it answered
    session = page.context.new_cdp_session(page)
    session.send("Page.setWebLifecycleState", {"state": "frozen"})
    threading.Event().wait(6)
    session.send("Page.setWebLifecycleState", {"state": "active"})
    page.wait_for_timeout(2500)
    assert page.get_by_role("alertdialog").count() == 0


def test_a_slow_network_is_no_silence(
    phone: Phone, tmp_path: Path, trial_files: dict[str, bytes]
) -> None:
    class Slow(Host):
        def start(self, port: int) -> None:
            super().start(port)
            told = self.server.RequestHandlerClass

            class Waiting(told):  # type: ignore[misc, valid-type]
                def do_GET(self) -> None:  # noqa: N802 - the base class names it
                    if self.path.endswith("pyodide.asm.wasm"):
                        threading.Event().wait(12)
                    super().do_GET()

            self.server.RequestHandlerClass = Waiting

    host = Slow(tmp_path / "slow")
    files = quick(trial_files)
    boot = files["boot.js"].replace(b"NEVER = 60_000", b"NEVER = 3000")
    assert boot != files["boot.js"]
    host.deploy({**files, "boot.js": boot})
    page = phone.start()
    page.goto(host.address, wait_until="commit")
    expect(page.locator("#start-text")).to_contain_text("Loading")
    page.wait_for_timeout(9000)
    assert page.locator(HALT).count() == 0
    expect(page.locator("#start-text")).to_contain_text("Loading")
    wait_started(page)
    host.stop()


def test_a_worker_or_a_screen_that_throws_at_the_start_is_told(
    phone: Phone, host: Host, trial_files: dict[str, bytes]
) -> None:
    page = phone.start()
    host.deploy({**quick(trial_files), "worker.js": b"throw new Error('broken worker')"})
    page.goto(host.address)
    halted(page, "python")
    shows(page, "The app could not start")
    host.deploy({**quick(trial_files), "flutter_bootstrap.js": b"throw new Error('broken screen')"})
    page.goto(host.address)
    halted(page, "screen")
    shows(page, re.compile("broken screen"))


def test_what_is_no_program_is_told_and_a_language_that_is_none_is_borne(
    phone: Phone, host: Host
) -> None:
    page = phone.start()
    page.add_init_script(
        "for (const [what, value] of [['language', 'C'], ['languages', ['C']]])"
        "  Object.defineProperty(navigator, what, { value, configurable: true });"
    )
    open_app(page, host.address)
    shows(page, "trial A")
    host.deploy({"boot.js": b"<!DOCTYPE html><title>Sign in to the network</title>"})
    page = page.context.new_page()
    page.goto(f"{host.address}index.html?past-the-service-worker")
    page.evaluate(
        "navigator.serviceWorker.getRegistrations().then(all =>"
        " Promise.all(all.map(one => one.unregister()))).then(() => true)"
    )
    page.goto(host.address)
    page.get_by_text("such as a page to sign in").wait_for()


def test_two_starts_without_a_screen_lead_to_the_safe_start_with_its_backup(
    phone: Phone, deadly: Host, tmp_path: Path
) -> None:
    page = phone.start()
    open_app(page, f"{deadly.address}#/new")
    type_into(page, "Name of the pond", "Kept as it is")
    choose(page, "I know the volume")
    type_into(page, "Volume", "1000")
    press(page, "Save the pond")
    shows(page, "No readings yet")
    kept(page, {"pond/deep": DEEP})
    session = page.context.new_cdp_session(page)
    session.send("ServiceWorker.enable")
    session.send("ServiceWorker.unregister", {"scopeURL": deadly.address})
    deadly.deploy({"worker.js": b"throw new Error('no Python any more')"})
    for _ in range(2):
        page.goto(f"{deadly.address}?again")
        halted(page, "python")
    page.goto(f"{deadly.address}?again")
    page.wait_for_selector("html[data-app=safe]", state="attached")
    buttons = page.get_by_role("button")
    expect(buttons.first).to_have_text("Save a backup")
    expect(page.get_by_text("Kept as it is")).to_be_visible()
    with page.expect_download() as download:
        buttons.first.click()
    file = tmp_path / "backup.json"
    download.value.save_as(file)
    about = About()

    async def read_it() -> dict[str, str]:
        pieces = pieces_of(file.read_bytes())
        return {item.key: item.text async for items in read(pieces, about) for item in items}

    texts = finished(read_it())
    assert about.ended
    assert not about.changed
    assert texts["pond/deep"] == DEEP
    assert any('"Kept as it is"' in text for text in texts.values())


def test_data_cleared_under_the_running_app_is_told_and_saved_again(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Still in hand")
    choose(page, "I know the volume")
    type_into(page, "Volume", "1000")
    press(page, "Save the pond")
    shows(page, "No readings yet")
    page.context.new_cdp_session(page).send(
        "Storage.clearDataForOrigin",
        {"origin": site_address.removesuffix(PREFIX), "storageTypes": "indexeddb"},
    )
    shows(page, "What was kept here is gone")
    press(page, "Save it again")
    shows(page, "Saved again")
    page.goto("about:blank")
    open_app(page, site_address)
    shows(page, "Still in hand")


def test_what_lies_over_a_small_screen_fits_it_with_large_text(phone: Phone, host: Host) -> None:
    page = phone.start()
    page.set_viewport_size({"width": 320, "height": 568})
    page.goto(f"{host.address}?safe")  # the same page, and no program draws over it
    page.wait_for_selector("html[data-app=safe]", state="attached")
    for one in page.evaluate(BARS):
        assert max(one["most"], one["wide"]) <= 320
        assert one["top"] >= 568 * 0.3  # what it lies over is still seen


@pytest.fixture
def headless_host(tmp_path: Path, trial_files: dict[str, bytes]) -> Iterator[Host]:
    """A host that sends no policy, and nothing else of its own."""

    class Plain(Host):
        def start(self, port: int) -> None:
            super().start(port)
            told = self.server.RequestHandlerClass

            class Silent(told):  # type: ignore[misc, valid-type]
                def send_header(self, name: str, value: str) -> None:
                    if name not in serve.HEADERS:
                        super().send_header(name, value)

            self.server.RequestHandlerClass = Silent

    made = Plain(tmp_path / "plain")
    made.deploy(quick(trial_files))
    yield made
    made.stop()


def test_a_first_visit_to_a_host_without_headers_asks_nobody_else(
    phone: Phone, headless_host: Host, host: Host
) -> None:
    page = phone.start()
    open_app(page, headless_host.address)
    with urllib.request.urlopen(f"{headless_host.address}worker.js") as answer:
        assert answer.headers["Content-Security-Policy"] is None
    ours = page.evaluate(ASK, f"{headless_host.address}icons/icon-32.png")
    assert ours == "reached"
    assert page.evaluate(ASK, f"{host.address}icons/icon-32.png").startswith("refused")
    assert not any(url.startswith(host.address) for url in phone.requests)
