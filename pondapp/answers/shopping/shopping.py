"""The shopping list: what the pond asks for, and what its owner made of it."""

from dataclasses import dataclass

from pondapp.answers.pond import WorkedPond
from pondapp.answers.shopping.needed import Group as Group
from pondapp.answers.shopping.needed import Needed, named
from pondapp.answers.shopping.needed import Unit as Unit
from pondapp.answers.shopping.to_buy import needed
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.core.base.working import Step
from pondapp.core.materials.shopping import ShoppingLine, shopping_line, shopping_list
from pondapp.models.pond import OwnItem, Pond, Shopping

OWN = "own."
GRAVEL = "gravel."
MOST_LINES = 200
GROUPS: tuple[Group, ...] = ("pump", "pipe", "parts", "filters", "liner", "plants", "own")


@dataclass(frozen=True, slots=True)
class Item:
    """A line of the list."""

    need: Needed
    line: ShoppingLine
    own: OwnItem | None
    """The line as its owner wrote it, where it does not follow from the pond."""
    ticked: bool
    left_out: bool

    @property
    def key(self) -> str:
        """The key of the thing."""
        return self.need.key


@dataclass(frozen=True, slots=True)
class Bill:
    """The whole list."""

    items: tuple[Item, ...]
    left_out: tuple[Item, ...]
    total: float
    """Cost of all that has a price."""
    to_pay: float
    """Cost of what is not ticked off yet."""
    unpriced: int
    """Lines without a price."""
    open_unpriced: int
    """Those of them that are not ticked off yet."""
    troubles: tuple[Message, ...]
    """Why some lines are missing."""

    def steps(self) -> tuple[Step, ...]:
        """The working of the total."""
        return shopping_list([item.line for item in self.items]).steps()

    @property
    def priced(self) -> bool:
        """Whether anything has a price: without one, a total says nothing."""
        return any(item.line.cost is not None for item in self.items)

    @property
    def heavy(self) -> bool:
        """Whether there is gravel to carry."""
        return any(item.key.startswith(GRAVEL) for item in self.items)

    def group(self, group: Group) -> tuple[Item, ...]:
        """The lines of one group."""
        return tuple(item for item in self.items if item.need.group == group)


def _own(item: OwnItem) -> Needed:
    return Needed(OWN + item.id, "own", named(item.name), item.quantity)


def bill(worked: WorkedPond) -> Bill:
    """The shopping list of a pond as it is now."""
    kept = worked.pond.shopping
    found, troubles = needed(worked)
    own = {OWN + item.id: item for item in kept.own}
    items: list[Item] = []
    for need in (*found, *map(_own, kept.own)):
        price = kept.prices.get(need.key, need.price)
        try:
            line = shopping_line(str(need.name), need.quantity, need.unit, price)
        except PondError as problem:
            troubles = (*troubles, problem.message)
            continue
        ticked, left_out = need.key in kept.ticked, need.key in kept.left_out
        items.append(Item(need, line, own.get(need.key), ticked, left_out))
    listed = tuple(item for item in items if not item.left_out)
    whole = shopping_list([item.line for item in listed])
    open_lines = shopping_list([item.line for item in listed if not item.ticked])
    return Bill(
        items=listed,
        left_out=tuple(item for item in items if item.left_out),
        total=whole.total,
        to_pay=open_lines.total,
        unpriced=len(whole.unpriced),
        open_unpriced=len(open_lines.unpriced),
        troubles=troubles,
    )


def _with(pond: Pond, shopping: Shopping) -> Pond:
    return pond.model_copy(update={"shopping": shopping})


def _switched(keys: tuple[str, ...], key: str, on: bool) -> tuple[str, ...]:
    rest = tuple(other for other in keys if other != key)
    return (*rest, key) if on else rest


def with_price(pond: Pond, key: str, price: float | None) -> Pond:
    """The pond with a price of one SI unit of a thing, or with none of the owner's own."""
    prices = {other: known for other, known in pond.shopping.prices.items() if other != key}
    if price is not None:
        prices[key] = price
    return _with(pond, pond.shopping.model_copy(update={"prices": prices}))


def with_tick(pond: Pond, key: str, ticked: bool) -> Pond:
    """The pond with a thing ticked off, or not."""
    keys = _switched(pond.shopping.ticked, key, ticked)
    return _with(pond, pond.shopping.model_copy(update={"ticked": keys}))


def with_left_out(pond: Pond, key: str, left_out: bool) -> Pond:
    """The pond with a thing left out of its list, or back on it."""
    keys = _switched(pond.shopping.left_out, key, left_out)
    return _with(pond, pond.shopping.model_copy(update={"left_out": keys}))


def with_own(pond: Pond, item_id: str, name: str, quantity: float) -> Pond:
    """The pond with a line of its owner's own."""
    item = OwnItem(id=item_id, name=name, quantity=quantity)
    return _with(pond, pond.shopping.model_copy(update={"own": (*pond.shopping.own, item)}))


def without_own(pond: Pond, key: str) -> Pond:
    """The pond without one of its owner's own lines, its price and its tick."""
    own = tuple(item for item in pond.shopping.own if OWN + item.id != key)
    bare = with_left_out(with_tick(with_price(pond, key, None), key, False), key, False)
    return _with(bare, bare.shopping.model_copy(update={"own": own}))
