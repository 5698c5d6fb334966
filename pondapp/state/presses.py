"""What a press of the stopwatch makes of the fills at a place."""

from dataclasses import dataclass
from typing import Any

from pondapp.models.base import limits_of
from pondapp.models.limits import LATEST, MOST_FILLS
from pondapp.models.preferences import Draft
from pondapp.models.press import Press
from pondapp.models.reading import Fill

SECONDS = limits_of(Fill, "seconds")
DISAGREE = 0.5  # seconds between two clocks from which one of them stood still or was set

NOT_STARTED: dict[str, Any] = {"started_at": None, "started_on": None, "started_tick": None}


@dataclass(frozen=True, slots=True)
class Taken:
    """A draft with a press taken into it."""

    draft: Draft
    counted: bool = True
    """False for a stop that makes no fill: it ran for over a day, or the clock was set."""


def is_taken(draft: Draft, press: Press) -> bool:
    """Whether a draft holds this press already: a page numbers its presses, and hands all over."""
    page, _, last = (draft.taken or "").rpartition("-")
    _, _, number = press.id.rpartition("-")
    if draft.taken == press.id:
        return True
    numbered = page == press.run and last.isdecimal() and number.isdecimal()
    return numbered and int(number) <= int(last)


def take(draft: Draft, press: Press) -> Taken:
    """Take a press into what is timed at its place; one that is in it is not taken again."""
    if is_taken(draft, press):
        return Taken(draft)
    noted = draft.model_copy(update={"taken": press.id})
    return _started(noted, press) if press.kind == "start" else _stopped(noted, press)


def _started(draft: Draft, press: Press) -> Taken:
    began = {
        "started_at": min(max(0.0, press.wall), LATEST.timestamp()),
        "started_on": press.run,
        "started_tick": press.tick,
        "by_clock": None,
    }
    return Taken(draft.model_copy(update=began))


def _stopped(draft: Draft, press: Press) -> Taken:
    """A fill ended.

    It counts where one stopwatch saw it begin and end without a stop between. Else there is
    only the device's clock, which may have been set: whoever measures decides. A fill that
    ran for over a day was forgotten, not timed.
    """
    # Rounded before it is judged: a time of 0 could not be read again.
    by_clock = None if draft.started_at is None else round(press.wall - draft.started_at, 1)
    seconds = None if press.seconds is None else round(press.seconds, 3)
    if seconds is not None:
        slept = press.away and by_clock is not None and abs(by_clock - seconds) > DISAGREE
        if not slept and 0.0 < seconds <= SECONDS.high:
            fills = (*draft.fills, Fill(seconds=seconds))[-MOST_FILLS:]
            return Taken(draft.model_copy(update={**NOT_STARTED, "fills": fills}))
        if not slept:
            by_clock = round(seconds, 1)
    if by_clock is None:  # nothing ran: another tab had ended it
        return Taken(draft)
    if 0.0 < by_clock <= SECONDS.high:
        return Taken(draft.model_copy(update={**NOT_STARTED, "by_clock": by_clock}))
    return Taken(draft.model_copy(update=NOT_STARTED), counted=False)
