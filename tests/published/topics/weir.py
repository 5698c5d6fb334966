"""Weirs: every row of the topic, found by the core or excused."""

from rows import Check, Row

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


FORMULAS: dict[int, Check] = {
    70: lambda row: weir_flow_contracted(*of_basin(row)).flow,
    73: lambda row: weir_flow_kindsvater_carter(*of_basin(row)).flow,
    74: lambda row: weir_flow_rehbock(*of_basin(row)).flow,
    **dict.fromkeys((76, 77, 78, 79, 80), lambda row: per_metre(weir_flow_rehbock(*of_basin(row)))),
    **dict.fromkeys(
        (82, 83, 84), lambda row: per_metre(weir_flow_kindsvater_carter(*of_basin(row)))
    ),
    **dict.fromkeys((86, 87), lambda row: per_metre(weir_flow_ackers(*of_basin(row)))),
    99: lambda row: (
        kindsvater_carter_coefficient(row.numbers()["H_over_P"], row.numbers()["L_over_B"])
        / ROOT_FOOT
    ),
    **dict.fromkeys((107, 108, 112, 113, 115), francis_table),
    116: lambda row: critical_depth(row.numbers()["q"]),
    118: lambda row: head_over_lip(row.numbers()["q"], 1.0, row.numbers()["h2"]).head,
}

TABLES: dict[int, Check] = {
    89: lambda _: FRANCIS_COEFFICIENT / ROOT_FOOT,
    90: lambda _: FRANCIS_COEFFICIENT,
    **dict.fromkeys(range(91, 99), table_constant),
}

BROAD = "a broad crest, where water clings to a long stone; the core has a sharp edge only"
NOT_APPLICABLE: dict[int, str] = dict.fromkeys(range(100, 106), BROAD)
