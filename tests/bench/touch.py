"""How soon a touch on the stopwatch and a key in a field show, on the built site.

Run from the project's folder: `.venv/bin/python tests/bench/touch.py [touches]`. Times run in the
page, from the browser's own time of the press until the change is drawn. Python is kept busy by
telling it, thirty times a second, that another tab changed the preferences: it then reads them
anew and draws the whole screen.
"""

import statistics
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent.parent / "browser"))

from phones import FLAGS, Host, open_app
from playwright.sync_api import Page, sync_playwright

from pondapp.web import bundle, compiled, places, site

# Notes when a press or key came, and when the text waited for was first there.
WATCH = """() => {
  const says = (word) => [...document.querySelectorAll("flt-semantics, flt-semantics *")].some(
    (node) => node.textContent.includes(word)
      || (node.getAttribute("aria-label") || "").includes(word));
  window.watched = { word: null, from: null, shown: null };
  const note = (event) => { watched.from = event.timeStamp; };
  addEventListener("pointerdown", note, true);
  addEventListener("keydown", note, true);
  new MutationObserver(() => {
    if (watched.word && watched.from && !watched.shown && says(watched.word)) {
      watched.shown = performance.now();
    }
  }).observe(document.body,
    { subtree: true, childList: true, characterData: true, attributes: true });
}"""
# Notes how long after a press the stopwatch had changed and was drawn.
WATCH_PAD = """() => {
  window.painted = [];
  let from = null;
  addEventListener("pointerdown", (event) => { from = event.timeStamp; }, true);
  const drawn = new MessageChannel();
  drawn.port1.onmessage = ({ data }) => painted.push(performance.now() - data);
  new MutationObserver(() => {
    if (from === null) return;
    const begun = from;
    from = null;
    requestAnimationFrame(() => drawn.port2.postMessage(begun));
  }).observe(document.documentElement, { attributes: true, attributeFilter: ["data-pad"] });
}"""
BUSY = """() => {
  const channel = new BroadcastChannel(pondappName("changes"));
  window.busy = setInterval(() => channel.postMessage("preferences/preferences"), 33);
}"""


def wait_for(page: Page, word: str) -> None:
    """Begin to look for a word."""
    page.evaluate("word => { Object.assign(watched, { word, from: null, shown: null }) }", word)


def took(page: Page) -> float:
    """Milliseconds from the press to the word."""
    for _ in range(500):
        found = page.evaluate("watched.shown && watched.shown - watched.from")
        if found:
            return float(found)
        page.wait_for_timeout(20)
    sys.exit("the screen never changed")


def touches(page: Page, count: int) -> list[float]:
    """Start and stop the stopwatch so many times."""
    for number in range(count):
        page.wait_for_timeout(1200)  # a press sooner after the last is taken for a bounce
        page.locator("#pad-button").click()
        for _ in range(500):
            if page.evaluate("painted.length") > number:
                break
            page.wait_for_timeout(20)
        else:
            sys.exit("the stopwatch never changed")
    return [float(one) for one in page.evaluate("painted.splice(0)")]


def keys(page: Page) -> list[float]:
    """Type volumes of a pond and wait for what its bog then wants."""
    field = page.get_by_role("textbox", name="The pond holds").first
    found = []
    for number in range(10):
        field.click()
        field.press("ControlOrMeta+a")
        page.keyboard.type(f"{number + 1}00")
        page.wait_for_timeout(1000)
        # A tenth of the pond's volume in a bog takes 4 to 12 times as much an hour.
        wait_for(page, f"{(number + 1) * 400} to")
        page.keyboard.type("0")
        found.append(took(page))
    return found


def tell(what: str, found: list[float]) -> None:
    """Print median and 95th percentile."""
    found = sorted(found)
    late = found[min(len(found) - 1, round(0.95 * len(found)))]
    print(f"{what:44}{statistics.median(found):8.0f}{late:8.0f}")


def main() -> None:
    """Build, open, touch and type."""
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 40
    program = compiled.browser()
    if program is None:
        sys.exit("no browser found: install chromium")
    with tempfile.TemporaryDirectory() as temporary, sync_playwright() as driver:
        folder = Path(temporary) / "site"
        files = site.best_files(bundle.app_files(places.PACKAGE), print)
        site.write(files, folder, compress=False)
        host = Host(folder)
        browser = driver.chromium.launch(executable_path=program, args=list(FLAGS))
        page = browser.new_page(viewport={"width": 390, "height": 844})
        open_app(page, host.address)
        page.wait_for_timeout(5000)  # the code of the other screens is read meanwhile
        page.evaluate(WATCH)
        print(f"{'ms':44}{'median':>8}{'95 %':>8}")
        page.get_by_role("button", name="Choose a pump").first.click()
        tell("key in a field to new result", keys(page))
        page.go_back()
        page.get_by_role("button", name="Measure a flow").first.click()
        page.locator("#pad-button").wait_for()
        page.evaluate(WATCH_PAD)
        tell("touch on the stopwatch to its change", touches(page, count))
        page.evaluate(BUSY)
        tell("the same while Python is busy", touches(page, count))
        browser.close()
        host.stop()


if __name__ == "__main__":
    main()
