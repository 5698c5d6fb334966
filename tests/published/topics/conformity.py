"""Conformity: the probability that a measured value lies inside its limits."""

from rows import Check

TOPIC = "15 conformity"
NONE = "a probability of conformity; a verdict here rests on the interval alone"

FORMULAS: dict[int, Check] = {}
TABLES: dict[int, Check] = {}
NOT_APPLICABLE: dict[int, str] = dict.fromkeys(range(505, 509), NONE)
