"""Lines of a shopping list for a sheet of liner and what lies under it."""

from pondapp.core.materials.shopping import ShoppingLine, shopping_line
from pondapp.core.volume.liner import LinerSize


def liner_lines(
    sheet: LinerSize, liner_price: float | None, underlay_price: float | None
) -> tuple[ShoppingLine, ShoppingLine]:
    """Liner and underlay of the same size.

    Args:
        sheet: The sheet [m2].
        liner_price: Price of liner per area in the buyer's currency [1/m2], 0 to 1e7, or None.
        underlay_price: Price of underlay per area [1/m2], 0 to 1e7, or None.

    Returns:
        A line [m2] for each.

    Raises:
        OutOfRange: A price is outside its range, or the sheet is larger than 1e6 m2.

    Source:
        Underlay under the whole sheet: common practice.
    """
    return (
        shopping_line("Liner", sheet.area, "m2", liner_price),
        shopping_line("Underlay", sheet.area, "m2", underlay_price),
    )
