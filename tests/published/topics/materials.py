"""Materials: every row of the topic, found by the core or excused."""

from rows import FOOT, Check, Row

from pondapp.core.assumptions.materials import MaterialAssumptions
from pondapp.core.materials.gravel import gravel_order
from pondapp.core.volume.liner import liner_size, sloped_liner_size

TOPIC = "11 materials"
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


FORMULAS: dict[int, Check] = {
    468: length,
    469: width,
    470: sloped,
    474: lambda row: gravel_order(row.numbers()["V"], row.numbers()["bulk"], 20.0, 0.0).mass,
}

TABLES: dict[int, Check] = {
    471: lambda _: RULES.gravel_bulk_density,
    476: lambda _: (RULES.cover_min, RULES.cover_max),
}

NOT_APPLICABLE: dict[int, str] = {
    472: "gravel with sand: the app weighs loose dry gravel alone",
    473: "crushed stone: the app weighs loose dry gravel alone",
    475: "weight from stone and gaps: the app does not compute this, it has the weight as sold",
    477: "one nursery; others print one bunch for two to three square feet, which is the rule here",
}
