"""How soon a press of the stopwatch counts, in Chromium, Firefox and WebKitGTK.

Run from the project's folder: `.venv/bin/python tests/bench/first_press.py [visits] [engine ...]`;
what has to be installed is said in engines.py. The site is opened at the stopwatch and pressed
without a pause at the place where a thumb would be, from before the page is there. Printed is the
time from the beginning of the navigation to the first press that the page has taken and kept, by
the press's own stamp: median and 95th percentile, with the load of the computer at the end. First
visits have an empty profile. Later ones find no server: the browser is closed and opened again
between them, but for WebKitGTK, which would forget the app, and goes away from the page and back.
At last a first visit to a host that falls silent after 100 kB, heads of the answers and all.
"""

import os
import statistics
import sys
import tempfile
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from engines import ENGINES, Chromium, Engine, Refused
from playwright.sync_api import sync_playwright

from pondapp.web import bundle, places, serve, site

SCREEN = "#/measure/none/outlet"
HEIGHT = 0.78  # of the window: the button is its lower part, over the whole width
MOST_BYTES = 100_000
LONGEST = 120.0  # seconds until a press counts at all
COUNTED = "window.pondappPad?.presses.find((one) => one.kept)?.t"
OFFLINE = "document.documentElement.dataset.offline === 'ready'"
QUIET = "document.documentElement.dataset.snapshot"  # the last that a first visit does


class Meter:
    """The way to a browser, which counts, and holds back what is over a limit."""

    def __init__(self, host: "Host", way: Any) -> None:
        self.host, self.way = host, way

    def write(self, data: bytes) -> int:
        self.host.let_pass(len(data))
        return int(self.way.write(data))

    def __getattr__(self, name: str) -> Any:
        return getattr(self.way, name)


class Host:
    """Serves the site; may fall silent after so many bytes."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, 0
        self.most: float = float("inf")
        self.sent = 0
        self.lock = threading.Lock()
        self.over = threading.Event()
        self.start()

    def let_pass(self, count: int) -> None:
        """Wait for ever with what is over the limit, and with all that comes after it."""
        with self.lock:
            if self.sent + count > self.most:
                self.most = 0
            silent = self.most == 0
            self.sent += 0 if silent else count
        if silent:
            self.over.wait()
            raise ConnectionResetError

    def start(self) -> None:
        self.over.clear()
        self.server, self.address = serve.server(self.folder, self.port)
        self.port = self.server.server_address[1]
        host, plain = self, self.server.RequestHandlerClass

        class Handler(plain):  # type: ignore[misc, valid-type]
            def setup(self) -> None:
                super().setup()
                self.wfile = Meter(host, self.wfile)

        self.server.RequestHandlerClass = Handler
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self.over.set()
        self.server.shutdown()
        self.server.server_close()


def first_press(engine: Engine, address: str) -> float | None:
    """Milliseconds from the navigation to the first press that counted; None if none did."""
    width, height = engine.tell("[innerWidth, innerHeight]")
    engine.visit(f"{address}{SCREEN}")
    deadline = time.monotonic() + LONGEST
    while time.monotonic() < deadline:
        with suppress(Refused):
            engine.press(width / 2, height * HEIGHT)
            if (found := engine.tell(COUNTED)) is not None:
                return float(found)
    return None


def tell(engine: str, what: str, found: list[float | None]) -> None:
    """Print median and 95th percentile."""
    times = sorted(LONGEST * 1000 if one is None else one for one in found)
    late = times[min(len(times) - 1, round(0.95 * len(times)))]
    middle = statistics.median(times)
    print(
        f"{engine:12}{what:20}{len(times):8}{middle:10.0f}{late:10.0f}{os.getloadavg()[0]:8.1f}",
        flush=True,
    )


def first_visits(name: str, host: Host, folder: Path, visits: int) -> None:
    """Each with an empty profile."""
    found = []
    for number in range(visits):
        engine = ENGINES[name](folder / f"first-{number}")
        engine.start()
        try:
            found.append(first_press(engine, host.address))
        finally:
            engine.end()
    tell(name, "first visit", found)


def keep_app(name: str, engine: Engine, address: str) -> None:
    """A first visit, until all is on the device and nothing more is done."""
    engine.visit(address)
    if not engine.wait(OFFLINE, LONGEST):
        sys.exit(f"{name}: the app was never kept for offline use")
    engine.wait(QUIET, LONGEST)


def open_again(engine: Engine) -> None:
    """The browser anew, or what comes nearest where it would forget the app."""
    if engine.keeps:
        engine.end()
        engine.start()
    else:
        engine.visit("about:blank")
        engine.wait("location.href === 'about:blank'", LONGEST)


@contextmanager
def built() -> Iterator[tuple[Path, Host]]:
    """A folder for profiles, and the built site beside it, served."""
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as name, sync_playwright() as made:
        Chromium.driver = made
        folder = Path(name)
        files = site.best_files(bundle.app_files(places.PACKAGE), print)
        site.write(files, folder / "site", compress=True)
        host = Host(folder / "site")
        yield folder, host
        host.stop()


def asked(visits: int) -> tuple[int, list[str]]:
    """How many visits, and which engines, by the words of the command."""
    words = sys.argv[1:]
    count = int(words.pop(0)) if words and words[0].isdecimal() else visits
    return count, words or list(ENGINES)


def later_visits(name: str, host: Host, folder: Path, visits: int) -> None:
    """With all that a first visit has left, and no server."""
    engine = ENGINES[name](folder / "later")
    engine.start()
    found = []
    try:
        keep_app(name, engine, f"{host.address}{SCREEN}")
        host.stop()
        for _ in range(visits):
            open_again(engine)
            found.append(first_press(engine, host.address))
    finally:
        engine.end()
        if host.over.is_set():
            host.start()
    tell(name, "later, no server", found)


def silent_host(name: str, host: Host, folder: Path) -> None:
    """A first visit of which no more than so many bytes arrive."""
    host.sent, host.most = 0, MOST_BYTES
    engine = ENGINES[name](folder / "silent")
    engine.start()
    try:
        found = first_press(engine, host.address)
        what = f"{found:.0f} ms" if found is not None else "never"
        print(f"{name:12}first visit, host silent after {host.sent / 1000:.0f} kB: {what}")
    finally:
        engine.end()
        host.stop()
        host.most = float("inf")
        host.start()


def main() -> None:
    """Build, and visit with one engine after the other."""
    visits, engines = asked(10)
    with built() as (folder, host):
        print(f"{'ms':12}{'':20}{'visits':>8}{'median':>10}{'95 %':>10}{'load':>8}")
        for engine in engines:
            first_visits(engine, host, folder / engine, visits)
            later_visits(engine, host, folder / engine, visits)
            silent_host(engine, host, folder / engine)


if __name__ == "__main__":
    main()
