"""Two branches tuned on the built site, the set kept, and the pump's health asked afterwards."""

import json
import re

import pytest
from kept import kept
from phones import (
    MORE,
    VOLUME,
    Phone,
    Thumb,
    choose,
    gone,
    open_app,
    open_step,
    press,
    shows,
    type_into,
    unfold,
)
from playwright.sync_api import Page, expect
from timed import SHORT, settled, time_fills


def type_times(page: Page, *seconds: str) -> None:
    """Fills at the open branch, by another clock."""
    for count, text in enumerate(seconds, 1):
        unfold(page, "Container, typed time")
        type_into(page, "Or type a fill time", text)
        press(page, "Add this time")
        expect(page.get_by_role("button", name=f"Strike fill {count}")).to_be_attached()


def add_pond(page: Page) -> None:
    press(page, "Add a pond")
    choose(page, "I know the volume")
    unfold(page, "Pump and hose")
    for name, text in (
        ("Name of the pond", "Two ways"), (VOLUME, "1000"), ("Bog filter", "100"),
        ("Waterfall lip", "15"), ("Largest flow", "4000"), ("Largest head", "2.5"),
    ):  # fmt: skip
        type_into(page, name, text)
    press(page, "Save the pond")
    shows(page, "No readings yet")


def test_two_branches_are_tuned_kept_and_the_pump_is_asked_after(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    add_pond(page)
    open_step(page, "Tune the valves")
    shows(page, "Right so far: 0 of 2")
    shows(page, "Begin with To Waterfall lip")
    expect(page.get_by_role("button", name="Save as tuned")).to_be_disabled()

    press(page, re.compile("^2. To Bog"))
    shows(page, "Aim for 76.6 s in Bucket, 9 L mark. Anything from 27.7 to 78.8 s is fine")
    type_times(page, "20", "20.2", "19.9")
    shows(page, "3.8 times the aim of 423 L/h")
    shows(page, "Close this branch's valve further")
    # Nobody entered a hose, and the one that is assumed could not carry what was measured.
    shows(page, "More than this pump and these hoses could give was measured at To Bog filter")
    press(page, "Valve turned")
    type_times(page, "80", "62")
    shows(page, "Not decided yet: the fills differ by more than they should")
    shows(page, "These two differ by 25 %: time one more")
    press(page, "Valve turned")
    type_times(page, "80", "80.3", "79.8")
    shows(page, "Not decided yet: the true flow may lie on either side of the limit")
    press(page, "Valve turned")
    type_times(page, "76", "76.3", "75.8")
    shows(page, "At the aim of 423 L/h")
    press(page, "Save this setting")

    shows(page, "Right so far: 1 of 2")
    press(page, re.compile("^1. To Waterfall"))
    shows(page, "Aim for 16.2 s in Bucket, 9 L mark. Anything from 8.35 to 31.5 s is fine")
    type_times(page, "30", "30.2", "29.9")
    shows(page, "Inside what is wanted here")
    press(page, "Save this setting")
    shows(page, "Every branch is right. Save this as tuned")
    press(page, "Save as tuned")
    shows(page, "Every branch is right, and saved as tuned")

    press(page, "Back")
    press(page, "Pond", exact=True)
    press(page, "Pump compared with new")
    shows(page, "62 % of what it gives with every valve open")
    shows(page, "This is what later flows are compared with")
    choose(page, "All wide open")
    shows(page, "Not decided: about 62 % of what it should give here")
    assert used_phone.errors == []


def test_a_dry_branch_and_a_meter_are_part_of_tuning(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    add_pond(page)
    open_step(page, "Tune the valves")
    press(page, re.compile("^2. To Bog"))
    press(page, "Nothing comes out here")
    shows(page, "Nothing comes; 400 L/h or more is wanted here")
    press(page, "Yes, no water: save it")
    shows(page, "Nothing comes out; the aim is 423 L/h")
    shows(page, "See that the pump runs and that no valve is shut on the way")

    press(page, "Valve turned")
    gone(page, "Nothing comes out; the aim is 423 L/h")
    press(page, "Measure another way")
    press(page, MORE)
    choose(page, "Flow meter")
    type_into(page, "The meter shows", "900")
    press(page, "Save in the log")
    shows(page, "Inside what is wanted here")
    press(page, "Back")
    shows(page, "Right so far: 1 of 2")
    assert used_phone.errors == []


def sets(page: Page) -> list[list[float]]:
    """What was timed at the one place of which something is, set by set, that of now last."""
    (text,) = (text for key, text in kept(page).items() if key.startswith("draft/fills-"))
    found = json.loads(text)
    times = [*(one["fills"] for one in found["before_turn"]), found["fills"]]
    return [[fill["seconds"] for fill in one] for one in times]


def test_valve_turned_is_touched_at_one_place_and_each_turn_is_a_set(
    used_phone: Phone, site_address: str
) -> None:
    page = used_phone.page
    open_app(page, site_address)
    add_pond(page)
    open_step(page, "Tune the valves")
    press(page, re.compile("^2. To Bog"))
    shows(page, "Nothing is timed yet")
    thumb, button = Thumb(page), page.get_by_role("button", name="Valve turned")
    places = [button.bounding_box()]
    assert places[0] is not None
    x, y = (places[0][a] + places[0][b] / 2 for a, b in (("x", "width"), ("y", "height")))
    timed: list[list[float]] = []
    for turn in range(3):
        timed.append(time_fills(thumb, 1, wait=700 + 300 * turn))
        shows(page, "Now:" if turn == 0 else "Flow with each turn:")
        places.append(button.bounding_box())
        page.mouse.click(x, y)
        shows(page, "Before the last turn:")
        places.append(button.bounding_box())
    thumb.press()
    shows(page, "Cancel this fill")
    places.append(button.bounding_box())
    page.wait_for_timeout(SHORT)
    thumb.press()
    page.mouse.click(x, y)  # within the second after a stop: nobody turns a valve so fast
    shows(page, "Flow with each turn:")
    settled(page)
    found = sets(page)
    assert [len(one) for one in found] == [1, 1, 1, 1]
    for one, true in zip(found, timed, strict=False):
        assert one == pytest.approx(true, abs=0.005)
    assert all(place == places[0] for place in places), places
    assert used_phone.errors == []
