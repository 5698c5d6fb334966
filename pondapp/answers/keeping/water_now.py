"""What is known of a pond's water now, as far as its log still holds."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.log.entries import values_in
from pondapp.answers.log.log import LogItem
from pondapp.answers.log.water_tests import standing
from pondapp.core.base.constants import COLDEST, WARMEST, ZERO_CELSIUS
from pondapp.models.pond import Pond


@dataclass(frozen=True, slots=True)
class WaterNow:
    """The water of now.

    Attributes:
        values: Values of the tests that still hold, in SI, by their names in the log.
        read_at: When each was read.
        temperature: Of the water [K]: as tested, or the pond's usual one.
        tested: Whether the temperature was tested.
    """

    values: Mapping[str, float]
    read_at: Mapping[str, datetime]
    temperature: float
    tested: bool


def water_now(pond: Pond, newest_first: Sequence[LogItem], now: datetime) -> WaterNow:
    """What the tests of the log say of the water, as long as they are not too old.

    Raises:
        PondError: A changed rule cannot be.
    """
    found = standing(pond, newest_first, now)
    values = values_in(found.test) if found.test else {}
    warmth = values.get("temperature", pond.water_temperature_c + ZERO_CELSIUS)
    # The water under ice reads a hair below zero, where no formula reaches.
    warmth = min(max(warmth, COLDEST), WARMEST)
    return WaterNow(values, found.read_at, warmth, "temperature" in values)
