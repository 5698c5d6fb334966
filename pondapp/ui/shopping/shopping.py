"""The shopping list of a pond: worked out, priced, ticked off in the shop, passed on."""

from collections.abc import Awaitable, Callable
from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.shopping.shopping import (
    GROUPS,
    MOST_LINES,
    Bill,
    Item,
    bill,
    with_left_out,
    with_own,
    with_price,
    with_tick,
    without_own,
)
from pondapp.models.pond import Pond
from pondapp.state.ids import new_id
from pondapp.ui.parts import cautions, fields, layout
from pondapp.ui.parts.change import save_change
from pondapp.ui.parts.draft import Typed, use_draft
from pondapp.ui.parts.money import whose_money
from pondapp.ui.parts.working import ShowWorking
from pondapp.ui.shell.navigate import say
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.ui.shopping.shopping_line import (
    COUNT,
    FORM,
    PRICE_FIELDS,
    TITLES,
    Tick,
    item_name,
    item_row,
    item_text,
    list_text,
)
from pondapp.words import t

Change = Callable[[Pond], Pond]
Keep = Callable[[Change, str], Awaitable[None]]


async def pass_on(text: str) -> None:
    """Hand the text to another app; where the browser cannot, it goes to the clipboard."""
    try:
        shared = await ft.Share().share_text(
            text, download_fallback_enabled=False, mail_to_fallback_enabled=False
        )
        can = shared.status != ft.ShareResultStatus.UNAVAILABLE
    except RuntimeError:  # the browser knows nothing of sharing
        can = False
    if not can:
        await ft.Clipboard().set(text)
        say(t("This browser cannot share; the list is copied, paste it where you like."))


def _sums(title: str, found: Bill, system: str) -> ft.Control:
    async def copy(_: Any) -> None:
        await ft.Clipboard().set(list_text(title, found, system))
        say(t("The list is copied."))

    async def share(_: Any) -> None:
        await pass_on(list_text(title, found, system))

    lines: list[ft.Control] = []
    if found.priced:
        in_all = t("So far") if found.unpriced else t("In all")
        lines.append(layout.fact(in_all, units.money(found.total), whose_money()))
        if found.to_pay != found.total:  # something is ticked off
            rest = t("So far") if found.open_unpriced else ""
            lines.append(layout.fact(t("Not ticked off yet"), units.money(found.to_pay), rest))
    else:
        lines.append(layout.body(t("No prices yet")))
    if found.unpriced:
        lines.append(layout.small(t("Lines without a price: {count}", count=found.unpriced)))
    if found.priced:
        lines.append(ShowWorking(t("the total"), found.steps, system))
    lines.append(layout.small(t("Touch a price to enter it, or to leave that line out.")))
    buttons = [
        layout.second_button(t("Copy as text"), copy),
        layout.second_button(t("Share"), share),
    ]
    return layout.card([*lines, ft.Row(buttons, wrap=True)], strong=True)


def _editor(item: Item, typed: Typed, system: str, keep: Keep) -> list[ft.Control]:
    """What unfolds under a line: why so much, its price, and leaving it out."""
    name = item_name(item, system)
    field = PRICE_FIELDS[item.need.unit]
    exact = "" if item.line.price is None else repr(item.line.price)
    price, error = field.read(typed.text(field.key), system, exact)

    def close() -> None:
        typed.put({**typed.texts, "open": "", field.key: ""})

    async def save(_: Any) -> None:
        close()
        await keep(
            lambda pond: with_price(pond, item.key, price), t("Price of {thing} saved.", thing=name)
        )

    async def leave_out(_: Any) -> None:
        close()
        if item.own:
            told = t("{thing} is off the list.", thing=name)
            await keep(lambda pond: without_own(pond, item.key), told)
            return
        told = t("{thing} is left out.", thing=name)
        await keep(lambda pond: with_left_out(pond, item.key, True), told)

    lines: list[ft.Control] = []
    if item.need.working():
        lines.append(ShowWorking(name, item.need.working, system))
    return [
        *lines,
        FORM.draw(typed, field.key, {field.key: error} if error else {}),
        ft.Row(
            [
                layout.second_button(t("Save this price"), save, disabled=error is not None),
                layout.quiet_button(
                    t("Take it off the list") if item.own else t("Leave it out"), leave_out
                ),
            ],
            wrap=True,
        ),
    ]  # fmt: skip


def _own_line(pond: Pond, typed: Typed, system: str, keep: Keep) -> list[ft.Control]:
    name = typed.text("own_name").strip()
    read = FORM.read(typed.texts, system, only=(COUNT.key,))
    wrong = fields.name_error(name)
    full = len(pond.shopping.own) >= MOST_LINES

    async def add(_: Any) -> None:
        typed.put({**typed.texts, "own_name": "", COUNT.key: ""})
        await keep(
            lambda now: with_own(now, new_id(), name, read.values.get(COUNT.key, 1.0)),
            t("{thing} is on the list.", thing=name),
        )

    return [
        fields.text_field(t("Something else to buy"), typed.text("own_name"),
                          typed.note("own_name"), error=wrong),
        FORM.draw(typed, COUNT.key, read.errors),
        layout.main_button(t("Put it on the list"), add,
                           disabled=not name or full or bool(wrong or read.errors)),
    ]  # fmt: skip


@ft.component
def ShoppingPage() -> Any:
    """Everything to buy for a pond."""
    session = session_now()
    system = session.system
    pond_id = ft.use_route_params().get("pond_id", "")
    typed = use_draft(f"shopping-{pond_id}", {}, FORM)
    pond = session.ponds.get(pond_id)
    if pond is None:
        return layout.no_pond()
    found = bill(worked_now(pond))

    async def keep(change: Change, told: str) -> None:
        await save_change(change(session.ponds[pond_id]), told)

    def tick(item: Item) -> Tick:
        async def handler(ticked: bool) -> None:
            await session.ponds.save(with_tick(session.ponds[pond_id], item.key, ticked))

        return handler

    def open_or_close(item: Item) -> Any:
        field = PRICE_FIELDS[item.need.unit]
        text = field.write(item.line.price, system)
        opened = "" if typed.text("open") == item.key else item.key
        return lambda _: typed.put({**typed.texts, "open": opened, field.key: text})

    def put_back(item: Item) -> Any:
        told = t("{thing} is back on the list.", thing=item_name(item, system))
        return lambda _: ft.context.page.run_task(
            keep, lambda now: with_left_out(now, item.key, False), told
        )

    title = t("{pond}: shopping list", pond=pond.name)
    controls: list[ft.Control] = [_sums(title, found, system)]
    controls += [layout.caution(units.tell(trouble, system)) for trouble in found.troubles]
    if found.heavy:
        controls.append(cautions.lifting())
    for group in GROUPS:
        items = found.group(group)
        if not items:
            continue
        lines: list[ft.Control] = [layout.heading(t(TITLES[group]))]
        for item in items:
            lines.append(item_row(item, system, tick(item), open_or_close(item)))
            if typed.text("open") == item.key:
                lines += _editor(item, typed, system, keep)
        controls.append(layout.card(lines))
    controls += [layout.heading(t("Add a line")), *_own_line(pond, typed, system, keep)]
    if found.left_out:
        controls.append(layout.heading(t("Left out")))
        controls += [
            layout.quiet_button(
                t("Put back: {thing}", thing=item_text(item, system)), put_back(item)
            )
            for item in found.left_out
        ]
    return layout.screen(f"/pond/{pond.id}/shopping", t("Shopping list"), controls)
