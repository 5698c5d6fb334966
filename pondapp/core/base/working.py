"""How a result was found, as data: a screen shows it, a test reads it."""

from dataclasses import dataclass
from typing import Literal

Status = Literal[
    "published",  # printed in a named document that was seen
    "computed",  # follows from a named library or plain arithmetic on a published formula
    "common practice",  # a habit of the trade; nobody published it
    "rule of thumb",  # a figure that people use; no document that prints it was found
    "from memory",  # the document is known, the value was not seen in it
    "entered",  # the user's own number
]


@dataclass(frozen=True, slots=True)
class Source:
    """Where a formula or a value comes from."""

    text: str
    status: Status


COMMON_PRACTICE = Source("common practice, no source", "common practice")
ARITHMETIC = Source("arithmetic", "computed")
ENTERED = Source("entered by you", "entered")


@dataclass(frozen=True, slots=True)
class Term:
    """One quantity in a step: its letter, what it means, its value in SI."""

    symbol: str
    meaning: str
    value: float
    unit: str


@dataclass(frozen=True, slots=True)
class Step:
    """One line of working: result = formula, with what went in and where the formula is from."""

    result: Term
    formula: str
    inputs: tuple[Term, ...]
    source: Source
