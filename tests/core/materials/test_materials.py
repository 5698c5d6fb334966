"""Gravel, plants, liner and the shopping list."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.materials import MaterialAssumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.materials.gravel import gravel_order
from pondapp.core.materials.plants import plants_for_area, shaded_area
from pondapp.core.materials.shopping import shopping_line, shopping_list
from pondapp.core.volume.liner import liner_size

RULES = MaterialAssumptions()


@settings(max_examples=50)
@given(st.floats(1e-3, 100.0), st.floats(5.0, 1000.0), st.floats(0.0, 0.5))
def test_bags_are_enough_and_not_one_too_many(volume: float, bag: float, spare: float) -> None:
    order = gravel_order(volume, RULES.gravel_bulk_density, bag, spare)
    assert order.bags * bag >= order.mass * (1 - 1e-8)
    assert (order.bags - 1) * bag < order.mass
    assert order.mass == pytest.approx(volume * (1 + spare) * RULES.gravel_bulk_density)
    assert [s.result.value for s in order.steps()] == [order.volume, order.mass, order.bags]


def test_whole_bags_are_not_rounded_up_by_a_float() -> None:
    assert gravel_order(0.3, 1000.0, 0.1, 0.0).bags == 3000  # 0.3 * 1000 / 0.1 is a hair over
    assert gravel_order(0.1, 1600.0, 20.0, 0.0).bags == 8
    assert gravel_order(0.1, 1601.0, 20.0, 0.0).bags == 9


@settings(max_examples=40)
@given(st.floats(0.01, 1000.0), st.floats(0.1, 50.0))
def test_plants_are_whole_and_enough(area: float, per_area: float) -> None:
    plants = plants_for_area(area, per_area)
    assert plants.count >= 1
    assert plants.count - 1 < area * per_area <= plants.count * (1 + 1e-8)
    assert plants.steps()[0].result.value == plants.count


def test_shade() -> None:
    shade = shaded_area(12.0, RULES.cover_min, RULES.cover_max)
    assert (shade.low, shade.high) == pytest.approx((6.0, 8.4))
    assert [step.result.value for step in shade.steps()] == [shade.low, shade.high]
    with pytest.raises(OutOfRange):
        shaded_area(12.0, 0.7, 0.5)


def test_list_adds_what_has_a_price_and_names_what_has_none() -> None:
    sheet = liner_size(4.0, 3.0, 1.0, RULES.liner_overlap)
    liner = shopping_line("Liner", sheet.area, "m2", 8.0)
    underlay = shopping_line("Underlay", sheet.area, "m2", None)
    found = shopping_list([liner, underlay, shopping_line("Pump", 1.0, "-", 120.0)])
    assert found.total == pytest.approx(36.96 * 8 + 120)
    assert found.unpriced == ("Underlay",)
    assert str(found.warnings[0]).startswith("1 of 3 lines")
    assert found.steps()[0].result.value == found.total


def test_an_empty_list_costs_nothing() -> None:
    assert shopping_list([]).total == 0.0
    assert shopping_list([]).warnings == ()


@settings(max_examples=40)
@given(st.lists(st.tuples(st.floats(0.0, 1e3), st.floats(0.0, 1e3)), max_size=8))
def test_total_does_not_depend_on_the_order(pairs: list[tuple[float, float]]) -> None:
    lines = [shopping_line("thing", amount, "-", price) for amount, price in pairs]
    assert shopping_list(lines).total == pytest.approx(shopping_list(lines[::-1]).total)


Call = Callable[[float], object]
CALLS: dict[str, Call] = {
    "gravel volume": lambda x: gravel_order(x, 1500.0, 20.0, 0.0),
    "gravel density": lambda x: gravel_order(1.0, x, 20.0, 0.0),
    "gravel bag": lambda x: gravel_order(1.0, 1500.0, x, 0.0),
    "gravel spare": lambda x: gravel_order(1.0, 1500.0, 20.0, x),
    "plants area": lambda x: plants_for_area(x, 5.0),
    "plants per area": lambda x: plants_for_area(1.0, x),
    "shade surface": lambda x: shaded_area(x, 0.5, 0.7),
    "shade low": lambda x: shaded_area(1.0, x, 0.7),
    "shade high": lambda x: shaded_area(1.0, 0.5, x),
    "quantity": lambda x: shopping_line("thing", x, "-", 1.0),
    "price": lambda x: shopping_line("thing", 1.0, "-", x),
}


@pytest.mark.parametrize("bad", [-1.0, math.nan, math.inf, 1e9])
@pytest.mark.parametrize("name", CALLS)
def test_numbers_out_of_range_are_refused(name: str, bad: float) -> None:
    with pytest.raises(OutOfRange):
        CALLS[name](bad)
