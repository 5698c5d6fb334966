"""Which flows that were read tell how it is now: the one place that says why one does not.

Picture, tuning, print, health and what is open ask here, so that none says more than the others.
"""

from collections import Counter
from collections.abc import Collection, Mapping, Sequence
from datetime import datetime
from functools import cached_property
from operator import attrgetter
from typing import TYPE_CHECKING, Literal

from pondapp.answers.care.due import flow_stands
from pondapp.answers.log.cleanings import of_branch, of_pump
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.measuring.methods import measured_reading
from pondapp.answers.plumbing.pump_history import by_other_pump, rebuilt_since
from pondapp.answers.pond import WorkedPond
from pondapp.answers.pumps.pump_reach import most_given
from pondapp.answers.tuning.flow_sets import LatestReading, branch_places, newest_at
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.messages import Message
from pondapp.core.measuring.spread import Spread, spread_of_half_width
from pondapp.core.measuring.verdict import decide
from pondapp.models.circuit import Line
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading

if TYPE_CHECKING:  # no part of the way to the first screen of a pond that nothing differs at
    from pondapp.answers.learning.timeline import Timeline
    from pondapp.answers.tuning.differing import Apart, Differing

Doubt = Literal["replaced", "rebuilt", "old", "cleaned", "too much", "differs"]
DOUBTS: Mapping[Doubt, str] = {
    "replaced": "Measured with the old pump",
    "rebuilt": "Measured before the water path was changed",
    "old": "Too long ago",
    "cleaned": "Measured before the cleaning",
    "too much": "More than the pump can give",
    "differs": "Two readings differ",
}
"""Each in the words of a picture."""


def beyond(flow: Spread, most: float, rules: MeasuringAssumptions) -> bool:
    """Whether a flow is more than a pump can give at most [m3/s], however roughly it is known."""
    return decide(flow, 0.0, most, certainty(rules)).likely == "above"


def beyond_together(flows: Sequence[Spread], most: float, rules: MeasuringAssumptions) -> bool:
    """Whether the sum of flows is more than a pump can give at most [m3/s].

    Their doubts are added up, since the same container may be wrong in all of them.
    """
    flow = sum(one.centre for one in flows)
    half = sum(one.half_width(rules.coverage) for one in flows)
    return flow > 0.0 and beyond(spread_of_half_width(flow, half, rules.coverage), most, rules)


class Evidence:
    """A pond's log, and which of its readings tell how a flow is now."""

    def __init__(
        self,
        worked: WorkedPond,
        log: Sequence[LogItem],
        now: datetime,
        turned_at: Mapping[str, datetime] | None = None,
    ) -> None:
        """What is dated after now is no evidence.

        Args:
            worked: The pond.
            log: Its log.
            now: The time of now.
            turned_at: When the valve of a branch was last turned, by the branch's id, where that
                is known before a reading notes it.
        """
        self.worked, self.now, self.turned_at = worked, now, turned_at or {}
        self.log = until(log, now)
        self._timelines: dict[str, Timeline] = {}

    @cached_property
    def readings(self) -> list[Reading]:
        """The readings of the log."""
        return [item for item in self.log if isinstance(item, Reading)]

    def doubt(self, reading: Reading) -> Doubt | None:
        """Why the newest reading of its water does not tell how it is now; None where it does.

        Raises:
            PondError: The pond's shape, a changed rule or a reading cannot be.
        """
        if passed := self._passed(reading):
            return passed
        if self._too_much(reading):
            return "too much"
        return "differs" if reading.id in self._differing else None

    def doubt_of(self, readings: Sequence[Reading]) -> Doubt | None:
        """Why a flow that rests on several readings does not tell how it is now."""
        found = [one for reading in readings if (one := self.doubt(reading))]
        return min(found, key=list(DOUBTS).index, default=None)

    def why(self, readings: Sequence[Reading]) -> Message | None:
        """What contradicts one of them, where nothing else is in doubt."""
        if self.doubt_of(readings) != "differs":
            return None
        found = (self._differing.get(one.id) for one in readings)
        return next(one.told() for one in found if one)

    def _passed(self, reading: Reading) -> Doubt | None:
        """What has changed since."""
        place_id, at = reading.place_id, reading.taken_at
        line = self._line(reading)
        since = [item for item in self.log if isinstance(item, Entry) and item.when > at]
        changed = any(item.what.kind == "pump_change" for item in since)
        if by_other_pump(self.worked.pond, place_id, at) or (line and changed):
            return "replaced"
        if line and rebuilt_since(line, at):
            return "rebuilt"
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
        line, rules = self._line(reading), self.worked.rules
        most = most_given(self.worked.pond, line, rules) if line else None
        found = measured_reading(reading, rules.measuring)
        if line is None or most is None or found is None or found.dry:
            return False
        alone = beyond(found.flow.spread, most, rules.measuring)
        return alone or reading.id in self._sums_beyond[line.id]

    @cached_property
    def _sums_beyond(self) -> Mapping[str, frozenset[str]]:
        """Ids of readings of one setting whose sum is more than the pump can give, by line."""
        rules, found = self.worked.rules.measuring, {}
        for line in self.worked.lines:
            found[line.id] = frozenset[str]()
            most = most_given(self.worked.pond, line, self.worked.rules)
            if most is None:
                continue
            newest = [
                one for one in self._newest(line) if not beyond(one.found.flow.spread, most, rules)
            ]
            if not beyond_together([one.found.flow.spread for one in newest], most, rules):
                continue
            last = max(one.reading.taken_at for one in newest)
            setting = self._times(line).setting
            once = [
                one
                for one in newest
                if (last - one.reading.taken_at).total_seconds() <= rules.same_setting
                and setting(one.reading.taken_at) == setting(last)
            ]
            if beyond_together([one.found.flow.spread for one in once], most, rules):
                found[line.id] = frozenset(one.reading.id for one in once)
        return found

    def _times(self, line: Line) -> "Timeline":
        """The states that the parts of a line were in."""
        from pondapp.answers.learning.timeline import timeline

        if line.id not in self._timelines:
            places = branch_places(self.worked, line)
            self._timelines[line.id] = timeline(
                self.worked, line, self.log, places, self.turned_at, self.now
            )
        return self._timelines[line.id]

    @cached_property
    def _differing(self) -> Mapping[str, "Differing | Apart"]:
        """What is contradicted by another reading at the setting of now, by its id."""
        found: dict[str, Differing | Apart] = {}
        count = Counter(one.place_id for one in self.readings)
        for line in self.worked.lines:
            places = branch_places(self.worked, line)
            waters = [{line.id}, *(set(one.everywhere) for one in places)]
            waters += [{key} for branch in line.branches for key in branch.bypass]
            for water in waters:
                if sum(count[key] for key in water) > 1 and (one := self._differ(line, water)):
                    found[one.newest.reading.id] = one
            if count[line.id] and (all_of := self._apart(line)):
                for read in all_of.doubted:
                    found.setdefault(read.reading.id, all_of)
        return found

    def _apart(self, line: Line) -> "Apart | None":
        """Branches that were read to carry more than their pump was read to give."""
        from pondapp.answers.learning.timeline import flows_of
        from pondapp.answers.tuning.differing import apart

        rules = self.worked.rules
        most = most_given(self.worked.pond, line, rules)
        setting = self._times(line).setting
        whole = newest_at(self.readings, (line.id,), rules.measuring)
        if whole is None or self._passed(whole.reading):
            return None
        reads = [
            flows_of(self.worked, one.reading, "")[-1]
            for one in (whole, *self._newest(line))
            if one.flow > 0.0
            and setting(one.reading.taken_at) == setting(whole.reading.taken_at)
            and (most is None or not beyond(one.found.flow.spread, most, rules.measuring))
        ]
        if len(reads) < 2 or reads[0].reading.id != whole.reading.id:
            return None
        return apart(reads[0], reads[1:], rules, max(1, len(self._times(line).reads)))

    def _differ(self, line: Line, water: Collection[str]) -> "Differing | None":
        """What contradicts the newest reading of a water of a line."""
        from pondapp.answers.learning.timeline import MOST_READINGS, flows_of
        from pondapp.answers.tuning.differing import differing

        times, rules = self._times(line), self.worked.rules
        most = most_given(self.worked.pond, line, rules)
        mine = sorted(
            (one for one in self.readings if one.place_id in water), key=attrgetter("taken_at")
        )[-MOST_READINGS:]
        begun = [one.until or reading.taken_at for reading in mine for one in reading.before_turn]
        begun += [line.rebuilt_at] if line.rebuilt_at else []
        found = [
            one
            for reading in mine
            for one in flows_of(self.worked, reading, "")
            if one.at >= max(begun, default=one.at)
            and times.setting(one.at) == times.setting(mine[-1].taken_at)
            and (most is None or not beyond(one.spread, most, rules.measuring))
        ]
        return differing(found, rules, max(1, len(times.reads)))

    def _newest(self, line: Line) -> list[LatestReading]:
        """The newest reading of each branch that nothing has changed since."""
        rules = self.worked.rules.measuring
        every = (
            newest_at(self.readings, place.everywhere, rules)
            for place in branch_places(self.worked, line)
        )
        return [one for one in every if one and not self._passed(one.reading)]
