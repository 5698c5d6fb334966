"""What is chosen for the whole app shows on other screens at once."""

import asyncio

import flet as ft
import pytest
from drawn import Screen, parts_of

from pondapp.answers.sharing.example import EXAMPLE
from pondapp.ui.about.settings import SettingsPage
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.shopping.shopping import ShoppingPage


def _type_currency(screen: Screen, text: str) -> None:
    screen.open(SettingsPage)
    fields = [one for one in parts_of(screen.look()) if isinstance(one, ft.TextField)]
    (field,) = [one for one in fields if callable(one.data)]
    field.data(text)
    asyncio.run(screen.settle())


@pytest.mark.parametrize(
    ("typed", "yearly", "price"),
    [
        ("", "19 a month, 223 a year", "140.00"),
        (" € ", "19 € a month, 223 € a year", "140.00 €"),
        ("$", "$19 a month, $223 a year", "$140.00"),
    ],
)
def test_a_currency_that_is_typed_stands_beside_every_sum(
    screen: Screen, typed: str, yearly: str, price: str
) -> None:
    _type_currency(screen, typed)
    screen.open(PlanPage, pond_id=EXAMPLE)
    assert f"85 W: {yearly}" in screen.text()
    screen.open(ShoppingPage, pond_id=EXAMPLE)
    assert price in screen.text()
    assert ("In your own money" in screen.text()) == (not typed)


@pytest.mark.parametrize(
    ("typed", "said"), [("5 €", "without digits"), ("half a crown", "at most 8 letters")]
)
def test_what_is_no_currency_is_told_and_not_saved(screen: Screen, typed: str, said: str) -> None:
    _type_currency(screen, typed)
    assert screen.session.preferences.currency == ""
    assert said in screen.text()
