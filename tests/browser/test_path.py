"""The water path on the built site: a conflict made by touch, settled with one, and undone."""

import re

from phones import (
    VOLUME,
    Phone,
    choose,
    field_holds,
    go,
    open_app,
    open_step,
    press,
    shows,
    type_into,
    unfold,
)

RIGHT = re.compile("what is right", re.IGNORECASE)


def test_a_conflict_is_made_settled_and_undone(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, f"{site_address}#/new")
    type_into(page, "Name of the pond", "Path hollow")
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    type_into(page, "Bog filter", "100")
    press(page, "Save the pond")
    unfold(page, RIGHT)
    shows(page, "1000 L/h is enough for everything")

    open_step(page, "Filters, lips, jets")
    press(page, "Waterfall lip")
    type_into(page, "Width of the lip", "30")
    shows(page, "2000 to 8000 L/h")
    press(page, "Save")
    shows(page, "is saved")
    shows(page, re.compile("Least 2000"))  # the form has given way to the list

    pond_id = page.evaluate("location.hash").split("/")[2]
    go(page, f"/pond/{pond_id}")
    unfold(page, RIGHT)
    shows(page, "Not measured yet: Bog filter, Waterfall lip")
    shows(page, "4400 L/h is enough for everything")
    press(page, re.compile("^Waterfall lip"))  # not the branch to it
    choose(page, "To Bog filter")
    go(page, f"/pond/{pond_id}")
    press(page, re.compile("for its good flow"))  # on top, and leads to the plan
    shows(page, "needs 4000 L/h for its good flow and Bog filter can take at most 1200 L/h")
    press(page, re.compile("^Use this: Let .* over the top"))
    shows(page, "is enough for everything")
    press(page, "Undo the last change")
    shows(page, "This can't all work")

    go(page, f"/pond/{pond_id}/path")
    press(page, re.compile("^To Bog filter"))
    type_into(page, "Name of the branch", "Half a na")
    press(page, "Back to what is saved")
    field_holds(page, "Name of the branch", "To Bog filter")
    assert used_phone.errors == []
