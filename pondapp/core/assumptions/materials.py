"""Assumptions about liner, gravel and plants."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class MaterialAssumptions:
    """Assumptions about liner, gravel and plants."""
