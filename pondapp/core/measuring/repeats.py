"""The mean of repeated times, for ways of measuring that are no fills of a bucket."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Step, Term
from pondapp.core.measuring.scatter import ExpectedScatter, TimingStd, timing_std
from pondapp.core.measuring.student_t import normal_factor, t_factor
from pondapp.core.measuring.timed_flow import GUM_REPEATS


@dataclass(frozen=True, slots=True)
class MeanTime:
    """A time that was taken once or several times.

    Attributes:
        mean: Mean time [s].
        uncertainty: Of the mean [s]; times the normal factor it spans what Student's t would.
        times: The times [s].
        timing: The scatter of one of them.
    """

    mean: float
    uncertainty: float
    times: tuple[float, ...]
    timing: TimingStd

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        count = Term("n", "number of times", float(len(self.times)), "-")
        scatter = Term("s", "scatter of one time", self.timing.std, "s")
        mean = Term("t", "mean time", self.mean, "s")
        freedom = Term("ν", "degrees of freedom", float(self.timing.freedom), "-")
        times = tuple(
            Term(f"t{number}", phrase("time {number}", number=str(number)), time, "s")
            for number, time in enumerate(self.times, start=1)
        )
        return (
            Step(mean, "t = (t1 + ... + tn) / n", (*times, count), GUM_REPEATS),
            *self.timing.steps(),
            Step(
                Term("u(t)", "uncertainty of the mean time", self.uncertainty, "s"),
                "u(t) = s / √n × (Student's t for ν) / (normal factor)",
                (scatter, count, freedom),
                GUM_REPEATS,
            ),
        )


def mean_time(times: Sequence[float], expected: ExpectedScatter, coverage: float) -> MeanTime:
    """Mean of times that were taken of the same thing.

    Args:
        times: The times [s], one or more, each above 0 to 86400.
        expected: The scatter of one time [s] that is expected beforehand.
        coverage: Share of cases that the interval will hold [-], 0.5 to 0.999.

    Returns:
        The mean [s] with an uncertainty [s] that is stretched for few times, so that an interval
        made with the normal factor is as wide as Student's t asks for.

    Raises:
        NotEnoughReadings: There is no time.
        OutOfRange: An argument is outside its range.

    Source:
        u = t s / √n over the normal factor: JCGM 100:2008, Guide to the expression of uncertainty
        in measurement, 4.2.3 (mean of repeats) and G.3 (Student's t); scatter: timing_std.

    Example:
        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> found = mean_time([12.4, 12.1, 12.7, 12.3, 12.5], expected, 0.95)
        >>> round(found.mean, 2), round(found.uncertainty, 3)
        (12.4, 0.118)
    """
    timing = timing_std(times, expected)
    stretch = t_factor(coverage, timing.freedom) / normal_factor(coverage)
    uncertainty = stretch * timing.std / sqrt(len(times))
    return MeanTime(timing.mean, uncertainty, tuple(times), timing)
