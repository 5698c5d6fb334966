"""No sum for electricity without its price, whether that is assumed, and the way to it."""

import asyncio
from typing import Any

import pytest
from drawn import Screen

from pondapp.answers.pumps.pumps import TARIFF
from pondapp.answers.rules.rules import with_assumption
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.models.preferences import Draft
from pondapp.ui.about.settings import SettingsPage
from pondapp.ui.planning.plan import PlanPage
from pondapp.ui.plumbing.plumbing import PlumbingPage
from pondapp.ui.pond.pond import PondPage
from pondapp.ui.pumps.pumps import PumpsPage
from pondapp.ui.pumps.size import SizePage

SCREENS = (PondPage, PlanPage, PlumbingPage, PumpsPage)
KWH = 3.6e6  # J


@pytest.fixture
def screen(monkeypatch: pytest.MonkeyPatch) -> Screen:
    made = Screen(monkeypatch)
    made.params = {"pond_id": EXAMPLE}
    return made


def called(screen: Screen, currency: str) -> None:
    asyncio.run(screen.session.settings.change(lambda _: {"currency": currency}))


@pytest.mark.parametrize("page", SCREENS)
@pytest.mark.parametrize(("currency", "price"), [("", "0.30"), ("€", "0.30 €"), ("$", "$0.30")])
def test_a_price_that_nobody_entered_is_told_as_assumed(
    screen: Screen, page: Any, currency: str, price: str
) -> None:
    called(screen, currency)
    screen.open(page, pond_id=EXAMPLE)
    assert f"{price} per kWh (assumed)" in screen.text()


@pytest.mark.parametrize("page", SCREENS)
def test_a_price_that_was_entered_is_not(screen: Screen, page: Any) -> None:
    called(screen, "€")
    asyncio.run(screen.session.ponds.save(with_assumption(example_pond(), TARIFF, 0.42 / KWH)))
    screen.open(page, pond_id=EXAMPLE)
    assert "0.42 € per kWh" in screen.text()
    assert "(assumed)" not in screen.text()


def test_the_tile_says_whose_money_it_is(screen: Screen) -> None:
    screen.open(PondPage, pond_id=EXAMPLE)
    own = "In your own money: name it in Settings."
    assert f"\n19\nAt 0.30 per kWh (assumed). {own}" in screen.text()
    called(screen, "€")
    assert "19 €\nAt 0.30 € per kWh (assumed)" in screen.text()


@pytest.mark.parametrize("page", [PlanPage, PlumbingPage])
def test_the_way_to_the_price_is_beside_the_sums(screen: Screen, page: Any) -> None:
    screen.open(page, pond_id=EXAMPLE)
    screen.press("Change: Price of electricity")
    assert screen.went == [f"/pond/{EXAMPLE}/rules/{TARIFF}"]


def test_in_the_shop_the_price_is_assumed_until_it_is_typed(screen: Screen) -> None:
    texts = {"ask": "pump", "pump_flow": "6000", "pump_head": "3", "pump_watts": "40"}
    asyncio.run(screen.session.drafts.save(Draft(id="size", texts=texts)))
    screen.open(SizePage)
    assert "at 0.30 per kWh (assumed)" in screen.text()
    asyncio.run(screen.session.drafts.save(Draft(id="size", texts={**texts, "tariff": "0.42"})))
    screen.open(SizePage)
    assert "at 0.42 per kWh." in screen.text()


def test_who_names_a_currency_reads_what_is_assumed(screen: Screen) -> None:
    called(screen, "CHF")
    screen.open(SettingsPage)
    assert "Electricity is counted at 0.30 CHF per kWh until you enter your own" in screen.text()
