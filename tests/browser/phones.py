"""A phone-sized Chromium that can be killed, and a host whose files can be changed and cut."""

import asyncio
import json
import os
import re
import signal
import subprocess
import threading
import time
from collections.abc import Coroutine, Iterator, Mapping
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any, Literal, TypeVar

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Error,
    FilePayload,
    Locator,
    Page,
    Playwright,
    expect,
)
from playwright.sync_api import TimeoutError as Late

from pondapp.web import serve

FLAGS = (
    "--headless=new",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-sync",
    "--disable-background-networking",
    "--disable-component-update",
    "--enable-unsafe-swiftshader",
    "--remote-debugging-port=0",
    "--no-default-browser-check",
    "--accept-lang=en-GB",  # litres and metres
    "--window-size=390,844",
)
BOOT = 180_000  # ms: the page, then Python, then the app
PATIENCE = 60_000  # ms: for anything else; costs nothing when all is well
HANDS = (Path(__file__).parent / "hands.js").read_text(encoding="utf-8")
FORGET = """(name) => new Promise((done, failed) => {
    const asked = indexedDB.deleteDatabase(name);
    asked.onsuccess = () => done();
    asked.onerror = () => failed(asked.error);
    setTimeout(() => failed(new Error(`${name} is held open`)), 60_000);
})"""
Name = str | re.Pattern[str]
VOLUME = re.compile("^Volume")  # not "Bog filter, outside volume"
Result = TypeVar("Result")
PREFIX = "/some/where/"  # never the root, so that every test is one of a sub-path


class Host:
    """Serves files that a test may replace, drop, spoil or cut in half."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.cut: set[str] = set()
        self.failing: set[str] = set()
        self.missed: list[str] = []
        """What was asked for and is not there."""
        folder.mkdir(parents=True, exist_ok=True)
        self.start(0)

    def start(self, port: int) -> None:
        self.server, self.address = serve.server(self.folder, port, PREFIX)
        plain = self.server.RequestHandlerClass
        cut, failing, missed, folder = self.cut, self.failing, self.missed, self.folder

        class Cutting(plain):  # type: ignore[misc, valid-type]
            def do_GET(self) -> None:  # noqa: N802 - the base class names it
                found = serve.find(folder, PREFIX, self.path)
                if found is None:
                    missed.append(self.path)
                if found is not None and found.name in failing:
                    self.send_error(500)
                    return
                if found is None or found.name not in cut:
                    super().do_GET()
                    return
                body = found.read_bytes()
                self.send_response(200)
                self.send_header("Content-Length", str(len(body)))
                self.end_headers()
                self.wfile.write(body[: len(body) // 2])
                self.close_connection = True

        self.server.RequestHandlerClass = Cutting
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self.server.shutdown()
        self.server.server_close()

    def deploy(self, files: Mapping[str, bytes]) -> None:
        for path, data in files.items():
            target = self.folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(data)


class Phone:
    """One browser profile on disk; the browser itself can be killed and started again."""

    def __init__(self, playwright: Playwright, program: str, profile: Path) -> None:
        self.playwright, self.program, self.profile = playwright, program, profile
        self.requests: list[str] = []
        self.errors: list[str] = []
        self.process: subprocess.Popen[bytes] | None = None
        self.browser: Browser | None = None
        self.page: Page

    def start(self) -> Page:
        port = self.profile / "DevToolsActivePort"
        port.unlink(missing_ok=True)
        self.process = subprocess.Popen(
            [self.program, *FLAGS, f"--user-data-dir={self.profile}", "about:blank"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        deadline = time.monotonic() + PATIENCE / 1000
        while not (port.exists() and port.read_text().count("\n")):
            if time.monotonic() > deadline or self.process.poll() is not None:
                pytest.fail(f"{self.program} did not start")
            time.sleep(0.05)
        number = port.read_text().split()[0]
        self.browser = self.playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{number}")
        context: BrowserContext = self.browser.contexts[0]
        context.add_init_script(HANDS)
        context.set_default_timeout(PATIENCE)
        context.on("request", lambda request: self.requests.append(request.url))
        page = self.page = context.pages[0] if context.pages else context.new_page()
        page.set_viewport_size({"width": 390, "height": 844})
        page.on("pageerror", lambda error: self.errors.append(str(error)))
        page.on(
            "console",
            lambda message: (
                message.type == "error"
                and not message.location["url"].endswith("/favicon.ico")  # of the picture's page
                and self.errors.append(f"{message.text} {message.location['url']}")
            ),
        )
        return page

    def forget(self, address: str) -> None:
        """Nothing of the user's is on the phone any more; the app is, kept for offline use."""
        for left in self.page.context.pages:  # by a test that failed
            if left != self.page:
                left.close()
        self.page.goto(f"{address}icons/icon-192.png")  # of the same origin, and nobody writes
        for what in ("data", "pad"):
            self.page.evaluate(FORGET, f"pondapp-{what} {PREFIX}")
        self.requests.clear()
        self.errors.clear()

    def kill(self) -> None:
        """End the browser as an empty battery does: nothing is written at the last moment."""
        if self.process is not None:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait()
            self.process = None
        if self.browser is not None:
            self.browser.close()
            self.browser = None

    def strangers(self, address: str) -> list[str]:
        """Requests to anything but the site."""
        ours = (address, "data:", "blob:", "about:")
        return [url for url in self.requests if not url.startswith(ours)]


def open_app(page: Page, address: str) -> None:
    """Load the app and switch on the tree that finds things by role and name."""
    page.goto(address)
    wait_started(page)


def load_again(page: Page) -> None:
    """Load the page again, with the app at the screen it was at."""
    page.reload()
    wait_started(page)


def wait_started(page: Page) -> None:
    """Wait for the first screen, and for the tree that finds things by role and name.

    Flutter draws on one canvas until assistive technology asks for more.
    """
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=BOOT)
    placeholder = page.locator("flt-semantics-placeholder")
    placeholder.wait_for(state="attached", timeout=BOOT)
    placeholder.dispatch_event("click")


def without_tree(page: Page, address: str) -> "Thumb":
    """Load the app as most have it, without that tree, and wait until its first screen stands."""
    page.goto("about:blank")
    page.goto(address)
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=BOOT)
    wait_true(page, "document.documentElement.dataset.screen !== undefined")
    page.wait_for_timeout(500)
    return Thumb(page)


ARRIVED = "document.documentElement.dataset.screen === (location.hash.slice(1) || '/')"


def go(page: Page, route: str) -> None:
    """Open a screen by its address and wait until its tree has taken the place of the old one.

    One that is on its way comes first: else the old one may never leave, where both are the same.
    """
    for _ in range(100):
        if page.evaluate(ARRIVED):
            break
        page.wait_for_timeout(50)
    if page.evaluate("location.hash.slice(1) || '/'") == route:
        return
    page.evaluate("document.querySelector('flt-semantics-host h2')?.setAttribute('old', '')")
    page.evaluate(f"location.hash = '#{route}'")
    wait_true(page, "document.querySelector('flt-semantics-host h2:not([old])') !== null")
    wait_true(page, "document.querySelector('flt-semantics-host h2[old]') === null")


def press(
    page: Page,
    name: Name,
    role: Literal["button", "radio", "checkbox"] = "button",
    *,
    exact: bool = False,
) -> None:
    """Press what has this role and name, until the app has taken it.

    The press goes to the control itself and not to a place on the screen. While the tree is in
    use, Flutter makes the same of a quick touch; a slow one it takes for a touch of whatever it
    drew at that place, and the tree's places are wrong after the browser scrolled within half a
    second of a key, and where a scrolled screen became too short to scroll.
    """
    found = page.get_by_role(role, name=name, exact=exact).first
    for _ in again_until(f"nothing came of pressing {found}"):
        with may_be_drawn_anew():
            if found.evaluate("control => hands.press(control)"):
                return


def open_step(page: Page, name: Name) -> None:
    """Open one of the steps of the pond in hand, which its Plan leads to."""
    wait_true(page, "location.hash.startsWith('#/pond/')")
    go(page, f"/pond/{page.evaluate('location.hash').split('/')[2]}/build")
    press(page, name)


MORE = "Other ways, typed time, note"
"""The way from a stopwatch to all that is seldom needed."""


def type_time(page: Page, seconds: str) -> None:
    """Add a time that another clock took to those of the open stopwatch."""
    press(page, MORE)
    type_into(page, "Or type a fill time", seconds)
    press(page, "Add this time")
    expect(page.get_by_role("button", name="Strike fill 1").first).to_be_attached()
    press(page, "Back")
    gone(page, "Or type a fill time")


def save_reading(page: Page) -> None:
    """Save what was measured, and wait for the screen that follows."""
    before = page.url
    press(page, "Save in the log")
    wait_true(page, f"location.href !== {json.dumps(before)}")


def give_file(page: Page, name: Name, file: Path | FilePayload) -> None:
    """Press a button that asks for a file, which Python does not hear of, and hand one over."""
    found = page.get_by_role("button", name=name).first
    with page.expect_file_chooser() as chooser:
        found.evaluate("control => hands.click(control)")
    chooser.value.set_files(file)


def touch(page: Page, name: Name) -> None:
    """Touch a button at its middle, as a finger does."""
    found = page.get_by_role("button", name=name).first
    for _ in again_until(f"cannot be touched: {found}"):
        with may_be_drawn_anew():
            middle = found.evaluate("control => hands.middle(control)")
            if middle is not None:
                page.mouse.click(*middle)
                return


AIMED = "pondappPad.aimed()"
"""Whether the stopwatch has been in sight for as long as it takes to touch it."""


class Thumb:
    """A thumb on the glass: it touches places of the window, whatever lies there."""

    def __init__(self, page: Page) -> None:
        self.page = page
        self.session = page.context.new_cdp_session(page)
        self.session.send("Emulation.setTouchEmulationEnabled", {"enabled": True})

    def tap(self, x: float, y: float, at: float | None = None) -> None:
        """Touch this place, and let go; at a moment [s since 1970] that may have passed by now."""
        when = {} if at is None else {"timestamp": at}
        for kind, points in (("touchStart", [{"x": x, "y": y}]), ("touchEnd", [])):
            touch = {"type": kind, "touchPoints": points, **when}
            self.session.send("Input.dispatchTouchEvent", touch)

    def press(self) -> None:
        """Touch where a thumb lies: low in the middle, at the right of a window that is wide.

        Nobody does so before the stopwatch was seen.
        """
        wait_true(self.page, AIMED)
        size = self.page.evaluate("[innerWidth, innerHeight]")
        self.tap(*thumb_place(*size))


def thumb_place(width: float, height: float) -> tuple[float, float]:
    """Where a thumb presses the stopwatch, without looking."""
    side = min(width / 2, 480)
    return (width - side / 2 if width > height else width / 2, 0.8 * height)


def counted(page: Page) -> list[dict[str, Any]]:
    """The presses that the stopwatch of this page took: when, what, and whether they are kept."""
    found: list[dict[str, Any]] = page.evaluate("pondappPad.presses")
    return found


def choose(page: Page, name: Name) -> None:
    """Pick an option, unless it is picked already."""
    if page.get_by_role("radio", name=name).first.get_attribute("aria-checked") != "true":
        press(page, name, "radio")


def unfold(page: Page, title: Name, *, away: bool = False) -> None:
    """Show what lies under a title, or fold it away, unless it is so already."""
    head = page.get_by_role("button", name=title).first
    wanted = str(not away).lower()
    for _ in again_until(f"does not fold: {head}"):
        if head.get_attribute("aria-expanded") == wanted:
            return
        press(page, title)
        with suppress(AssertionError):
            expect(head).to_have_attribute("aria-expanded", wanted, timeout=10_000)


def type_into(page: Page, name: Name, text: str) -> None:
    """Type in the place of what a field holds, and once more if it did not arrive whole."""
    field = page.get_by_role("textbox", name=name).first
    for _ in again_until(f"does not take {text!r}: {field}"):
        with may_be_drawn_anew():
            held = field.evaluate("field => hands.take(field)")
            if held == text:
                return
            if held is None:
                continue
            page.keyboard.press("ControlOrMeta+a")
            page.keyboard.type(text)
            if field.evaluate("(field, text) => hands.holds(field, text)", text):
                return


def field_holds(page: Page, name: Name, text: str) -> None:
    """Wait until a field holds a text; the tree tells that of the field in hand only."""
    field = page.get_by_role("textbox", name=name).first
    field.focus()
    expect(field).to_have_value(text)


def again_until(failure: str) -> Iterator[None]:
    """Turns of a loop, until time is up and the test has failed."""
    deadline = time.monotonic() + PATIENCE / 1000
    while time.monotonic() < deadline:
        yield
    pytest.fail(failure)


@contextmanager
def may_be_drawn_anew() -> Iterator[None]:
    """What is looked at may be replaced meanwhile; then it is looked for again."""
    try:
        yield
    except Error as problem:
        if isinstance(problem, Late):
            raise


def told(page: Page, text: Name) -> Locator:
    """What says a text, drawn or read aloud."""
    return page.get_by_text(text).or_(page.get_by_label(text)).first


def shows(page: Page, text: Name) -> None:
    """Wait until a text is on the screen."""
    expect(told(page, text)).to_be_attached()


def gone(page: Page, text: Name) -> None:
    """Wait until a text is on the screen no longer."""
    expect(page.get_by_text(text).or_(page.get_by_label(text))).to_have_count(0)


def wait_offline(page: Page) -> None:
    """Wait until the whole app is kept on the device."""
    page.wait_for_selector("html[data-offline=ready]", state="attached", timeout=BOOT)
    wait_true(page, "navigator.serviceWorker.controller !== null")


def wait_true(page: Page, condition: str) -> None:
    """Wait for a condition in the page; the site's policy forbids the usual way, which is eval."""
    deadline = time.monotonic() + BOOT / 1000
    while not page.evaluate(condition):
        if time.monotonic() > deadline:
            pytest.fail(f"never came true: {condition}")
        page.wait_for_timeout(50)


def finished(coroutine: Coroutine[Any, Any, Result]) -> Result:
    """What a coroutine gives, run on a thread of its own: here the browser's loop is running."""
    with ThreadPoolExecutor(1) as thread:
        return thread.submit(asyncio.run, coroutine).result()
