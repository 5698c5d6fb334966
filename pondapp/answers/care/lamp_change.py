"""When the UV lamp that is kept with a pond is to be changed."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta

from pondapp.answers.log.dates import local
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.models.pond import Pond
from pondapp.words import as_day

LATEST_LIT = timedelta(days=36500)


@dataclass(frozen=True, slots=True)
class LampChange:
    """When, and whether that day has come."""

    day: date
    is_due: bool
    sentence: Message


def change_day(since: date, life: float) -> date:
    """Until when a lamp is good that is lit day and night, for so long [s]."""
    return since + min(timedelta(seconds=life), LATEST_LIT)


def lamp_change(pond: Pond, now: datetime) -> LampChange | None:
    """When the lamp of a pond is to be changed; none without one, or without its first day.

    Raises:
        PondError: A changed rule cannot be.
    """
    lamp = pond.lamp
    if lamp is None or lamp.lit_since is None:
        return None
    usual = Assumptions().with_overrides(pond.assumptions).filters.lamp_life
    day = change_day(lamp.lit_since, lamp.life_s or usual)
    is_due = day <= local(now).date()
    words = "UV lamp: to be changed since {day}." if is_due else "UV lamp: change it by {day}."
    return LampChange(day, is_due, Message(words, {"day": as_day(day)}))
