"""Assumptions about pumps, energy and money."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PumpAssumptions:
    """Assumptions about pumps, energy and money."""
