"""A line of the shopping list: ticked off in one touch, its price and the rest in two."""

from collections.abc import Awaitable, Callable
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.shopping.shopping import Bill, Group, Item, Unit
from pondapp.models.base import limits_of
from pondapp.models.pond import OwnItem, Shopping
from pondapp.ui.parts import layout
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.parts.written import written
from pondapp.ui.shell import theme
from pondapp.words import t

QUANTITY_KINDS: dict[Unit, str] = {"-": "number", "m": "length", "m2": "area", "m3": "volume"}
PRICES = limits_of(Shopping, "prices")
# By what it is the price of one of.
PRICE_FIELDS: dict[Unit, QuantityField] = {
    "-": QuantityField("price_each", "Price of one", "money", PRICES, "Empty: no price"),
    "m": QuantityField("price_length", "Price", "price_length", PRICES, "Empty: no price"),
    "m2": QuantityField("price_area", "Price", "price_area", PRICES, "Empty: no price"),
    "m3": QuantityField("price_volume", "Price", "price_volume", PRICES, "Empty: no price"),
}
COUNT = QuantityField(
    "own_count", "How many", "number", limits_of(OwnItem, "quantity"), "Empty: one"
)
FORM = Form((*PRICE_FIELDS.values(), COUNT))
TITLES: dict[Group, str] = {
    "pump": "Pump",
    "pipe": "Hose and pipe",
    "parts": "Fittings and valves",
    "filters": "Filters",
    "liner": "Liner",
    "plants": "Plants",
    "own": "Your own lines",
}
Tick = Callable[[bool], Awaitable[None]]
PIECES = 6  # digits of a count of pieces: never rounded in a list that is bought by


def item_name(item: Item, system: str) -> str:
    """What the thing is called."""
    return units.tell(item.need.name, system)


def quantity_text(item: Item, system: str) -> str:
    """How many, how long or how much."""
    kind = QUANTITY_KINDS[item.need.unit]
    digits = PIECES if kind == "number" else 3
    return units.show(item.need.quantity, kind, system, digits)


def item_text(item: Item, system: str) -> str:
    """Name and quantity in a line."""
    if item.need.counted is not None:
        return units.tell(item.need.counted, system)
    return t(
        "{quantity} × {thing}" if item.need.unit == "-" else "{thing}, {quantity}",
        quantity=quantity_text(item, system),
        thing=item_name(item, system),
    )


def list_text(title: str, found: Bill, system: str) -> str:
    """The whole list as plain text, for a message or a sheet of paper."""
    lines = [title]
    for group, heading in TITLES.items():
        items = found.group(group)
        if not items:
            continue
        lines += ["", t(heading)]
        for item in items:
            mark = "[x]" if item.ticked else "[ ]"
            cost = "" if item.line.cost is None else f": {units.money(item.line.cost)}"
            lines.append(f"{mark} {item_text(item, system)}{cost}")
            if item.need.remark is not None:
                lines.append(f"    {units.tell(item.need.remark, system)}")
    title = t("So far") if found.unpriced else t("In all")
    lines += ["", f"{title}: {units.money(found.total)}" if found.priced else t("No prices yet")]
    if found.unpriced:
        lines.append(t("Lines without a price: {count}", count=found.unpriced))
    return "\n".join(lines)


def item_row(item: Item, system: str, on_tick: Tick, on_open: Callable[[Any], Any]) -> ft.Control:
    """The line itself: tick on the left, price on the right."""
    words = item_text(item, system)
    style = ft.TextStyle(decoration=ft.TextDecoration.LINE_THROUGH) if item.ticked else None
    cost = t("Price") if item.line.cost is None else units.money(item.line.cost)

    async def tick(_: Any) -> None:
        await on_tick(not item.ticked)

    # The words are touched like the box, but a checkbox cannot break its own label into lines.
    label = ft.GestureDetector(
        ft.Container(
            written(words, size=theme.BODY, style=style),
            padding=ft.Padding.symmetric(vertical=theme.GAP),
        ),
        on_tap=tick,
    )
    thing = ft.Row(
        [
            ft.Container(
                ft.Checkbox(value=item.ticked, semantics_label=words, on_change=tick),
                width=theme.TOUCH,
                height=theme.TOUCH,
            ),
            ft.Semantics(content=label, exclude_semantics=True, expand=True),
        ],
        spacing=0,
    )
    named = t("{price}: {thing}", price=cost, thing=words)
    price = ft.TextButton(
        content=written(cost, size=theme.BODY, semantics_label=named),
        height=theme.tall(theme.TOUCH),
        style=ft.ButtonStyle(padding=ft.Padding.symmetric(horizontal=8)),
        margin=ft.Margin.only(left=theme.TOUCH) if theme.large_text() else None,
        on_click=on_open,
    )
    row = layout.ends(thing, price, spacing=0)
    if item.need.remark is None:
        return row
    remark = layout.small(units.tell(item.need.remark, system))
    under = ft.Container(remark, padding=ft.Padding.only(left=theme.TOUCH))
    return ft.Column([row, under], spacing=0)
