"""A phone that is turned while somebody types: the field stays in hand, and so does its text."""

import pytest
from phones import (
    PATIENCE,
    Phone,
    Thumb,
    go,
    open_app,
    press,
    shows,
    type_into,
    wait_true,
    without_tree,
)
from playwright.sync_api import Page

from pondapp.answers.sharing.example import EXAMPLE

UPRIGHT, TURNED = (390, 844), (844, 390)
WITH_KEYBOARD = (390, 430)  # what the keyboard of a phone leaves of the window
BAR = 56
FIELDS = (  # the last of a screen that is in sight
    ("/size", "Waterfall lip width"),  # its answer has a column of its own on a phone on its side
    (f"/pond/{EXAMPLE}/log/change", "Water to change"),
    (f"/pond/{EXAMPLE}/fish", "Altitude"),  # in one of two halves
)
IN_HAND = """(() => {
    const field = document.activeElement;
    if (!field.matches("input, textarea")) return null;
    const { top, bottom } = field.getBoundingClientRect();
    return [field.value, field.selectionStart, top, bottom];
})()"""


def turn(page: Page, size: tuple[int, int]) -> None:
    page.set_viewport_size({"width": size[0], "height": size[1]})


def in_hand(page: Page) -> tuple[str, int, float, float]:
    """Text, caret, upper and lower edge of the field in hand."""
    found = page.evaluate(IN_HAND)
    assert found is not None, "no field is in hand"
    return tuple(found)


def field_at(page: Page, route: str, name: str) -> tuple[float, float]:
    """Where a finger touches a field: below its label."""
    go(page, route)
    field = page.get_by_role("textbox", name=name).first
    field.wait_for(state="attached")
    page.wait_for_timeout(500)
    box = field.bounding_box()
    assert box
    return box["x"] + box["width"] - 30, box["y"] + 45


@pytest.mark.parametrize(("route", "name"), FIELDS)
def test_what_is_typed_goes_on_in_the_same_field(
    used_phone: Phone, site_address: str, route: str, name: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    shows(page, "Alder Corner")
    place = field_at(page, route, name)
    thumb = without_tree(page, f"{site_address}#{route}")
    thumb.tap(*place)
    wait_true(page, f"{IN_HAND} !== null")
    page.keyboard.press("ControlOrMeta+a")
    page.keyboard.type("1")
    typed = "1"
    try:
        for key, size in (("2", TURNED), ("3", UPRIGHT), ("4", TURNED)):
            turn(page, size)
            page.wait_for_timeout(2000)  # until Python has laid it out, and the page has scrolled
            text, caret, top, bottom = in_hand(page)
            assert (text, caret) == (typed, len(typed))
            assert BAR <= top < bottom <= size[1] - (0 if size == TURNED else 64), "out of sight"
            page.keyboard.type(key)
            typed += key
            wait_true(page, f"document.activeElement.value === '{typed}'")
    finally:
        turn(page, UPRIGHT)
    thumb.session.detach()
    assert used_phone.errors == []


@pytest.mark.parametrize(("route", "name"), [("/new", "Deepest"), ("/containers", "Name")])
def test_a_keyboard_that_takes_half_of_the_screen_hides_no_field(
    used_phone: Phone, site_address: str, route: str, name: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    x, y = field_at(page, route, name)
    assert y > WITH_KEYBOARD[1], "this field is in sight anyway"
    thumb = without_tree(page, f"{site_address}#{route}")
    thumb.tap(x, y)
    wait_true(page, f"{IN_HAND} !== null")
    try:
        turn(page, WITH_KEYBOARD)
        page.wait_for_timeout(2000)
        _, _, top, bottom = in_hand(page)
        assert BAR <= top < bottom <= WITH_KEYBOARD[1]
        page.keyboard.type("1")
        wait_true(page, "document.activeElement.value === '1'")
        turn(page, UPRIGHT)  # the keyboard goes
        page.wait_for_timeout(2000)
        assert in_hand(page)[0] == "1"
    finally:
        turn(page, UPRIGHT)
    thumb.session.detach()
    assert used_phone.errors == []


def test_with_the_tree_one_touch_takes_the_field_in_hand_again(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    shows(page, "Alder Corner")
    route, name = FIELDS[1]
    go(page, route)
    type_into(page, name, "12")
    thumb = Thumb(page)
    try:
        turn(page, TURNED)
        page.wait_for_timeout(2000)
        box = page.get_by_role("textbox", name=name).first.bounding_box(timeout=PATIENCE)
        assert box
        thumb.tap(box["x"] + box["width"] - 30, box["y"] + 45)
        wait_true(page, f"{IN_HAND} !== null")
        page.wait_for_timeout(700)  # as long as a finger needs to the first key
        assert in_hand(page)[:2] == ("12", 2)
        page.keyboard.type("3")
        page.wait_for_timeout(700)
        assert in_hand(page)[0] == "123"
    finally:
        turn(page, UPRIGHT)
    thumb.session.detach()
    assert used_phone.errors == []
