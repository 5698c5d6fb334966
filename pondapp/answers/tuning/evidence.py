"""Which flows that were read tell how it is now: the one place that says why one does not.

Picture, tuning, print, health and what is open ask here, so that none says more than the others.
"""

from collections.abc import Mapping, Sequence
from datetime import datetime
from functools import cached_property
from typing import Literal

from pondapp.answers.care.due import flow_stands
from pondapp.answers.log.cleanings import of_branch, of_pump
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.plumbing.pump_history import by_other_pump
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_given
from pondapp.answers.tuning.flow_sets import LatestReading, branch_places, newest_at
from pondapp.core.measuring.spread import Spread, spread_of_half_width
from pondapp.core.measuring.verdict import decide
from pondapp.models.circuit import Line
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading

Doubt = Literal["replaced", "old", "cleaned", "too much"]
DOUBTS: Mapping[Doubt, str] = {
    "replaced": "Measured with the old pump",
    "old": "Too long ago",
    "cleaned": "Measured before the cleaning",
    "too much": "More than the pump can give",
}
"""Each in the words of a picture."""


class Evidence:
    """A pond's log, and which of its readings tell how a flow is now."""

    def __init__(self, worked: WorkedPond, log: Sequence[LogItem], now: datetime) -> None:
        """What is dated after now is no evidence."""
        self.worked, self.now = worked, now
        self.log = until(log, now)

    @cached_property
    def readings(self) -> list[Reading]:
        """The readings of the log."""
        return [item for item in self.log if isinstance(item, Reading)]

    def doubt(self, reading: Reading) -> Doubt | None:
        """Why the newest reading of its water does not tell how it is now; None where it does.

        Raises:
            PondError: The pond's shape, a changed rule or a reading cannot be.
        """
        return self._passed(reading) or ("too much" if self._too_much(reading) else None)

    def doubt_of(self, readings: Sequence[Reading]) -> Doubt | None:
        """Why a flow that rests on several readings does not tell how it is now."""
        found = [one for reading in readings if (one := self.doubt(reading))]
        return min(found, key=list(DOUBTS).index, default=None)

    def _passed(self, reading: Reading) -> Doubt | None:
        """What has changed since."""
        place_id, at = reading.place_id, reading.taken_at
        line = self._line(reading)
        since = [item for item in self.log if isinstance(item, Entry) and item.when > at]
        changed = any(item.what.kind == "pump_change" for item in since)
        if by_other_pump(self.worked.pond, place_id, at) or (line and changed):
            return "replaced"
        if not flow_stands(self.worked.pond, place_id, at, self.now):
            return "old"
        cleaned = line and any(self._cleaned(line, place_id, item) for item in since)
        return "cleaned" if cleaned else None

    def _cleaned(self, line: Line, place_id: str, entry: Entry) -> bool:
        """Whether what was cleaned is what the water of a place passes."""
        mine = [one for one in line.branches if place_id in (line.id, one.id, *one.feeds)]
        return of_pump(entry) or any(of_branch(self.worked.pond, one, entry) for one in mine)

    def _line(self, reading: Reading) -> Line | None:
        """The line that the water of a reading comes from."""
        for line in self.worked.lines:
            ids = {line.id, *(one.id for one in line.branches)}
            if reading.place_id in ids | {key for one in line.branches for key in one.feeds}:
                return line
        return None

    def _too_much(self, reading: Reading) -> bool:
        """Whether it is more than the pump can give, alone or with the other branches'."""
        line = self._line(reading)
        most = most_given(self.worked.pond, line, self.worked.rules) if line else None
        found = measured_reading(reading, self.worked.rules.measuring)
        if line is None or most is None or found is None or found.dry:
            return False
        return self._beyond(found.flow.spread, most) or reading.id in self._sums_beyond[line.id]

    def _beyond(self, flow: Spread, most: float) -> bool:
        return decide(flow, 0.0, most, certainty(self.worked.rules.measuring)).kind == "above"

    @cached_property
    def _sums_beyond(self) -> Mapping[str, frozenset[str]]:
        """Ids of readings of one time whose sum is more than their pump can give, by the line."""
        rules, found = self.worked.rules.measuring, {}
        for line in self.worked.lines:
            most, newest = most_given(self.worked.pond, line, self.worked.rules), self._newest(line)
            found[line.id] = frozenset[str]()
            if most is None or len(newest) < 2:
                continue
            last = max(one.reading.taken_at for one in newest)
            once = [
                one
                for one in newest
                if (last - one.reading.taken_at).total_seconds() <= rules.same_setting
            ]
            flow, doubt = sum(one.flow for one in once), sum(one.doubt for one in once)
            if flow and self._beyond(spread_of_half_width(flow, doubt, rules.coverage), most):
                found[line.id] = frozenset(one.reading.id for one in once)
        return found

    def _newest(self, line: Line) -> list[LatestReading]:
        """The newest reading of each branch that nothing has changed since."""
        rules = self.worked.rules.measuring
        every = (
            newest_at(self.readings, place.everywhere, rules)
            for place in branch_places(self.worked, line)
        )
        return [one for one in every if one and not self._passed(one.reading)]
