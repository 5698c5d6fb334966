"""The plate that a part's number stands on: its outline says how bad it is, without colour too."""

from math import cos, pi, sin

from pondapp.answers.care.severity import Severity
from pondapp.answers.picture.primitives import Box, Point

RADIUS = 11.5 / 48
"""Of a plate, as a share of the part's side."""
CORNERS: dict[Severity, int] = {"danger": 8, "wrong": 4, "unknown": 32, "right": 32}
"""A stop sign, a sign of caution, a disc."""
TURNED: dict[Severity, float] = {"danger": pi / 8, "wrong": 0.0, "unknown": 0.0, "right": 0.0}
UNSURE: Severity = "unknown"
"""Its rim is dashed: nobody has seen yet how it is."""
LARGER = 1.15
"""A square on its tip has less room than a disc."""


def radius_of(box: Box) -> float:
    """Half the height of the plate in a part's box."""
    return box.side * RADIUS


def outline(severity: Severity, x: float, y: float, radius: float) -> list[Point]:
    """The corners of a plate about its middle."""
    corners = CORNERS[severity]
    reach = radius * (LARGER if corners == 4 else 1.0)
    turns = (2 * pi * number / corners + TURNED[severity] for number in range(corners))
    return [(x + reach * sin(turn), y - reach * cos(turn)) for turn in turns]
