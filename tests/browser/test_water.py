"""Water and fish of a pond on the built site: drawing, volume and answers follow while typing."""

import re

from phones import VOLUME, Phone, choose, open_app, open_step, press, shows, type_into, wait_true
from playwright.sync_api import Page


def add_pond(page: Page) -> None:
    press(page, "Add a pond")
    type_into(page, "Name of the pond", "Test hollow")
    choose(page, "I know the volume")
    type_into(page, VOLUME, "1000")
    type_into(page, "Bog filter", "100")
    press(page, "Save the pond")


def test_draw_up_a_pond_measure_it_and_take_it_back(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    add_pond(page)
    open_step(page, "Water: shape and volume")
    choose(page, "From measurements")
    type_into(page, "Length", "4")
    type_into(page, "Width", "3")
    type_into(page, "Depth", "wet")
    shows(page, "Correct what is marked, and the drawing is back")
    type_into(page, "Depth", "1")
    shows(page, "12000 L")
    shows(page, "From above: 4 m long, 3 m wide. Cut through: 1 m deep.")

    press(page, "Add a shelf")
    type_into(page, "Below water", "50")
    type_into(page, "Reaches in", "50")
    shows(page, "9000 L")  # half a metre of 4 by 3 on half a metre of 3 by 2
    shows(page, "Shelves below the water line: 50 cm.")

    choose(page, "Hose and clock")
    type_into(page, "Hose at the start", "1000")
    type_into(page, "Filling time", "8")
    shows(page, "Measured, so this is used; the drawing gives 9000 L")
    press(page, "Save")
    shows(page, "The pond holds 8000 L")
    press(page, "Undo")
    shows(page, re.compile("1,?000 L, as entered"))
    assert used_phone.errors == []


def test_too_many_fish_are_said_with_what_settles_it(used_phone: Phone, site_address: str) -> None:
    page = used_phone.page
    open_app(page, site_address)
    add_pond(page)
    open_step(page, "Fish, feed and oxygen")
    press(page, "Add fish")
    type_into(page, "Kind", "Koi")
    type_into(page, "How many", "2.5")
    shows(page, "Write a whole number")
    type_into(page, "How many", "40")
    type_into(page, "Length", "15")
    type_into(page, "Grown", "60")
    choose(page, "Once they are grown")
    shows(page, re.compile("The filter is (likely )?too small for these fish; whether the oxygen"))
    shows(page, "26 °C is assumed, enter yours")
    shows(page, "draw the pond's shape")  # what is not known is named
    shows(page, re.compile("of media .* solves the filter"))
    shows(page, "Find a home for")
    press(page, "Save")
    wait_true(page, "!location.hash.endsWith('/fish')")  # which leads to the pond
    open_step(page, "Fish, feed and oxygen")
    shows(page, re.compile("The filter is|Whether the oxygen"))  # as kept, not empty
    assert used_phone.errors == []
