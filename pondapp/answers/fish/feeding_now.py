"""How to feed now: by the water's temperature, unless its tests say to feed less or nothing.

And less than that where filter or oxygen may not carry the fish.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import NamedTuple

from pondapp.answers.fish.stock import stock
from pondapp.answers.log.log import LogItem
from pondapp.answers.log.water_tests import standing
from pondapp.answers.picture.standing_flows import standing_flows
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.constants import ZERO_CELSIUS
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.core.stock.feed import feeding
from pondapp.core.stock.span import NOTHING

MOST_WARMTH = 40.0 + ZERO_CELSIUS
"""As far as the chart of rations reaches [K]."""


LESS = Message("Filter or oxygen may not carry these fish: give less until they do.")


class FeedingNow(NamedTuple):
    """How to feed, what matters most first, and the temperature [K] that says so."""

    temperature: float
    advice: tuple[Message, ...]


def feeding_now(
    worked: WorkedPond, log: Sequence[LogItem], now: datetime, temperature: float | None = None
) -> FeedingNow:
    """How to feed in the water as it is now.

    Args:
        worked: The pond.
        log: Its log, newest first.
        now: The time of now.
        temperature: Of the water [K]; else as tested lately, else the pond's usual one.

    Raises:
        PondError: A temperature or a changed rule cannot be.
    """
    pond = worked.pond
    found = standing(pond, log, now)
    if temperature is None:
        tested = found.test.temperature_c if found.test else None
        warmth = pond.water_temperature_c if tested is None else tested
        temperature = min(max(warmth + ZERO_CELSIUS, ZERO_CELSIUS), MOST_WARMTH)
    chart = feeding(NOTHING, temperature, worked.rules.stock)
    if not any(chart.meals):
        return FeedingNow(temperature, (chart.advice,))
    if against := found.against_feeding(pond):
        return FeedingNow(temperature, against)
    less = () if _carried(worked, log, now) else (LESS,)
    return FeedingNow(temperature, (chart.advice, *less))


def _carried(worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> bool:
    """Whether filter and oxygen carry the fish of now, in the pond's usual water."""
    if not worked.pond.fish:
        return True
    try:
        return stock(worked, grown=False, flows=standing_flows(worked, log, now)).usual.good
    except PondError:  # the screen of the fish says why
        return False
