"""One shopping list: what, how much, at what price, and what it comes to."""

from collections.abc import Sequence
from dataclasses import dataclass

from pondapp.core.base.errors import require_within
from pondapp.core.base.messages import Amount, Message, counted
from pondapp.core.base.working import ARITHMETIC, Step, Term


@dataclass(frozen=True, slots=True)
class ShoppingLine:
    """One thing to buy. Prices are in the buyer's own currency and so have no unit.

    Attributes:
        name: What it is.
        quantity: How much of it, in the unit.
        unit: SI unit of the quantity as pint reads it, "-" for pieces.
        price: Price of one unit, or None when it is not known yet.
        cost: Price of the line, or None.
    """

    name: str
    quantity: float
    unit: str
    price: float | None
    cost: float | None


def shopping_line(name: str, quantity: float, unit: str, price: float | None) -> ShoppingLine:
    """One thing to buy.

    Args:
        name: What it is.
        quantity: How much of it, 0 to 1e6.
        unit: SI unit of the quantity as pint reads it, "-" for pieces.
        price: Price of one unit in the buyer's currency [-], 0 to 1e7, or None.

    Returns:
        The line with its cost [-].

    Raises:
        OutOfRange: The quantity or the price is outside its range.

    Source:
        Arithmetic.

    Example:
        37 m² of liner at 8.50 each:

        >>> shopping_line("Liner", 37.0, "m2", 8.50).cost
        314.5
    """
    require_within("quantity", quantity, 0.0, 1e6, unit)
    if price is None:
        return ShoppingLine(name, quantity, unit, None, None)
    require_within("price", price, 0.0, 1e7, "-")
    return ShoppingLine(name, quantity, unit, price, quantity * price)


@dataclass(frozen=True, slots=True)
class ShoppingList:
    """Everything to buy.

    Attributes:
        lines: The lines, as given.
        total: Cost of all lines that have a price.
        unpriced: Names of the lines without one.
        warnings: That the total is not complete; mostly empty.
    """

    lines: tuple[ShoppingLine, ...]
    total: float
    unpriced: tuple[str, ...]
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        costs = tuple(
            Term("c", line.name, line.cost, "-") for line in self.lines if line.cost is not None
        )
        total = Term("C", "cost of all that has a price", self.total, "-")
        return (Step(total, "C = sum of the lines", costs, ARITHMETIC),)


def shopping_list(lines: Sequence[ShoppingLine]) -> ShoppingList:
    """Put lines together into a list with a total.

    Args:
        lines: The lines, none or more.

    Returns:
        The list with its total [-], and a warning while prices are missing.

    Source:
        Arithmetic.

    Example:
        >>> pump = shopping_line("Pump", 1.0, "-", 120.0)
        >>> hose = shopping_line("Hose", 6.0, "m", None)
        >>> found = shopping_list([pump, hose])
        >>> found.total, found.unpriced
        (120.0, ('Hose',))
    """
    unpriced = tuple(line.name for line in lines if line.cost is None)
    warnings: tuple[Message, ...] = ()
    if unpriced:
        warnings = (
            counted(
                "{count} of {all} lines has no price yet; the total leaves it out",
                "{count} of {all} lines have no price yet; the total leaves them out",
                len(unpriced),
                {"all": Amount(float(len(lines)), "-")},
            ),
        )
    total = sum(line.cost for line in lines if line.cost is not None)
    return ShoppingList(tuple(lines), float(total), unpriced, warnings)
