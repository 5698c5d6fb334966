"""The shopping list as plain text."""

from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import example_pond
from pondapp.answers.shopping.shopping import bill, with_price, with_tick
from pondapp.ui.shopping.shopping_line import PRICE_FIELDS, QUANTITY_KINDS, list_text
from pondapp.units import KINDS


def test_the_text_has_every_line_its_tick_and_its_cost() -> None:
    pond = with_tick(with_price(example_pond(), "liner.basin", 10.0), "pump.middle", True)
    text = list_text("Corner", bill(WorkedPond(pond)), "metric")
    assert text.startswith("Corner\n\nPump\n[x] 1 Middle one: 140.00\n")
    assert "[ ] Liner for Pond, 23.8 m²: 237.60\n    A sheet of 5.4 m by 4.4 m.\n" in text
    assert text.endswith("Total of what has a price: 377.60")
    assert len([line for line in text.splitlines() if line.startswith("[")]) == 17


def test_in_us_units() -> None:
    text = list_text("Corner", bill(WorkedPond(example_pond())), "us")
    assert "Hose, 1 in, 9.8 ft" in text
    assert "256 ft²" in text


def test_every_unit_has_a_price_of_one() -> None:
    assert set(PRICE_FIELDS) == set(QUANTITY_KINDS)
    for unit, field in PRICE_FIELDS.items():
        assert KINDS[field.kind].si == ("-" if unit == "-" else f"1/{unit}")
