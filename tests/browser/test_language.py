"""A German phone is spoken to in German from the first screen on; English is one touch away."""

import re

from phones import Phone, open_app, scroll_to
from playwright.sync_api import Page, expect

QUICK = 30_000  # ms; two cores draw in software here
GERMAN = "Object.defineProperty(Navigator.prototype, 'language', {get: () => 'de-DE'})"


def button(page: Page, name: str) -> None:
    found = page.get_by_role("button", name=name).first
    scroll_to(found)
    found.click(timeout=QUICK)


def shows(page: Page, text: str) -> None:
    expect(page.get_by_text(re.compile(text)).first).to_be_attached(timeout=QUICK)


def test_the_first_start_is_german_and_the_choice_is_kept(phone: Phone, site_address: str) -> None:
    page = phone.start()
    page.add_init_script(GERMAN)
    open_app(page, site_address)
    expect(page.get_by_role("button", name="Durchfluss messen")).to_be_attached(timeout=QUICK)
    expect(page.locator("html")).to_have_attribute("lang", "de", timeout=QUICK)
    button(page, "Größe bestimmen")
    field = page.get_by_role("textbox", name="Der Teich fasst").first
    field.click(timeout=QUICK)
    page.keyboard.type("1234,5", delay=30)
    shows(page, "Eine Pumpe muss fördern")
    shows(page, "1230 L/h oder mehr")
    button(page, "Zurück")  # the client's own word

    button(page, "Einheiten und Sprache")
    page.get_by_role("radio", name="English").click(timeout=QUICK)
    shows(page, "Units and language")
    expect(page.locator("html")).to_have_attribute("lang", "en", timeout=QUICK)
    open_app(page, site_address)
    button(page, "Size up")
    radio = page.get_by_role("radio", name="What must the pump deliver?")
    expect(radio).to_be_attached(timeout=QUICK)
    assert phone.errors == []
