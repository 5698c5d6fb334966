"""Which pump and hoses a line had when: what was read with others says nothing of these."""

from collections.abc import Iterable
from datetime import datetime

from pondapp.models.circuit import Line, PumpBefore
from pondapp.models.limits import MOST_EARLIER
from pondapp.models.pond import Pond
from pondapp.models.reading import Reading


def pump_then(line: Line, at: datetime) -> str | None:
    """Id of the pump that ran in a line at a time."""
    return next((one.pump_id for one in line.pumps_before if at < one.until), line.pump_id)


def by_other_pump(pond: Pond, place_id: str, at: datetime) -> bool:
    """Whether what flowed at a place then came from another pump than the one of now.

    Args:
        pond: The pond.
        place_id: A line, one of its branches or what that feeds.
        at: When it was read.
    """
    for line in pond.lines:
        places = {line.id, *(branch.id for branch in line.branches)}
        places |= {key for branch in line.branches for key in branch.feeds}
        if place_id in places:
            return pump_then(line, at) != line.pump_id
    return False


def rebuilt_since(line: Line, at: datetime) -> bool:
    """Whether its hoses, the height of an outlet or the ways of its water were changed since."""
    return line.rebuilt_at is not None and at < line.rebuilt_at


def rebuilds(line: Line, was: Line) -> bool:
    """Whether what was entered of its hoses is another now; what is entered first is no change."""
    branches = {one.id: one for one in was.branches}
    pairs: list[tuple[object, object]] = [(was.main, line.main)]
    for one in line.branches:
        if before := branches.get(one.id):
            pairs += [(before.pipe, one.pipe), (before.lift_m, one.lift_m)]
    return any(before is not None and before != after for before, after in pairs)


def rerouted(pond: Pond, before: Pond, line: Line, was: Line | None) -> bool:
    """Whether water takes other ways: a branch more or fewer, a way round, something moved.

    The first entry of ways that were only assumed is no change.
    """
    if not before.lines:
        return False
    ids = {one.id for one in line.branches}
    if was is None:
        return any(one.id in ids for other in before.lines for one in other.branches)
    rounds = {one.id: set(one.bypass) for one in was.branches}
    if ids != rounds.keys() or any(set(one.bypass) != rounds[one.id] for one in line.branches):
        return True
    then, now = _branch_of_each(before), _branch_of_each(pond)
    fed = {key for one in (*line.branches, *was.branches) for key in one.feeds}
    return any(key in then and key in now and then[key] != now[key] for key in fed)


def _branch_of_each(pond: Pond) -> dict[str, str]:
    """Which branch feeds a feature, by their ids."""
    return {key: one.id for line in pond.lines for one in line.branches for key in one.feeds}


def places_behind(line: Line) -> frozenset[str]:
    """Ids of all places where the water of a line can be read."""
    return frozenset({line.id, *(key for one in line.branches for key in (one.id, *one.feeds))})


def read_only_before(line: Line, readings: Iterable[Reading], now: datetime) -> bool:
    """Whether something was read in a line before it was changed, and nothing since.

    What is dated after now does not count yet.
    """
    places = places_behind(line)
    read_at = (one.taken_at for one in readings if one.place_id in places)
    newest = max((at for at in read_at if at <= now), default=None)
    return newest is not None and rebuilt_since(line, newest)


def with_changes_noted(pond: Pond, before: Pond, now: datetime, *, corrected: bool = False) -> Pond:
    """A pond in which every pump that was replaced, or taken away, is noted with the time.

    So is when hoses or the ways of the water were changed.

    Args:
        pond: The pond as it is to be saved.
        before: As it was saved last.
        now: The time of now.
        corrected: Whether only what was entered was wrong, and all of it is as it was.
    """
    from pondapp.answers.plumbing.path import lines_of  # not on the way to the first screen

    known = {line.id: line for line in lines_of(before)}
    lines = []
    for line in pond.lines:
        was = known.get(line.id)
        if was is None or was.pump_id == line.pump_id:
            past = line.pumps_before
        elif was.pump_id is None:
            past = was.pumps_before
        else:
            past = (*was.pumps_before, PumpBefore(pump_id=was.pump_id, until=now))[-MOST_EARLIER:]
        noted: dict[str, object] = {}
        if past != line.pumps_before:
            noted["pumps_before"] = past
        rebuilt = was is not None and rebuilds(line, was)
        if not corrected and (rebuilt or rerouted(pond, before, line, was)):
            noted["rebuilt_at"] = now
        lines.append(line.model_copy(update=noted) if noted else line)
    return pond if tuple(lines) == pond.lines else pond.model_copy(update={"lines": tuple(lines)})
