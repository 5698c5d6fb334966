"""A second touch right after the first, as a finger makes it: at pixels, without the tree of roles.

A busy machine takes a touch late, so those that come too soon bear the time at which they came.
"""

import json
import time

from phones import (
    AIMED,
    Name,
    Phone,
    counted,
    go,
    open_app,
    press,
    shows,
    thumb_place,
    wait_true,
    without_tree,
)
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


def test_the_second_of_two_touches_starts_no_stopwatch_that_came(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    shows(page, "Alder Corner")
    go(page, "/measure")
    first = middle(page, "Bog filter")

    thumb = without_tree(page, f"{site_address}#/measure")
    second = thumb_place(390, 844)
    for _ in range(2):  # nothing is known of it yet; and its last state is kept by the page
        touched = time.time()
        thumb.tap(*first)
        wait_true(page, "!document.getElementById('pad').hidden")
        thumb.tap(*second, at=touched + SOON)
        page.wait_for_timeout(REST)
        assert counted(page) == []
        assert page.evaluate("document.documentElement.dataset.pad") == "ready"
        page.go_back()
        at(page, "/measure")
    thumb.tap(*first)
    wait_true(page, f"!document.getElementById('pad').hidden && {AIMED}")
    thumb.tap(*second)  # one that is meant
    wait_true(page, "pondappPad.presses.length === 1")
    assert used_phone.errors == []
