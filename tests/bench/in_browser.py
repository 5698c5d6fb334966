"""The browser's Python with all that the app has, and another program to start."""

import json
import os
import signal
import subprocess
import tempfile
import threading
import time
from pathlib import Path

from playwright.sync_api import sync_playwright

from pondapp.web import bundle, compiled, places, serve, site

FLAGS = ("--headless=new", "--no-sandbox", "--disable-gpu", "--remote-debugging-port=0")
LONGEST = 120.0  # s

PROGRAM = '''"""Time the whole pond and hand the figures to the page."""

import json

import js

import whole_pond

js.postMessage(json.dumps(whole_pond.report({turns})))
'''
PAGE = b"""<!doctype html>
<meta charset="utf-8">
<title>waiting</title>
<script src="bench.js"></script>
"""
# The app's own worker, without the screen that would share the processor with it.
SCRIPT = b"""const worker = new Worker("worker.js", { type: "module" });
worker.onmessage = ({ data }) => {
  if (typeof data === "string") document.title = data;
  else if (data.error && document.title === "waiting") document.title = `error: ${data.error}`;
};
worker.postMessage({ documentUrl: document.URL, tab: "bench" });
"""


def report(turns: int) -> dict[str, float]:
    """Milliseconds as whole_pond.report gives them, measured in headless Chromium."""
    beside = Path(__file__).parent / "whole_pond.py"
    return figures(PROGRAM.format(turns=turns), {"whole_pond.py": source(beside)})


def source(path: str | Path) -> bytes:
    """A module to put beside the program."""
    return Path(path).read_bytes()


def figures(program: str, modules: dict[str, bytes], longest: float = LONGEST) -> dict[str, float]:
    """What a program hands to the page, in the place of the app and with all that it has."""
    files = site.site_files(
        {**bundle.app_files(places.PACKAGE), "main.py": program.encode(), **modules}
    )
    files = {**files, "bench.html": PAGE, "bench.js": SCRIPT}
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name) / "site"
        site.write(files, folder, compress=False)
        server, address = serve.server(folder)
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            return _title_of(f"{address}bench.html", Path(name) / "profile", longest)
        finally:
            server.shutdown()
            server.server_close()


def _title_of(address: str, profile: Path, longest: float) -> dict[str, float]:
    """Open the page and wait until its title holds the figures."""
    profile.mkdir()
    with sync_playwright() as playwright:
        program = compiled.browser() or playwright.chromium.executable_path
        process = subprocess.Popen(
            [program, *FLAGS, f"--user-data-dir={profile}", "about:blank"],
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            deadline = time.monotonic() + longest
            port = profile / "DevToolsActivePort"
            while not (port.exists() and port.read_text().count("\n")):
                _wait(deadline)
            number = port.read_text().split()[0]
            browser = playwright.chromium.connect_over_cdp(f"http://127.0.0.1:{number}")
            page = browser.contexts[0].new_page()
            page.goto(address)
            while (title := page.title()) == "waiting":
                _wait(deadline)
            if not title.startswith("{"):
                raise SystemExit(title)
            found: dict[str, float] = json.loads(title)
            return found
        finally:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()


def _wait(deadline: float) -> None:
    if time.monotonic() > deadline:
        raise SystemExit("the browser gave no figures in time")
    time.sleep(0.1)
