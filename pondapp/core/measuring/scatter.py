"""How much fills of one container scatter: what is expected, what was seen, and both as one."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from math import floor, hypot, sqrt

from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import NotEnoughReadings, require_above, require_within
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.student_t import chance_of_ratio
from pondapp.core.measuring.uncertainty import mean_and_scatter

EXPECTED = Source("JCGM 100:2008, 5.1.2 (independent parts add as squares)", "published")
OWN = Source("this project's own choice, checked by simulation", "computed")
POOLED = Source("JCGM 100:2008, H.3.6 and G.3 (pooled scatter), as for a prior", "from memory")
MOST_WEIGHT = 30  # degrees of freedom: a place changes, so that old fills never outvote new ones


@dataclass(frozen=True, slots=True)
class ExpectedScatter:
    """The scatter of one fill before any is timed.

    Attributes:
        reaction: Standard deviation of one start and stop by hand [s], 0 to 10.
        variation: Standard deviation of the flow and of the filling from one fill to the next,
            over the mean [-], 0 to 1.
        weight: Degrees of freedom that this is worth [-], 1 to 1000.
        surprise: Chance below which fills are said to scatter by more than they should [-], 0 to
            0.5.
        earlier: Scatter of earlier fills at the place over the one expected by rule [-], above 0
            to 1e3; 1 where there were none.
    """

    reaction: float
    variation: float
    weight: int
    surprise: float
    earlier: float = 1.0

    def of(self, time: float) -> float:
        """Standard deviation of one fill [s] that takes so long [s]."""
        return self.earlier * hypot(self.reaction, self.variation * time)


@dataclass(frozen=True, slots=True)
class TimingStd:
    """The scatter of one fill by all that is known.

    Attributes:
        std: Standard deviation of one fill [s].
        freedom: Its degrees of freedom [-].
        beyond: Whether the fills scatter by more than they should.
        weight: Degrees of freedom that the expected scatter counted for [-].
        seen: Scatter of these fills [s]; none of a single one.
        mean: Mean time [s].
        count: Number of fills [-].
        expected: What was expected.
    """

    std: float
    freedom: int
    beyond: bool
    weight: float
    seen: float | None
    mean: float
    count: int
    expected: ExpectedScatter

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        before, mean = self.expected, Term("t", "mean time", self.mean, "s")
        by_rule = Term("s0", "scatter expected of one fill", before.of(self.mean), "s")
        reaction = Term("r", "scatter of a start and stop", before.reaction, "s")
        variation = Term("c", "variation from fill to fill", before.variation, "-")
        worth = Term("ν0", "degrees of freedom it is worth", float(before.weight), "-")
        weight = Term("w", "of these, counted here", self.weight, "-")
        inputs: tuple[Term, ...] = (reaction, variation, mean)
        formula = "s0 = √(r² + (c t)²)"
        if before.earlier != 1.0:
            here = Term("k", "earlier fills here against that", before.earlier, "-")
            inputs, formula = (here, *inputs), "s0 = k √(r² + (c t)²)"
        first = Step(by_rule, formula, inputs, EXPECTED)
        if self.seen is None:
            return (first,)
        scatter = Term("s", "scatter of one fill", self.std, "s")
        seen = Term("s1", "scatter of these fills", self.seen, "s")
        count = Term("n", "number of fills", float(self.count), "-")
        both = "s = √((w s0² + (n - 1) s1²) / (w + n - 1))"
        return (
            first,
            Step(weight, "w = ν0, or ν0 (s0 / s1)² if s1 is larger", (worth, by_rule, seen), OWN),
            Step(scatter, both, (by_rule, weight, seen, count), POOLED),
        )


def timing_std(times: Sequence[float], expected: ExpectedScatter) -> TimingStd:
    """Scatter of one fill from what is expected and from what the fills show.

    Few fills can agree, or differ, by chance; so the scatter that is expected counts as if it had
    been seen in some earlier fills. With a normal scatter of the fills and a scaled inverse
    chi-squared distribution of its square that is exact: the mean then follows Student's t with
    the degrees of freedom of both. The more the fills scatter beyond what is expected, the less
    that holds here, and the less it counts; so intervals of restless flows are not too narrow.

    Args:
        times: Fill times [s], each above 0 to 86400.
        expected: The scatter that is expected [s].

    Returns:
        Standard deviation of one fill [s] and its degrees of freedom [-].

    Raises:
        NotEnoughReadings: There is no fill.
        OutOfRange: An argument is outside its range.

    Source:
        s² = (w s0² + (n - 1) s1²) / (w + n - 1): JCGM 100:2008, Guide to the expression of
        uncertainty in measurement, H.3.6 (pooled estimate); as a prior and with Student's t for the
        mean: A. Gelman et al., Bayesian Data Analysis, 3rd ed. (2013), section 3.3, from memory;
        that w shrinks by the ratio of the variances is this project's own choice. Coverage by
        simulation: tests/bench/coverage.py.

    Example:
        Five fills, with 0.19 s expected of each:

        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> found = timing_std([12.4, 12.1, 12.7, 12.3, 12.5], expected)
        >>> round(found.seen, 3), round(found.std, 3), found.freedom
        (0.224, 0.212, 6)
    """
    if not times:
        raise NotEnoughReadings("time at least one fill")
    for time in times:
        require_above("fill time", time, 0.0, DAY, "s")
    require_within("reaction scatter", expected.reaction, 0.0, 10.0, "s")
    require_within("variation from fill to fill", expected.variation, 0.0, 1.0, "-")
    require_within("weight of the expected scatter", expected.weight, 1, 1000, "-")
    require_within("chance of a surprise", expected.surprise, 0.0, 0.5, "-")
    require_above("scatter of earlier fills", expected.earlier, 0.0, 1e3, "-")
    count, mean = len(times), sum(times) / len(times)
    before, weight = expected.of(mean), expected.weight
    if count == 1:
        return TimingStd(before, weight, False, float(weight), None, mean, 1, expected)
    _, seen = mean_and_scatter(times)
    # Between two times that are given to the hundredth, less is only rounding.
    differs = seen > 1e-9 * mean
    ratio = min(1e12, (seen / before) ** 2) if before > 1e-6 * seen else 1e12
    beyond = differs and chance_of_ratio(ratio, count - 1, weight) < expected.surprise
    counts = weight / ratio if differs and ratio > 1.0 else float(weight)
    freedom = counts + count - 1
    scatter = sqrt((counts * before**2 + (count - 1) * seen**2) / freedom)
    # Truncated, as a table of Student's t asks for; a hair's breadth below a number is that.
    whole = max(1, floor(freedom + 1e-9))
    return TimingStd(scatter, whole, beyond, counts, seen, mean, count, expected)


def learned(expected: ExpectedScatter, sets: Sequence[Sequence[float]]) -> ExpectedScatter:
    """What earlier fills at a place teach about the scatter of the next ones there.

    Args:
        expected: The scatter that is expected by rule [s].
        sets: Fill times [s] of earlier readings, the oldest first.

    Returns:
        The scatter [s] to expect at this place. Fills that scatter by more than is plausible
        teach nothing: something was wrong with one of them.

    Raises:
        OutOfRange: A time is outside its range.

    Source:
        Pooled estimate of a variance, JCGM 100:2008, Guide to the expression of uncertainty in
        measurement, H.3.6; its weight is bounded.

    Example:
        Earlier fills here scattered more than expected:

        >>> expected = ExpectedScatter(reaction=0.14, variation=0.0, weight=3, surprise=0.001)
        >>> here = learned(expected, [[10.0, 10.5, 9.9], [10.3, 9.8, 10.2]])
        >>> round(here.of(10.0), 2), here.weight
        (0.28, 4)
    """
    now = expected
    for times in sets:
        if len(times) < 2:
            continue
        found = timing_std(times, now)
        if not found.beyond:
            by_rule = expected.of(found.mean)
            times_rule = found.std / by_rule if by_rule > 0.0 else 1.0
            freedom = min(found.freedom, MOST_WEIGHT)
            now = replace(now, weight=freedom, earlier=max(times_rule * expected.earlier, 1e-3))
    return now
