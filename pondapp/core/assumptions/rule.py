"""One assumption: a number that is a habit, a tolerance or a price, and never a law."""

from dataclasses import dataclass, field
from typing import Any

from pondapp.core.base.working import Source


@dataclass(frozen=True, slots=True)
class Assumption:
    """What is known about one assumption.

    Attributes:
        key: Where it lives, "group.name".
        label: What it is, in words for the screen.
        default: Its value unless the user changed it, in the SI unit.
        unit: SI unit as pint reads it, "-" for none.
        low: Smallest value that makes sense.
        high: Largest value that makes sense.
        source: Where the default comes from.
    """

    key: str
    label: str
    default: float
    unit: str
    low: float
    high: float
    source: Source


def rule(label: str, default: float, unit: str, low: float, high: float, source: Source) -> Any:
    """Make a dataclass field that holds an assumption and remembers what is known about it."""
    if not low <= default <= high:
        raise ValueError(f"{label}: default {default} is outside {low} to {high}")
    about = {
        "default": default,
        "label": label,
        "unit": unit,
        "low": low,
        "high": high,
        "source": source,
    }
    return field(default=default, metadata=about)
