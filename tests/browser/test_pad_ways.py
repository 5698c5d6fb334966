"""The ways to the stopwatch from the start screen, and those to press it without a finger."""

import time

from kept import kept
from phones import (
    PATIENCE,
    Phone,
    Thumb,
    counted,
    go,
    open_app,
    press,
    wait_true,
)
from playwright.sync_api import Page, expect
from timed import (
    HELD,
    OUTLET,
    PAUSE,
    SHORT,
    fills,
    python_there,
    settled,
)

from pondapp.answers.sharing.example import EXAMPLE


def kinds(page: Page) -> list[str]:
    return [one["kind"] for one in counted(page)]


def test_a_place_of_a_pond_that_is_gone_is_not_offered(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    go(page, f"/measure/{EXAMPLE}/bog")
    wait_true(page, "!document.getElementById('pad').hidden")
    settled(page)
    go(page, "/")
    press(page, "Remove the example pond")
    deadline = time.monotonic() + PATIENCE / 1000
    while f"pond/{EXAMPLE}" in kept(page) and time.monotonic() < deadline:
        page.wait_for_timeout(300)
    page.reload()
    python_there(page)
    page.wait_for_timeout(500)
    page.add_init_script(HELD)
    page.goto("about:blank")
    page.goto(site_address, wait_until="commit")
    expect(page.locator("#start-measure")).to_be_visible()
    page.wait_for_timeout(500)
    expect(page.locator("#start-ways button:not(#start-measure)")).to_have_count(0)


def test_a_click_that_no_finger_made_counts(used_phone: Phone, site_address: str) -> None:
    """What a screen reader does to a button: a click, without a touch before it."""
    page = used_phone.page
    open_app(page, site_address + OUTLET)
    button = page.get_by_role("button", name="Start Tap when water starts to fall in")
    expect(button).to_have_count(1)
    button.evaluate("one => one.click()")
    page.wait_for_timeout(SHORT)
    stop = page.get_by_role("button", name="Stop Tap when the water reaches the mark")
    stop.evaluate("one => one.click()")
    assert kinds(page) == ["start", "stop"]
    settled(page)
    assert len(fills(page)) == 1
    # A finger makes both, a touch and a click: they are one press.
    page.wait_for_timeout(PAUSE)
    thumb = Thumb(page)
    thumb.press()
    page.wait_for_timeout(800)
    assert kinds(page) == ["start", "stop", "start"]
