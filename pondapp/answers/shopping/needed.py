"""One thing to buy, as it follows from the pond."""

from dataclasses import dataclass, field
from typing import Literal

from pondapp.answers.rules.working import Working, no_steps
from pondapp.core.base.messages import Amount, Message
from pondapp.core.materials.plants import PlantCount

Group = Literal["pump", "pipe", "parts", "filters", "liner", "plants", "own"]
Unit = Literal["-", "m", "m2", "m3"]


@dataclass(frozen=True, slots=True)
class Needed:
    """One thing to buy."""

    key: str
    """The same as long as it is the same thing, whatever its quantity."""
    group: Group
    name: Message
    quantity: float
    unit: Unit = "-"
    remark: Message | None = None
    price: float | None = None
    """Price of one SI unit, where it was entered elsewhere."""
    working: Working = field(default=no_steps, compare=False, repr=False)
    counted: Message | None = None
    """Name and number in one, where the thing has a plural."""


def named(name: str) -> Message:
    """A name that the user gave, whatever signs it holds."""
    return Message("{name}", {"name": name})


def planted(
    key: str, name: Message, several: Message, count: PlantCount, words: str = "For {area}."
) -> Needed:
    """Plants to buy for an area."""
    remark = Message(words, {"area": Amount(count.area, "m2")})
    return Needed(
        key, "plants", name, float(count.count), remark=remark, working=count.steps,
        counted=several,
    )  # fmt: skip
