"""How the flow at a place has changed since the last cleaning, and when it leaves its band."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from functools import lru_cache
from typing import Literal

from pondapp.answers.log.dates import month_and_year
from pondapp.answers.log.log import LogItem
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.flow import FlowBand, Measured
from pondapp.answers.measuring.methods import measured_reading
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import OutOfRange, PondError
from pondapp.core.base.messages import Amount, Message, counted
from pondapp.core.base.working import Step
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.trend import (
    FEWEST_READINGS,
    Leaving,
    Trend,
    flow_at,
    leaving,
    trend,
)
from pondapp.core.measuring.verdict import Certainty, decide
from pondapp.models.entry import Entry
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading

MONTH = 30 * DAY  # s
WEEK = 7 * DAY  # s; readings closer together say nothing of a month
TOO_SHORT = Message(
    "Not decided: these readings are too close together, or too rough, to look a month ahead."
)
OUTSIDE = {
    "below": Message("It is less than what is wanted by now: clean, then measure again."),
    "above": Message(
        "It is more than what is wanted: turn its valve down a little, then measure again."
    ),
}
GONE_BY_NOW = Message("If it went on like that, it is not what is wanted any more: measure again.")
SUREST = 0.99
"""A chance that is told at most: a line through a few readings knows nothing of what may happen.
A rule of thumb."""
MOST_READINGS = 60
"""Readings that a line is laid through: more would take longer and say no more."""

Way = Literal["not decided", "steady within what is wanted", "leaving", "outside"]


@dataclass(frozen=True, slots=True)
class PlaceTrend:
    """What the readings at one place say together."""

    place_id: str
    name: str
    readings: int
    since: datetime | None
    """When it was cleaned last; none if that is in no log."""
    way: Way
    sentences: tuple[Message, ...]
    steps: tuple[Step, ...]


@lru_cache(maxsize=4096)
def flow_of(reading: Reading, rules: MeasuringAssumptions) -> Measured | None:
    """What a reading says, or None where its numbers cannot be.

    It is kept: a chart asks for hundreds.
    """
    try:
        return measured_reading(reading, rules)
    except PondError:
        return None


def last_cleaning(items: Iterable[LogItem]) -> datetime | None:
    """When anything was cleaned last, in a log that is newest first."""
    return next(
        (one.when for one in items if isinstance(one, Entry) and one.what.kind == "cleaning"), None
    )


def place_trend(
    pond: Pond,
    place_id: str,
    name: str,
    band: FlowBand | None,
    newest_first: Sequence[LogItem],
    now: datetime | None = None,
) -> PlaceTrend:
    """Trend of the flow at a place since the last cleaning.

    Args:
        pond: The pond.
        place_id: The place.
        name: Its name.
        band: What is wanted there; None where nothing is.
        newest_first: The log.
        now: From when it looks ahead; from its newest reading without.

    Raises:
        PondError: A changed rule cannot be.
    """
    rules = Assumptions().with_overrides(pond.assumptions)
    since = last_cleaning(newest_first)
    found: list[tuple[datetime, Measured]] = []
    dry: list[bool] = []
    for item in newest_first:
        if isinstance(item, Reading) and item.place_id == place_id:
            if (since and item.taken_at < since) or len(found) == MOST_READINGS:
                break
            measured = flow_of(item, rules.measuring)
            if measured is not None:
                dry.append(measured.dry)
            if measured is not None and not measured.dry:
                found.append((item.taken_at, measured))

    if dry and dry[0]:
        fault = Message("Nothing came at the last reading: that is no trend.")
        return PlaceTrend(place_id, name, len(found), since, "outside", (fault,), ())

    def answer(way: Way, *sentences: Message, line: Trend | None = None) -> PlaceTrend:
        steps = line.steps() if line else ()
        left_out = _left_out(sum(dry))
        return PlaceTrend(place_id, name, len(found), since, way, (*sentences, *left_out), steps)

    if len(found) < FEWEST_READINGS:
        return answer("not decided", _too_few(len(found), since))
    start = found[-1][0].timestamp()
    try:
        line = trend(
            [taken.timestamp() - start for taken, _ in found],
            [measured.flow.flow for _, measured in found],
            [one.flow.spread.normal_scale(rules.measuring.coverage) for _, one in found],
            rules.measuring.coverage,
        )
    except OutOfRange as problem:
        return answer("not decided", problem.message)
    span = found[0][0].timestamp() - start
    if span < WEEK or not line.told(certainty(rules.measuring)):
        return answer("not decided", _unsure(line, span), line=line)
    if band is None:
        return answer("steady within what is wanted", _change(line), line=line)
    newest = found[0][0]
    ahead = max(newest, now or newest).timestamp() - start
    stands = _stands(line, newest.timestamp() - start, band, certainty(rules.measuring))
    if stands in OUTSIDE:
        return answer("outside", _change(line), OUTSIDE[stands], line=line)
    later = _stands(line, ahead, band, certainty(rules.measuring))
    if stands == "within" and later in OUTSIDE:
        return answer("leaving", _change(line), GONE_BY_NOW, line=line)
    if "undecided" in (stands, later):
        unsure = Message(
            "Whether it is still within what is wanted is not known yet: time more fills."
        )
        return answer("not decided", _change(line), unsure, line=line)
    if _steady(line):
        return answer("steady within what is wanted", _change(line), line=line)
    limit = _limit(line, band)
    going = leaving(line, limit) if limit is not None else None
    way, sentence = _leaves(going, start, ahead, rules.care.trend_horizon)
    odds = (_odds(line, ahead, band, certainty(rules.measuring)),)
    return answer(way, _change(line), sentence, *(odds if going else ()), line=line)


def _stands(line: Trend, time: float, band: FlowBand, rule: Certainty) -> str:
    """Where the line is now, decided as every flow is."""
    flow, uncertainty = flow_at(line, time)
    if flow <= 0.0:
        return "below"
    return decide(Spread(flow, uncertainty, line.freedom), band.low, band.high, rule).kind


def _odds(line: Trend, time: float, band: FlowBand, rule: Certainty) -> Message:
    """How likely it is still in the band later, if it goes on as it did."""

    def inside(months: int) -> Amount:
        flow, uncertainty = flow_at(line, time + months * MONTH)
        if flow <= 0.0:
            return Amount(1.0 - SUREST, "share")
        later = decide(Spread(flow, uncertainty, line.freedom), band.low, band.high, rule)
        return Amount(min(SUREST, max(1.0 - SUREST, later.inside)), "share")

    return Message(
        "Chance that it is still within what is wanted: {one} in a month, {three} in three months.",
        {"one": inside(1), "three": inside(3)},
    )


def _limit(line: Trend, band: FlowBand) -> float | None:
    """The end of the band that the flow is heading for."""
    return band.low if line.slope < 0 else band.high


def _too_few(count: int, since: datetime | None) -> Message:
    values = {"count": str(count), "needed": str(FEWEST_READINGS)}
    if since is None:
        return Message("Not decided: {count} of the {needed} readings that a trend needs.", values)
    words = "Not decided: {count} of the {needed} readings that a trend needs since the cleaning."
    return Message(words, values)


def _left_out(dry: int) -> tuple[Message, ...]:
    """Readings of no water, which tell of a fault and not of a change."""
    if dry == 0:
        return ()
    return (
        counted(
            "One reading of no water is left out.",
            "{count} readings of no water are left out.",
            dry,
        ),
    )


def _unsure(line: Trend, span: float) -> Message:
    """What is open: in numbers where the readings reach far enough back for them to say any."""
    fall, rise = -line.slope_low * MONTH, line.slope_high * MONTH
    if span < WEEK or max(fall, rise) > line.centre_flow:
        return TOO_SHORT
    return Message(
        "Not decided: in a month it may fall by {fall} or rise by {rise}. More readings, or more "
        "fills in each, will tell.",
        {"fall": Amount(fall, "m3/s"), "rise": Amount(rise, "m3/s")},
    )


def _steady(line: Trend) -> bool:
    """Whether no change can be told from none at all."""
    return line.slope_low <= 0.0 <= line.slope_high


def _change(line: Trend) -> Message:
    give = {"give": Amount((line.slope_high - line.slope_low) / 2 * MONTH, "m3/s")}
    if _steady(line):
        words = "It is as steady as can be told, give or take {give} a month."
        return Message(words, give)
    if -line.slope * MONTH > line.centre_flow:  # more than there is: it will not go on like that
        return Message("It falls faster than can go on for a month.")
    words = (
        "It falls by {change} a month, give or take {give}."
        if line.slope < 0
        else "It rises by {change} a month, give or take {give}."
    )
    return Message(
        words,
        {
            "change": Amount(abs(line.slope) * MONTH, "m3/s"),
            **give,
        },
    )


def _leaves(
    going: Leaving | None, start: float, ahead: float, horizon: float
) -> tuple[Way, Message]:
    if going is None:
        return "steady within what is wanted", Message("More does no harm here.")
    if going.likely > ahead + horizon:
        return "steady within what is wanted", Message(
            "It stays within what is wanted for {time} or longer.", {"time": Amount(horizon, "s")}
        )
    month, year = month_and_year(datetime.fromtimestamp(start + going.likely, UTC))
    first = max(going.earliest, ahead)
    first_month, first_year = month_and_year(datetime.fromtimestamp(start + first, UTC))
    if (first_month, first_year) == (month, year):
        words = "It leaves what is wanted about {month} {year}."
        return "leaving", Message(words, {"month": month, "year": year})
    return "leaving", Message(
        "It leaves what is wanted about {month} {year}, at the earliest in {first_month} "
        "{first_year}.",
        {"month": month, "year": year, "first_month": first_month, "first_year": first_year},
    )
