"""A log of 10,000 items in 10 ponds beside one of 10 items in one pond, on the built site.

Run from the project's folder: `.venv/bin/python tests/bench/log.py [repetitions]`. Both logs are
put into the storage of a browser profile of their own; visits alternate, medians and their ratio
are printed. Times run in the page, from the touch to the moment when what was asked for can be
read on the screen.
"""

import statistics
import sys
import tempfile
from collections import defaultdict
from datetime import UTC, datetime
from pathlib import Path
from typing import Literal

sys.path.insert(0, str(Path(__file__).parent))
sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

import log_seasons
from phones import FLAGS, Host, wait_started
from playwright.sync_api import BrowserContext, Page, sync_playwright

from pondapp.models.preferences import Draft
from pondapp.models.reading import Fill
from pondapp.web import bundle, compiled, places, site

SIZES = {"10 items": (1, 10), "10,000 items": (10, 10_000)}
LOG = "#/pond/pond0/log"
SETTLED = 3000  # ms; after the first screen the logs are read in the background
READ = """const text = (word) => [...document.querySelectorAll("flt-semantics, flt-semantics *")]
    .some((node) => node.textContent.includes(word)
        || (node.getAttribute("aria-label") || "").includes(word));
const shown = async (word) => {
    const limit = performance.now() + 60000;
    while (!text(word)) {
        if (performance.now() > limit) throw new Error(`never shown: ${word}`);
        await new Promise((done) => setTimeout(done, 4));
    }
};"""
GO = f"""async ([hash, word]) => {{
    {READ}
    const begun = performance.now();
    location.hash = hash;
    await shown(word);
    return performance.now() - begun;
}}"""
PRESS = f"""async (control, word) => {{
    {READ}
    const begun = performance.now();
    control.click();
    await shown(word);
    return performance.now() - begun;
}}"""
SINCE_START = f"""async (word) => {{
    {READ}
    await shown(word);
    return performance.now();
}}"""


def fills() -> tuple[str, str]:
    """Key and text of three fills that wait to be saved."""
    draft = Draft(
        id="fills-pond0-bog-bucket", fills=tuple(Fill(seconds=s) for s in (45.1, 45.3, 44.9))
    )
    return f"draft/{draft.id}", draft.model_dump_json()


def start(page: Page, address: str) -> None:
    """Load the app, with the tree in which texts are found."""
    page.goto("about:blank")
    page.goto(address)
    wait_started(page)


def press(page: Page, role: Literal["button", "radio"], name: str, word: str) -> float:
    """Time from a press to a word on the screen [ms]."""
    time: float = page.get_by_role(role, name=name).first.evaluate(PRESS, word)
    return time


def visit(page: Page, address: str) -> dict[str, float]:
    """One visit, step by step [ms]."""
    found: dict[str, float] = {}
    start(page, address + LOG)
    found["start the app in the log"] = page.evaluate(SINCE_START, "Show: Everything")
    page.evaluate(log_seasons.PUT, [fills()])
    start(page, address)
    page.wait_for_timeout(SETTLED)
    found["open the log"] = page.evaluate(GO, [LOG, "Show: Everything"])
    page.wait_for_timeout(500)
    found["open the charts"] = page.evaluate(GO, [f"{LOG}/charts", "Since the last cleaning"])
    page.wait_for_timeout(500)
    page.evaluate(GO, [LOG, "Show: Everything"])
    press(page, "button", "Show: Everything", "Treatment or dose")
    found["filter the log"] = press(page, "radio", "Water change", "Show: Water change")
    page.wait_for_timeout(500)
    page.evaluate(GO, ["#/measure/pond0/bog", "Save in the log"])
    page.wait_for_timeout(500)
    found["save one reading"] = press(page, "button", "Save in the log", "Saved in the log")
    return found


def main() -> None:
    """Print the table."""
    repetitions = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    times: dict[str, dict[str, list[float]]] = defaultdict(lambda: defaultdict(list))
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name) / "site"
        site.write(site.site_files(bundle.app_files(places.PACKAGE)), folder, compress=False)
        host = Host(folder)
        program = compiled.browser()
        kept: dict[str, tuple[BrowserContext, Page]] = {}
        for label, (ponds, items) in SIZES.items():
            context = playwright.chromium.launch_persistent_context(
                str(Path(name) / f"profile{items}"), executable_path=program,
                args=list(FLAGS), viewport={"width": 390, "height": 844}, headless=True,
            )  # fmt: skip
            page = context.pages[0]
            start(page, host.address)
            pairs = list(log_seasons.texts(ponds, items, datetime.now(UTC)).items())
            page.evaluate(log_seasons.PUT, pairs)
            kept[label] = (context, page)
        for number in range(repetitions + 1):
            for label, (_, page) in kept.items():
                visited = visit(page, host.address)
                if number:  # the first visit fills caches
                    for step, time in visited.items():
                        times[step][label].append(time)
        for context, _ in kept.values():
            context.close()
        host.stop()
    few, many = SIZES
    print(f"{'median of ' + str(repetitions):28}{few:>14}{many:>16}{'ratio':>8}")
    for step, found in times.items():
        one, other = (statistics.median(found[label]) for label in SIZES)
        print(f"{step:28}{one:11.0f} ms{other:13.0f} ms{other / one:8.2f}")


if __name__ == "__main__":
    main()
