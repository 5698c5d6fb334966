"""Weirs: every row of the topic, found by the core or excused."""

import pytest
from rows import Check, Row, assert_all_accounted_for, assert_row, parameters

from pondapp.core.spillway.sheet import critical_depth, head_over_lip
from pondapp.core.spillway.weirs import (
    FRANCIS_COEFFICIENT,
    ROOT_FOOT,
    WeirFlow,
    kindsvater_carter_coefficient,
    weir_flow_ackers,
    weir_flow_contracted,
    weir_flow_francis,
    weir_flow_kindsvater_carter,
    weir_flow_rehbock,
)

TOPIC = "3 weir"
US_GALLON = 3.785411784e-3  # m3


def of_basin(row: Row) -> tuple[float, float, float]:
    """Head, width and height of the lip, from the row's letters."""
    given = row.numbers()
    return given["h1"], given["b"], given["h2"]


def per_metre(found: WeirFlow) -> float:
    return 1000.0 * found.flow / found.width  # L/s per metre


def table_constant(row: Row) -> float:
    return kindsvater_carter_coefficient(0.0, row.numbers()["L_over_B"]) / ROOT_FOOT


def francis_table(row: Row) -> float:
    given = row.numbers()
    return weir_flow_francis(given["head"], given["crest"], 2).flow / US_GALLON * 60.0


CHECKS: dict[int, Check] = {
    70: lambda row: weir_flow_contracted(*of_basin(row)).flow,
    73: lambda row: weir_flow_kindsvater_carter(*of_basin(row)).flow,
    74: lambda row: weir_flow_rehbock(*of_basin(row)).flow,
    **dict.fromkeys((76, 77, 78, 79, 80), lambda row: per_metre(weir_flow_rehbock(*of_basin(row)))),
    **dict.fromkeys(
        (82, 83, 84), lambda row: per_metre(weir_flow_kindsvater_carter(*of_basin(row)))
    ),
    **dict.fromkeys((86, 87), lambda row: per_metre(weir_flow_ackers(*of_basin(row)))),
    # A head of one metre over a wide lip shows the bare constant.
    89: lambda _: weir_flow_francis(1.0, 10.0, 0).flow / 10.0 / ROOT_FOOT,
    90: lambda _: FRANCIS_COEFFICIENT,
    **dict.fromkeys(range(91, 99), table_constant),
    99: lambda row: (
        kindsvater_carter_coefficient(row.numbers()["H_over_P"], row.numbers()["L_over_B"])
        / ROOT_FOOT
    ),
    **dict.fromkeys((107, 108, 112, 113, 115), francis_table),
    116: lambda row: critical_depth(row.numbers()["q"]),
    118: lambda row: head_over_lip(row.numbers()["q"], 1.0, row.numbers()["h2"]).head,
}

BRATER_KING = (
    "one cell of a table of measured coefficients of which only a few cells were seen; the core "
    "uses the ideal coefficient of a level crest and does not pretend to the table"
)
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((100, 101, 102, 103, 104), BRATER_KING),
    105: "a bound of that table in SI; the core does not use it",
}


@pytest.mark.published
@pytest.mark.parametrize(("row", "check"), parameters(TOPIC, CHECKS))
def test_row(row: Row, check: Check) -> None:
    assert_row(row, check(row))


@pytest.mark.published
def test_every_row_is_accounted_for() -> None:
    assert_all_accounted_for(TOPIC, CHECKS, NOT_APPLICABLE)
