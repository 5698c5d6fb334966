"""The last fits, for as long as what they rest on stands: screens about one pond share them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta

from pondapp.answers.learning.learning import Learning, learn
from pondapp.answers.log.log import LogItem, until
from pondapp.answers.pond import WorkedPond
from pondapp.models.circuit import Line

MOST_KEPT = 4
"""Lines of the pond in hand; the rest is fitted again."""
HOLDS = timedelta(hours=1)
"""Nothing wears so much in this time that a fit would be another one."""


@dataclass(frozen=True, eq=False)
class _Kept:
    worked: WorkedPond
    line: Line
    past: tuple[LogItem, ...]
    turned_at: dict[str, datetime]
    found: Learning


_kept: list[_Kept] = []  # newest first


def learned_once(
    worked: WorkedPond,
    line: Line,
    log: Sequence[LogItem],
    turned_at: Mapping[str, datetime],
    now: datetime,
) -> Learning:
    """A line of a pond calibrated by its readings, as `learn` does, and kept.

    What was kept is from another time of the same hour; nothing was logged or turned since.

    Args:
        worked: The pond as entered: with nothing learned.
        line: One of its lines.
        log: The pond's log.
        turned_at: When the valve of a branch was last turned, by the branch's id.
        now: The time of now.

    Raises:
        PondError: No pump is chosen, the circuit cannot be counted, or nothing fits.
    """
    past, turns = tuple(until(log, now)), dict(turned_at)

    def is_it(one: _Kept) -> bool:
        return (
            one.worked is worked
            and one.line == line
            and abs(now - one.found.now) < HOLDS
            and one.turned_at == turns
            and one.past == past
        )

    kept = next(filter(is_it, _kept), None)
    if kept is None:
        kept = _Kept(worked, line, past, turns, learn(worked, line, log, turned_at, now))
    _kept[:] = [kept, *(one for one in _kept if one is not kept)][:MOST_KEPT]
    return kept.found
