"""Conformity: the probability that a measured value lies inside its limits."""

from rows import Check, Row

from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.verdict import Certainty, decide

TOPIC = "15 conformity"
RULE = Certainty(0.95, 0.10, 0.95)


def inside(row: Row) -> float:
    """Flows are never negative, so all are moved up by as much as it takes."""
    given = row.numbers()
    up = 10.0 if given["y"] < 0.0 else 0.0
    limits = (given.get("lower", -up) + up, given["upper"] + up)
    return decide(Spread(given["y"] + up, given["u"]), *limits, RULE).inside


FORMULAS: dict[int, Check] = dict.fromkeys(range(505, 509), inside)
