"""No key is lost, however fast it follows the one before and however slow the screen is drawn."""

from phones import Phone, open_app
from playwright.sync_api import expect

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
