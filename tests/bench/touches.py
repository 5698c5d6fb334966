"""How many touches a whole pond takes, and what else one does with it, by a thumb on the glass.

Run from the project's folder: `.venv/bin/python tests/bench/touches.py`. A thumb touches the
middles of what it sees, scrolls, and types with the keys of a phone, Enter included; it counts its
touches and the screens. What moves away below it, and what takes no touch at first, is printed.
"""

import re
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from engines import Chromium
from first_press import built
from phones import AIMED, Phone, Thumb, open_app, wait_true
from playwright.sync_api import Locator
from playwright.sync_api import TimeoutError as Late

from pondapp.web import compiled

AIMING, SETTLED = 500, 700  # ms before a touch, in which nobody is faster, and after it
MOVED = 4.0  # pixels that nobody sees
HIGH = 844.0
ROOM = (60.0, HIGH - 64.0)  # between the title and the four places
IN_HAND = "field => field === document.activeElement"
FILL, BOUNCE = 2400, 1500  # ms


class Walk:
    """A thumb on its way, and what it met."""

    def __init__(self, phone: Phone, address: str) -> None:
        self.page = page = phone.start()
        open_app(page, address)
        page.wait_for_timeout(2000)
        self.thumb, self.touches, self.screens = Thumb(page), 0, set[str]()

    def route(self) -> str:
        """Which screen is in front."""
        return str(self.page.evaluate("location.hash.slice(1) || '/'"))

    def top(self, found: Locator) -> tuple[float, float, float]:
        """Where to touch, and the height of it."""
        for _ in range(50):  # it may be drawn anew just now
            with suppress(Late):
                box = found.bounding_box(timeout=2000)
                if box is not None:
                    return box["x"] + box["width"] / 2, box["y"], box["height"]
            self.page.wait_for_timeout(100)
        raise SystemExit(f"not there: {found}")

    def bring_in_sight(self, found: Locator) -> None:
        """Scroll until it is between the title and the places."""
        found.wait_for(state="attached", timeout=20_000)
        for _ in range(25):
            _, top, height = self.top(found)
            in_sight = ROOM[0] <= top and top + min(height, 300) <= ROOM[1]
            if in_sight or (top >= ROOM[1] and top + height <= HIGH):  # or one of the places
                return
            self.page.mouse.move(195, 420)
            self.page.mouse.wheel(0, top - ROOM[0] - 200)
            self.page.wait_for_timeout(450)

    def tap(self, found: Locator, arrived: Callable[[], bool]) -> None:
        """Touch it until what is to follow is there: once, if all is well."""
        self.bring_in_sight(found)
        self.page.wait_for_timeout(AIMING)
        here = self.route()
        self.screens.add(here)
        for attempt in range(3):
            x, top, height = self.top(found)
            self.thumb.tap(x, top + min(height, 64) / 2)
            self.touches += 1
            self.page.wait_for_timeout(SETTLED)
            if self.route() == here and abs(self.top(found)[1] - top) > MOVED:
                print(f"moved: {found}")
            for _ in range(60):
                if arrived():
                    return
                self.page.wait_for_timeout(100)
            print(f"touch {attempt + 1} did nothing: {found}")

    def open(self, name: str, at: str) -> None:
        """Touch a button that leads to another screen."""
        button = self.page.get_by_role("button", name=re.compile(name)).first
        self.tap(button, lambda: re.search(at, self.route()) is not None)

    def choose(self, name: str) -> None:
        """Touch an option."""
        option = self.page.get_by_role("radio", name=name, exact=True).first
        self.tap(option, lambda: option.get_attribute("aria-checked") == "true")

    def fill_in(self, *fields: tuple[str, str]) -> None:
        """Touch the first field; Enter leads from one to the next."""
        for number, (name, text) in enumerate(fields):
            field = self.page.get_by_role("textbox", name=name).first
            if number:
                self.page.keyboard.press("Enter")
            else:
                self.tap(field, partial(field.evaluate, IN_HAND))
            self.page.wait_for_timeout(500)
            self.page.keyboard.type(text, delay=20)
            self.page.wait_for_timeout(300)

    def time_a_fill(self) -> None:
        """Two touches of the stopwatch."""
        for pause in (FILL, BOUNCE):
            wait_true(self.page, AIMED)
            self.thumb.press()
            self.touches += 1
            self.page.wait_for_timeout(pause)

    def tell(self, what: str, before: int = 0) -> int:
        """Print how many touches it took."""
        print(f"{what}: {self.touches - before} touches", flush=True)
        return self.touches


def walk(phone: Phone, address: str) -> None:
    """A whole pond, another pump, a reading, and finding it again."""
    go = Walk(phone, address)
    page = go.page
    go.open("^Add a pond$", "^/new$")
    go.fill_in(("Name", "Yard"), ("Length", "3.5"), ("Width", "2.4"), ("Deepest", "0.9"))
    go.choose("With a shelf")
    go.fill_in(
        ("Bog filter", "250"), ("Outlet of the bog", "0.4"), ("Waterfall lip", "40"),
        ("Lip above", "0.6"),
    )  # fmt: skip
    more = page.get_by_role("button", name="Pump and hose").first
    go.tap(more, lambda: more.get_attribute("aria-expanded") == "true")
    go.fill_in(
        ("Largest flow", "12000"), ("Largest head", "4"), ("Power", "85"), ("Hose length", "4"),
        ("Hose, inside", "40"),
    )  # fmt: skip
    go.open("^Save the pond$", "^/pond/[^/]+$")
    done = go.tell(f"a whole pond with bog, fall, hose and pump, on {len(go.screens)} screens")
    go.open("^Plan$", "/build$")
    go.open("^[A-Z][a-z ]+ Pumps", "/pumps$")
    go.open("^Add a pump from its box$", "/pumps/")
    go.fill_in(("Flow", "9000"), ("Head", "3.5"), ("Power", "60"))
    go.open("^Add this pump$", "/pumps$")
    done = go.tell("another pump tried, from the pond", done)
    go.open("^Measure$", "^/measure$")
    go.open("^Bog filter", "/measure/[^/]+/")
    for _ in range(3):
        go.time_a_fill()
    go.open("^Save in the log$", "^/pond/[^/]+$")
    done = go.tell("three fills and saved, six of them on the stopwatch, from any screen", done)
    go.open("^Log$", "/log$")
    go.open("Bog filter: ", "/log/.+")
    done = go.tell("the reading found again, from any screen", done)
    go.open("^Plan$", "/build$")
    go.open("Tune the valves", "/tune$")
    go.open("^1[.] ", "/tune/")
    go.tell("to the valve of a branch, from any screen", done)


def main() -> None:
    """Build, and go."""
    with built() as (folder, host):
        program = compiled.browser()
        if program is None:
            raise SystemExit("no browser found: install chromium")
        profile = Path(tempfile.mkdtemp(dir=folder))
        phone = Phone(Chromium.driver, program, profile)
        try:
            walk(phone, host.address)
        finally:
            phone.kill()


if __name__ == "__main__":
    main()
