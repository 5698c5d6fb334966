"""The picture of a pond on the built site: a finger on a part of it opens that part."""

from phones import Phone, Thumb, go, open_app, press, shows, wait_true

from pondapp.answers.picture.picture import picture
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.store import link

PLACE = """[...document.querySelectorAll('flt-semantics-host [aria-label^="The water path"]')]
    .map(one => one.getBoundingClientRect()).map(at => [at.left, at.top, at.width])[0]"""


def test_a_finger_on_the_drawing_opens_what_is_under_it(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/shared/{link.packed(example_pond())}")
    press(page, "Keep this pond")
    shows(page, "Measure at Bog filter")
    page.wait_for_timeout(1000)  # the way from screen to screen takes its time
    left, top, width = page.evaluate(PLACE)
    drawing = picture(WorkedPond(example_pond()), {}, width)
    (bog,) = (part.box for part in drawing.parts if part.key == "bog")
    Thumb(page).tap(left + bog.middle, top + bog.top + bog.side / 2)
    wait_true(page, f"location.hash === '#/pond/{EXAMPLE}/at/bog'")
    shows(page, "Wanted")
    go(page, "/")
    page.wait_for_timeout(1000)
    assert used_phone.errors == []
