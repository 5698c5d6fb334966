"""Assumptions about timing, containers and readings."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class MeasuringAssumptions:
    """Assumptions about timing, containers and readings."""
