"""Water and fish of a pond on the built site: drawing, volume and answers follow while typing."""

import re

from phones import Phone, open_app, scroll_to
from playwright.sync_api import Page, expect

QUICK = 20_000  # ms; two cores draw in software here


def button(page: Page, name: str) -> None:
    found = page.get_by_role("button", name=name).first
    scroll_to(found)
    found.click(timeout=QUICK)


def tap(page: Page, name: str) -> None:
    page.get_by_role("radio", name=name).first.click(timeout=QUICK)


def type_into(page: Page, name: str, text: str) -> None:
    field = page.get_by_role("textbox", name=name).first
    # Near its top: a long sentence on what is wrong covers the middle.
    field.click(timeout=QUICK, position={"x": 20, "y": 20})
    field.press("ControlOrMeta+a")
    page.keyboard.type(text, delay=80)


def shows(page: Page, text: str) -> None:
    expect(page.get_by_text(re.compile(text)).first).to_be_attached(timeout=QUICK)


def label(page: Page, text: str) -> None:
    """Something drawn, told in words."""
    found = page.locator(f'[aria-label*="{text}"]').or_(page.get_by_text(text)).first
    expect(found).to_be_attached(timeout=QUICK)


def add_pond(page: Page) -> None:
    button(page, "Add a pond")
    type_into(page, "Name of the pond", "Test hollow")
    type_into(page, "Volume", "1000")
    type_into(page, "Bog filter", "100")
    button(page, "Save the pond")


def test_draw_up_a_pond_measure_it_and_take_it_back(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    add_pond(page)
    button(page, "Water: shape and volume")
    tap(page, "Draw it up")
    type_into(page, "Length", "4")
    type_into(page, "Width", "3")
    type_into(page, "Depth", "wet")
    shows(page, "Correct what is marked, and the drawing is back")
    type_into(page, "Depth", "1")
    shows(page, "12000 L")
    label(page, "From above: 4 m long, 3 m wide. Cut through: 1 m deep.")

    button(page, "Add a shelf")
    type_into(page, "Below water", "50")
    type_into(page, "Reaches in", "50")
    shows(page, "9000 L")  # half a metre of 4 by 3 on half a metre of 3 by 2
    label(page, "Shelves below the water line: 50 cm.")

    tap(page, "Hose and clock")
    type_into(page, "Hose at the start", "1000")
    type_into(page, "Filling time", "8")
    shows(page, "Measured, so it counts before the drawing, which gives 9000 L")
    button(page, "Save the water")
    shows(page, "The pond holds 8000 L")
    page.get_by_role("button", name="Undo").first.click(timeout=QUICK)  # it slides in
    shows(page, "The pond holds 1000 L")
    assert phone.errors == []


def test_too_many_fish_are_said_with_what_settles_it(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    add_pond(page)
    button(page, "Fish, feed and oxygen")
    button(page, "Add fish")
    type_into(page, "Kind", "Koi")
    type_into(page, "How many", "2.5")
    shows(page, "Write a whole number")
    type_into(page, "How many", "40")
    type_into(page, "Length", "15")
    type_into(page, "Grown", "60")
    tap(page, "Once they are grown")
    shows(page, "Filter and oxygen are too little for these fish")
    shows(page, "draw the pond's shape")  # what is not known is named
    shows(page, "of media .* settles the filter")
    shows(page, "Find a home for")
    button(page, "Save the fish")
    button(page, "Fish, feed and oxygen")
    shows(page, "Filter and oxygen|The filter|At night|go together")  # as kept, not empty
    assert phone.errors == []
