"""Whether what readings ask for can be, beside what was entered; and how sure that is if it cannot.

Off is how far an unknown is from what was entered, in standard deviations of that; 0 where nothing
was entered, which no reading can be against.
"""

from collections.abc import Sequence
from dataclasses import replace
from math import sqrt

from pondapp.core.calibration.fit import Fitted, farthest_good
from pondapp.core.calibration.scene import Unknown
from pondapp.core.measuring.student_t import NORMAL

USUAL = 2.0
"""Standard deviations that what was entered may well be off."""
MOST_WIDENED = 10.0
"""Times that what was entered is taken as less sure at most: then it says nothing any more."""
_SURELY = 1e-9  # no chance is asked for that is less


def off_entered(
    entered: Sequence[Unknown], unknowns: Sequence[Unknown], found: Fitted
) -> list[float]:
    """How far each unknown is from what was entered.

    Args:
        entered: What was known beforehand.
        unknowns: The same as the fit took it, which may be less sure.
        found: The fit.

    Returns:
        Standard deviations of what was entered [-].

    Source:
        Definition.

    Example:
        >>> off_entered([Unknown("lift", 1.0, 0.5)], [Unknown("lift", 1.0, 1.0)],
        ...             Fitted((3.0,), ((1.0,),), (), (), ()))
        [6.0]
    """
    return [
        0.0 if before.open else x * now.deviation / before.deviation
        for x, now, before in zip(found.at, unknowns, entered, strict=True)
    ]


def strained_by(off: Sequence[float], readings: int, chance: float) -> tuple[int, ...]:
    """Unknowns that are farther from what was entered than can be.

    Args:
        off: How far each is [-].
        readings: How many readings say so [-], 0 and up.
        chance: Chance of saying so of what was entered well [-], 1e-6 to 0.5.

    Returns:
        Places of the farthest and of those at least half as far, the farthest first; else none.

    Raises:
        OutOfRange: The chance is outside its range.

    Source:
        One of them beyond Bonferroni's bound, or the sum of squares beyond χ² of as many as there
        are readings: at the best fit the sum over readings and unknowns has that distribution (A.
        Tarantola, Inverse Problem Theory (2005), 3.2, from memory). χ² by E. B. Wilson, M. M.
        Hilferty, PNAS 17 (1931) 684, from memory.

    Example:
        >>> strained_by([0.5, -5.0, 3.0], 4, 0.01)
        (1, 2)
        >>> strained_by([0.5, -1.5, 1.0], 4, 0.01)
        ()
    """
    farthest = max(map(abs, off), default=0.0)
    single = farthest_good(max(_SURELY, chance / max(1, len(off))))
    if farthest <= single and sum(x * x for x in off) <= _most_squares(readings, chance):
        return ()
    order = sorted(range(len(off)), key=lambda i: -abs(off[i]))
    return tuple(i for i in order if abs(off[i]) >= 0.5 * farthest)


def _most_squares(count: int, chance: float) -> float:
    """What a sum of so many squares is at most, but by this chance."""
    if not count:
        return 0.0
    part = 2.0 / (9.0 * count)
    return count * (1.0 - part + NORMAL.inv_cdf(1.0 - chance) * sqrt(part)) ** 3


def widened_by(
    entered: Sequence[Unknown], off: Sequence[float], readings: int
) -> tuple[Unknown, ...]:
    """What was entered, known so much worse that what was found may well be.

    Args:
        entered: What was known beforehand.
        off: How far each is from that [-].
        readings: How many readings say so [-], 0 and up.

    Returns:
        The same with larger deviations; what nobody entered stays as it is.

    Source:
        A Birge ratio of what was entered, R² = Σ x² / n; at least so large that the farthest is
        USUAL. That all is widened alike is our own rule: readings do not say which of it is wrong.

    Example:
        >>> round(widened_by([Unknown("lift", 1.0, 0.1)], [6.0], 36)[0].deviation, 3)
        0.3
    """
    far = max(
        sqrt(sum(x * x for x in off) / max(1, readings)), max(map(abs, off), default=0.0) / USUAL
    )
    times = min(max(1.0, far), MOST_WIDENED)
    return tuple(
        one if one.open else replace(one, deviation=one.deviation * times) for one in entered
    )
