"""What is open about a pond, on the first screen and on its own.

Nearly all answers are asked for it. Their code is read with the first log, behind the first screen,
which would else come that much later.
"""

from __future__ import annotations

from collections.abc import Sequence
from datetime import UTC, datetime
from typing import TYPE_CHECKING

import flet as ft

from pondapp import units
from pondapp.answers.log.log import LogItem
from pondapp.answers.sharing.example import EXAMPLE
from pondapp.core.base.errors import PondError
from pondapp.models.pond import Pond
from pondapp.ui.parts import layout, severity
from pondapp.ui.parts.fold import fold
from pondapp.ui.shell.navigate import go
from pondapp.ui.shell.session_context import session_now
from pondapp.words import t

if TYPE_CHECKING:
    from pondapp.answers.care.open_matters import Goal, Matter, OpenMatters

ROUTES: dict[Goal, str] = {
    "new_test": "log/new-water_test",
    "new_cleaning": "log/new-cleaning",
    "log_item": "log/{at}",
    "log": "log",
    "plan": "plan",
    "path": "path",
    "measure": "measure/{at}",
    "place": "at/{at}",
    "pumps": "pumps",
    "health": "health",
    "fish": "fish",
    "water": "water",
    "reminders": "log/due",
    "lamp": "log/uv",
}
AT_ONCE = 3  # dangers in sight
KEPT_MINUTES = 10  # how long an answer stands while neither pond nor log changes

_kept: dict[str, tuple[Pond, Sequence[LogItem], int, OpenMatters]] = {}
_due: dict[str, tuple[Pond, Sequence[LogItem], int, tuple[str, ...]]] = {}


def matters_of(pond: Pond) -> OpenMatters | None:
    """What is open; None while the pond's log is not read. Worked out once for each change."""
    session = session_now()
    if not session.logs.is_read(pond.id):
        return None
    log = session.logs.items_of(pond.id)
    now = datetime.now(UTC)
    age = int(now.timestamp() // (60 * KEPT_MINUTES))
    known = _kept.get(pond.id)
    if known and known[0] is pond and known[1] is log and known[2] == age:
        return known[3]
    from pondapp.answers.care.open_matters import open_matters
    from pondapp.ui.shell.worked import worked_now

    found = open_matters(worked_now(pond), log, now)
    _kept[pond.id] = (pond, log, age, found)
    return found


def route_of(pond: Pond, matter: Matter) -> str:
    """The screen where a matter is put right."""
    return f"/pond/{pond.id}/{ROUTES[matter.goal].format(at=matter.at)}"


def matter_button(pond: Pond, matter: Matter, system: str) -> ft.Control:
    """One matter, which leads to where it is put right."""
    words = layout.sentence(units.tell(matter.sentence, system))
    return severity.button(matter.severity, words, go(route_of(pond, matter)))


def reading_log() -> ft.Control:
    """While a log is being read, nothing is said of its pond."""
    return layout.body(t("Reading the log."))


def worst_matter(pond: Pond, system: str) -> ft.Control:
    """For the first screen, behind which the logs are read: what a pond needs most."""
    found = matters_of(pond)
    return reading_log() if found is None else matter_button(pond, found.worst, system)


def by_danger(ponds: Sequence[Pond]) -> tuple[list[Pond], list[Pond]]:
    """The ponds whose fish are in danger, as far as their logs are read, and the others."""
    dire = []
    for pond in ponds:
        found = matters_of(pond)
        if found is not None and found.worst.severity == "danger":
            dire.append(pond)
    return dire, [pond for pond in ponds if pond not in dire]


def all_matters(pond: Pond, system: str) -> list[ft.Control]:
    """For the pond's own screen: the worst and all danger in sight, the rest under one line.

    The picture below them says most of it too, and is to be seen without scrolling.
    """
    found = matters_of(pond)
    if found is None:
        return [reading_log()]
    dangers = [one for one in found.open if one.severity == "danger"]
    shown = dangers[:AT_ONCE] or [found.worst]
    rest = [one for one in found.matters if one not in shown]
    lines = [matter_button(pond, one, system) for one in shown]
    if rest:
        still = len(found.open) - len(shown)
        title = (
            t("{count} more, and what is right", count=still) if still > 0 else t("What is right")
        )
        lines.append(
            fold("matters", title, lambda: [matter_button(pond, one, system) for one in rest])
        )
    return lines


def jobs_due(pond: Pond) -> tuple[str, ...] | None:
    """What is due at a pond, in English or as typed.

    None while its log is not read, or where a changed rule cannot be.
    """
    session = session_now()
    if not session.logs.is_read(pond.id):
        return None
    log, now = session.logs.items_of(pond.id), datetime.now(UTC)
    age = int(now.timestamp() // (60 * KEPT_MINUTES))
    known = _due.get(pond.id)
    if known and known[0] is pond and known[1] is log and known[2] == age:
        return known[3]
    from pondapp.answers.care.due import due
    from pondapp.answers.care.lamp_change import lamp_change
    from pondapp.answers.care.reminders import reminders

    try:
        lamp = lamp_change(pond, now)
        jobs = (
            *(JOBS[one.job] for one in due(pond, log, now) if one.is_due),
            *((NEW_LAMP,) if lamp is not None and lamp.is_due else ()),
            *(one.reminder.text for one in reminders(pond, log, now) if one.is_due),
        )
    except PondError:  # the worst matter says it
        return None
    _due[pond.id] = (pond, log, age, jobs)
    return jobs


def count_due() -> int | None:
    """How many jobs are due at the reader's own ponds; None while a log is not read."""
    session = session_now()
    ponds = [pond for pond in session.ponds.values() if pond.id != EXAMPLE]
    if not all(session.logs.is_read(pond.id) for pond in ponds):
        return None
    return sum(len(jobs_due(pond) or ()) for pond in ponds)


NEW_LAMP = "a new UV lamp"
JOBS = {"clean": "a cleaning", "measure": "a flow reading", "test": "a water test"}


def latest(pond: Pond, system: str) -> list[ft.Control]:
    """For the first screen: the last flow of a pond and what is due there; a touch opens its log.

    Nothing while its log is not read: the first screen waits for no log.
    """
    if (due := jobs_due(pond)) is None:
        return []
    from pondapp.ui.log.log_words import day_of, measured_at

    now, jobs = datetime.now(UTC), [t(one) for one in due]
    flows = [item for item in session_now().logs.readings_of(pond.id) if item.taken_at <= now]
    told = t("No flow is measured yet.")
    if flows:
        # The verdict of that day may not be the one of today, which the worst matter has.
        flow = measured_at(flows[0], system)
        told = t("Last flow: {flow}, {day}", flow=flow, day=day_of(flows[0]))
    jobs_told = t("Due: {jobs}", jobs=", ".join(jobs)) if jobs else t("Nothing is due.")
    words = [layout.small(told), layout.small(jobs_told)]
    return [layout.tile([layout.card_button(words, go(f"/pond/{pond.id}/log"))])]
