"""Take assets/screenshots/manifest/*.png of the built site, with its example pond.

The system shows them when it asks whether to install the app. Build the site before, and look at
the pictures after.
"""

import re
from pathlib import Path
from threading import Thread

from playwright.sync_api import Page, sync_playwright

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.web import compiled, places, serve

NARROW, WIDE = {"width": 390, "height": 844}, {"width": 1280, "height": 800}
PATIENCE = 180_000  # ms until the first screen
SHOWN = (
    ("pond.png", NARROW, 2, f"/pond/{EXAMPLE}"),
    ("measure.png", NARROW, 2, f"/pond/{EXAMPLE}/measure/bog"),
    ("wide.png", WIDE, 1, f"/pond/{EXAMPLE}"),
)
FLAGS = ("--no-sandbox", "--disable-gpu", "--enable-unsafe-swiftshader")


def begin(page: Page, address: str) -> None:
    """Open the app and take the example in."""
    page.goto(address)
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=PATIENCE)
    page.locator("flt-semantics-placeholder").dispatch_event("click")
    example = page.get_by_role("button", name=re.compile("example pond"))
    example.first.wait_for(state="attached", timeout=PATIENCE)
    example.first.dispatch_event("click")
    page.wait_for_url(f"**{EXAMPLE}**", timeout=PATIENCE)


def take(folder: Path) -> None:
    """Take all of them."""
    bound, address = serve.server(places.SITE)
    Thread(target=bound.serve_forever, daemon=True).start()
    folder.mkdir(parents=True, exist_ok=True)
    with sync_playwright() as driver:
        browser = driver.chromium.launch(executable_path=compiled.browser(), args=list(FLAGS))
        for name, size, scale, route in SHOWN:
            page = browser.new_page(
                viewport=size, device_scale_factor=scale, locale="en-GB", has_touch=True
            )
            begin(page, address)
            page.evaluate(f"location.hash = '#{route}'")
            page.wait_for_timeout(3000)  # what moves comes to rest
            page.screenshot(path=folder / name)
            page.close()
        browser.close()
    bound.shutdown()


if __name__ == "__main__":
    take(places.SCREENSHOTS)
