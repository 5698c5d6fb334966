"""Sizing with no pond, the invented example, its shopping list and its rules, on the built site."""

import re

from phones import Phone, choose, go, open_app, press, shows, type_into
from playwright.sync_api import Page, expect

from pondapp import units, words
from pondapp.answers.pumps.shop import box_numbers, way


def box_for(lph: float) -> str:
    """The flow to look for on a box at 1.5 m of lift, with the hose that suits a good flow."""
    here = way(1.5, None, None, True, 4000 / 3.6e6, "metric")
    flow = box_numbers(here, lph / 3.6e6, "metric").label_flow
    return words.ungrouped(units.show(flow, "flow", "metric"))


def fine(page: Page) -> None:
    expect(page.get_by_text("Something went wrong")).not_to_be_attached()


def test_two_taps_and_three_numbers_to_each_answer(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Choose a pump")
    type_into(page, "The pond holds", "1000")
    type_into(page, "Waterfall lip width", "30")
    shows(page, "Assuming 1 m of lift: choose yours above.")
    choose(page, "1.5 m")
    good, least = (box_for(flow) for flow in (4000, 2000))
    shows(page, f"{good} and 4.5 m, or more")
    shows(page, f"{least} and 4 m, or more")
    shows(page, "This can't all work")
    press(page, "Show the working: the least flow")
    shows(page, "Flow of the pump: 2000 L/h")

    choose(page, "What does a pump really deliver?")
    for name, text in (
        ("Hose, inside", "25"), ("Hose length", "5"),
        ("Largest flow on the label", "4000"), ("Largest head on the label", "2.5"),
    ):  # fmt: skip
        type_into(page, name, text)
    shows(page, "Good flow, 4000 L/h: too weak")
    shows(page, "Least that will do, 2000 L/h: too weak")
    press(page, "Save as a pond")
    type_into(page, "Name of the pond", "Shop idea")
    press(page, "Save the pond")
    shows(page, "Shop idea")
    shows(page, "The pond holds 1000 L")
    fine(page)


def test_the_example_its_list_and_its_rules_come_and_go(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    press(page, re.compile("what is right", re.IGNORECASE))
    shows(page, "6330 L/h is enough for everything")

    go(page, "/pond/invented-example/shopping")
    shows(page, "Lines without a price: 18")
    press(page, "Mid-size pump", "checkbox")
    expect(page.get_by_role("checkbox", name="Mid-size pump")).to_be_checked()
    press(page, "Price: Hose, 25 mm")
    type_into(page, "Price", "2.5")
    press(page, "Save this price")
    shows(page, "147.50")
    press(page, "Undo")
    shows(page, "Lines without a price: 18")

    go(page, "/pond/invented-example/rules/materials.bag_mass")
    type_into(page, "Value", "40")
    press(page, "Change the rule")
    shows(page, "Changed by you")
    go(page, "/pond/invented-example/shopping")
    shows(page, "in bags of 40 kg")

    go(page, "/")
    press(page, "Remove the example pond")
    shows(page, "Look round an example pond")
    press(page, "Undo")
    shows(page, "Remove the example pond")
    fine(page)


def test_an_address_that_leads_nowhere_says_so(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/no/such/place")
    shows(page, "There is no such screen")
    press(page, "To the first screen")
    expect(page.get_by_role("button", name="Measure a flow")).to_be_attached()
