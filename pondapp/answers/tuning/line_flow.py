"""The newest flow of a pump: measured as a whole, or as the sum over its branches."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.flow_sets import LatestReading, branch_places, newest_at
from pondapp.core.measuring.spread import Spread, spread_of_half_width
from pondapp.models.circuit import Line
from pondapp.models.reading import Reading


@dataclass(frozen=True, slots=True)
class LineFlow:
    """The flow of a pump, and the readings it comes from."""

    flow: float
    doubt: float
    """Half of its interval [m3/s]."""
    spread: Spread
    """What is known of it."""
    coverage: float
    """Share of cases that the interval holds."""
    at: datetime
    seen: tuple[LatestReading, ...]
    summed: bool
    """Whether it is the sum over the branches."""

    @property
    def readings(self) -> tuple[Reading, ...]:
        """What it rests on."""
        return tuple(one.reading for one in self.seen)

    @property
    def dry(self) -> tuple[str, ...]:
        """Where no water came."""
        return tuple(one.reading.place_name for one in self.seen if one.found.dry)


def line_flow(worked: WorkedPond, line: Line, log: Sequence[Reading]) -> LineFlow | None:
    """The newest flow of a pump: measured as a whole, or as the sum over its branches.

    The doubts of a sum are added up, since the same container may be wrong in all of them.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    rules = worked.rules.measuring
    whole = newest_at(log, (line.id,), rules)
    found = [newest_at(log, place.everywhere, rules) for place in branch_places(worked, line)]
    seen = tuple(one for one in found if one is not None)
    fresh = rules.same_setting
    if found and len(seen) == len(found):
        times = [one.reading.taken_at for one in seen]
        together = (max(times) - min(times)).total_seconds() <= fresh
        if together and (whole is None or max(times) > whole.reading.taken_at):
            flow, doubt = sum(one.flow for one in seen), sum(one.doubt for one in seen)
            spread = spread_of_half_width(flow, doubt, rules.coverage)
            return LineFlow(flow, doubt, spread, rules.coverage, max(times), seen, True)
    if whole is None or (whole.flow == 0.0 and _came_since(whole, seen)):
        return None
    spread, at = whole.found.flow.spread, whole.reading.taken_at
    return LineFlow(whole.flow, whole.doubt, spread, rules.coverage, at, (whole,), False)


def _came_since(dry: LatestReading, seen: Sequence[LatestReading]) -> bool:
    """Whether water was seen at a branch after none came from the pump."""
    return any(one.flow > 0.0 and one.reading.taken_at > dry.reading.taken_at for one in seen)
