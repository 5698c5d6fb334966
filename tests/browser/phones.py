"""A phone-sized Chromium that can be killed, and a host whose files can be changed and cut."""

import os
import signal
import subprocess
import threading
import time
from collections.abc import Mapping
from pathlib import Path

import pytest
from playwright.sync_api import Browser, BrowserContext, Error, Locator, Page, Playwright

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
    "--window-size=390,844",
)
BOOT = 90_000  # ms: the page, then Python, then the app
PREFIX = "/some/where/"  # never the root, so that every test is one of a sub-path


class Host:
    """Serves files that a test may replace, drop, spoil or cut in half."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.cut: set[str] = set()
        self.failing: set[str] = set()
        folder.mkdir(parents=True, exist_ok=True)
        self.start(0)

    def start(self, port: int) -> None:
        self.server, self.address = serve.server(self.folder, port, PREFIX)
        plain = self.server.RequestHandlerClass
        cut, failing, folder = self.cut, self.failing, self.folder

        class Cutting(plain):  # type: ignore[misc, valid-type]
            def do_GET(self) -> None:  # noqa: N802 - the base class names it
                found = serve.find(folder, PREFIX, self.path)
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

    def start(self) -> Page:
        port = self.profile / "DevToolsActivePort"
        port.unlink(missing_ok=True)
        self.process = subprocess.Popen(
            [self.program, *FLAGS, f"--user-data-dir={self.profile}", "about:blank"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        deadline = time.monotonic() + 30
        while not (port.exists() and port.read_text().count("\n")):
            if time.monotonic() > deadline or self.process.poll() is not None:
                pytest.fail(f"{self.program} did not start")
            time.sleep(0.05)
        number = port.read_text().split()[0]
        self.browser = self.playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{number}")
        context: BrowserContext = self.browser.contexts[0]
        context.on("request", lambda request: self.requests.append(request.url))
        page = context.pages[0] if context.pages else context.new_page()
        page.set_viewport_size({"width": 390, "height": 844})
        page.on("pageerror", lambda error: self.errors.append(str(error)))
        page.on(
            "console",
            lambda message: message.type == "error" and self.errors.append(message.text),
        )
        return page

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
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=BOOT)
    see(page)


def see(page: Page) -> None:
    """Flutter draws on one canvas until assistive technology asks for more."""
    placeholder = page.locator("flt-semantics-placeholder")
    placeholder.wait_for(state="attached", timeout=BOOT)
    placeholder.dispatch_event("click")


def scroll_to(found: Locator) -> None:
    """Bring a control into sight and let the scrolling end: a click on its way hits another.

    A control that is drawn anew meanwhile is looked for again.
    """
    for _ in range(10):
        try:
            found.scroll_into_view_if_needed(timeout=30_000)
        except Error as problem:
            if "not attached" not in str(problem):
                raise
        else:
            found.page.wait_for_timeout(400)
            return
        found.page.wait_for_timeout(200)
    raise AssertionError(f"never still: {found}")


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
