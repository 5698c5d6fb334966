"""Which of several fills is an outlier."""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.errors import NotEnoughReadings, require_within
from pondapp.core.measuring.scatter import ExpectedScatter, timing_std
from pondapp.core.measuring.student_t import t_inside

FEWEST_FILLS = 3  # of two that differ, neither is the odd one


@dataclass(frozen=True, slots=True)
class Outlier:
    """The fill that fits the others least.

    Attributes:
        index: Its place among the times, from 0 [-].
        difference: Its time less the mean of the others [s].
        chance: Chance that the odd one of so many good fills lies as far out [-].
    """

    index: int
    difference: float
    chance: float


def likely_outlier(
    times: Sequence[float], expected: ExpectedScatter, outlier_chance: float
) -> Outlier | None:
    """The fill that looks like an outlier, if one does.

    Each fill is held against the mean and the scatter of the others, which is estimated from what
    is expected and from what they show. The most unlikely is named, and only if it is rarer than
    agreed. Of fills that scatter half as much again as is expected, good ones are called an outlier
    about twice as often as agreed.

    Args:
        times: Fill times [s], each above 0 to 86400, three or more.
        expected: The scatter of one fill [s] that is expected beforehand.
        outlier_chance: Accepted chance of calling a good fill an outlier [-], 0 to 0.5.

    Returns:
        The fill [-], or none: then all of them count.

    Raises:
        NotEnoughReadings: There are fewer than three fills.
        OutOfRange: An argument is outside its range.

    Source:
        t = |t_i - mean| / (s √(1 + 1/n)), prediction of one more reading by Student's t: JCGM
        100:2008, Guide to the expression of uncertainty in measurement, G.3; the chance for the
        most extreme of n by Bonferroni's bound.

    Example:
        The third of five fills took far longer than the others:

        >>> expected = ExpectedScatter(reaction=0.14, variation=0.01, weight=3, surprise=0.01)
        >>> likely_outlier([10.1, 10.0, 12.6, 10.2, 9.9], expected, 0.01).index
        2
    """
    count = len(times)
    if count < FEWEST_FILLS:
        raise NotEnoughReadings("a slip shows only among three or more fills")
    require_within("chance of a false alarm", outlier_chance, 0.0, 0.5, "-")
    # Checked here as a whole, so that a bad time is refused and not called an outlier.
    timing_std(times, expected)
    found: Outlier | None = None
    for index, time in enumerate(times):
        others = [*times[:index], *times[index + 1 :]]
        known = timing_std(others, expected)
        expected_gap = known.std * sqrt(1.0 + 1.0 / len(others))
        away = abs(time - known.mean)
        # Without any scatter nothing is unlikely but a difference itself.
        ratio = (
            min(away / expected_gap, 1e6) if expected_gap > 0.0 else (1e6 if away > 0.0 else 0.0)
        )
        chance = min(1.0, count * (1.0 - t_inside(ratio, known.freedom)))
        if found is None or chance < found.chance:
            found = Outlier(index, time - known.mean, max(0.0, chance))
    return found if found is not None and found.chance < outlier_chance else None
