"""What phones run: Chromium's, Firefox's and WebKit's engines, each with the built site.

The other tests of this folder use Chromium alone. Here each engine goes the whole way once, without
what only one driver can do; `engines.py` drives them. One that is not installed fails its tests.
"""

import json
import time
from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path

import pytest
from engines import ENGINES, Chromium, Elsewhere, Engine, Firefox, Refused, WebKit
from phones import BOOT, PATIENCE, Host, again_until
from playwright.sync_api import Playwright
from test_accessible import addresses

from pondapp.ui.shell.routes import SCREENS

SOON = PATIENCE / 1000  # s
LATE = BOOT / 1000
TAPS = 4
AGAIN = 8.0  # s after which a press of which nothing came is one that was lost
OFFLINE = "document.documentElement.dataset.offline === 'ready'"
STARTED = "document.documentElement.dataset.app === 'started'"
RUNNING = "document.documentElement.dataset.pad === 'running'"
SNAPSHOT = """document.documentElement.dataset.snapshot === "made" ||
  document.documentElement.dataset.python === "restored" """  # from one made before
TREE_ON = """(document.querySelector("flt-semantics-placeholder")?.click(),
  Boolean(document.querySelector("flt-semantics-host flt-semantics")))"""
TREE = "document.querySelector('flt-semantics-host')"
NAMED = """[...document.querySelectorAll("flt-semantics-host @KIND@")].find((node) =>
  (node.getAttribute("aria-label") || node.textContent).startsWith(@NAME@))"""
BUTTON = ":is([role=button], [role=radio])[flt-tappable]"
SAYS = """[...document.querySelectorAll("flt-semantics-host *")].some((node) =>
  (node.getAttribute("aria-label") || node.textContent).includes(@TEXT@))"""
TITLE = "document.querySelector('flt-semantics-host h2:not([old])')?.textContent"


# Of the screens one in so many is opened: test_accessible.py opens all in Chromium, and WebKitGTK
# takes seconds for each.
SHARE: dict[type[Engine], int] = {Chromium: 20, Firefox: 1, WebKit: 6}


class User:
    """Somebody with one of the browsers."""

    def __init__(self, engine: Engine, host: Host) -> None:
        self.engine, self.host = engine, host

    def wait(self, expression: str, seconds: float = SOON) -> None:
        """Wait until an expression of the page is true."""
        if not self.engine.wait(expression, seconds):
            pytest.fail(f"never came true: {expression}")

    def open(self, hash_: str = "") -> None:
        """Open the app."""
        self.engine.visit("about:blank")
        self.wait("location.href === 'about:blank'")
        self.engine.visit(f"{self.host.address}{hash_}")
        self.wait_started()

    def wait_started(self) -> None:
        """Wait for the first screen, and for the tree of roles and names."""
        self.wait(STARTED, LATE)
        self.wait(TREE_ON, LATE)

    def open_offline(self) -> None:
        """End the browser, if it keeps anything beyond that, and open the app without a host."""
        self.host.stop()
        try:
            if self.engine.keeps:
                self.engine.end()
                self.engine.start()
            self.open()
        finally:
            self.host.start(self.host.server.server_address[1])

    def press(self, name: str, then: str) -> None:
        """Press a button until something is so."""
        found = named(BUTTON, name)
        for _ in again_until(f"nothing came of pressing {name}: never {then}"):
            self.wait(f"({then}) || Boolean({found})")  # it came of the press before, maybe late
            with suppress(Refused):
                self.engine.tell(f"({then}) || ({found})?.click()")
            if self.engine.wait(then, AGAIN):
                return

    def write(self, name: str, text: str) -> None:
        """Type in the place of what a field holds."""
        field = named("input", name)
        self.wait(field)
        for _ in again_until(f"{name} does not take {text}"):
            with suppress(Refused):
                self.engine.tell(f"({field})?.focus()")
                if self.engine.wait(f"document.activeElement === {field}", 2):
                    time.sleep(0.3)  # the tree is drawn anew around a field that was taken in hand
                    self.engine.tell("document.activeElement.select?.()")
                    self.engine.enter(text)
            if self.engine.wait(f"({field})?.value === {json.dumps(text)}", 3):
                return

    def go(self, route: str) -> str:
        """Open a screen by its address; its title."""
        self.engine.tell(f"{TREE}.querySelector('h2')?.setAttribute('old', '')")
        self.engine.tell(f"location.hash = {json.dumps(f'#{route}')}")
        self.wait(TITLE)
        return str(self.engine.tell(TITLE))

    def fill(self) -> None:
        """Time one fill at the place where a thumb lies."""
        width, height = self.engine.tell("[innerWidth, innerHeight]")
        x, y = width / 2, height * 0.78
        self.wait(f"document.getElementById('pad').contains(document.elementFromPoint({x}, {y}))")
        for then in (RUNNING, f"!({RUNNING})"):
            for _ in again_until(f"the stopwatch takes no press: never {then}"):
                self.engine.press(x, y)
                if self.engine.wait(then, AGAIN):
                    break
            time.sleep(4)

    def nothing_wrong(self) -> None:
        """No page reported an error, asked another host, or missed a file."""
        assert self.engine.errors(self.host.address) == []
        assert self.engine.strangers() == []
        assert self.host.missed == []


def named(kind: str, name: str) -> str:
    """An expression: what is of a kind and has a name that begins so."""
    return NAMED.replace("@KIND@", kind).replace("@NAME@", json.dumps(name))


def says(text: str) -> str:
    """An expression: whether a text is on the screen."""
    return SAYS.replace("@TEXT@", json.dumps(text))


@pytest.fixture(params=list(ENGINES))
def engine(
    request: pytest.FixtureRequest, playwright: Playwright, tmp_path: Path
) -> Iterator[Engine]:
    Chromium.driver = playwright
    kind = ENGINES[request.param]
    if lacking := kind.lacking():
        pytest.fail(f"{request.param} is not installed: {lacking}")
    elsewhere = Elsewhere()
    made = kind(tmp_path / "profile", elsewhere)
    made.start()
    yield made
    made.end()
    elsewhere.close()


def test_the_main_job_offline_and_each_screen(engine: Engine, site_of_app: Path) -> None:
    user = User(engine, Host(site_of_app))
    user.open()
    user.press("Look round an example pond", then=says("Alder Corner"))
    screens = {key: entry for key, entry in SCREENS.items() if key != "shared/:plan"}
    opened = list(addresses(screens))[:: SHARE[type(engine)]]
    titles = {address: user.go(address) for address in opened}
    assert not [at for at, title in titles.items() if not title or title.startswith("No such")]

    user.go("/new")
    user.write("Name of the pond", "Test hollow")
    user.press("I know the volume", then=named("input", "Volume"))
    user.write("Volume", "1000")
    user.press("Save the pond", then=says("No readings yet"))
    pond = str(engine.tell("location.hash.split('/')[2]"))
    user.press("Measure", then="location.hash.includes('measure')")
    user.fill()
    user.press("Save in the log", then="!location.hash.includes('measure')")
    user.open(f"#/pond/{pond}/log")
    user.wait(says("L/h"))

    user.wait(OFFLINE, LATE)
    user.wait(SNAPSHOT, LATE)
    user.open_offline()
    assert engine.tell("document.documentElement.dataset.python") == "restored"
    user.press("Test hollow", then=f"location.hash.includes({json.dumps(pond)})")
    user.go(f"/pond/{pond}/log")
    user.wait(says("L/h"))
    user.nothing_wrong()
    user.host.stop()


def test_a_new_version_comes_when_the_user_says_so(
    engine: Engine, host: Host, trial_files_b: dict[str, bytes]
) -> None:
    user = User(engine, host)
    user.open()
    user.wait(says("trial A"))
    user.wait(OFFLINE, LATE)
    user.wait("navigator.serviceWorker.controller !== null")
    host.deploy(trial_files_b)
    engine.tell("void navigator.serviceWorker.getRegistration().then((one) => one.update())")
    user.wait("pondappUpdate.ready", LATE)
    assert engine.tell(says("trial A"))
    engine.tell("window.old = true")
    for _ in range(TAPS):  # a worker that was put to sleep may miss one
        engine.tell("document.getElementById('bar-restart').click()")
        if engine.wait("!window.old", SOON):
            break
    else:
        pytest.fail("the new version never came")
    user.wait_started()
    user.wait(says("trial B"), LATE)
    assert engine.strangers() == []
    assert any("/fonts/" in path for path in host.missed), "a glyph without a font is not noticed"
