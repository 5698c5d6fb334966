"""What each part of a pond looks like, in a square of 48 units with its number on top."""

from math import cos, pi, sin
from typing import Literal

from pondapp.answers.features.kind import Symbol
from pondapp.answers.picture.primitives import Shape, area, block, stroke

PartSymbol = Symbol | Literal["pump", "return"]
FINE, BOLD = 1.5, 2.5
HOSE_AT = 5.0
"""Where the hose comes up into a part."""
WATER_AT = 39.0
"""Where its water falls."""
WATER_FROM = 41.0
"""How far down in the square its water begins to fall."""


def _spray(side: int) -> Shape:
    """One arc of a jet, to the right (1) or to the left (-1)."""
    turns = [pi * number / 8 for number in range(9)]
    points = [(24 + side * (8 - 8 * cos(turn)), 40 - 12 * sin(turn)) for turn in turns]
    return stroke("water", BOLD, *points)


_DRAWN: dict[PartSymbol, tuple[Shape, ...]] = {
    "bed": (
        area("ink", (10, 36), (42, 36), (39, 48), (13, 48)),
        stroke("ink", FINE, (18, 36), (16, 27)),
        stroke("ink", FINE, (24, 36), (24, 26)),
        stroke("ink", FINE, (27, 36), (30, 27)),
        stroke("ink", FINE, (35, 36), (37, 28)),
        stroke("water", BOLD, (12, 39), (40, 39)),
    ),
    "box": (
        block("ink", 11, 30, 40, 48),
        stroke("water", BOLD, (13, 34), (38, 34)),
        stroke("gap", FINE, (14, 39), (37, 39)),
        stroke("gap", FINE, (14, 43), (37, 43)),
    ),
    "jars": (
        block("ink", 10, 32, 23, 48),
        block("ink", 27, 32, 40, 48),
        stroke("water", BOLD, (12, 36), (21, 36)),
        stroke("water", BOLD, (29, 36), (38, 36)),
    ),
    "edge": (
        stroke("water", BOLD, (10, 38), (40, 38)),
        block("ink", 9, 40, 38, 44),
        block("ink", 12, 44, 34, 48),
    ),
    "spray": (block("ink", 21, 38, 27, 48), _spray(1), _spray(-1)),
    "mouth": (
        stroke("ink", BOLD, (12, 34), (12, 47), (36, 47), (36, 34)),
        stroke("water", BOLD, (13, 38), (17, 36), (21, 38), (25, 36), (29, 38), (33, 36), (35, 38)),
    ),
    "run": (
        stroke("water", BOLD, (8, 31), (15, 33), (18, 38), (25, 39), (28, 44), (40, 45)),
        stroke("ink", BOLD, (8, 36), (13, 38), (16, 43), (23, 44), (26, 48), (40, 48)),
    ),
    "return": (
        stroke("ink", BOLD, (5, 48), (5, 34), (8, 30), (34, 30), (39, 33), (39, 41)),
    ),
    "pump": (
        block("ink", 10, 32, 37, 48),
        stroke("gap", FINE, (15, 36), (15, 45)),
        stroke("gap", FINE, (20, 36), (20, 45)),
        stroke("gap", FINE, (25, 36), (25, 45)),
        stroke("gap", FINE, (30, 36), (30, 45)),
    ),
}  # fmt: skip


def symbol(of: PartSymbol) -> tuple[Shape, ...]:
    """The drawing of a part."""
    return _DRAWN[of]
