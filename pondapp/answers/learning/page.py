"""All that the readings of a line tell, worked out at once for the screen that says it."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import partial
from typing import Any

from pondapp.answers.learning.kept import learned_once
from pondapp.answers.learning.learning import Learning
from pondapp.answers.learning.misfits import misfits_told
from pondapp.answers.learning.predictions import (
    FlowTold,
    NextReading,
    after_cleaning,
    after_turn,
    brought,
    clean_when,
    flows_in,
    next_reading,
    to_turn,
    with_pump,
)
from pondapp.answers.learning.told import (
    PartTold,
    from_readings,
    parts_told,
    valves_told,
)
from pondapp.answers.log.charts import places_in, wanted_at
from pondapp.answers.log.log import LogItem, newest_first, until
from pondapp.answers.log.trend import PlaceTrend, place_trend
from pondapp.answers.pond import WorkedPond
from pondapp.answers.tuning.flow_sets import BranchPlace, InHand, branch_places
from pondapp.core.base.errors import PondError
from pondapp.core.base.messages import Message
from pondapp.core.measuring.trend import FEWEST_READINGS
from pondapp.models.circuit import Line, Pump


@dataclass(frozen=True, slots=True)
class Turn:
    """A valve that is to be turned, and what the other places have then."""

    place: BranchPlace
    others: tuple[FlowTold, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What the readings of a line tell."""

    read: bool
    """Whether any reading says anything of it."""
    rests_on: Message | None
    now: tuple[FlowTold, ...]
    next: NextReading | None
    clean: tuple[FlowTold, ...]
    cleanings: tuple[Message, ...]
    """What the last one brought, and when the next is due."""
    turn: Turn | None
    pumps: tuple[tuple[Pump, tuple[FlowTold, ...]], ...]
    """The other pumps on the shelf."""
    ahead: tuple[PlaceTrend, ...]
    """Where each place that was measured is heading."""
    parts: tuple[PartTold, ...]
    valves: tuple[Message, ...]
    misfits: tuple[Message, ...]
    """What does not fit: readings among themselves, beside the pump or what was entered."""

    def read_of(self, flows: Sequence[FlowTold]) -> tuple[FlowTold, ...]:
        """Flows without those of which no reading says anything as it is now."""
        unread = {one.key for one in self.now if one.unread}
        return tuple(one for one in flows if one.key not in unread)


def _where_it_can(what: Callable[[], tuple[Any, ...]]) -> tuple[Any, ...]:
    """An answer, or nothing where the circuit has none: the rest of the page still stands."""
    try:
        return what()
    except PondError:
        return ()


def _turn(found: Learning, in_hand: InHand | None) -> Turn | None:
    model = found.model
    places = branch_places(model.worked, model.line, in_hand)
    (place,) = _where_it_can(
        lambda: (to_turn(found, {one.branch.id: one.band.target for one in places}),)
    ) or (None,)
    others = _where_it_can(partial(after_turn, found, place)) if place else ()
    return Turn(place, others) if place and others else None


def _pumps(found: Learning) -> tuple[tuple[Pump, tuple[FlowTold, ...]], ...]:
    model = found.model
    told = []
    for pump in model.worked.pond.pumps:
        flows = _where_it_can(partial(with_pump, found, pump))
        if pump.id != model.line.pump_id and flows:
            told.append((pump, flows))
    return tuple(told)


def _ahead(worked: WorkedPond, found: Learning, log: Sequence[LogItem]) -> tuple[PlaceTrend, ...]:
    """The trend of every place on the line that was measured often enough for one."""
    mine = {place_id for place in found.model.places for place_id in place.everywhere}
    past = newest_first(until(log, found.now))
    trends = [
        place_trend(worked.pond, place_id, name, wanted_at(worked, place_id, past), past, found.now)
        for place_id, name in places_in(past).items()
        if place_id in mine
    ]
    return tuple(one for one in trends if one.readings >= FEWEST_READINGS)


def told_of(
    worked: WorkedPond,
    line: Line,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
    in_hand: InHand | None = None,
) -> Told:
    """What the readings of a line tell.

    Args:
        worked: The pond.
        line: One of its lines.
        log: The pond's log.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now.
        in_hand: What is filled at each place, on which its aim depends a little.

    Raises:
        PondError: No pump is chosen, the circuit cannot be counted, or nothing fits.
    """
    found = learned_once(worked, line, log, turned_at, now)
    read = bool(found.reads)
    ahead = _ahead(worked, found, log) if read else ()
    # How fast the pump loses is told by the same rule as where a place is heading.
    reaches = any(one.steps and one.way != "not decided" for one in ahead)
    said = (brought(found) if read else None, clean_when(found) if reaches else None)
    return Told(
        read=read,
        rests_on=from_readings(found) if read else None,
        now=flows_in(found, found.scene_now) if read else (),
        next=next_reading(found),
        clean=after_cleaning(found) if read else (),
        cleanings=tuple(one for one in said if one is not None),
        turn=_turn(found, in_hand) if read else None,
        pumps=_pumps(found) if read else (),
        ahead=ahead,
        parts=_where_it_can(partial(parts_told, found)) if read else (),
        valves=valves_told(found),
        misfits=misfits_told(found),
    )
