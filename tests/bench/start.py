"""How soon and how large: this site beside the stock toolchain's bare counter app.

Run from the project's folder: `.venv/bin/python tests/bench/start.py [repetitions] [engine ...]`;
what has to be installed is said in engines.py. Both sites are built into a temporary folder,
compressed alike and served by the same server to the same browser, which finds no other host.
Visits alternate; medians are printed. "Usable" is the moment when a press of the first button has
changed the text on the screen. The stock output keeps nothing for offline use: its later starts
find the server up and its files in the browser's own cache. Ours start without a server, from what
a first visit with a pause of some seconds has left; and once more without the snapshot of Python's
memory. The browser is closed and opened again between visits, but for WebKitGTK, which would forget
everything, and goes away from the page and back.
"""

import io
import os
import shutil
import statistics
import sys
import tarfile
import tempfile
import threading
import time
from collections import defaultdict
from contextlib import suppress
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from engines import ENGINES, Chromium, Elsewhere, Engine, Refused
from first_press import OFFLINE, QUIET, asked, open_again
from playwright.sync_api import sync_playwright

from pondapp.web import bundle, places, serve, site, wheels

COUNTER = b"""import flet as ft


def main(page: ft.Page):
    count = ft.Text("not yet")
    times = 0

    def press(e):
        nonlocal times
        times += 1
        count.value = f"counted: {times}"
        page.update()

    page.add(count, ft.Button("Press", on_click=press))


ft.run(main)
"""
NEEDED = ("flet-", "msgpack-", "repath-", "six-")  # by the counter, of the locked wheels
LONGEST = 120.0  # seconds for anything
NO_SNAPSHOT = """localStorage.setItem(pondappName("restoring"),
  localStorage.getItem(pondappName("making")).split(" ")[0] + " 4")"""

# Presses the button as soon as it is there, and once more when a press was lost, until the text
# appears. Pressing without a pause would queue up work for the app and time that.
PRESS = """window.pressing ||= (() => {
  let pressed = -Infinity;
  const started = setInterval(() => {
    document.querySelector("flt-semantics-placeholder")?.click();
    const nodes = [...document.querySelectorAll("flt-semantics, flt-semantics *")];
    const says = (node, text) =>
      node.textContent.includes(text) || (node.getAttribute("aria-label") || "").includes(text);
    if (nodes.some((node) => says(node, "@AFTER@"))) {
      clearInterval(started);
      document.documentElement.dataset.usable = performance.now();
      return;
    }
    const button = nodes.find(
      (node) => node.getAttribute("role") === "button" && says(node, "@BUTTON@"));
    if (button && performance.now() - pressed > 1000) {
      pressed = performance.now();
      button.click();
    }
  }, 20);
  return started;
})()"""


def stock(folder: Path) -> None:
    """The stock output of the counter, with the least that makes it start without a network."""
    from flet.controls.types import RouteUrlStrategy, WebRenderer
    from flet_web.patch_index import patch_font_manifest_json, patch_index_html

    client = places.client()
    plain = folder.with_name("stock-plain")
    shutil.copytree(client, plain)
    patch_index_html(
        str(plain / "index.html"),
        base_href="/",
        pyodide=True,
        pyodide_script_path="main.py",
        pyodide_version="local",
        web_renderer=WebRenderer.AUTO,
        route_url_strategy=RouteUrlStrategy.HASH,
        app_package_url="app.tar.gz",
        no_cdn=True,
    )
    patch_font_manifest_json(str(plain / "assets" / "FontManifest.json"))
    page = plain / "index.html"
    text = page.read_text()
    fixed = text.replace('pyodideUrl="pyodide/', 'pyodideUrl="/pyodide/')  # else refused
    if fixed == text:
        sys.exit("the stock page has changed: look at its pyodideUrl")
    page.write_text(fixed)
    boot = plain / "flutter_bootstrap.js"
    text = boot.read_text()
    head, _, tail = text.partition("serviceWorkerSettings: {\n")
    boot.write_text(head + tail.partition("},\n")[2])  # it would only load the page twice
    (plain / "flutter_service_worker.js").unlink()

    packed = io.BytesIO()
    with tarfile.open(fileobj=packed, mode="w:gz") as archive:

        def add(name: str, data: bytes) -> None:
            entry = tarfile.TarInfo(name)
            entry.size = len(data)
            archive.addfile(entry, io.BytesIO(data))

        add("main.py", COUNTER)
        fetched = wheels.fetch(places.LOCK, places.CACHE / "wheels")
        chosen = [wheel for wheel in fetched if wheel.name.startswith(NEEDED)]
        for name, data in bundle.package_files(chosen).items():
            add(f"__pypackages__/{name}", data)
    files = {
        path.relative_to(plain).as_posix(): path.read_bytes()
        for path in plain.rglob("*")
        if path.is_file()
    }
    site.write({**files, "app.tar.gz": packed.getvalue()}, folder, compress=True)


class Counting:
    """A server that knows what it sent."""

    def __init__(self, folder: Path, policy: bool) -> None:
        self.policy = policy  # the stock page runs programs that it holds itself
        self.sent: dict[str, int] = defaultdict(int)
        self.folder, self.port = folder, 0
        self.start()

    def start(self) -> None:
        self.server, self.address = serve.server(self.folder, self.port)
        self.port = self.server.server_address[1]
        sent, plain = self.sent, self.server.RequestHandlerClass
        left_out = None if self.policy else "Content-Security-Policy"

        class Handler(plain):  # type: ignore[misc, valid-type]
            def send_header(self, name: str, value: str) -> None:
                if name == "Content-Length" and self.command == "GET":
                    sent[self.path.split("?")[0]] += int(value)
                if name != left_out:
                    super().send_header(name, value)

        self.server.RequestHandlerClass = Handler
        threading.Thread(target=self.server.serve_forever, daemon=True).start()

    def stop(self) -> None:
        self.server.shutdown()
        self.server.server_close()


def memory(profile: Path) -> float:
    """Megabytes that Chromium's page processes hold, shared pages split among their users."""
    total, groups, pages = 0, set(), []
    for folder in Path("/proc").iterdir():
        with suppress(OSError, ValueError):
            command = (folder / "cmdline").read_bytes()
            group = os.getpgid(int(folder.name))
            if f"--user-data-dir={profile}".encode() in command and b"--type=" not in command:
                groups.add(group)
            if b"--type=renderer" in command:
                pages.append((group, folder))
    for group, folder in pages:
        if group in groups:
            lines = (folder / "smaps_rollup").read_text().splitlines()
            total += sum(int(line.split()[1]) for line in lines if line.startswith("Pss:"))
    return total / 1000


def usable(engine: Engine, address: str, button: str, after: str) -> float:
    """Seconds from asking for the page to the first press that did its work."""
    press = PRESS.replace("@BUTTON@", button).replace("@AFTER@", after)
    engine.visit(address)
    deadline = time.monotonic() + LONGEST
    while time.monotonic() < deadline:
        with suppress(Refused):
            here = f"location.href.startsWith('{address}')"
            if found := engine.tell(
                f"{here} && ({press}, document.documentElement.dataset.usable)"
            ):
                return float(found) / 1000
        time.sleep(0.05)
    raise SystemExit(f"{address} was never usable")


def visit(
    kind: type[Engine], host: Counting, button: str, after: str, ours: bool
) -> dict[str, float]:
    """A first visit and later ones, with what they took."""
    elsewhere = Elsewhere()
    with tempfile.TemporaryDirectory(ignore_cleanup_errors=True) as profile:
        engine = kind(Path(profile) / "profile", elsewhere)
        host.sent.clear()
        engine.start()
        try:
            found = {"first visit, s": usable(engine, host.address, button, after)}
            if ours and not (engine.wait(OFFLINE, LONGEST) and engine.wait(QUIET, LONGEST)):
                raise SystemExit("a first visit never came to rest")
            time.sleep(3)
            found["bytes sent, MB"] = sum(host.sent.values()) / 1e6
            found["files"] = float(len(host.sent))
            if ours:
                host.stop()
            for which in ("second start, s", "third start, s", "no snapshot, s"):
                if which == "no snapshot, s" and ours:
                    engine.tell(NO_SNAPSHOT)
                open_again(engine)
                found[which] = usable(engine, host.address, button, after)
                if kind is Chromium and which == "third start, s":
                    time.sleep(3)
                    found["tab, MB"] = memory(engine.profile)
        finally:
            engine.end()
            elsewhere.close()
            if ours:
                host.start()
    return found


def main() -> None:
    """Build both, visit both in turn, print medians and ratios."""
    rounds, engines = asked(5)
    with tempfile.TemporaryDirectory() as temporary, sync_playwright() as driver:
        Chromium.driver = driver
        folders = {"stock": Path(temporary) / "stock", "ours": Path(temporary) / "ours"}
        stock(folders["stock"])
        site.write(site.best_files(bundle.app_files(places.PACKAGE), print), folders["ours"], True)
        hosts = {name: Counting(folder, name == "ours") for name, folder in folders.items()}
        controls = {"stock": ("Press", "counted: "), "ours": ("Add a pond", "Name of the pond")}
        for engine in engines:
            found: dict[str, list[dict[str, float]]] = {name: [] for name in folders}
            for _ in range(rounds):
                for name, host in hosts.items():
                    found[name].append(
                        visit(ENGINES[engine], host, *controls[name], name == "ours")
                    )
            print(f"{engine:20}{'stock':>10}{'ours':>10}{'ratio':>8}   medians of {rounds}", end="")
            print(f", load {os.getloadavg()[0]:.0f}")
            for what in found["stock"][0]:
                stocks, own = (
                    statistics.median(one[what] for one in found[name])
                    for name in ("stock", "ours")
                )
                print(f"{what:20}{stocks:10.2f}{own:10.2f}{own / stocks:8.2f}", flush=True)


if __name__ == "__main__":
    main()
