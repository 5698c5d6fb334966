"""What if on the built site, with real touches: tried, applied, taken back, and killed."""

import re

from phones import Phone, Thumb, go, gone, open_app, press, shows
from playwright.sync_api import expect

from pondapp.answers.picture.picture import picture
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.store import link

PLACE = """[...document.querySelectorAll('flt-semantics-host [aria-label^="The water path"]')]
    .map(one => one.getBoundingClientRect()).map(at => [at.left, at.top, at.width])[0]"""
NOTHING_YET = re.compile("^Nothing is changed yet")
BOG = re.compile("^To the bog: .* more")
ROUTE = f"/pond/{EXAMPLE}/what-if"


def test_a_change_is_tried_applied_taken_back_and_survives_a_kill(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    open_app(page, f"{site_address}#/shared/{link.packed(example_pond())}")
    press(page, "Keep this pond")
    press(page, "What if? Try a change")
    shows(page, NOTHING_YET)
    page.wait_for_timeout(1000)  # the way from screen to screen takes its time
    left, top, width = page.evaluate(PLACE)
    drawing = picture(WorkedPond(example_pond()), {}, width)
    (bog,) = (part.box for part in drawing.parts if part.key == "bog")
    thumb = Thumb(page)
    thumb.tap(left + bog.middle, top + bog.top + bog.side / 2)
    expect(page.get_by_role("radio", name="2 Bog filter").first).to_be_checked()
    page.mouse.move(left + width / 2, top + 500)
    page.mouse.wheel(0, 300)  # what is moved lies below the picture
    page.wait_for_timeout(1000)
    more = page.get_by_role("button", name="More: Valve").first.bounding_box()
    assert more is not None
    thumb.tap(more["x"] + more["width"] / 2, more["y"] + more["height"] / 2)
    shows(page, BOG)
    page.wait_for_timeout(1000)  # what was tried is on the device
    phone.kill()
    page = phone.start()
    open_app(page, f"{site_address}#{ROUTE}")
    shows(page, BOG)
    press(page, "Apply: make it the plan")
    shows(page, NOTHING_YET)
    press(page, "Undo")
    shows(page, BOG)
    press(page, "Start over")
    gone(page, BOG)
    go(page, f"/pond/{EXAMPLE}")
    assert phone.errors == []
