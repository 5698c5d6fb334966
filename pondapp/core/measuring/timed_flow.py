"""Flow from timed fills of a container, with its uncertainty."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import floor, inf, sqrt

from pondapp.core.errors import NotEnoughReadings, require_above, require_within
from pondapp.core.measuring.student_t import MOST_DOF, interval_half_width
from pondapp.core.measuring.uncertainty import (
    combined,
    effective_degrees_of_freedom,
    mean_and_scatter,
    rectangular,
)
from pondapp.core.messages import phrase
from pondapp.core.working import ENTERED, Source, Step, Term

GUM_REPEATS = Source("JCGM 100:2008, 4.2 (mean of repeats)", "from memory")
GUM_COMBINED = Source("JCGM 100:2008, 4.3.7 and 5.1 (container, combination)", "from memory")
GUM_FREEDOM = Source("JCGM 100:2008, G.4.1 (degrees of freedom)", "from memory")
INTERVAL = Source("JCGM 101:2008, 6.4 (t and rectangular, added exactly)", "from memory")
DEFINITION = Source("flow is volume over time (definition)", "computed")


@dataclass(frozen=True, slots=True)
class TimedFlow:
    """A flow and how well it is known.

    Attributes:
        flow: Mean flow [m3/s].
        standard_uncertainty: Of the flow [m3/s].
        degrees_of_freedom: Of that uncertainty [-].
        low: Lower end of the interval [m3/s], never negative.
        high: Upper end of the interval [m3/s].
        mean_time: Mean fill time [s].
        expanded: Half width of the interval before its lower end is kept from below 0 [m3/s].
        scatter: Standard deviation of one fill that was believed [s].
        times: The fill times [s].
        volume: What the container holds [m3].
        volume_half_width: Half width of the container's tolerance [m3].
        coverage: Share of cases that the interval holds [-].
    """

    flow: float
    standard_uncertainty: float
    degrees_of_freedom: int
    low: float
    high: float
    mean_time: float
    expanded: float
    scatter: float
    times: tuple[float, ...]
    volume: float
    volume_half_width: float
    coverage: float

    def steps(self) -> tuple[Step, ...]:
        """The working, from the times to the interval."""
        count = Term("n", "number of fills", float(len(self.times)), "-")
        volume = Term("V", "volume of the container", self.volume, "m3")
        half = Term("a", "half width of its tolerance", self.volume_half_width, "m3")
        mean = Term("t", "mean fill time", self.mean_time, "s")
        scatter = Term("s", "scatter of one fill", self.scatter, "s")
        flow = Term("Q", "flow", self.flow, "m3/s")
        combined_term = Term("u", "standard uncertainty", self.standard_uncertainty, "m3/s")
        freedom = Term("ν", "degrees of freedom", float(self.degrees_of_freedom), "-")
        coverage = Term("p", "coverage", self.coverage, "-")
        interval = Term("U", "half width of the interval", self.expanded, "m3/s")
        fills = tuple(
            Term(f"t{number}", phrase("fill {number}", number=str(number)), time, "s")
            for number, time in enumerate(self.times, start=1)
        )
        return (
            Step(mean, "t = (t1 + ... + tn) / n", (*fills, count), GUM_REPEATS),
            Step(volume, "V as marked or weighed", (volume,), ENTERED),
            Step(flow, "Q = V / t", (volume, mean), DEFINITION),
            Step(
                combined_term,
                "u = Q √((s / (t √n))² + (a / (V √3))²)",
                (flow, scatter, mean, count, half, volume),
                GUM_COMBINED,
            ),
            Step(freedom, "ν from Welch and Satterthwaite", (scatter, count, half), GUM_FREEDOM),
            Step(
                interval,
                "U holds the share p of s/√n × Student's t plus a × rectangular",
                (combined_term, scatter, count, half, coverage),
                INTERVAL,
            ),
        )


def believed_scatter(times: Sequence[float], reaction_sd: float) -> tuple[float, int]:
    """Scatter of one fill, and how many degrees of freedom it is worth.

    The scatter that was seen already holds the reaction, so the two are not added. Few fills can
    agree by chance: the reaction is then the floor. The floor stands in for a scatter that may be
    somewhat larger, so it is worth 2 n - 1 degrees of freedom and not infinitely many: chosen
    so that simulated intervals of 2 to 10 fills hold their coverage for a true scatter of 1.5
    to 3 times the reaction. A single fill has the reaction only.

    Args:
        times: Fill times [s], each above 0 to 86400.
        reaction_sd: Standard deviation of one start-stop pair [s], 0 to 10.

    Returns:
        Standard deviation [s] and degrees of freedom [-].

    Raises:
        NotEnoughReadings: There is no fill.
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 100:2008, 4.2.2 (scatter) and 4.3 (reaction known beforehand); the floor is this
        project's own choice, checked by simulation in the tests.
    """
    if not times:
        raise NotEnoughReadings("time at least one fill")
    for time in times:
        require_above("fill time", time, 0.0, 86400.0, "s")
    require_within("reaction scatter", reaction_sd, 0.0, 10.0, "s")
    count = len(times)
    if count == 1:
        return reaction_sd, MOST_DOF
    _, seen = mean_and_scatter(times)
    return (seen, count - 1) if seen > reaction_sd else (reaction_sd, 2 * count - 1)


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
        The interval of a single fill knows the reaction only, not what other fills would show.

    Raises:
        NotEnoughReadings: There is no fill.
        OutOfRange: An argument is outside its range.

    Source:
        JCGM 100:2008, 4.2 (repeats), 4.3.7 (rectangular), 5.1 (combination), G.4.1 (degrees of
        freedom); interval: JCGM 101:2008, 6.4.
    """
    scatter, time_dof = believed_scatter(times, reaction_sd)
    require_above("volume", volume, 0.0, 100.0, "m3")
    require_within("tolerance of the volume", volume_half_width, 0.0, volume, "m3")
    mean = sum(times) / len(times)
    parts = (scatter / sqrt(len(times)) / mean, rectangular(volume_half_width) / volume)
    flow = volume / mean
    expanded = flow * interval_half_width(parts[0], time_dof, volume_half_width / volume, coverage)
    return TimedFlow(
        flow=flow,
        standard_uncertainty=flow * combined(parts),
        degrees_of_freedom=floor(effective_degrees_of_freedom(parts, (time_dof, inf))),
        low=max(0.0, flow - expanded),
        high=flow + expanded,
        mean_time=mean,
        expanded=expanded,
        scatter=scatter,
        times=tuple(times),
        volume=volume,
        volume_half_width=volume_half_width,
        coverage=coverage,
    )
