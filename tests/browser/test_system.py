"""What the device's system does with the app: installs it, opens files with it, counts on its icon.

A system that does so is not at hand: what it calls and what it is asked for is stood in for.
"""

from datetime import UTC, datetime
from urllib.parse import quote_plus

import pytest
from phones import Phone, go, gone, open_app, press, shows, wait_true
from playwright.sync_api import Page, expect

from pondapp.answers.sharing.example import example_pond
from pondapp.models.pond import Pond
from pondapp.store import link
from pondapp.store.backup_file import plan_file

SYSTEM = """
window.badges = [];
navigator.setAppBadge = async (count) => { badges.push(count); };
navigator.clearAppBadge = async () => { badges.push(0); };
Object.defineProperty(window, "launchQueue", {
  value: { setConsumer(consumer) { window.launched = consumer; } },
});
window.offerToInstall = () => {
  const offer = new Event("beforeinstallprompt", { cancelable: true });
  window.asked = 0;
  offer.prompt = async () => { window.asked += 1; };
  offer.userChoice = Promise.resolve({ outcome: "accepted" });
  window.dispatchEvent(offer);
  return offer.defaultPrevented;
};
window.openWith = (text, name, then = "#/backup") => launched({
  targetURL: `${location.origin}${location.pathname}${then}`,
  files: text ? [{ getFile: async () => new File([text], name) }] : [],
});
"""
MINE: Pond = example_pond().model_copy(update={"id": "mine", "name": "Garden pond"})
PLAN = plan_file(MINE, datetime.now(UTC))


def start(phone: Phone, address: str) -> Page:
    page = phone.start()
    page.add_init_script(SYSTEM)
    open_app(page, address)
    return page


def nothing_kept(page: Page) -> None:
    go(page, "/")
    expect(page.get_by_role("button", name="Garden pond")).to_have_count(0)


@pytest.mark.slow
def test_a_file_is_looked_at_first_and_what_is_due_is_counted(
    phone: Phone, site_address: str
) -> None:
    page = start(phone, site_address)
    page.evaluate("([text, name]) => openWith(text, name)", [PLAN.decode(), "garden-plan.json"])
    shows(page, "Garden pond")
    press(page, "Leave everything as it is")
    nothing_kept(page)
    page.evaluate("([text, name]) => openWith(text, name)", ["no backup", "notes.json"])
    shows(page, "That did not work")
    press(page, "Close")
    page.evaluate("([text, name]) => openWith(text, name)", [PLAN.decode(), "garden-plan.json"])
    shows(page, "Garden pond")
    press(page, "Restore")
    wait_true(page, "badges.at(-1) === 3")  # never measured, tested or cleaned
    assert phone.errors == []


@pytest.mark.slow
def test_the_app_offers_to_be_installed_in_its_own_words(phone: Phone, site_address: str) -> None:
    page = start(phone, site_address)
    assert page.evaluate("offerToInstall()"), "the browser's own offer stays away"
    expect(page.get_by_role("button", name="Install the app")).to_have_count(0)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    go(page, "/")
    press(page, "Install the app")
    wait_true(page, "asked === 1")
    gone(page, "Install the app")
    page.evaluate("offerToInstall()")
    press(page, "Not now")
    gone(page, "Install the app")
    go(page, "/settings")
    shows(page, "Install the app")
    assert phone.errors == []


@pytest.mark.slow
def test_a_plan_that_another_app_shares_is_looked_at_first(phone: Phone, site_address: str) -> None:
    page = start(phone, site_address)
    words = quote_plus(f"Look at my pond: {link.link(MINE, 'https://elsewhere.example/')} !")
    question = f"?shared=&shared_text={words}"
    page.evaluate("(question) => openWith('', '', question)", question)  # the app is open
    shows(page, "Garden pond")
    nothing_kept(page)
    page.goto("about:blank")
    open_app(page, site_address + question)
    shows(page, "Garden pond")
    assert page.evaluate("location.search") == ""
    nothing_kept(page)
    page.goto("about:blank")
    open_app(page, f"{site_address}?shared=%")
    shows(page, "Look round an example pond")
    assert page.evaluate("location.search") == ""
    assert phone.errors == []
