"""For those who do not see the screen or do not touch it: axe-core on each screen, and the keys."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import axe_playwright_python
from phones import Phone, again_until, go, open_app, press, type_into, wait_true
from playwright.sync_api import Error, Locator, Page, expect

from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.store import link
from pondapp.ui.shell.routes import SCREENS, Tree

AXE = (Path(axe_playwright_python.__file__).parent / "axe.min.js").read_text(encoding="utf-8")

# What the prebuilt client does by itself, by axe's name of the rule and what it is about.
CLIENT = {
    # It lays the screen out by the part of it that is in sight, so a pinch would squeeze the
    # screen, not enlarge it. Text grows by the browser's own text size, up to twice and more.
    ("meta-viewport", "<meta flt-viewport"),
}

STANDS_FOR = {
    ":pond_id": EXAMPLE,
    ":place_id": "bog",
    ":part_id": "to-bog",
    ":thing_id": "lip",
    ":item_id": f"{EXAMPLE}-0",
    ":line_id": "line",
    ":run_key": "main",
    ":branch_id": "to-bog",
    ":pump_id": "middle",
    ":reminder_id": "new",
    ":rule_key": "filters.bog_share",
    ":topic": "measure",
    ":name": "flet",
}


def addresses(tree: Tree, above: str = "") -> Iterator[str]:
    """Every screen, each with something of the example to show."""
    for path, entry in tree.items():
        below = {} if isinstance(entry, str) else entry[1]
        parts = [STANDS_FOR[part] if part[0] == ":" else part for part in path.split("/")]
        here = "/".join([above, *parts])
        yield here
        yield from addresses(below, here)


def heading(page: Page) -> str:
    """What the screen in front is called; a busy machine may be drawing it still."""
    for _ in again_until("the screen has no title"):
        title = page.evaluate("document.querySelector('flt-semantics-host h2')?.textContent ?? ''")
        if title:
            return str(title)
        page.wait_for_timeout(50)
    raise AssertionError  # not reached


def violations(page: Page) -> list[tuple[str, str]]:
    """Names of the rules that something breaks, each with what breaks it."""
    options = "{resultTypes: ['violations']}"
    found: Any = page.evaluate(f"axe.run(document, {options})")
    return [(rule["id"], node["html"]) for rule in found["violations"] for node in rule["nodes"]]


def test_no_screen_breaks_a_rule_of_axe(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    page.evaluate(AXE)
    shared = link.link(example_pond(), "").partition("#")[2]
    screens = {key: entry for key, entry in SCREENS.items() if key != "shared/:plan"}
    broken: dict[str, list[tuple[str, str]]] = {}
    titles: dict[str, str] = {}
    for address in ("/", *addresses(screens), shared):
        go(page, address)
        titles[address[:60]] = heading(page)
        ours = [
            (rule, html[:200])
            for rule, html in violations(page)
            if not any(rule == name and about in html for name, about in CLIENT)
        ]
        if ours:
            broken[address[:60]] = ours
    assert not broken
    lost = {at for at, title in titles.items() if not title or title.startswith("No such")}
    assert not lost, "these screens showed nothing of their own"


def test_screens_are_laid_out_for_the_text_size_of_the_reader(
    phone: Phone, site_address: str
) -> None:
    settings = phone.profile / "Default" / "Preferences"
    settings.parent.mkdir()
    settings.write_text('{"webkit": {"webprefs": {"default_font_size": 32}}}', encoding="utf-8")
    page = phone.start()
    page.set_viewport_size({"width": 320, "height": 700})
    open_app(page, site_address)
    press(page, "Look round an example pond")
    expect(page.get_by_role("heading", name="Alder Corner")).to_be_attached()
    go(page, f"/pond/{EXAMPLE}/log/{EXAMPLE}-0")
    date, time = (page.get_by_role("textbox", name=name).first for name in ("Date", "Time"))
    expect(date).to_be_attached()
    above, below = date.bounding_box(), time.bounding_box()
    assert above
    assert below
    assert above["y"] + above["height"] <= below["y"], "two fields share a row too narrow for them"


def in_hand(page: Page) -> str:
    """What the keyboard is on: the name by which it is read out."""
    return str(
        page.evaluate(
            "(() => { const e = document.activeElement;"
            "return (e?.getAttribute('aria-label') || e?.textContent || '').trim(); })()"
        )
    )


def tab_to(page: Page, name: str) -> None:
    """Go on with Tab until something is in hand, and never past the end of the screen twice."""
    for _ in range(40):
        if re.match(name, in_hand(page)):
            return
        page.keyboard.press("Tab")
        page.wait_for_timeout(150)
    raise AssertionError(f"{name} is not reached by the keyboard; in hand: {in_hand(page)}")


def enter(page: Page, then: Locator) -> None:
    """Press what is in hand, again where the screen had not yet heard of the last Tab."""
    for _ in range(4):
        page.wait_for_timeout(300)
        page.keyboard.press("Enter")
        try:
            then.wait_for(state="attached", timeout=20_000)
        except Error:
            continue
        return
    raise AssertionError(f"Enter does not lead on; in hand: {in_hand(page)}")


def listen(page: Page) -> None:
    """Note in `told` what a screen reader is told to say of its own accord."""
    page.evaluate(
        "window.told = []; new MutationObserver(() => told.push("
        "document.querySelector('flt-announcement-host').textContent)).observe("
        "document.querySelector('flt-announcement-host'), {subtree: true, childList: true})"
    )


def test_what_is_wrong_is_said_and_read_with_its_field(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/size")
    listen(page)
    type_into(page, "The pond holds", "0")
    wrong = "0 is nothing; write an amount above zero"
    field = page.get_by_role("textbox", name=f"The pond holds (L). {wrong}")
    expect(field).to_be_focused()
    wait_true(page, f"told.some((words) => words.includes('{wrong}'))")
    page.keyboard.press("Backspace")
    expect(page.get_by_role("textbox", name="The pond holds (L)", exact=True)).to_be_focused()


FACE = "document.activeElement.querySelector('#pad-do')?.textContent"


def test_a_flow_is_measured_with_the_keyboard_alone(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    listen(page)
    tab_to(page, "Measure a flow")
    enter(page, page.get_by_role("heading", name="Measure"))
    tab_to(page, "Start")
    for count in (1, 2, 3):
        page.keyboard.press("Enter")
        wait_true(page, f"{FACE} === 'Stop'")  # and the focus is kept
        page.wait_for_timeout(2500)
        page.keyboard.press("Space")
        strike = page.get_by_role("button", name=f"Strike fill {count}")
        expect(strike).to_be_attached()
        wait_true(page, f"['Start', 'Enough fills'].includes({FACE})")  # by how they agree
        page.wait_for_timeout(1200)  # sooner after a stop, a press is taken for a bounce
    # The answer is announced, by the page's own region.
    told = "document.querySelector('#pad-number[aria-live=polite]').textContent"
    wait_true(page, f"/L\\/h/.test({told})")
    tab_to(page, "Save in the log")
    enter(page, page.get_by_role("heading", name="Measured without a pond"))
