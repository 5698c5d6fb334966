"""What sums rest on: whose money it is, and which price of electricity, entered or assumed."""

import flet as ft

from pondapp import units
from pondapp.answers.pumps.pumps import TARIFF, tariff_of
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout
from pondapp.ui.shell.navigate import go
from pondapp.words import current_currency, t


def told_price(tariff: float, entered: bool, system: str) -> str:
    """A price of energy [1/J]; one that nobody entered is told as assumed."""
    price = units.show(tariff, "tariff", system)
    return price if entered else t("{price} (assumed)", price=price)


def price_text(pond: Pond, system: str) -> str:
    """The price of energy that counts for a pond."""
    return told_price(tariff_of(pond), TARIFF in pond.assumptions, system)


def whose_money() -> str:
    """What a sum without a currency is in; empty where one is chosen."""
    return "" if current_currency() else t("In your own money: name it in Settings.")


def price_lines(pond: Pond, system: str) -> list[ft.Control]:
    """What stands under sums for electricity, with the way to the price."""
    told = t("Electricity is counted at {price}.", price=price_text(pond, system))
    name = t("Change: {name}", name=t("Price of electricity"))
    return [
        layout.small(f"{told} {whose_money()}".strip()),
        layout.quiet_button(name, go(f"/pond/{pond.id}/rules/{TARIFF}")),
    ]
