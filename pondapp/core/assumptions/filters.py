"""Assumptions about filters and turnover."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class FilterAssumptions:
    """Assumptions about filters and turnover."""
