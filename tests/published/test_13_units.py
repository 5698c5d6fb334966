"""Units: the definitions that everything typed and shown relies on, against the rows."""

from functools import cache

import pint
import pytest
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters

TOPIC = "13 units"


@cache
def registry() -> pint.UnitRegistry:
    return pint.UnitRegistry(cache_folder=None)


def one(unit: str, shown: str, amount: float = 1.0) -> Check:
    def check(_: Row) -> float:
        return float(registry().Quantity(amount, unit).to(shown).magnitude)

    return check


CHECKS: dict[int, Check] = {
    482: one("gallon", "liter"),
    483: one("imperial_gallon", "liter"),
    484: one("foot**3", "liter"),
    485: one("yard**3", "liter"),
    486: one("gallon", "inch**3"),
    487: one("gallon", "liter"),
    488: one("imperial_gallon", "liter"),
    489: one("foot**3", "gallon"),
    490: one("liter/hour", "gallon/hour", 1000.0),
    491: one("liter/hour", "imperial_gallon/hour", 1000.0),
    492: one("gallon/minute", "liter/hour"),
    493: one("psi", "pascal"),
    494: one("foot * g_0 * kilogram/meter**3", "pascal", 1000.0),
    495: one("foot * force_pound / second", "watt", 550.0),
    # The library's acre goes by the surveyor's foot and differs in the sixth digit.
    496: one("foot**2", "meter**2", 43560.0),
}

NOT_APPLICABLE: dict[int, str] = {}


@pytest.mark.published
@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


@pytest.mark.published
def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)
