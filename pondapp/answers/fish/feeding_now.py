"""How to feed now: by the water's temperature, unless its tests say to feed less or nothing."""

from collections.abc import Iterable
from datetime import datetime
from typing import NamedTuple

from pondapp.answers.log.log import LogItem
from pondapp.answers.log.water_tests import standing
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.messages import Message
from pondapp.core.stock.feed import feeding
from pondapp.core.stock.span import NOTHING
from pondapp.models.pond import Pond

MOST_WARMTH = 40.0 + ZERO_CELSIUS
"""As far as the chart of rations reaches [K]."""


class FeedingNow(NamedTuple):
    """How to feed, and the temperature [K] that says so."""

    temperature: float
    advice: tuple[Message, ...]
    fed: bool
    """Whether they are fed at all: neither chart nor tests forbid it."""


def feeding_now(
    pond: Pond, newest_first: Iterable[LogItem], now: datetime, temperature: float | None = None
) -> FeedingNow:
    """How to feed in the water as it is now.

    Args:
        pond: The pond.
        newest_first: Its log.
        now: The time of now.
        temperature: Of the water [K]; else as tested lately, else the pond's usual one.

    Raises:
        PondError: A temperature or a changed rule cannot be.
    """
    found = standing(pond, newest_first, now)
    if temperature is None:
        tested = found.test.temperature_c if found.test else None
        warmth = pond.water_temperature_c if tested is None else tested
        temperature = min(max(warmth + ZERO_CELSIUS, ZERO_CELSIUS), MOST_WARMTH)
    chart = feeding(NOTHING, temperature, Assumptions().with_overrides(pond.assumptions).stock)
    meals = any(chart.meals)
    against = found.against_feeding(pond) if meals else ()
    return FeedingNow(temperature, against or (chart.advice,), meals and not against)
