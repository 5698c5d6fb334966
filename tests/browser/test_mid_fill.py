"""What comes in the middle of a fill: a new version of the app, a clock that is set back."""

import re
from collections.abc import Iterator
from pathlib import Path

import pytest
from kept import kept
from phones import (
    BOOT,
    Host,
    Phone,
    open_app,
    press,
    save_reading,
    shows,
    touch,
    wait_offline,
    wait_started,
    wait_true,
)
from playwright.sync_api import Page, expect

from pondapp.web import bundle, places, site

LOOK = "navigator.serviceWorker.getRegistration().then(one => one.update()).then(() => true)"
OUTLET = "#/measure/none/outlet"

# In front of a program: its clock is off by what the host says.
CLOCK = b"""
{
  const asked = new XMLHttpRequest();
  asked.open("GET", "ADDRESSclock.txt", false);
  asked.send();
  const shift = Number(asked.responseText);
  const TrueDate = Date;
  globalThis.Date = class extends TrueDate {
    constructor(...parts) { super(...(parts.length ? parts : [TrueDate.now() + shift])); }
    static now() { return TrueDate.now() + shift; }
  };
  const origin = performance.timeOrigin + shift;
  Object.defineProperty(performance, "timeOrigin", { get: () => origin });
}
"""


def there(page: Page, name: str) -> None:
    expect(page.get_by_role("button", name=name).first).to_be_attached()


def start(page: Page) -> None:
    page.wait_for_timeout(1100)  # sooner after a stop, a press is taken for a bounce
    touch(page, re.compile("^(Start (?!over)|Enough fills)"))
    there(page, "Stop")
    page.wait_for_timeout(600)


def stop(page: Page, number: int) -> None:
    touch(page, "Stop")
    there(page, f"Strike fill {number}")
    page.wait_for_timeout(1100)  # sooner after a stop, nothing is saved


@pytest.fixture
def copy(tmp_path: Path, site_of_app: Path) -> Iterator[Host]:
    """The real app's site, to be changed."""
    host = Host(tmp_path / "copy")
    host.deploy(
        {
            str(path.relative_to(site_of_app)): path.read_bytes()
            for path in site_of_app.rglob("*")
            if path.is_file()
        }
    )
    yield host
    host.stop()


@pytest.mark.slow
def test_a_new_version_in_the_middle_of_a_fill(phone: Phone, copy: Host) -> None:
    page = phone.start()
    open_app(page, copy.address + OUTLET)
    wait_offline(page)
    for number in (1, 2):
        start(page)
        stop(page, number)
    start(page)
    version = "caches.keys().then(all => all.filter(one => one.startsWith('pondapp-')).join())"
    before = page.evaluate(version)

    copy.deploy(site.site_files({**bundle.app_files(places.PACKAGE), "newer.txt": b"newer"}))
    page.evaluate(LOOK)
    wait_true(page, "pondappUpdate.ready")
    there(page, "Stop")  # offered, and nothing else: the fill runs on
    with page.expect_navigation(timeout=BOOT):
        page.get_by_role("button", name="New version: restart").click()
    wait_started(page)
    there(page, "Stop")
    there(page, "Strike fill 2")
    assert page.evaluate(version) not in ("", before)
    touch(
        page, "Stop"
    )  # no stopwatch outlives its page: the device's clock tells, which may be set
    press(page, "Count it")
    there(page, "Strike fill 3")
    page.wait_for_timeout(1100)
    save_reading(page)


@pytest.mark.slow
def test_a_clock_that_is_set_back(phone: Phone, copy: Host) -> None:
    clock = copy.folder / "clock.txt"
    clock.write_text("0")
    for name in ("worker.js", "boot.js"):
        program = copy.folder / name
        program.write_bytes(CLOCK.replace(b"ADDRESS", copy.address.encode()) + program.read_bytes())
    page = phone.start()
    open_app(page, copy.address + OUTLET)
    start(page)
    stop(page, 1)
    save_reading(page)
    page.goto(copy.address + OUTLET)
    start(page)
    stop(page, 1)
    start(page)
    page.wait_for_timeout(1500)
    phone.kill()

    clock.write_text(str(-400 * 86_400_000))
    page = phone.start()
    open_app(page, copy.address + OUTLET)
    there(page, "Strike fill 1")
    touch(page, "Stop")  # it seems to have begun a year from now
    shows(page, "This fill is not counted")
    there(page, "Strike fill 1")
    start(page)
    stop(page, 2)
    save_reading(page)
    assert len([key for key in kept(page) if key.startswith("reading/none/")]) == 2


# In front of a program: its clock is set while it runs, by whoever tells it on a channel.
SET = b"""
{
  let shift = 0;
  const TrueDate = Date;
  globalThis.Date = class extends TrueDate {
    constructor(...parts) { super(...(parts.length ? parts : [TrueDate.now() + shift])); }
    static now() { return TrueDate.now() + shift; }
  };
  new BroadcastChannel("set-the-clock").onmessage = ({ data }) => { shift += data; };
}
"""
JUMP = "ms => new BroadcastChannel('set-the-clock').postMessage(ms)"
PRESSES = """
window.presses = [];
addEventListener("pointerdown", (e) => window.presses.push(e.timeStamp / 1000), true);
"""


@pytest.mark.slow
def test_a_clock_that_is_set_in_the_middle_of_a_fill(phone: Phone, copy: Host) -> None:
    for name in ("worker.js", "boot.js"):
        program = copy.folder / name
        program.write_bytes(SET + program.read_bytes())
    page = phone.start()
    page.add_init_script(PRESSES)
    open_app(page, copy.address + OUTLET)
    clock = "Date.now()"
    for number, jump in enumerate((3000, 30_000, -3000, -30_000), start=1):
        start(page)
        before = page.evaluate(clock)
        page.evaluate(JUMP, jump)
        page.wait_for_timeout(700)
        assert abs(page.evaluate(clock) - before - 700 - jump) < 600  # the page was set too
        stop(page, number)
        name = page.get_by_role("button", name=f"Strike fill {number}").first.inner_text()
        label = page.get_by_role("button", name=f"Strike fill {number}").first
        told = f"{name} {label.get_attribute('aria-label') or ''}"
        shown = float(re.findall(r"[\d.]+(?= s)", told)[0])
        first, last = page.evaluate("window.presses.slice(-2)")
        assert abs(shown - (last - first)) < 0.03, (jump, shown, last - first)
    assert phone.errors == []
