"""In which order a screen of two columns is read aloud: each column as a whole, the left first."""

from itertools import pairwise

import pytest
from phones import Phone, go, open_app, press, shows
from playwright.sync_api import Page

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.ui.shell import theme

TABLET = {"width": 820, "height": 1180}
MIDDLE = (TABLET["width"] + theme.RAIL) / 2
SCREENS = (
    "/size",
    "/settings",
    f"/pond/{EXAMPLE}",
    f"/pond/{EXAMPLE}/log",
    f"/pond/{EXAMPLE}/build",
    f"/pond/{EXAMPLE}/log/change",
    f"/pond/{EXAMPLE}/fish",  # two halves of one column
)
READ = """() => [...document.querySelectorAll("flt-semantics-host *")].filter((one) =>
    one.matches("[aria-label], input, textarea") ||
    [...one.childNodes].some((child) => child.nodeType === 3 && child.data.trim())
).map((one) => {
    const { left, right, top } = one.getBoundingClientRect();
    return [left, right, top, one.getAttribute("aria-label") ?? one.textContent];
})"""


def columns_read(page: Page) -> list[tuple[str, str]]:
    """What is read of the two columns, in order, and in which of them it stands."""
    found = []
    for left, right, top, text in page.evaluate(READ):
        if top < theme.TOUCH_MAIN or left < theme.RAIL or left < MIDDLE - 40 < MIDDLE + 40 < right:
            continue  # title, places, and what is as wide as both
        found.append(("left" if right <= MIDDLE + theme.EDGE else "right", text.strip()))
    return found


@pytest.mark.parametrize("route", SCREENS)
def test_the_first_column_is_read_as_a_whole_and_then_the_second(
    used_phone: Phone, site_address: str, route: str
) -> None:
    page = used_phone.page
    page.set_viewport_size(TABLET)
    try:
        open_app(page, site_address)
        press(page, "Look round an example pond")
        shows(page, "Alder Corner")
        go(page, route)
        page.wait_for_timeout(1000)
        read = columns_read(page)
    finally:
        page.set_viewport_size({"width": 390, "height": 844})
    sides = [side for side, _ in read]
    assert sides.count("left") >= 2, read
    assert sides.count("right") >= 2, read
    changes = sum(a != b for a, b in pairwise(sides))
    assert (sides[0], changes) == ("left", 1), read
