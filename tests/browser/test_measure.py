"""Measuring on the built site: every method, the stopwatch's own truth, and a kill in mid-fill."""

import re
from statistics import quantiles

from phones import Phone, open_app, scroll_to
from playwright.sync_api import Locator, Page, expect

QUICK = 30_000  # ms; two cores draw in software here
FILLS = 12
SPY = """
window.presses = []; window.lit = []; window.buzzes = 0;
addEventListener("pointerdown", (e) => window.presses.push(
  (performance.timeOrigin + e.timeStamp) / 1000), true);
navigator.vibrate = () => { window.buzzes += 1; return true; };
Object.defineProperty(navigator, "wakeLock", { value: { request: async () => {
  window.lit.push("on");
  return { released: false, addEventListener() {}, removeEventListener() {},
    async release() { window.lit.push("off"); } };
} } });
"""


def button(page: Page, name: str | re.Pattern[str]) -> Locator:
    return page.get_by_role("button", name=name).first


def press(page: Page, name: str | re.Pattern[str]) -> None:
    found = button(page, name)
    scroll_to(found)
    found.click(timeout=QUICK)


def type_into(page: Page, name: str, text: str) -> None:
    field = page.get_by_role("textbox", name=name).first
    scroll_to(field)
    field.click(timeout=QUICK)
    field.press("ControlOrMeta+a")
    page.keyboard.type(text)


def shows(page: Page, text: str) -> None:
    expect(page.get_by_text(re.compile(text)).first).to_be_attached(timeout=QUICK)


def time_a_fill(page: Page, number: int, wait: int = 600) -> None:
    page.wait_for_timeout(450)  # sooner after a stop, a press is taken for a bounce
    press(page, "Start")
    expect(button(page, "Stop")).to_be_attached(timeout=QUICK)
    page.wait_for_timeout(wait)
    press(page, "Stop")
    expect(button(page, f"Strike fill {number}")).to_be_attached(timeout=QUICK)


def choose(page: Page, method: str) -> None:
    press(page, re.compile("^(Other ways to measure|Measure another way)"))
    way = page.get_by_role("radio", name=method).first
    scroll_to(way)
    way.click(timeout=QUICK)
    shows(page, f"^{method}$")


def fold(page: Page) -> None:
    """Unfold or fold without the mouse: a note at the bottom of the screen may lie over it."""
    button(page, "Typed time").evaluate("control => control.click()")


def type_time(page: Page, seconds: str) -> None:
    fold(page)
    type_into(page, "Or type a fill time", seconds)
    press(page, "Add this time")
    fold(page)  # away again


def save(page: Page) -> None:
    press(page, "Save in the log")
    shows(page, "Measured without a pond")
    press(page, "Just measure, no pond")
    # The note with its undo lies over the lowest fields for a while.
    expect(page.get_by_text("Saved in the log")).to_have_count(0, timeout=QUICK)


def test_every_method_gives_a_flow_and_two_are_held_against_each_other(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/measure/none/outlet")

    choose(page, "Flow meter")
    type_into(page, "The meter shows", "600")
    shows(page, "570 to 630|566 to 634")
    press(page, "How sure is this")
    shows(page, "Mostly the meter")
    save(page)

    choose(page, "Weighed bucket")
    type_into(page, "Container, empty", "0.4")
    type_time(page, "54")
    type_into(page, "Weight of fill 1", "9.4")
    shows(page, "Flow meter, at this place")
    shows(page, "They agree, so they count together")
    shows(page, "Both together")

    choose(page, "Falling level")
    for name, amount in (("Length", "200"), ("Width", "100"), ("From mark to mark", "50")):
        type_into(page, name, amount)
    type_time(page, "1200")
    shows(page, "300 L/h")
    shows(page, "They differ")

    choose(page, "Filling a box or bog")
    page.get_by_role("radio", name="I know it").click(timeout=QUICK)
    page.get_by_role("radio", name="Yes").click(timeout=QUICK)
    type_into(page, "Space between the marks", "250")
    type_time(page, "600")
    shows(page, "600 L/h")  # 40 % of 250 L in ten minutes

    choose(page, "Ruler over a lip")
    type_into(page, "Depth over the lip", "12")
    type_into(page, "Width that carries water", "30")
    shows(page, "L/h .95 % interval")
    press(page, "Check this waterfall")
    shows(page, "Thickness at the edge")
    type_into(page, "Flow over it", "1000")
    shows(page, "Too thin: 1000 L/h more closes the sheet, 3000 L/h more makes it full")
    assert phone.errors == []


def test_the_stopwatch_tells_the_time_between_the_touches(phone: Phone, site_address: str) -> None:
    """95 of 100 times within 30 ms of the browser's own event times."""
    page = phone.start()
    page.add_init_script(SPY)
    open_app(page, f"{site_address}#/measure/none/outlet")
    expect(button(page, "Start")).to_be_attached(timeout=QUICK)
    page.evaluate("window.presses.length = 0")
    for number in range(1, FILLS + 1):
        time_a_fill(page, number, 500)
    texts = page.get_by_role("button", name="Strike fill").all_inner_texts()
    names = [
        element.get_attribute("aria-label") or text
        for element, text in zip(
            page.get_by_role("button", name="Strike fill").all(), texts, strict=True
        )
    ]
    shown = [float(re.findall(r"[\d.]+(?= s)", name)[0]) for name in names]
    presses = page.evaluate("window.presses")
    assert len(presses) == 2 * FILLS
    true = [presses[2 * i + 1] - presses[2 * i] for i in range(FILLS)]
    off = [abs(a - b) for a, b in zip(shown, true, strict=True)]
    assert quantiles(off, n=20)[-1] < 0.030, off
    lit = page.evaluate("window.lit")
    assert {"on", "off"} <= set(lit)  # the screen was kept on, and let go dark again
    assert page.evaluate("window.buzzes") == 2 * FILLS


def test_a_kill_in_mid_fill_loses_nothing(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/measure/none/outlet")
    time_a_fill(page, 1)
    page.wait_for_timeout(450)
    press(page, "Start")
    expect(button(page, "Stop")).to_be_attached(timeout=QUICK)
    page.wait_for_timeout(500)
    phone.kill()

    page = phone.start()
    open_app(page, f"{site_address}#/measure/none/outlet")
    expect(button(page, "Strike fill 1")).to_be_attached(timeout=QUICK)  # what was finished
    expect(button(page, "Stop")).to_be_attached(timeout=QUICK)  # what was running still runs
    page.reload()
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=90_000)
    page.locator("flt-semantics-placeholder").dispatch_event("click")
    press(page, "Stop")
    expect(button(page, "Strike fill 2")).to_be_attached(timeout=QUICK)
    time_a_fill(page, 3)
    press(page, "Strike fill 2")
    expect(button(page, "Take fill 2 back")).to_be_attached(timeout=QUICK)
