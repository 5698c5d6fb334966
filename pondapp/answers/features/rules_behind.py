"""The rules of thumb behind a feature's band: name, value in words, source."""

from dataclasses import dataclass
from math import isclose

from pondapp import units
from pondapp.answers.features.kinds import KINDS, PUMP, PUMP_RULES
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import HOUR
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Source
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class RuleBehind:
    """One rule in force."""

    label: str
    value: Message
    source: Source
    changed: bool
    """Whether the user changed it for this pond."""


def _in_words(value: float, unit: str) -> Message:
    if unit == "1/s":
        an_hour = value * HOUR
        if isclose(an_hour, 1.0):
            return Message("once an hour")
        return Message("{number} times an hour", {"number": units.significant(an_hour)})
    return Message("{value}", {"value": Amount(value, unit)})


def rules_behind(pond: Pond, kind: str) -> tuple[RuleBehind, ...]:
    """The rules behind the band of a feature of this kind or of a pump, as they are in force.

    Raises:
        PondError: A changed rule is outside its range; the message says which.
    """
    rules = Assumptions().with_overrides(pond.assumptions)
    known = {item.key: item for item in rules.known()}
    return tuple(
        RuleBehind(
            label=known[key].label,
            value=_in_words(rules.value(key), known[key].unit),
            source=known[key].source,
            changed=key in pond.assumptions,
        )
        for key in (PUMP_RULES if kind == PUMP else KINDS[kind].rules)
    )
