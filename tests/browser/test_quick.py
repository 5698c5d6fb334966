"""Sizing with no pond, the invented example, its shopping list and its rules, on the built site."""

import re

from phones import Phone, open_app, scroll_to
from playwright.sync_api import Page, expect

QUICK = 30_000  # ms; two cores draw in software here


def button(page: Page, name: str) -> None:
    found = page.get_by_role("button", name=name).first
    scroll_to(found)
    found.click(timeout=QUICK)


def type_into(page: Page, name: str, text: str) -> None:
    field = page.get_by_role("textbox", name=name).first
    field.click(timeout=QUICK)
    field.press("ControlOrMeta+a")
    page.keyboard.type(text, delay=30)


def shows(page: Page, text: str) -> None:
    expect(page.get_by_text(re.compile(text)).first).to_be_attached(timeout=QUICK)


def fine(page: Page) -> None:
    expect(page.get_by_text("Something went wrong")).not_to_be_attached()


def test_two_taps_and_three_numbers_to_each_answer(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    button(page, "Size up")
    type_into(page, "The pond holds", "1000")
    type_into(page, "Waterfall lip width", "30")
    shows(page, "2000 L/h or more")
    shows(page, "The wishes conflict")
    button(page, "Show the working: the pump")
    shows(page, "Flow of the pump: 2000 L/h")

    page.get_by_role("radio", name="What does a pump really deliver?").click(timeout=QUICK)
    for name, text in (
        ("Lift", "1.2"), ("Hose, inside", "25"), ("Hose length", "5"),
        ("Largest flow on the label", "4000"), ("Largest head on the label", "2.5"),
    ):  # fmt: skip
        type_into(page, name, text)
    shows(page, "47 % of what the label says")
    shows(page, "Too little: your pond wants 2000 L/h")
    button(page, "Make a pond of it")
    type_into(page, "Name of the pond", "Shop idea")
    button(page, "Save the pond")
    shows(page, "Shop idea")
    shows(page, "The pond holds 1000 L")
    fine(page)


def test_the_example_its_list_and_its_rules_come_and_go(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, site_address)
    button(page, "Look round an example pond")
    shows(page, "Planned: 6150 L/h")

    page.goto(f"{site_address}#/pond/invented-example/shopping")
    shows(page, "Lines without a price: 16")
    tick = page.get_by_role("checkbox", name=re.compile("Middle one"))
    tick.click(timeout=QUICK)
    expect(tick).to_be_checked(timeout=QUICK)
    button(page, "Price: Hose, 25 mm")
    type_into(page, "Price", "2.5")
    button(page, "Save this price")
    shows(page, "147.50")
    button(page, "Undo")
    shows(page, "Lines without a price: 16")

    page.goto(f"{site_address}#/pond/invented-example/rules/materials.bag_mass")
    type_into(page, "Value", "40")
    button(page, "Change the rule")
    shows(page, "Changed by you")
    page.goto(f"{site_address}#/pond/invented-example/shopping")
    shows(page, "in bags of 40 kg")

    page.goto(f"{site_address}#/")
    button(page, "Remove the example pond")
    shows(page, "Look round an example pond")
    button(page, "Undo")
    shows(page, "Remove the example pond")
    fine(page)


def test_an_address_that_leads_nowhere_says_so(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/no/such/place")
    expect(page.get_by_text("There is no such screen").first).to_be_attached(timeout=30_000)
    page.get_by_role("button", name="To the first screen").click(timeout=30_000)
    expect(page.get_by_role("button", name="Measure a flow")).to_be_attached(timeout=30_000)
