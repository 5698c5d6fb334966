"""A second touch right after the first, as a finger makes it: at pixels, without the tree of roles.

A busy machine takes a touch late, so those that come too soon bear the time at which they came.
"""

import json
import time

from phones import Name, Phone, open_app, press, wait_true, without_tree
from playwright.sync_api import Page

SOON = 0.1  # seconds after the first touch
REST = 500  # ms


def middle(page: Page, name: Name) -> tuple[float, float]:
    found = page.get_by_role("button", name=name).first
    x, y = found.evaluate("control => hands.middle(control)")
    return float(x), float(y)


def at(page: Page, route: str) -> None:
    """Wait until a screen is drawn, and stays."""
    wait_true(page, f"document.documentElement.dataset.screen === {json.dumps(route)}")
    page.wait_for_timeout(REST)
    assert page.evaluate("document.documentElement.dataset.screen") == route


def test_the_second_of_two_touches_presses_nothing_on_the_screen_that_came(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    first = middle(page, "How this works")
    press(page, "How this works")
    at(page, "/help")
    second = middle(page, "Measure a flow")

    thumb = without_tree(page, site_address)
    touched = time.time()
    thumb.tap(*first)
    at(page, "/help")
    thumb.tap(*second, at=touched + SOON)
    page.wait_for_timeout(REST)
    assert page.evaluate("location.hash") == "#/help"
    thumb.tap(*second)  # one that is meant
    wait_true(page, "location.hash.startsWith('#/help/')")
    assert used_phone.errors == []
