"""What is chosen for the whole app shows on other screens at once."""

import asyncio
import re

import flet as ft
import pytest
from drawn import Screen, parts_of

from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.ui.about.settings import UNCHECKED, SettingsPage
from pondapp.ui.fish.fish import FishPage
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.plumbing.plumbing import PlumbingPage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.shopping.shopping import ShoppingPage
from pondapp.words import LANGUAGES, t

ENGLISH_WORDS = re.compile(r"\b(?:the|and|with|your|pump|water|filter|what|how)\b", re.IGNORECASE)
"""What a text that is left in English would have of it."""


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


def _speak(screen: Screen, code: str) -> None:
    settings = screen.session.settings
    asyncio.run(settings.change(lambda _: {"language": code}))


def test_a_language_that_no_native_speaker_has_checked_says_so(screen: Screen) -> None:
    for language in LANGUAGES:
        _speak(screen, language.code)
        screen.open(SettingsPage)
        assert language.name in screen.text()
        assert (t(UNCHECKED) in screen.text()) == (not language.native)
    assert [one.code for one in LANGUAGES if not one.native] == ["pl"]


def test_the_screens_of_a_pond_are_polish_where_polish_is_chosen(screen: Screen) -> None:
    _speak(screen, "pl")
    screen.open(SettingsPage)
    assert "Ustawienia" in screen.text()
    asyncio.run(screen.session.ponds.save(example_pond()))  # which has names in its language
    for page in (PondPage, PlanPage, PumpsPage, PlumbingPage, ShoppingPage, FishPage):
        screen.open(page, pond_id=EXAMPLE)
        told = screen.text()
        english = ENGLISH_WORDS.findall(told)
        assert english == [], page.__name__
        assert "Pompa" in told or "pompa" in told or "oczk" in told.lower(), page.__name__
