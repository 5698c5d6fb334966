"""How long what if and learning take: `python tests/bench/what_if.py [turns]`.

In CPython, in the browser's Python, and on the built site from a press until the new number is in
the page; run it from the project's folder.
"""

import os
import re
import statistics
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "browser"))
sys.path.insert(0, str(Path(__file__).resolve().parent.parent / "answers"))

import in_browser
import moves
from phones import FLAGS, Host, open_app
from playwright.sync_api import Page, sync_playwright
from touch import WATCH, took, wait_for

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.web import bundle, compiled, places, site

TESTS = Path(__file__).resolve().parent.parent
MODULES = (TESTS / "bench" / "moves.py", TESTS / "answers" / "learning_ponds.py")
PROGRAM = '''"""Time the moves and hand the figures to the page."""

import json

import js

import moves

js.postMessage(json.dumps(moves.report({turns})))
'''


def presses(turns: int) -> dict[str, list[float]]:
    """Milliseconds from a press to the number that it changes, on the built site."""
    program = compiled.browser()
    if program is None:
        sys.exit("no browser found: install chromium")
    with tempfile.TemporaryDirectory() as temporary, sync_playwright() as driver:
        folder = Path(temporary) / "site"
        site.write(site.best_files(bundle.app_files(places.PACKAGE), print), folder, compress=False)
        host = Host(folder)
        browser = driver.chromium.launch(executable_path=program, args=list(FLAGS))
        page = browser.new_page(viewport={"width": 390, "height": 844})
        open_app(page, host.address)
        page.wait_for_timeout(5000)  # the code of the other screens is read meanwhile
        page.get_by_role("button", name="Look round an example").first.click()
        page.get_by_role("button", name="What if? Try a change").first.wait_for()
        page.evaluate(f"location.hash = '#/pond/{EXAMPLE}/what-if'")
        page.get_by_role("button", name="More: Water temperature").first.wait_for(state="attached")
        page.evaluate(WATCH)
        turns = min(turns, 15)
        warmer = pressed(page, "More: Water temperature", "{} °C", range(19, 19 + turns))
        page.get_by_role("radio", name=re.compile("bog", re.IGNORECASE)).first.dispatch_event(
            "click"
        )
        page.get_by_role("button", name="Less: Valve").first.wait_for(state="attached")
        valve = page.get_by_text(re.compile("Valve: .*open")).first.inner_text()
        opened = int("".join(sign for sign in valve if sign.isdigit()))
        shares = range(opened - 5, max(5, opened - 5 * turns), -5)
        return {"temperature": warmer, "valve": pressed(page, "Less: Valve", "{} % open", shares)}


def pressed(page: Page, button: str, shows: str, numbers: Iterable[int]) -> list[float]:
    """The times of presses of a button, each of which shows the next of these numbers."""
    control = page.get_by_role("button", name=button).first
    page.wait_for_timeout(2000)
    found = []
    for number in numbers:
        page.wait_for_timeout(500)
        wait_for(page, shows.format(number))
        # At the control itself: it may stand below the window.
        control.evaluate("one => { watched.from = performance.now(); one.click(); }")
        found.append(took(page))
    return found


def main() -> None:
    """Print all three."""
    turns = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    here = moves.report(turns)
    there = in_browser.figures(
        PROGRAM.format(turns=turns),
        {path.name: in_browser.source(path) for path in MODULES},
    )
    load = os.getloadavg()[0]
    print(f"{f'ms, at a load of {load:.1f}':40}{'CPython':>10}{'browser':>10}")
    for name, time in here.items():
        print(f"{name:40}{time:10.2f}{there[name]:10.2f}")
    for what, shown in presses(turns).items():
        for how, of in {"median": statistics.median, "fastest": min, "slowest": max}.items():
            print(f"{f'press to number, {what}, {how}':40}{'':10}{of(shown):10.0f}")


if __name__ == "__main__":
    main()
