"""The flows of a pond that were measured and still tell how it is now."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime

from pondapp.answers.care.due import flow_stands
from pondapp.answers.log.log import until
from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.picture.states import states_of
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_given
from pondapp.models.reading import Reading


def standing_flows(
    worked: WorkedPond, readings: Sequence[Reading], now: datetime
) -> Mapping[str, float]:
    """Flow [m3/s] at each pump, branch and feature by the newest reading of its water, 0 if dry.

    Only readings that stand count, and none that is more than the pump can give.

    Args:
        worked: The pond.
        readings: Its readings.
        now: The time of now.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    pond = worked.pond
    log = [
        one for one in until(readings, now)
        if flow_stands(pond, one.place_id, one.taken_at, now)
    ]  # fmt: skip
    if not log:
        return {}
    beyond = set(_beyond_pump(worked, log))
    states = states_of(worked, [one for one in log if one.id not in beyond], now)
    found = {key: one.found.flow for key, one in states.items() if one.found}
    for line in worked.lines:
        most = most_given(worked.pond, line, worked.rules)
        places = {branch.id: branch.feeds for branch in line.branches}
        together = sum(found[key].low for key in places if key in found)
        if most is not None and together > most:  # nobody can tell which of them is wrong
            for key in (line.id, *places, *(one for feeds in places.values() for one in feeds)):
                found.pop(key, None)
    return {key: one.flow for key, one in found.items()}


def _beyond_pump(worked: WorkedPond, log: Sequence[Reading]) -> Iterator[str]:
    """Ids of the readings that are more than their pump can give."""
    most: dict[str, float] = {}
    for line in worked.lines:
        limit = most_given(worked.pond, line, worked.rules)
        if limit is not None:
            places = {line.id, *(branch.id for branch in line.branches)}
            places |= {key for branch in line.branches for key in branch.feeds}
            most |= dict.fromkeys(places, limit)
    for one in log:
        if one.place_id in most:
            found = measured_reading(one, worked.rules.measuring)
            if found is not None and found.flow.low > most[one.place_id]:
                yield one.id
