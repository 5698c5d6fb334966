"""Assumptions about waterfall sheets and streams."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class WaterfallAssumptions:
    """Assumptions about waterfall sheets and streams."""
