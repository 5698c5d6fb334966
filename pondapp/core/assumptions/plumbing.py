"""Assumptions about pipes, hoses and fittings."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class PlumbingAssumptions:
    """Assumptions about pipes, hoses and fittings."""
