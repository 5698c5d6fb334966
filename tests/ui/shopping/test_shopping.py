"""The shopping list as plain text."""

import asyncio
import re

import pytest
from drawn import Screen

from pondapp import words
from pondapp.answers.pond import WorkedPond
from pondapp.answers.sharing.example import EXAMPLE, example_pond
from pondapp.answers.shopping.shopping import bill, with_price, with_tick
from pondapp.models.circuit import BogFilter
from pondapp.ui.shopping.shopping import ShoppingPage
from pondapp.ui.shopping.shopping_line import (
    PRICE_FIELDS,
    QUANTITY_KINDS,
    item_text,
    list_text,
)
from pondapp.units import KINDS


def test_the_text_has_every_line_its_tick_and_its_cost() -> None:
    pond = with_tick(with_price(example_pond(), "liner.basin", 10.0), "pump.middle", True)
    text = list_text("Corner", bill(WorkedPond(pond)), "metric")
    assert text.startswith("Corner\n\nPump\n[x] 1 × Mid-size pump: 140.00\n")
    assert "[ ] Liner for Pond, 23.8 m²: 237.60\n    A sheet of 5.4 m by 4.4 m.\n" in text
    assert text.endswith("\n\nSo far: 377.60\nLines without a price: 17")
    assert len([line for line in text.splitlines() if line.startswith("[")]) == 19


def test_in_us_units() -> None:
    text = list_text("Corner", bill(WorkedPond(example_pond())), "us")
    assert "Hose, 1 in, 9.8 ft" in text
    assert "256 ft²" in text


@pytest.mark.parametrize(
    ("language", "told"),
    [
        ("en", ("1 bag of gravel", "2 bags of gravel", "5 bags of gravel", "22 bags of gravel")),
        ("de", ("1 Sack Kies", "2 Säcke Kies", "5 Säcke Kies", "22 Säcke Kies")),
        ("pl", ("1 worek żwiru", "2 worki żwiru", "5 worków żwiru", "22 worki żwiru")),
    ],
)
def test_what_is_counted_is_told_in_the_form_that_goes_with_its_number(
    language: str, told: tuple[str, ...]
) -> None:
    words.set_language(language)
    try:
        for bags, text in zip((1, 2, 5, 22), told, strict=True):
            bog = BogFilter(
                id="bog", name="Bog", bed_volume_m3=(bags - 0.5) * 20 / 1520 / 1.05 / 0.7
            )
            pond = example_pond().model_copy(update={"fed": (bog,), "lines": ()})
            (item,) = [one for one in bill(WorkedPond(pond)).items if one.key.startswith("gravel.")]
            assert item_text(item, "metric").startswith(text), bags
    finally:
        words.set_language("en")


def test_every_line_of_the_example_reads_with_its_number() -> None:
    items = bill(WorkedPond(example_pond())).items
    pieces = [item_text(one, "metric") for one in items if one.need.unit == "-"]
    assert pieces
    for text in pieces:
        assert re.match(r"[\d,]+ (× [A-Z]|bags? of|plants? for|bunch(es)? of)", text), text


def test_every_unit_has_a_price_of_one() -> None:
    assert set(PRICE_FIELDS) == set(QUANTITY_KINDS)
    for unit, field in PRICE_FIELDS.items():
        assert KINDS[field.kind].si == ("-" if unit == "-" else f"1/{unit}")


def test_a_sum_that_lacks_prices_says_so_far(screen: Screen) -> None:
    screen.open(ShoppingPage, pond_id=EXAMPLE)
    assert "\nSo far\n" in f"\n{screen.text()}"
    assert "Not ticked off yet" not in screen.text(), "nothing is ticked: it is the same sum"
    pond = screen.session.ponds[EXAMPLE]
    (pump,) = (one.key for one in bill(WorkedPond(pond)).items if one.line.cost is not None)
    pond = with_tick(pond, pump, True)
    asyncio.run(screen.session.ponds.save(pond))
    assert "Not ticked off yet\n0.00\nSo far\nLines without a price: 18" in screen.text()


def test_without_any_price_no_sum_is_told() -> None:
    bare = example_pond().model_copy(
        update={
            "pumps": tuple(one.model_copy(update={"price": None}) for one in example_pond().pumps)
        }
    )
    text = list_text("Corner", bill(WorkedPond(bare)), "metric")
    assert "No prices yet\nLines without a price: 19" in text
    assert "0.00" not in text


def test_the_way_to_leave_a_line_out_is_said(monkeypatch: pytest.MonkeyPatch) -> None:
    screen = Screen(monkeypatch)
    screen.open(ShoppingPage, pond_id=EXAMPLE)
    assert "to leave that line out" in screen.text()
