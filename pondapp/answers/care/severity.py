"""How bad something is: four states, the same on every screen."""

from collections.abc import Iterable
from typing import Literal

Severity = Literal["danger", "wrong", "unknown", "right"]
WORST_FIRST: tuple[Severity, ...] = ("danger", "wrong", "unknown", "right")


def worst(found: Iterable[Severity]) -> Severity:
    """The worst of several; right where there is none."""
    return min(found, key=WORST_FIRST.index, default="right")
