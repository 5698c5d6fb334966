"""What is said and asked about keeping what was entered: at the right moment, and plainly."""

import re
from datetime import UTC, datetime

import pytest
from kept import kept
from phones import Phone, go, load_again, open_app, press, save_reading, shows, touch, wait_true

from pondapp.answers.sharing.example import EXAMPLE, example_readings

BROWSER = """
window.asked = 0;
navigator.storage.persist = async () => { window.asked += 1; return false; };
"""


@pytest.mark.slow
def test_asked_and_reminded_when_there_is_something_to_lose(
    phone: Phone, site_address: str
) -> None:
    page = phone.start()
    page.add_init_script(BROWSER)
    open_app(page, site_address)
    press(page, "Look round an example pond")
    page.wait_for_url(f"**/pond/{EXAMPLE}")
    page.wait_for_timeout(1000)
    assert page.evaluate("asked") == 0  # nobody would miss an invented pond
    go(page, "/measure/none/outlet")
    touch(page, "Start")
    page.wait_for_timeout(900)
    touch(page, "Stop")
    page.wait_for_timeout(1200)  # sooner after a stop, nothing is saved
    save_reading(page)
    wait_true(page, "asked === 1")

    go(page, "/backup")
    for words in (
        "No backup so far",
        r"\d+ MB of about \d+ MB in use",
        "may clear it when this device runs out of space",
        "A private window forgets everything",
        "after seven days",
    ):
        shows(page, re.compile(words))
    press(page, "Ask the browser to keep it")
    wait_true(page, "asked === 2")
    shows(page, "does not promise it")

    one = example_readings(datetime.now(UTC))[0]
    more = [one.model_copy(update={"id": f"own{n}", "pond_id": "none"}) for n in range(5)]
    kept(page, {f"reading/{own.storage_key()}": own.model_dump_json() for own in more})
    go(page, "/")
    load_again(page)
    shows(page, "6 entries of your logs are on this device only")
    press(page, "Save a backup")
    with page.expect_download():
        press(page, "Save a backup file")
    shows(page, "The backup is in your downloads")
    go(page, "/")
    shows(page, "Your ponds")
    assert page.get_by_text("on this device only").count() == 0
