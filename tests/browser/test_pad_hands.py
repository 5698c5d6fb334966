"""The stopwatch of the page under hands that do not press neatly, and on screens that share it."""

from phones import Phone, go, open_app, press, wait_true
from playwright.sync_api import Page, expect
from timed import OUTLET, PAUSE, SHORT, fills, settled, stopwatch_at

HELD_LONG = 2500  # ms
MIDDLE = {"x": 195, "y": 680}


def kinds(page: Page) -> list[str]:
    found: list[str] = page.evaluate("pondappPad.presses.map((one) => one.kind)")
    return found


def test_a_press_that_is_held_is_one_press(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    thumb = stopwatch_at(page, site_address + OUTLET)
    send = thumb.session.send
    send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [MIDDLE]})
    page.wait_for_timeout(HELD_LONG)
    send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.wait_for_timeout(SHORT)
    assert kinds(page) == ["start"]
    page.mouse.move(**MIDDLE)
    page.mouse.down()
    page.wait_for_timeout(HELD_LONG)
    page.mouse.up()
    page.wait_for_timeout(SHORT)
    assert kinds(page) == ["start", "stop"]
    page.wait_for_timeout(HELD_LONG)  # a key long after a touch is no echo of it
    page.focus("#pad-button")
    enter = {"key": "Enter", "code": "Enter", "windowsVirtualKeyCode": 13, "text": "\r"}
    for repeat in range(20):
        send("Input.dispatchKeyEvent", {"type": "keyDown", "autoRepeat": repeat > 0, **enter})
        page.wait_for_timeout(50)
    send("Input.dispatchKeyEvent", {"type": "keyUp", **enter, "text": ""})
    page.wait_for_timeout(SHORT)
    assert kinds(page) == ["start", "stop", "start"]


def test_what_one_screen_of_a_place_hears_is_true_of_its_others(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    wait_true(page, "location.hash === '#/pond/invented-example'")
    one, other = ("/pond/invented-example/measure/bog", "/measure/invented-example/bog")
    for route in (one, other):
        go(page, route)
        wait_true(page, "document.getElementById('pad-do').textContent === 'Start'")
    thumb = stopwatch_at(page, f"{site_address}#{other}")
    thumb.press()
    settled(page)
    page.evaluate(f"location.hash = '#{one}'")
    expect(page.locator("#pad-do")).to_have_text("Stop", timeout=100)
    page.wait_for_timeout(PAUSE)
    thumb.press()
    settled(page)
    page.evaluate(f"location.hash = '#{other}'")
    expect(page.locator("#pad-do")).to_have_text("Start", timeout=100)
    expect(page.locator("#pad-count")).to_have_text("Fill 1 of 3", timeout=100)
    assert len(fills(page, "draft/fills-invented-example-bog-bucket")) == 1
