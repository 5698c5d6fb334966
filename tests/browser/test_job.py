"""The main job on the built site: a pond, three fills, a verdict, a log; then again offline."""

import re

from phones import Host, Phone, open_app, scroll_to, see, wait_offline
from playwright.sync_api import Page, expect

QUICK = 20_000  # ms; two cores draw in software here


def button(page: Page, name: str) -> None:
    page.get_by_role("button", name=name).first.click(timeout=QUICK)


def type_into(page: Page, name: str, text: str) -> None:
    field = page.get_by_role("textbox", name=name).first
    field.click(timeout=QUICK)
    field.press("ControlOrMeta+a")
    page.keyboard.type(text)


def shows(page: Page, text: str | re.Pattern[str]) -> None:
    expect(page.get_by_text(text).first).to_be_attached(timeout=QUICK)


def add_pond(page: Page) -> None:
    button(page, "Add a pond")
    type_into(page, "Name of the pond", "Test hollow")
    type_into(page, "Volume", "1000")
    type_into(page, "Bog filter", "100")
    shows(page, re.compile("400 to 1200 L/h"))
    save = page.get_by_role("button", name="Save the pond")
    scroll_to(save)
    save.click(timeout=QUICK)
    shows(page, re.compile("No readings yet"))


def test_measure_save_kill_and_find_again_offline(
    phone: Phone, site_address: str, site_host: Host
) -> None:
    page = phone.start()
    open_app(page, site_address)
    wait_offline(page)
    add_pond(page)

    button(page, "Measure at Bog filter")
    for count in (1, 2, 3):
        page.wait_for_timeout(500)  # sooner after a stop, a press is taken for a bounce
        button(page, "Start")
        page.wait_for_timeout(3000)  # long beside what a busy machine adds to it
        button(page, "Stop")
        expect(page.get_by_role("button", name=f"Strike fill {count}")).to_be_attached(
            timeout=QUICK
        )
    shows(page, re.compile("Too much"))
    button(page, "Strike fill 3")
    shows(page, re.compile("Time one more fill"))
    button(page, "Take fill 3 back")
    shows(page, re.compile("Close this branch"))
    phone.kill()
    site_host.stop()

    page = phone.start()
    open_app(page, site_address)
    button(page, "Test hollow")
    button(page, "Measure at Bog filter")
    shows(page, re.compile("Too much"))  # nothing timed was lost
    save = page.get_by_role("button", name="Save in the log")
    scroll_to(save)
    save.click(timeout=QUICK)
    shows(page, re.compile("Last measured"))
    phone.kill()

    page = phone.start()
    open_app(page, site_address)
    button(page, "Test hollow")
    shows(page, re.compile("Last measured"))
    assert phone.strangers(site_address) == []
    site_host.start(int(site_address.split(":")[2].split("/")[0]))


def test_wrong_input_gets_a_sentence_and_typing_survives_a_reload(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Half typed")
    for field in ("Volume", "Bog filter", "Waterfall lip", "Largest flow", "Power"):
        type_into(page, field, "wet")
    shows(page, re.compile("is not an amount|is not a unit"))
    expect(page.get_by_role("button", name="Save the pond")).to_be_disabled(timeout=QUICK)
    type_into(page, "Volume", "900 L")
    page.wait_for_timeout(500)
    page.reload()
    page.wait_for_selector("html[data-app=started]", state="attached", timeout=90_000)
    see(page)
    volume = page.get_by_role("textbox", name="Volume").first
    volume.click(timeout=QUICK)  # the tree holds the text of the field in hand only
    expect(volume).to_have_value("900 L", timeout=QUICK)


def test_units_switch_at_any_time(phone: Phone, site_address: str) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/settings")
    page.get_by_role("radio", name=re.compile("^US")).click(timeout=QUICK)
    page.goto(f"{site_address}#/size")
    type_into(page, "The pond holds", "264.172")
    shows(page, re.compile("264 gal/h or more"))
