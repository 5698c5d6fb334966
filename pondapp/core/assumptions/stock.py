"""Assumptions about fish, feed and water chemistry."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class StockAssumptions:
    """Assumptions about fish, feed and water chemistry."""
