"""What is open about a pond, on the built site: a bad test is danger on pond and first screen."""

import re

from phones import VOLUME, Phone, choose, go, gone, open_app, press, shows, type_into


def test_poison_is_danger_on_pond_and_first_screen_and_goes_with_the_test(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Heron hollow")
    choose(page, "I know the volume")
    type_into(page, VOLUME, "5000")
    type_into(page, "Bog filter", "500")
    press(page, "Save the pond")
    shows(page, "Not known yet")
    gone(page, re.compile("^Right"))
    pond = page.evaluate("location.hash.slice(1)")
    go(page, "/")
    shows(page, re.compile("Not known yet.*Not measured yet: Bog filter", re.DOTALL))

    go(page, f"{pond}/log/new-water_test")
    type_into(page, "Temperature", "25")
    type_into(page, "pH", "8.6")
    type_into(page, "Ammonia", "2")
    shows(page, "Toxic ammonia is 0.368 mg/L")
    press(page, "Save in the log")
    shows(page, "Water test: Temperature 25 °C")  # the log, before one goes on
    go(page, pond)
    shows(page, re.compile("Danger.*Toxic ammonia is 0.368 mg/L", re.DOTALL))
    go(page, "/")
    press(page, re.compile("Danger.*Toxic ammonia", re.DOTALL))  # leads to the test
    press(page, re.compile("^Delete"))
    shows(page, "is deleted")
    go(page, "/")
    gone(page, re.compile("Toxic ammonia"))
    shows(page, re.compile("Not known yet"))
    assert used_phone.errors == []
