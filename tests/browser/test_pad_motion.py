"""While a fill runs: the stopwatch fills up, with and without motion; a window may be turned."""

import json
from typing import Any

import pytest
from phones import Phone, counted, wait_true
from playwright.sync_api import Page, expect
from timed import HELD, OUTLET, RUNNING, settled, stopwatch_at

WATER = "document.getElementById('pad-water')"
LEVEL = "document.getElementById('pad-button').dataset.level"


def told(page: Page, **changes: Any) -> None:
    """Have the stopwatch show a state, as the app tells it."""
    state = {
        "route": OUTLET[1:], "pond": "none", "place": "outlet", "method": "bucket",
        "title": "Measure", "wanted": "", "words": {}, "decimal": ".", "fills": [], "asked": 3,
        "since": None, "at": 0, "band": None, "result": None, "outlook": [], "anew": False,
        "branch": "", "aids": {}, "taken": None, **changes,
    }  # fmt: skip
    page.evaluate(f"pondappPad.python.show({json.dumps(state)})")


@pytest.mark.parametrize("motion", ["reduce", "no-preference"])
def test_the_ends_of_the_right_times_are_seen_with_and_without_motion(
    used_phone: Phone, site_address: str, motion: Any
) -> None:
    page = used_phone.page.context.new_page()
    page.add_init_script(HELD)
    page.emulate_media(reduced_motion=motion)
    thumb = stopwatch_at(page, site_address + OUTLET)
    told(
        page,
        band={"fastest": 2, "aim": 3, "slowest": 4},
        outlook=[
            {"upTo": 2, "word": "Too much", "severity": "wrong"},
            {"upTo": 4, "word": "Right", "severity": "right"},
            {"upTo": None, "word": "Too little", "severity": "wrong"},
        ],
    )
    thumb.press()
    wait_true(page, RUNNING)
    moving = page.evaluate(f"{WATER}.getAnimations().length")
    assert moving == (0 if motion == "reduce" else 1)
    heights = []
    for level in ("early", "right", "late"):
        wait_true(page, f"{LEVEL} === '{level}'")
        heights.append(page.evaluate(f"{WATER}.getBoundingClientRect().height"))
    assert heights == sorted(heights)
    assert heights[0] < heights[2]
    thumb.press()
    expect(page.locator("#pad-word")).to_have_text("Too little")
    expect(page.locator("#pad-word")).to_have_class("wrong")
    expect(page.locator("#pad-needle")).to_be_visible()
    assert page.evaluate(f"{WATER}.getAnimations().length") == 0
    page.close()


def test_a_window_that_is_turned_takes_the_button_along(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    thumb = stopwatch_at(page, site_address + OUTLET)
    settled(page)
    try:
        thumb.press()
        wait_true(page, RUNNING)
        page.set_viewport_size({"width": 844, "height": 390})
        page.wait_for_timeout(1000)
        thumb.press()
        wait_true(page, f"!({RUNNING})")
        assert [one["kind"] for one in counted(page)] == ["start", "stop"]
    finally:
        page.set_viewport_size({"width": 390, "height": 844})
    settled(page)
