"""What is due at a pond, by intervals that its owner sets."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Literal

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.log.log import LogItem, moment
from pondapp.answers.plumbing.path import lines_of, pump_of
from pondapp.answers.plumbing.pump_history import by_other_pump
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.models.pond import Pond, Upkeep
from pondapp.models.reading import Reading
from pondapp.words import tn

Job = Literal["clean", "measure", "test"]
JOBS: tuple[Job, ...] = ("test", "measure", "clean")
DAY = timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Due:
    """One job: when it was done last, and whether it is due."""

    job: Job
    last: datetime | None
    is_due: bool
    sentence: Message


def usual_days(pond: Pond, job: Job) -> int:
    """The interval by the rules in force, in days."""
    care = Assumptions().with_overrides(pond.assumptions).care
    every = {"clean": care.clean_every, "measure": care.measure_every, "test": care.test_every}
    return max(1, round(every[job] / DAY.total_seconds()))


def days_between(pond: Pond, job: Job) -> int | None:
    """The interval that holds, in days; none if the user wants no reminder."""
    own = next((one for one in pond.upkeep if one.job == job), None)
    return own.days if own else usual_days(pond, job)


def flow_stands(pond: Pond, place_id: str, taken_at: datetime, now: datetime) -> bool:
    """Whether a flow that was read at a place tells how it is now.

    It was read with the pump of now, and is young enough; the usual age if no reminder is wanted.
    """
    if by_other_pump(pond, place_id, taken_at):
        return False
    return taken_lately(pond, taken_at, now)


def taken_lately(pond: Pond, taken_at: datetime, now: datetime) -> bool:
    """Whether a flow was read so lately that it may tell how anything is now."""
    days = days_between(pond, "measure") or usual_days(pond, "measure")
    return taken_at <= now and (now - taken_at) // DAY <= days


def with_days(pond: Pond, job: Job, days: int | None) -> Pond:
    """The pond with another interval for a job; the usual one is not kept as one's own."""
    others = tuple(one for one in pond.upkeep if one.job != job)
    own = () if days == usual_days(pond, job) else (Upkeep(job=job, days=days),)
    return pond.model_copy(update={"upkeep": (*others, *own)})


def _job_of(item: LogItem) -> Job | None:
    if isinstance(item, Reading):
        return "measure"
    done: dict[str, Job] = {"cleaning": "clean", "water_test": "test"}
    return done.get(item.what.kind)


def _can_clog(pond: Pond) -> bool:
    """Whether there is a pump or foam: gravel is not cleaned with them."""
    foam = any(kind_of(one).alive and not kind_of(one).gravel for one in pond.fed)
    return foam or any(pump_of(pond, line) is not None for line in lines_of(pond))


def due(pond: Pond, newest_first: Iterable[LogItem], now: datetime) -> tuple[Due, ...]:
    """Every job that the user wants to be reminded of; what is dated after now is not done yet.

    Raises:
        PondError: A changed rule cannot be.
    """
    last: dict[Job, datetime] = {}
    for item in newest_first:
        job = _job_of(item)
        if job and moment(item) <= now and job not in last:
            last[job] = moment(item)
            if len(last) == len(JOBS):
                break
    found = []
    for job in JOBS:
        days = days_between(pond, job)
        if job == "clean" and job not in last and not _can_clog(pond):
            continue
        if days is not None:
            found.append(_one(job, days, last.get(job), now))
    return tuple(found)


_NEVER: dict[Job, str] = {
    "clean": "Clean pump and foam, and log it: no cleaning is in the log yet.",
    "measure": "Measure a flow: no reading is in the log yet.",
    "test": "Test the water: no test is in the log yet.",
}
_NOW: dict[Job, str] = {
    "clean": "Clean pump and foam: last done {ago} ago.",
    "measure": "Measure a flow: last done {ago} ago.",
    "test": "Test the water: last done {ago} ago.",
}
_LATER: dict[Job, str] = {
    "clean": "Clean pump and foam in {rest}.",
    "measure": "Measure a flow in {rest}.",
    "test": "Test the water in {rest}.",
}


def days_text(count: int) -> str:
    """So many days, in words."""
    return tn("{count} day", "{count} days", count)


def _one(job: Job, days: int, last: datetime | None, now: datetime) -> Due:
    if last is None:
        return Due(job, None, True, Message(_NEVER[job]))
    gone = (now - last) // DAY
    if gone >= days:
        sentence = Message(_NOW[job], {"ago": days_text(gone)})
    else:
        sentence = Message(_LATER[job], {"rest": days_text(days - gone)})
    return Due(job, last, gone >= days, sentence)
