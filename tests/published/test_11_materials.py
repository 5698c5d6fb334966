"""Materials: every row of the topic, found by the core or excused."""

import pytest
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters, rows

from pondapp.core.assumptions.materials import MaterialAssumptions
from pondapp.core.filters.bed import bulk_density
from pondapp.core.materials.gravel import gravel_order
from pondapp.core.volume.liner import liner_size, sloped_liner_size

TOPIC = "11 materials"
FOOT = 0.3048  # m
RULES = MaterialAssumptions()


def length(row: Row) -> float:
    given = row.numbers()
    return liner_size(given["length"], 1.0, given["depth"], given["overlap_each"]).length / FOOT


def width(row: Row) -> float:
    given = row.numbers()
    return liner_size(1.0, given["width"], given["depth"], given["overlap_each"]).width / FOOT


def sloped(row: Row) -> float:
    given = row.numbers()
    return sloped_liner_size(
        given["length_top"],
        given["length_top"],
        given["depth"],
        given["side_slope_h_per_v"],
        given["overlap_each"],
    ).length


CHECKS: dict[int, Check] = {
    468: length,
    469: width,
    470: sloped,
    471: lambda _: RULES.gravel_bulk_density,
    472: lambda _: RULES.sandy_gravel_bulk_density,
    473: lambda _: RULES.crushed_stone_bulk_density,
    474: lambda row: gravel_order(row.numbers()["V"], row.numbers()["bulk"], 20.0, 0.0).mass,
    475: lambda row: bulk_density(row.numbers()["rho_s"], row.numbers()["voidage"]),
}

NOT_APPLICABLE: dict[int, str] = {
    476: "a range, not a number; the rules hold its two ends, see the test of the ranges below",
    477: "a rate in words; the rules hold it, see the test of the ranges below",
}


@pytest.mark.published
@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


@pytest.mark.published
def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)


@pytest.mark.published
def test_ranges_and_words_are_the_rules() -> None:
    by_id = {row.id: row for row in rows(TOPIC)}
    assert by_id[476].expected == f"{RULES.cover_min:g}-{RULES.cover_max:g}"
    assert by_id[477].expected.startswith("1 bunch per ft2")
    assert 1.0 / 3.0 < RULES.bunches_per_area * FOOT**2 < 1.0 / 2.0  # other pages print so much
