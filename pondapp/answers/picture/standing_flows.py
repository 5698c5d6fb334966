"""The flows of a pond that were measured and still tell how it is now."""

from collections.abc import Mapping, Sequence
from datetime import datetime

from pondapp.answers.log.log import LogItem
from pondapp.answers.picture.states import PASSED, states_of
from pondapp.answers.pond import WorkedPond


def standing_flows(
    worked: WorkedPond, log: Sequence[LogItem], now: datetime
) -> Mapping[str, float]:
    """Flow [m3/s] at each pump, branch and feature by the newest reading of its water, 0 if dry.

    Only what tells how it is now counts.

    Args:
        worked: The pond.
        log: Its log.
        now: The time of now.

    Raises:
        PondError: The pond's shape, a changed rule or a reading cannot be.
    """
    states = states_of(worked, log, now)
    return {
        key: one.found.flow.flow
        for key, one in states.items()
        if one.found and one.word not in PASSED
    }
