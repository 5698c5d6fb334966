"""A phone is spoken to in its language from the first screen on; another is one touch away."""

import re

from phones import Phone, choose, open_app, press, shows, type_into
from playwright.sync_api import expect

SPEAKS = "Object.defineProperty(Navigator.prototype, 'language', {get: () => '%s'})"


def test_the_first_start_is_german_and_the_choice_is_kept(phone: Phone, site_address: str) -> None:
    page = phone.start()
    page.add_init_script(SPEAKS % "de-DE")
    open_app(page, site_address)
    expect(page.get_by_role("button", name="Durchfluss messen")).to_be_attached()
    expect(page.locator("html")).to_have_attribute("lang", "de")
    press(page, "Pumpe aussuchen")
    type_into(page, "Der Teich fasst", "1234,5")
    shows(page, "Das muss auf dem Karton stehen")
    shows(page, "Für 1230 L/h oben")
    press(page, "Zurück")  # the client's own word

    press(page, "Einstellungen: Einheiten, Sprache, Stoppuhr")
    choose(page, "English")
    shows(page, "Settings")
    expect(page.locator("html")).to_have_attribute("lang", "en")
    open_app(page, site_address)
    press(page, "Choose a pump")
    radio = page.get_by_role("radio", name="What must the pump deliver?")
    expect(radio).to_be_attached()
    assert phone.errors == []


def test_polish_is_chosen_in_the_settings_and_the_pond_is_told_in_it(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    open_app(page, site_address)
    press(page, "Settings: units, language, stopwatch")
    choose(page, "Polski")
    shows(page, "Ustawienia")
    shows(page, "nie sprawdził jeszcze nikt, dla kogo jest on ojczysty")
    expect(page.locator("html")).to_have_attribute("lang", "pl")
    press(page, "Wstecz")  # the client's own word
    press(page, "Rozejrzyj się po przykładowym oczku")
    expect(page.get_by_role("heading", name="Olszowy Kąt")).to_be_attached()
    for place in ("Zmierz", "Dziennik", "Plan"):
        expect(page.get_by_role("button", name=place, exact=True)).to_be_attached()
    assert phone.errors == []


def test_the_first_start_of_an_american_phone_is_in_gallons_and_stays_so(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    page.add_init_script(SPEAKS % "en-US")
    open_app(page, f"{site_address}#/size")
    type_into(page, "The pond holds", "500")
    shows(page, re.compile("For 500 gal/h up there"))
    phone.kill()
    page = phone.start()  # set to another region by now
    open_app(page, f"{site_address}#/size")
    shows(page, re.compile("For 500 gal/h up there"))
    assert phone.errors == []
