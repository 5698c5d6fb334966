"""What the readings tell, on the built site: the fit runs in the browser's Python."""

import re

from phones import Phone, go, open_app, press, shows

from pondapp.answers.sharing.example import EXAMPLE


def test_the_browsers_python_learns_from_the_readings_of_a_pond(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    press(page, "Look round an example")
    shows(page, "Measure at Bog filter")
    go(page, f"/pond/{EXAMPLE}/learned")
    shows(page, "Flow now, by all readings")
    shows(page, re.compile(r"^A reading at .* tells most now"))
    shows(page, re.compile(r"\(95 % interval\)"))
    shows(page, re.compile(r"^The cleaning on .* brought"))
    shows(page, "Once the pump is cleaned")
    go(page, "/")
    assert used_phone.errors == []
