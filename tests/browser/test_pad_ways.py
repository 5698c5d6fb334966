"""The ways to the stopwatch from the start screen, and those to press it without a finger."""

import json
import time

import pytest
from kept import kept
from phones import (
    MORE,
    PATIENCE,
    Phone,
    Thumb,
    counted,
    go,
    open_app,
    press,
    shows,
    type_into,
    wait_started,
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
    stopwatch_at,
    wait_kept,
)

from pondapp.answers.sharing.example import EXAMPLE, example_pond

PLACES = "#start-ways button:not(#start-measure)"


def middle_of(page: Page, selector: str) -> tuple[float, float]:
    box = page.locator(selector).first.bounding_box()
    assert box
    return box["x"] + box["width"] / 2, box["y"] + box["height"] / 2


def kinds(page: Page) -> list[str]:
    return [one["kind"] for one in counted(page)]


def test_from_the_first_screen_to_the_stopwatch_before_python(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    page.add_init_script(HELD)
    page.goto(site_address, wait_until="commit")
    way = page.locator("#start-measure")
    expect(way).to_be_visible()
    box = way.bounding_box()
    assert box
    assert box["height"] >= 64
    expect(page.locator("#pad")).to_be_hidden()
    Thumb(page).tap(*middle_of(page, "#start-measure"))
    expect(page.locator("#pad-button")).to_be_visible()
    expect(way).to_be_hidden()
    thumb = Thumb(page)
    thumb.press()
    page.wait_for_timeout(SHORT)
    thumb.press()
    first, second = wait_kept(page, 2)
    page.evaluate("letPythonIn()")
    wait_started(page)
    expect(page.get_by_role("heading", name="Measure")).to_be_attached()
    settled(page)
    assert fills(page) == pytest.approx([(second["t"] - first["t"]) / 1000], abs=0.005)
    page.go_back()
    expect(page.get_by_role("button", name="Measure a flow").last).to_be_attached()
    wait_true(page, "document.getElementById('pad').hidden")
    assert phone.errors == []


def test_a_touch_before_any_program_is_there_leads_to_the_stopwatch(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page.context.new_page()
    page.set_viewport_size({"width": 390, "height": 844})
    page.add_init_script(
        "new MutationObserver(() => document.querySelectorAll('script[src]')"
        ".forEach((one) => one.remove())).observe(document, { childList: true, subtree: true })"
    )
    page.goto("about:blank")
    page.goto(site_address, wait_until="commit")
    way = page.locator("#start-measure")
    expect(way).to_be_visible()
    assert page.evaluate("window.pondappPad === undefined")
    Thumb(page).tap(*middle_of(page, "#start-measure"))
    wait_true(page, f"location.hash === {json.dumps(OUTLET)}")
    page.close()


def test_the_first_screen_offers_the_places_that_were_measured(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    open_app(page, site_address)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    for place in ("lip", "bog"):
        go(page, "/")
        go(page, f"/measure/{EXAMPLE}/{place}")
        wait_true(
            page, f"!document.getElementById('pad').hidden && location.hash.endsWith('{place}')"
        )
        thumb = Thumb(page)
        thumb.press()
        page.wait_for_timeout(SHORT)
        thumb.press()
        page.wait_for_timeout(PAUSE)
        settled(page)
    page.add_init_script(HELD)
    page.goto("about:blank")
    page.goto(site_address, wait_until="commit")
    offered = page.locator(PLACES)
    expect(offered).to_have_count(2)
    names = offered.all_inner_texts()
    Thumb(page).tap(*middle_of(page, PLACES))
    expect(page.locator("#pad-button")).to_be_visible()
    assert page.url.endswith(f"/measure/{EXAMPLE}/bog")  # the place that was measured last
    expect(page.locator("#start-title")).to_have_text(names[0])
    expect(page.locator("#start-wanted")).not_to_be_empty()
    expect(page.locator("#pad-bar")).to_have_class("")
    thumb = Thumb(page)
    thumb.press()
    page.wait_for_timeout(SHORT)
    thumb.press()
    wait_kept(page, 2)
    page.evaluate("letPythonIn()")
    settled(page)
    assert len(fills(page, f"draft/fills-{EXAMPLE}-bog-bucket")) == 2
    page.go_back()
    wait_true(page, "document.getElementById('pad').hidden")
    assert phone.errors == []


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
    expect(page.locator(PLACES)).to_have_count(0)


def key(page: Page, name: str) -> None:
    session = page.context.new_cdp_session(page)
    for kind in ("keyDown", "keyUp"):
        session.send("Input.dispatchKeyEvent", {"type": kind, "key": name})
    session.detach()


def press_by_keys(page: Page, first: str, second: str) -> None:
    key(page, first)
    page.wait_for_timeout(SHORT)
    key(page, second)
    page.wait_for_timeout(PAUSE)


def test_keys_press_the_stopwatch_where_that_is_chosen(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address + OUTLET)
    settled(page)
    press_by_keys(page, "AudioVolumeUp", "AudioVolumeUp")
    press_by_keys(page, " ", "Enter")
    assert kinds(page) == []  # it was not chosen

    go(page, "/settings")
    page.get_by_role("switch", name="Keys start and stop").evaluate("one => hands.click(one)")
    wait_true(page, "hands.sent.length > 0")
    page.wait_for_timeout(500)
    stopwatch_at(page, site_address + OUTLET)  # without the tree: as a remote shutter meets it
    settled(page)
    for first, second in (("AudioVolumeUp", "AudioVolumeDown"), ("Enter", " ")):
        before = len(counted(page))
        press_by_keys(page, first, second)
        assert kinds(page)[before:] == ["start", "stop"], first
    settled(page)
    assert len(fills(page)) == 2

    wait_started(page)
    press(page, MORE)
    press(page, "Weighed bucket", "radio")  # which has a field beside the stopwatch
    type_into(page, "Container, empty", "0.4")
    page.keyboard.press("Space")
    page.wait_for_timeout(SHORT)
    page.keyboard.press("Enter")
    page.wait_for_timeout(500)
    assert len(counted(page)) == 4, "a key that was typed is no press"
    assert used_phone.errors == []


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


@pytest.mark.parametrize(
    ("device", "title", "start", "stop", "count"),
    [
        (
            "de-AT", "Messen", "Tippe, wenn Wasser hineinzulaufen beginnt", "Stopp",
            "Füllung 1 von 3",
        ),
        ("pl-PL", "Zmierz", "Dotknij, gdy woda zacznie wpadać", "Stop", "Napełnienie 1 z 3"),
    ],
)  # fmt: skip
def test_the_stopwatch_speaks_as_the_device_does(
    used_phone: Phone, site_address: str, device: str, title: str, start: str, stop: str, count: str
) -> None:
    page = used_phone.page.context.new_page()
    for name, value in (("language", f"'{device}'"), ("languages", f"['{device}']")):
        page.add_init_script(
            f"Object.defineProperty(navigator, '{name}', {{ value: {value}, configurable: true }});"
        )
    page.add_init_script(HELD)
    thumb = stopwatch_at(page, site_address + OUTLET)
    expect(page.locator("#start-title")).to_have_text(title)
    expect(page.locator("#pad-when")).to_have_text(start)
    thumb.press()
    expect(page.locator("#pad-do")).to_have_text(stop)
    page.wait_for_timeout(SHORT)
    page.evaluate("document.documentElement.lang = 'en-US'")  # as the client does for a while
    thumb.press()
    expect(page.locator("#pad-count")).to_have_text(count)
    expect(page.locator("#pad")).to_have_attribute("lang", device[:2])
    number = page.locator("#pad-number").inner_text()
    assert "," in number
    page.evaluate("letPythonIn()")
    settled(page)
    wait_true(page, "document.getElementById('pad-detail').textContent !== ''")
    assert "L/h" in page.locator("#pad-number").inner_text()
    page.close()


def test_a_link_to_a_place_that_nobody_knows_has_no_stopwatch_before_python(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    page.goto("about:blank")
    page.goto(f"{site_address}#/measure/nobody/knows", wait_until="commit")
    wait_true(page, "window.pondappPad !== undefined")
    assert page.locator("#pad").is_hidden()
    wait_started(page)


def test_the_state_of_the_example_is_what_the_page_reads(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    pond = example_pond()
    open_app(page, site_address)
    kept(page, {f"pond/{pond.id}": pond.model_dump_json()})
    page.goto("about:blank")
    page.goto(f"{site_address}#/measure/{pond.id}/bog")
    wait_started(page)
    wait_true(page, "!document.getElementById('pad').hidden")
    shows(page, "Aim for")
    state = page.evaluate(
        """() => new Promise((done) => {
          indexedDB.open(pondappName("pad")).onsuccess = ({ target }) => {
            const asked = target.result.transaction("places").objectStore("places").getAll();
            asked.onsuccess = () => { target.result.close(); done(asked.result); };
          };
        })"""
    )
    (one,) = state
    assert json.loads(json.dumps(one))["place"] == "bog"
    assert one["band"]["fastest"] < one["band"]["aim"] < one["band"]["slowest"]
