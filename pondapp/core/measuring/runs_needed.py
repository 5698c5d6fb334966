"""What settles the question: so many more fills, or a container that takes longer to fill."""

from collections.abc import Callable, Sequence
from math import sqrt

from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import require_within
from pondapp.core.measuring.timed_flow import TimedFlow, timed_spread
from pondapp.core.measuring.verdict import Certainty, decide


def more_runs_to_decide(
    now: TimedFlow, band_low: float, band_high: float | None, rule: Certainty, most_runs: float
) -> int | None:
    """How many more fills would probably settle whether the flow is in the band.

    Assumes that the fills to come have the mean and the scatter of those already timed.

    Args:
        now: The flow by the fills so far.
        band_low: Least wanted flow [m3/s], 0 to 1e6.
        band_high: Most wanted flow [m3/s], from the least to 1e6, or none.
        rule: What it takes to decide.
        most_runs: Most fills in all that anyone will time [-], 1 to 1000.

    Returns:
        Number of further fills [-]; 0 when the question is settled already, none when not even
        the most fills would settle it.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        The spread of the timed flow, for so many fills; decided as every flow is.

    Example:
        Three fills show a flow hardly above the least one that is right:

        >>> from pondapp.core.measuring.scatter import ExpectedScatter
        >>> from pondapp.core.measuring.timed_flow import timed_flow
        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> now = timed_flow([10.0, 10.2, 9.8], 0.010, 0.0001, expected, 0.95)
        >>> rule = Certainty(0.95, 0.10, 0.95)
        >>> more_runs_to_decide(now, 0.98e-3, None, rule, 30)
        2
    """
    require_within("most fills", most_runs, 1.0, 1000.0, "-")
    count, known = len(now.times), now.timing
    if decide(now.spread, band_low, band_high, rule).kind != "undecided":
        return 0

    def decided(fills: int) -> bool:
        spread = timed_spread(
            now.volume, now.volume_half_width, now.mean_time,
            known.std / sqrt(fills), known.freedom + fills - count,
        )  # fmt: skip
        return decide(spread, band_low, band_high, rule).kind != "undecided"

    fills = _first(count + 1, int(most_runs), decided)
    return None if fills is None else fills - count


def _first(low: int, high: int, enough: Callable[[int], bool]) -> int | None:
    """The first number that is enough, where each one after it is enough too."""
    if low > high or not enough(high):
        return None
    while low < high:
        middle = (low + high) // 2
        if enough(middle):
            high = middle
        else:
            low = middle + 1
    return high


def volume_to_decide(
    now: TimedFlow,
    band_low: float,
    band_high: float | None,
    rule: Certainty,
    fills: int,
    volumes: Sequence[float],
) -> float | None:
    """The smallest container by which so many fills would probably settle the question.

    Assumes that its content is known as well as that of the container in use, in per cent, and
    that its fills scatter as expected here.

    Args:
        now: The flow by the fills so far.
        band_low: Least wanted flow [m3/s], 0 to 1e6.
        band_high: Most wanted flow [m3/s], from the least to 1e6, or none.
        rule: What it takes to decide.
        fills: Number of fills [-], 1 to 1000.
        volumes: Containers that may be at hand [m3], from small to large, each 0.01 to 1000 times
            the one in use.

    Returns:
        Its volume [m3], or none.

    Raises:
        OutOfRange: An argument is outside its range.

    Source:
        The spread of the timed flow in the other container; decided as every flow is.

    Example:
        The same with a larger container:

        >>> from pondapp.core.measuring.scatter import ExpectedScatter
        >>> from pondapp.core.measuring.timed_flow import timed_flow
        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> now = timed_flow([10.0, 10.2, 9.8], 0.010, 0.0001, expected, 0.95)
        >>> rule = Certainty(0.95, 0.10, 0.95)
        >>> volume_to_decide(now, 0.98e-3, None, rule, 3, (0.020, 0.060))
        0.02
    """
    require_within("number of fills", fills, 1, 1000, "-")
    expected = now.timing.expected
    for volume in volumes:
        require_within("container over the one in use", volume / now.volume, 1e-2, 1e3, "-")
    larger = [v for v in volumes if v > now.volume and now.mean_time * v < DAY * now.volume]

    def decided(number: int) -> bool:
        times = larger[number] / now.volume
        time = times * now.mean_time
        spread = timed_spread(
            larger[number], times * now.volume_half_width, time,
            expected.of(time) / sqrt(fills), expected.weight + fills - 1,
        )  # fmt: skip
        return decide(spread, band_low, band_high, rule).kind != "undecided"

    first = _first(0, len(larger) - 1, decided)
    return None if first is None else larger[first]
