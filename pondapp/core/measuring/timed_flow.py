"""Flow from timed fills of a container, with its uncertainty."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import ENTERED, Source, Step, Term
from pondapp.core.measuring.scatter import ExpectedScatter, TimingStd, timing_std
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.uncertainty import combined, rectangular

GUM_REPEATS = Source("JCGM 100:2008, 4.2 (mean of repeats)", "published")
GUM_COMBINED = Source("JCGM 100:2008, 4.3 and 5.1.2 (container, combination)", "published")
INTERVAL = Source("JCGM 101:2008, 6.4 (t and rectangular, added exactly)", "from memory")
DEFINITION = Source("flow is volume over time (definition)", "computed")


@dataclass(frozen=True, slots=True)
class TimedFlow:
    """A flow and how well it is known.

    Attributes:
        flow: Mean flow [m3/s].
        standard_uncertainty: Of the flow [m3/s].
        low: Lower end of the interval [m3/s], never negative.
        high: Upper end of the interval [m3/s].
        mean_time: Mean fill time [s].
        expanded: Half width of the interval before its lower end is cut off at 0 [m3/s].
        timing: The scatter of one fill.
        times: The fill times [s].
        volume: What the container holds [m3].
        volume_half_width: Half width of the container's tolerance [m3].
        coverage: Share of cases that the interval holds [-].
    """

    flow: float
    standard_uncertainty: float
    low: float
    high: float
    mean_time: float
    expanded: float
    timing: TimingStd
    times: tuple[float, ...]
    volume: float
    volume_half_width: float
    coverage: float

    @property
    def spread(self) -> Spread:
        """What is known of the flow, as a distribution."""
        return timed_spread(
            self.volume, self.volume_half_width, self.mean_time,
            self.timing.std / sqrt(len(self.times)), self.timing.freedom,
        )  # fmt: skip

    def steps(self) -> tuple[Step, ...]:
        """The working, from the times to the interval."""
        count = Term("n", "number of fills", float(len(self.times)), "-")
        volume = Term("V", "volume of the container", self.volume, "m3")
        half = Term("a", "half width of its tolerance", self.volume_half_width, "m3")
        mean = Term("t", "mean fill time", self.mean_time, "s")
        scatter = Term("s", "scatter of one fill", self.timing.std, "s")
        flow = Term("Q", "flow", self.flow, "m3/s")
        combined_term = Term("u", "standard uncertainty", self.standard_uncertainty, "m3/s")
        freedom = Term("ν", "degrees of freedom", float(self.timing.freedom), "-")
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
            *self.timing.steps(),
            Step(
                combined_term,
                "u = Q √((s / (t √n))² + (a / (V √3))²)",
                (flow, scatter, mean, count, half, volume),
                GUM_COMBINED,
            ),
            Step(
                interval,
                "U holds the share p of s/√n × Student's t plus a × rectangular",
                (combined_term, scatter, count, freedom, half, coverage),
                INTERVAL,
            ),
        )


def timed_spread(
    volume: float, volume_half_width: float, mean_time: float, scatter: float, freedom: int
) -> Spread:
    """What a mean fill time and its container say of a flow.

    Args:
        volume: What the container holds [m3], above 0 to 100.
        volume_half_width: Half width of the range the true volume lies in [m3], 0 to the volume.
        mean_time: Mean fill time [s], above 0 to 86400.
        scatter: Standard uncertainty of that mean [s], 0 to 1e5.
        freedom: Its degrees of freedom [-], 1 and up.

    Returns:
        The flow [m3/s] as a distribution, taken as straight about it.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        Q = V / t; JCGM 100:2008, Guide to the expression of uncertainty in measurement, 5.1.2
        (first order); JCGM 101:2008, Supplement 1 to the GUM: Propagation of distributions, 6.4
        (the two distributions).

    Example:
        10 L, known to 0.1 L, in 10 s, known to 0.1 s:

        >>> found = timed_spread(0.010, 0.0001, 10.0, 0.1, 5)
        >>> [round(1e3 * one, 3) for one in (found.centre, found.scale, found.tolerance)]  # L/s
        [1.0, 0.01, 0.01]
    """
    require_above("volume", volume, 0.0, 100.0, "m3")
    require_within("tolerance of the volume", volume_half_width, 0.0, volume, "m3")
    require_above("fill time", mean_time, 0.0, DAY, "s")
    require_within("uncertainty of the mean time", scatter, 0.0, 1e5, "s")
    flow = volume / mean_time
    return Spread(flow, flow * scatter / mean_time, freedom, volume_half_width / mean_time)


def timed_flow(
    times: Sequence[float],
    volume: float,
    volume_half_width: float,
    expected: ExpectedScatter,
    coverage: float,
) -> TimedFlow:
    """Mean flow of repeated fills.

    Args:
        times: Fill times [s], each above 0 to 86400.
        volume: What the container holds [m3], above 0 to 100.
        volume_half_width: Half width of the range the true volume lies in [m3], 0 to the volume.
        expected: The scatter of one fill [s] that is expected before any is timed.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        The flow [m3/s] with standard uncertainty and interval; the interval is never negative.
        That of a single fill knows what other fills would show: the scatter that is expected.

    Raises:
        NotEnoughReadings: There is no fill.
        OutOfRange: An argument is outside its range.

    Source:
        Q = V / t; JCGM 100:2008, Guide to the expression of uncertainty in measurement, 4.2
        (repeats), 4.3.7 (rectangular), 5.1 (combination); interval: JCGM 101:2008, Supplement 1 to
        the GUM: Propagation of distributions, 6.4; scatter: timing_std.

    Example:
        Three fills of a bucket of 10 L:

        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> found = timed_flow([20.1, 19.8, 20.0], 0.010, 0.0001, expected, 0.95)
        >>> [round(3.6e6 * one) for one in (found.flow, found.low, found.high)]  # L/h
        [1803, 1769, 1837]
    """
    timing = timing_std(times, expected)
    require_above("volume", volume, 0.0, 100.0, "m3")
    require_within("tolerance of the volume", volume_half_width, 0.0, volume, "m3")
    mean, of_mean = timing.mean, timing.std / sqrt(len(times))
    spread = timed_spread(volume, volume_half_width, mean, of_mean, timing.freedom)
    half = spread.half_width(coverage)
    low, high = max(0.0, spread.centre - half), spread.centre + half
    relative = combined((of_mean / mean, rectangular(volume_half_width) / volume))
    return TimedFlow(
        flow=spread.centre,
        standard_uncertainty=spread.centre * relative,
        low=low,
        high=high,
        mean_time=mean,
        expanded=half,
        timing=timing,
        times=tuple(times),
        volume=volume,
        volume_half_width=volume_half_width,
        coverage=coverage,
    )
