"""The four places on the built site, touched as a thumb does: at their pixels."""

import pytest
from phones import (
    Phone,
    Thumb,
    again_until,
    go,
    gone,
    load_again,
    open_app,
    press,
    shows,
    wait_true,
)
from playwright.sync_api import Page, expect

from pondapp.answers.sharing.example import EXAMPLE

PLACES = ("Pond", "Measure", "Log", "Plan")
POND = f"/pond/{EXAMPLE}"


def open_example(phone: Phone, site_address: str) -> Page:
    page = phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    return page


def box_of(page: Page, place: str) -> tuple[float, float, float, float]:
    """Where a place lies: of the screen in front, while another may be on its way out."""
    for _ in again_until(f"{place} is not in sight"):
        found = page.get_by_role("button", name=place, exact=True).or_(
            page.get_by_role("button", name=f"{place}, you are here")
        )
        boxes = [one.bounding_box() for one in found.all()]
        if len(boxes) == 1 and boxes[0]:
            box = boxes[0]
            return box["x"], box["y"], box["width"], box["height"]
        page.wait_for_timeout(50)
    raise AssertionError  # not reached


def tap(page: Page, thumb: Thumb, place: str) -> None:
    """Touch a place once it lies still: a screen that opens slides in."""
    box = box_of(page, place)
    for _ in again_until(f"{place} never lies still"):
        page.wait_for_timeout(400)
        before, box = box, box_of(page, place)
        if before == box:
            break
    x, y, width, height = box
    thumb.tap(x + width / 2, y + height / 2)


def at(page: Page, route: str) -> None:
    wait_true(page, f"(location.hash || '#/') === '#{route}'")


def test_a_thumb_goes_round_the_four_and_back_is_one_step(
    used_phone: Phone, site_address: str
) -> None:
    page = open_example(used_phone, site_address)
    thumb = Thumb(page)
    before = page.evaluate("history.length")
    for place, route in (
        ("Log", f"{POND}/log"), ("Plan", f"{POND}/build"), ("Measure", "/measure"),
        ("Log", f"{POND}/log"), ("Pond", POND), ("Plan", f"{POND}/build"), ("Log", f"{POND}/log"),
    ):  # fmt: skip
        tap(page, thumb, place)
        at(page, route)
        expect(page.get_by_role("button", name=f"{place}, you are here")).to_be_attached()
    assert page.evaluate("history.length") <= before + 1, "going to and fro piles up steps"
    page.go_back()
    wait_true(page, f"location.hash !== '#{POND}/log'")
    assert used_phone.errors == []


@pytest.mark.parametrize(("width", "height"), [(390, 844), (320, 640), (844, 390), (820, 1180)])
def test_the_four_are_in_sight_and_large_enough(
    used_phone: Phone, site_address: str, width: int, height: int
) -> None:
    page = used_phone.page
    page.set_viewport_size({"width": width, "height": height})
    try:
        open_example(used_phone, site_address)
        boxes = [box_of(page, place) for place in PLACES]
        page.evaluate("document.getElementById('bar').hidden = false")  # of a new version
        offer = page.locator("#bar").bounding_box()
    finally:
        page.set_viewport_size({"width": 390, "height": 844})
    for x, y, wide, high in boxes:
        assert min(wide, high) >= 48
        assert x >= 0
        assert y >= 0
        assert x + wide <= width
        assert y + high <= height
    assert all(x < 100 for x, *_ in boxes) == (width > 700), "a rail where it is wide"
    assert offer
    assert offer["y"] > height / 2
    right_of_all = all(x + wide <= offer["x"] for x, _, wide, _ in boxes)
    assert right_of_all or all(y >= offer["y"] + offer["height"] for _, y, _, _ in boxes)


def test_each_use_is_two_touches_from_anywhere(used_phone: Phone, site_address: str) -> None:
    page = open_example(used_phone, site_address)
    thumb = Thumb(page)
    for far in ("/help/tune", f"{POND}/plumbing/line/main", f"{POND}/log/due"):
        go(page, far)
        tap(page, thumb, "Measure")
        press(page, "Bog filter")
        at(page, f"/measure/{EXAMPLE}/bog")
        go(page, far)
        tap(page, thumb, "Plan")
        press(page, "Pumps")
        at(page, f"{POND}/pumps")
    assert used_phone.errors == []


def test_a_step_leads_back_to_the_plan_and_a_deep_link_works(
    used_phone: Phone, site_address: str
) -> None:
    page = open_example(used_phone, site_address)
    go(page, f"{POND}/plumbing")
    load_again(page)
    expect(page.get_by_role("button", name="Plan, you are here")).to_be_attached()
    press(page, "Back")
    at(page, f"{POND}/build")
    shows(page, "of 19 bought")
    press(page, "Back")
    at(page, POND)
    gone(page, "of 19 bought")  # else Back is that of the screen on its way out
    press(page, "Back")
    at(page, "/")
    assert used_phone.errors == []


def test_back_leads_to_where_a_screen_was_left(used_phone: Phone, site_address: str) -> None:
    page = open_example(used_phone, site_address)
    thumb = Thumb(page)
    finger = {"x": 195, "y": 500, "yDistance": -260, "gestureSourceType": "touch"}

    def height_of(name: str) -> float:
        box = page.get_by_role("button", name=name).first.bounding_box()
        assert box
        return box["y"]

    for route, mark in ((f"{POND}/log", "Charts and trends"), (f"{POND}/build", "Shopping list")):
        go(page, route)
        page.wait_for_timeout(1000)
        before = height_of(mark)
        thumb.session.send("Input.synthesizeScrollGesture", finger)
        page.wait_for_timeout(1000)
        left = height_of(mark)
        assert left < before - 50, "it was not scrolled"
        go(page, f"{POND}/fish")
        page.go_back()
        at(page, route)
        gone(page, "Warmest week")
        page.wait_for_timeout(500)
        assert abs(height_of(mark) - left) < 2
    assert used_phone.errors == []


def test_back_skips_the_screens_of_a_pond_that_is_gone(
    used_phone: Phone, site_address: str
) -> None:
    page = open_example(used_phone, site_address)
    go(page, f"{POND}/log")
    go(page, f"{POND}/fish")
    go(page, POND)
    press(page, "Delete this pond")
    at(page, "/")
    shows(page, "Look round an example pond")
    here = page.evaluate("history.length")
    page.go_back()  # over four steps to the first screen, from which the example was opened
    wait_true(page, "history.state?.serialCount === 0")
    at(page, "/")
    gone(page, "This pond is not on this device.")
    shows(page, "Look round an example pond")
    assert page.evaluate("history.length") == here
    press(page, "Undo")
    shows(page, "Alder Corner")
    go(page, POND)
    go(page, f"{POND}/fish")
    page.go_back()  # it is there again
    at(page, POND)
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    assert used_phone.errors == []
