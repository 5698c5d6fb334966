"""No key is lost, however fast it follows the one before and however slow the screen is drawn."""

import pytest
from phones import Phone, open_app
from playwright.sync_api import expect

WORDS = ("abcdefghijklmnopqrstuvwxyz", "zyxwvutsrqponmlkjihgfedcba", "the quick brown heron looks")


@pytest.mark.parametrize("delay", [0, 15])
def test_every_key_stays(phone: Phone, site_address: str, delay: int) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/new")
    field = page.get_by_role("textbox", name="Name of the pond").first
    field.wait_for(timeout=60_000)
    for text in WORDS * 2:
        field.click()
        field.press("ControlOrMeta+a")
        page.keyboard.type(text, delay=delay)
        expect(field).to_have_value(text)
        page.wait_for_timeout(300)  # until what was drawn for the last keys has come
        expect(field).to_have_value(text)
