"""How bad something is: four states, the same on every screen."""

from typing import Literal

Severity = Literal["danger", "wrong", "unknown", "right"]
WORST_FIRST: tuple[Severity, ...] = ("danger", "wrong", "unknown", "right")
