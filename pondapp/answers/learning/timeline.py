"""A pond's log as the states that its pump, hoses and valves were in, one after the other.

A valve that was turned, a pump or filter that was cleaned begins a new state of that part: what was
read before says nothing of it, and goes on counting for all that stayed as it was.
"""

from bisect import bisect_right
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from math import hypot

from pondapp.answers.learning.priors import EVENLY
from pondapp.answers.log.cleanings import of_branch, of_pump
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.log.trend import flow_of
from pondapp.answers.measuring.flow import Measured
from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.flow_sets import BranchPlace, set_of
from pondapp.answers.tuning.turns import flow_of_set
from pondapp.core.measuring.spread import Spread
from pondapp.models.circuit import Line
from pondapp.models.entry import Entry
from pondapp.models.reading import Reading

MOST_READINGS = 60
"""The newest that are fitted together: as many as a trend takes."""
_BEFORE = timedelta(seconds=1)


@dataclass(frozen=True, slots=True)
class Read:
    """A flow that counts: a reading, or what was timed before its valve was turned."""

    reading: Reading
    at: datetime
    branch_id: str
    """Empty for the flow of the pump as a whole."""
    flow: float
    share: float
    """Its own standard uncertainty over the flow [-], without that of its container."""
    freedom: int
    """Degrees of freedom of that [-]."""
    container: str
    """What was filled; empty where nothing was."""
    content: float
    """Standard uncertainty of its content, as a share [-]."""
    opened: float | None
    spread: Spread
    """All that is known of it."""


@dataclass(frozen=True, slots=True)
class Timeline:
    """All that is fitted together, oldest first."""

    reads: tuple[Read, ...]
    dry: Mapping[str, Reading]
    """The newest reading of each branch that found no water since, by the branch's id; empty for
    the pump as a whole. It is a fault, and not how a circuit is."""
    turns: Mapping[str, Sequence[datetime]]
    """When the valve of each branch was turned, by the branch's id."""
    opened: Mapping[tuple[str, int], float]
    """Where its handle stood in each of its states, where that was noted."""
    pump: Sequence[datetime]
    """When the pump was cleaned or changed."""
    changed: datetime | None
    """When it was changed last: what ran before is not known."""
    dirt: Mapping[str, Sequence[datetime]]
    """When something behind each branch was cleaned, by the branch's id."""

    def valve_state(self, branch_id: str, at: datetime) -> int:
        """How often the valve of a branch had been turned by then."""
        return bisect_right(self.turns.get(branch_id, ()), at)

    def setting(self, at: datetime) -> tuple[object, ...]:
        """How all of it stood: what was read of one water at one setting is to agree."""
        valves = tuple(self.valve_state(key, at) for key in self.turns)
        dirt = tuple(self.dirt_state(key, at) for key in self.dirt)
        return self.pump_state(at), valves, dirt

    def pump_state(self, at: datetime) -> int:
        """How often the pump had been cleaned by then."""
        return bisect_right(self.pump, at)

    def dirt_state(self, branch_id: str, at: datetime) -> int:
        """How often something behind a branch had been cleaned by then."""
        return bisect_right(self.dirt.get(branch_id, ()), at)


def _read(
    found: Measured, reading: Reading, at: datetime, branch_id: str,
    container: str, opened: float | None, coverage: float,
) -> Read:  # fmt: skip
    spread = found.flow.spread
    own = replace(spread, tolerance=0.0) if container else spread
    content = spread.tolerance / spread.centre * EVENLY if container else 0.0
    share = own.normal_scale(coverage) / spread.centre
    return Read(
        reading, at, branch_id, spread.centre, share, spread.freedom, container, content, opened,
        spread,
    )  # fmt: skip


def flows_of(worked: WorkedPond, reading: Reading, branch_id: str) -> list[Read]:
    """What a reading says: of the settings of its visit, and of where the valve stood at last.

    Of what is no branch only the last: nobody knows which valve was turned.
    """
    rules = worked.rules.measuring
    found: list[Read] = []
    for one in reading.before_turn if branch_id else ():
        flow = flow_of_set(one, rules, None, reading.steadiness)
        if flow is not None and not flow.dry and one.until and one.container:
            at = min(one.until, reading.taken_at) - _BEFORE
            found.append(
                _read(flow, reading, at, branch_id, one.container.id, one.opened, rules.coverage)
            )
    last = flow_of(reading, rules)
    if last is not None and not last.dry:
        method = reading.method
        container = method.container.id if method.kind == "bucket" else ""
        found.append(
            _read(last, reading, reading.taken_at, branch_id, container, reading.opened,
                  rules.coverage)
        )  # fmt: skip
    return found


def _turns(
    readings: Sequence[Reading], places: Sequence[BranchPlace], turned_at: Mapping[str, datetime]
) -> dict[str, list[datetime]]:
    found: dict[str, list[datetime]] = {}
    for place in places:
        turns = {
            min(one.until or reading.taken_at, reading.taken_at)
            for reading in readings
            if reading.place_id in place.everywhere
            for one in reading.before_turn
        }
        if place.branch.id in turned_at:
            last = turned_at[place.branch.id]
            # A turn is noted with the visit in hand, and again with the reading that it ends in.
            turns |= {last} if all(abs(last - at) > _BEFORE for at in turns) else set()
        found[place.branch.id] = sorted(turns)
    return found


def _cleanings(
    worked: WorkedPond, line: Line, log: Sequence[LogItem], places: Sequence[BranchPlace]
) -> tuple[list[datetime], datetime | None, dict[str, list[datetime]]]:
    """When the pump was cleaned, when it was changed last, and when each branch was cleaned."""
    pump: set[datetime] = set()
    changed: datetime | None = None
    dirt: dict[str, set[datetime]] = {place.branch.id: set() for place in places}
    for item in log:
        if not isinstance(item, Entry):
            continue
        if item.what.kind == "pump_change":
            pump.add(item.when)
            changed = item.when if changed is None else max(changed, item.when)
        if of_pump(item):
            pump.add(item.when)
        for place in places:
            if of_branch(worked.pond, place.branch, item):
                dirt[place.branch.id].add(item.when)
    clean = set_of(worked.pond.clean, line)
    if clean is not None:
        ids = {one.reading_id for one in clean.places}
        taken = [i.taken_at for i in log if isinstance(i, Reading) and i.id in ids]
        if taken:
            pump.add(min(taken) - _BEFORE)
    return sorted(pump), changed, {key: sorted(found) for key, found in dirt.items()}


def timeline(
    worked: WorkedPond,
    line: Line,
    log: Sequence[LogItem],
    places: Sequence[BranchPlace],
    turned_at: Mapping[str, datetime],
    now: datetime,
) -> Timeline:
    """The states of a line's parts by its pond's log.

    Args:
        worked: The pond.
        line: One of its lines.
        log: Its log, in any order; what is dated after now is no evidence.
        places: Its branches that are to carry water.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now.

    Raises:
        PondError: A changed rule cannot be.
    """
    past = until(log, now)
    readings = [item for item in past if isinstance(item, Reading)]
    by_place = {place_id: place for place in places for place_id in place.everywhere}
    turns = _turns(readings, places, turned_at)
    reads: list[Read] = []
    dry: dict[str, Reading] = {}
    for reading in sorted(readings, key=lambda one: one.taken_at):
        place = by_place.get(reading.place_id)
        if place is None and reading.place_id != line.id:
            continue
        branch_id = place.branch.id if place else ""
        said = flows_of(worked, reading, branch_id)
        if reading.method.kind == "nothing":
            dry[branch_id] = reading
        elif said:
            dry.pop(branch_id, None)
        reads += said
    reads = sorted(reads, key=lambda one: one.at)[-MOST_READINGS:]
    opened = {
        (one.branch_id, bisect_right(turns.get(one.branch_id, ()), one.at)): one.opened
        for one in reads
        if one.opened is not None
    }
    pump, changed, dirty = _cleanings(worked, line, past, places)
    start = None
    for one in line.pumps_before:  # only one that was measured makes what came after another
        ran = any(read.at < one.until and (not start or read.at >= start) for read in reads)
        start = one.until
        if one.pump_id != line.pump_id and ran:
            pump = sorted({*pump, one.until})
            changed = one.until if changed is None else max(changed, one.until)
    return Timeline(tuple(reads), dry, turns, opened, pump, changed, dirty)


def usual_share(reads: Sequence[Read]) -> float:
    """Standard uncertainty that a next reading will likely have, as a share [-]."""
    shares = sorted(hypot(one.share, one.content) for one in reads)
    return shares[len(shares) // 2] if shares else 0.02
