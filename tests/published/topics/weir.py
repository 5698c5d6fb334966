"""Weirs: every row of the topic, found by the core or excused."""

from rows import Check, Row

from pondapp.core.spillway.sheet import critical_depth, head_over_lip
from pondapp.core.spillway.weirs import WeirFlow, weir_flow_rehbock

TOPIC = "3 weir"


def rehbock(row: Row) -> WeirFlow:
    given = row.numbers()
    return weir_flow_rehbock(given["h1"], given["b"], given["h2"])


FORMULAS: dict[int, Check] = {
    74: lambda row: rehbock(row).flow,
    **dict.fromkeys(
        (76, 77, 78, 79, 80), lambda row: 1000.0 * rehbock(row).flow / row.numbers()["b"]
    ),
    116: lambda row: critical_depth(row.numbers()["q"]),
    118: lambda row: head_over_lip(row.numbers()["q"], 1.0, row.numbers()["h2"]).head,
}

REHBOCK_ONLY = "another formula for a sharp edge; the app computes Rehbock's alone"
BROAD = "a broad crest, where water clings to a long stone; the app has a sharp edge only"
NOT_APPLICABLE: dict[int, str] = {
    **dict.fromkeys((70, 73, 82, 83, 84, 86, 87, *range(89, 100)), REHBOCK_ONLY),
    **dict.fromkeys(range(100, 106), BROAD),
    **dict.fromkeys((107, 108, 112, 113, 115), REHBOCK_ONLY),
}
