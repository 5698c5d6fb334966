"""The main job on the built site: a pond, three fills, a verdict, a log; then again offline."""

import re

from phones import (
    VOLUME,
    Host,
    Phone,
    choose,
    field_holds,
    go,
    load_again,
    open_app,
    press,
    save_reading,
    shows,
    touch,
    type_into,
    unfold,
    wait_offline,
)
from playwright.sync_api import Page, expect


def add_pond(page: Page) -> None:
    press(page, "Add a pond")
    type_into(page, "Name of the pond", "Test hollow")
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    type_into(page, "Bog filter", "100")
    shows(page, "400 to 1200 L/h")
    press(page, "Save the pond")
    shows(page, "No readings yet")


def test_measure_save_kill_and_find_again_offline(
    phone: Phone, site_address: str, site_host: Host
) -> None:
    page = phone.start()
    open_app(page, site_address)
    wait_offline(page)
    add_pond(page)

    press(page, "Measure at Bog filter")
    for count in (1, 2, 3):
        page.wait_for_timeout(1100)  # sooner after a stop, a press is taken for a bounce
        touch(page, "Start")
        page.wait_for_timeout(6000)  # long beside what a busy machine adds to it
        touch(page, "Stop")
        expect(page.get_by_role("button", name=f"Strike fill {count}")).to_be_attached()
    shows(page, "Too much")
    press(page, "Strike fill 3")
    shows(page, "Close this branch")  # two fills of three times too much are enough to know
    press(page, "Take fill 3 back")
    shows(page, "Close this branch")
    phone.kill()
    site_host.stop()

    page = phone.start()
    open_app(page, site_address)
    press(page, "Test hollow")
    press(page, "Measure at Bog filter")
    shows(page, "Too much")  # nothing timed was lost
    save_reading(page)
    shows(page, re.compile("Too much: "))
    phone.kill()

    page = phone.start()
    open_app(page, site_address)
    press(page, "Test hollow")
    shows(page, re.compile("Too much: "))
    assert phone.strangers(site_address) == []
    site_host.start(int(site_address.split(":")[2].split("/")[0]))


def test_wrong_input_gets_a_sentence_and_typing_survives_a_reload(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Half typed")
    choose(page, "I know the volume")
    unfold(page, "Pump and hose")
    for field in (VOLUME, "Bog filter", "Waterfall lip", "Largest flow", "Power"):
        type_into(page, field, "wet")
    shows(page, re.compile("is not an amount|is not a unit"))
    expect(page.get_by_role("button", name="Save the pond")).to_be_disabled()
    type_into(page, VOLUME, "900 L")
    page.wait_for_timeout(500)
    load_again(page)
    field_holds(page, VOLUME, "900 L")


def test_units_switch_at_any_time(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/settings")
    choose(page, re.compile("^US"))
    go(page, "/size")
    type_into(page, "The pond holds", "264.172")
    shows(page, re.compile("For 264 gal.*up there"))
