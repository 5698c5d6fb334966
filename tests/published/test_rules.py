"""Rules of thumb that must lie where documents leave room for them."""

from rows import all_rows

from pondapp.core.assumptions.materials import MaterialAssumptions
from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.dosing.dechlorinator import thiosulfate_ratio

STOCK = StockAssumptions()
SQUARE_FOOT = 0.3048**2  # m2


def test_baths_begin_where_ponds_end() -> None:
    bath = next(row for row in all_rows() if row.id == 452).expected
    assert float(bath.partition("-")[0]) == STOCK.salt_most


def test_field_values_lie_between_the_two_reactions() -> None:
    for ratio in (STOCK.thiosulfate_ratio, STOCK.thiosulfate_ratio_neutral):
        assert thiosulfate_ratio(True, "sulfate") < ratio
        assert ratio < thiosulfate_ratio(True, "tetrathionate") * 1.001


def test_bunches_are_one_for_two_to_three_square_feet() -> None:
    assert 2.0 < 1.0 / (MaterialAssumptions().bunches_per_area * SQUARE_FOOT) < 3.0
