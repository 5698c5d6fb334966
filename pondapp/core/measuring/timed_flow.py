"""Flow from timed fills of a container, with its uncertainty."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, sqrt

from pondapp.core.errors import NotEnoughReadings, require_above, require_within
from pondapp.core.measuring.student_t import t_factor

REACTION_DOF = 1000  # the reaction scatter comes from thousands of timings: as good as known


@dataclass(frozen=True, slots=True)
class TimedFlow:
    """A flow [m3/s], its interval, and the mean fill time [s]."""

    flow: float
    standard_uncertainty: float
    degrees_of_freedom: int
    low: float
    high: float
    mean_time: float


def timed_flow(
    times: Sequence[float],
    volume: float,
    volume_half_width: float,
    reaction_sd: float,
    coverage: float,
) -> TimedFlow:
    """Mean flow of repeated fills.

    Args:
        times: Fill times [s], each above 0 to 86400.
        volume: What the container holds [m3], above 0 to 100.
        volume_half_width: Half width of the range the true volume lies in [m3], 0 to the volume.
        reaction_sd: Standard deviation of one start-stop pair [s], 0 to 10; the least scatter
            that is believed, so that few fills that agree by chance claim no more.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The flow [m3/s] with standard uncertainty and interval; the interval is never negative.

    Raises:
        NotEnoughReadings: There is no fill.
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 100:2008, 4.2 (repeats), 4.3.7 (rectangular), 5.1 (combination), G.4.1 (degrees of
        freedom).
    """
    if not times:
        raise NotEnoughReadings("time at least one fill")
    for time in times:
        require_above("fill time", time, 0.0, 86400.0, "s")
    require_above("volume", volume, 0.0, 100.0, "m3")
    require_within("tolerance of the volume", volume_half_width, 0.0, volume, "m3")
    require_within("reaction scatter", reaction_sd, 0.0, 10.0, "s")
    count = len(times)
    mean = sum(times) / count
    seen = sqrt(sum((time - mean) ** 2 for time in times) / (count - 1)) if count > 1 else 0.0
    scatter, time_dof = (seen, count - 1) if seen > reaction_sd else (reaction_sd, REACTION_DOF)
    relative_time = scatter / sqrt(count) / mean
    relative_volume = volume_half_width / sqrt(3.0) / volume
    flow = volume / mean
    relative = sqrt(relative_time**2 + relative_volume**2)
    dof = REACTION_DOF
    if relative_time > 0.0:
        dof = floor(min(REACTION_DOF, time_dof * (relative / relative_time) ** 4))
    expanded = t_factor(coverage, dof) * relative * flow
    return TimedFlow(flow, relative * flow, dof, max(0.0, flow - expanded), flow + expanded, mean)
