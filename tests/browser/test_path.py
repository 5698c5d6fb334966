"""The water path on the built site: a conflict made by touch, settled with one, and undone."""

import re

from phones import Phone, open_app, scroll_to
from playwright.sync_api import Page, expect

QUICK = 30_000  # ms; two cores draw in software here


def button(page: Page, name: str | re.Pattern[str]) -> None:
    found = page.get_by_role("button", name=name).first
    scroll_to(found)
    found.click(timeout=QUICK)


def type_into(page: Page, name: str, text: str) -> None:
    field = page.get_by_role("textbox", name=name).first
    field.click(timeout=QUICK)
    field.press("ControlOrMeta+a")
    page.keyboard.type(text)


def shows(page: Page, text: str | re.Pattern[str]) -> None:
    expect(page.get_by_text(text).first).to_be_attached(timeout=QUICK)


def test_a_conflict_is_made_settled_and_undone(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Path hollow")
    type_into(page, "Volume", "1000")
    type_into(page, "Bog filter", "100")
    button(page, "Save the pond")
    shows(page, re.compile("Planned: 1000 L/h in all"))

    button(page, "Filters, lips, jets")
    button(page, "Waterfall lip")
    type_into(page, "Width of the lip", "30")
    shows(page, re.compile("2000 to 8000 L/h"))
    button(page, "Keep it")
    shows(page, re.compile("is saved"))

    pond_id = page.evaluate("location.hash").split("/")[2]
    page.evaluate(f"location.hash = '#/pond/{pond_id}'")
    shows(page, re.compile("Planned: 2400 L/h in all"))
    button(page, re.compile("^Waterfall lip"))  # not the branch to it
    page.get_by_role("radio", name="To Bog filter").click(timeout=QUICK)
    page.evaluate(f"location.hash = '#/pond/{pond_id}'")
    button(page, "See what settles it")
    shows(page, re.compile("wants at least 2000 L/h and Bog filter stands at most 1200 L/h"))
    button(page, "Take way 1")
    shows(page, re.compile("pleases everything"))
    button(page, "Undo the last change")
    shows(page, re.compile("The wishes conflict"))

    page.evaluate(f"location.hash = '#/pond/{pond_id}/path'")
    button(page, re.compile("^To Bog filter"))
    type_into(page, "Name of the branch", "Half a na")
    button(page, "Back to what is saved")
    field = page.get_by_role("textbox", name="Name of the branch")
    expect(field).to_have_value("To Bog filter", timeout=QUICK)
    assert phone.errors == []
