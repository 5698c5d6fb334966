"""Sentences with numbers in them, as data.

The core speaks in templates and SI amounts. Whoever shows a sentence may translate the template
and put the amounts into the reader's own units before filling it in.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import NamedTuple


class Amount(NamedTuple):
    """A number with its SI unit, written so that pint reads it ("m3/s", "m", "-" for none).

    A "share" has no unit either; it is told in per cent. A "width", a "bore" and a "small" length
    are metres that people measure in smaller units than a pond; "nominal" is the bore of a hose
    that is called by its size in a shop; "money" is a sum in the reader's currency.
    """

    value: float
    unit: str

    def __str__(self) -> str:
        if self.unit == "share":
            return f"{100.0 * self.value:.4g} %"
        unit = "m" if self.unit in ("width", "bore", "small", "nominal") else self.unit
        return f"{self.value:.4g}" if unit in ("-", "money") else f"{self.value:.4g} {unit}"


class Range(NamedTuple):
    """Two numbers in one SI unit, as an `Amount` has it: what lies anywhere between them."""

    low: float
    high: float
    unit: str

    def __str__(self) -> str:
        low, high = (str(Amount(end, self.unit)) for end in (self.low, self.high))
        return f"{low} to {high}"


class Phrase(str):
    """A text made of a template and other texts, which remembers both, for another language."""

    template: str
    values: Mapping[str, str]


def phrase(template: str, **values: str) -> Phrase:
    """A part of a sentence with a name in it: "flow of {name}"."""
    made = Phrase(template.format_map(values))
    made.template, made.values = template, values
    return made


Value = Amount | Range | str


@dataclass(frozen=True, slots=True)
class Message:
    """A sentence: a template with named places, and what goes into them.

    Attributes:
        template: The sentence; where it counts something, the one for a count of 1.
        values: What goes into its places.
        many: Where it counts something, the sentence for every other count.
        count: What it counts.
    """

    template: str
    values: Mapping[str, Value] = field(default_factory=dict)
    many: str = ""
    count: int = 1

    def __str__(self) -> str:
        template = self.many if self.many and self.count != 1 else self.template
        return template.format_map({key: str(value) for key, value in self.values.items()})


def counted(one: str, many: str, count: int, values: Mapping[str, Value] | None = None) -> Message:
    """A sentence that depends on a count, which also fills its place {count}."""
    return Message(one, {"count": str(count), **(values or {})}, many, count)
