"""No key is lost, however fast it follows the one before and however slow the screen is drawn."""

import re

from phones import (
    Phone,
    choose,
    field_holds,
    open_app,
    open_step,
    press,
    shows,
    type_into,
    unfold,
)
from playwright.sync_api import Page, expect

WORDS = ("abcdefghijklmnopqrstuvwxyz", "zyxwvutsrqponmlkjihgfedcba", "the quick brown heron looks")
DELAYS = (0, 15)  # ms between two keys


def test_every_key_stays(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    field = page.get_by_role("textbox", name="Name of the pond").first
    for delay in DELAYS:
        for text in WORDS * 2:
            field.click()
            page.keyboard.press("ControlOrMeta+a")
            page.keyboard.type(text, delay=delay)
            expect(field).to_have_value(text)
            page.wait_for_timeout(300)  # until what was drawn for the last keys has come
            expect(field).to_have_value(text)


def test_a_field_stays_in_hand_when_an_answer_above_it_goes(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    choose(page, "Rectangle")
    choose(page, "Straight down")
    for name, text in (("Name", "Pool"), ("Length", "4"), ("Width", "3"), ("Deepest", "0.8")):
        type_into(page, name, text)
    shows(page, "The pond holds 9600 L")
    unfold(page, "Pump and hose")
    slowly(page, "Hose length", "12")  # goes: a hose has a diameter too
    type_into(page, "Hose, inside", "32")
    press(page, "Save the pond")
    open_step(page, "Filters, lips, jets")
    press(page, re.compile("^Jet "))  # not the list of jets
    type_into(page, "Flow that its maker prints", "400")
    shows(page, "Jet needs")
    slowly(page, "Hose length", "12")
    slowly(page, "Hose, inside", "0.75 in")
    field_holds(page, "Flow that its maker prints", "400")


def test_enter_goes_from_field_to_field_also_to_one_that_has_just_come(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    choose(page, "Straight down")
    page.get_by_role("textbox", name="Name of the pond").first.focus()
    page.wait_for_timeout(500)
    typed = (
        ("Name of the pond", "Pool"), ("Length", "4"), ("Width", "3"), ("Deepest", "0.8"),
        ("Bog filter", "100"), ("Outlet of the bog", "0.2"), ("Waterfall lip", "30"),
        ("Lip above the water", "0.5"),
    )  # fmt: skip
    for name, text in typed:
        expect(page.get_by_role("textbox", name=name).first).to_be_focused()
        page.keyboard.type(text)
        page.keyboard.press("Enter")
    shows(page, "The pump must give")
    expect(page.get_by_role("button", name="Save the pond")).to_be_focused()
    page.keyboard.press("Enter")
    shows(page, "No readings yet")
    assert used_phone.errors == []


def slowly(page: Page, name: str, text: str) -> None:
    """Type into a field once, so slowly that the screen is drawn for each key."""
    page.get_by_role("textbox", name=name).first.focus()
    page.wait_for_timeout(500)
    page.keyboard.type(text, delay=500)
    field_holds(page, name, text)
