"""Whether readings of one state of a place agree, and how much each counts where they do not.

Nobody can say which of two readings is right. Of many, a few that stand alone are slips; a run of
the latest that agree is a change that nobody logged; else what they leave open stays open.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from math import sqrt
from typing import Literal

from pondapp.core.base.errors import require_above

Kind = Literal["agree", "slips", "changed", "open"]

SLIPS = 4
"""Of so many readings one may be a slip: where more stand alone, all of them scatter. A rule of
thumb."""
_FEWEST = 3  # of two nobody knows which stands alone


@dataclass(frozen=True, slots=True)
class Agreement:
    """What readings of one state say together.

    Attributes:
        kind: Whether they agree, or how they do not.
        weights: Of each reading [-]: 1 as read, less where it counts less.
    """

    kind: Kind
    weights: tuple[float, ...]


class _Readings:
    """Readings, each with its doubt, and how far one may be from others."""

    def __init__(self, offs: Sequence[float], doubts: Sequence[float], limit: float) -> None:
        self.offs, self.limit = offs, limit
        self.variances = [doubt * doubt for doubt in doubts]

    def mean(self, some: Sequence[int]) -> tuple[float, float]:
        """Weighted mean of some, and its variance."""
        weights = [1.0 / self.variances[i] for i in some]
        whole = sum(weights)
        return sum(w * self.offs[i] for w, i in zip(weights, some, strict=True)) / whole, 1 / whole

    def off(self, one: int, others: Sequence[int]) -> float:
        """How far one is from others, over what it may be."""
        mean, variance = self.mean(others)
        return (self.offs[one] - mean) / sqrt(self.variances[one] + variance)

    def worst(self, some: Sequence[int]) -> tuple[float, int]:
        """The one that is farthest from all others of some, and how far."""
        if len(some) < 2:
            return 0.0, some[0]
        return max((abs(self.off(i, [j for j in some if j != i])), i) for i in some)

    def agree(self, some: Sequence[int]) -> bool:
        """Whether none of some is farther from the others than it may be."""
        return self.worst(some)[0] <= self.limit


def agreement(offs: Sequence[float], doubts: Sequence[float], limit: float) -> Agreement:
    """How readings of one state of a place agree.

    Args:
        offs: Logarithm of what each says over what is expected at its time [-], oldest first.
        doubts: Standard uncertainty of each [-], above 0.
        limit: How many standard uncertainties a good one may be off [-], above 0.

    Returns:
        The kind, and the weights. One that stands alone counts as much less as it is off. What is
        left open has its uncertainty widened until all of it lies within: by the Birge ratio, or,
        where the newest alone is off, so that it weighs as much as all before it together.

    Raises:
        OutOfRange: The limit is outside its range.

    Source:
        Birge ratio R² = Σ r² / (n - 1): R. T. Birge, Phys. Rev. 40 (1932) 207, from memory, here by
        residuals that leave out the reading itself, which is the same for equal uncertainties.
        What counts as a slip or a change is our own rule.

    Example:
        Two that differ by half: each is as unsure as they differ.

        >>> found = agreement([0.0, 0.7], [0.02, 0.02], 3.0)
        >>> found.kind, round(0.02 / found.weights[0] ** 0.5, 3)
        ('open', 0.495)
    """
    require_above("limit", limit, 0.0, 1e3, "-")
    read = _Readings(offs, doubts, limit)
    everything = list(range(len(offs)))
    if len(offs) < 2 or read.agree(everything):
        return Agreement("agree", (1.0,) * len(offs))
    kept = _without_slips(read, everything)
    if kept is not None:
        return Agreement("slips", _counted(read, kept))
    latest = _latest(read, everything)
    if latest is not None:
        return Agreement("changed", _counted(read, latest))
    before, newest = everything[:-1], everything[-1]
    agreed = before if read.agree(before) else _without_slips(read, before)
    if agreed is not None:  # then the newest alone is off
        weights = list(_counted(read, [*agreed, newest]))
        mean, variance = read.mean(agreed)
        apart = 0.5 * (read.offs[newest] - mean) ** 2
        for i in agreed:
            weights[i] = variance / apart
        weights[newest] = read.variances[newest] / apart
        return Agreement("open", tuple(weights))
    alone = [read.off(i, [j for j in everything if j != i]) for i in everything]
    ratio = sum(one * one for one in alone) / len(alone)
    return Agreement("open", (1.0 / ratio,) * len(alone))


def without_drift(
    offs: Sequence[float], times: Sequence[float], doubts: Sequence[float], rate: float
) -> tuple[float, ...]:
    """What a steady change in time leaves of how readings differ.

    Args:
        offs: Logarithm of what each says [-].
        times: When each was taken [s].
        doubts: Standard uncertainty of each [-], above 0.
        rate: Standard deviation of how fast such a logarithm changes by itself [1/s], above 0.

    Returns:
        The same about the likeliest steady change, which is small where little time lies between.

    Raises:
        OutOfRange: The rate is outside its range.

    Source:
        Least squares with a normal prior of the slope, whose mean is none (ridge regression):
        b = Σ w (t - t̄)(x - x̄) / (Σ w (t - t̄)² + 1 / s²), w = 1 / u², from memory.

    Example:
        A tenth less after a month is wear, and after an hour it is none:

        >>> offs, doubts, rate = [0.0, -0.1], [0.02, 0.02], 0.15 / (30 * 86400)
        >>> [round(one, 3) for one in without_drift(offs, [0.0, 30 * 86400.0], doubts, rate)]
        [-0.048, -0.052]
        >>> [round(one, 3) for one in without_drift(offs, [0.0, 3600.0], doubts, rate)]
        [-0.0, -0.1]
    """
    require_above("rate", rate, 0.0, 1.0, "1/s")
    weights = [1.0 / doubt**2 for doubt in doubts]
    whole = sum(weights)
    middle = sum(w * t for w, t in zip(weights, times, strict=True)) / whole
    mean = sum(w * x for w, x in zip(weights, offs, strict=True)) / whole
    gone = [t - middle for t in times]
    along = sum(w * t * (x - mean) for w, t, x in zip(weights, gone, offs, strict=True))
    slope = along / (sum(w * t * t for w, t in zip(weights, gone, strict=True)) + rate**-2)
    return tuple(x - slope * t for t, x in zip(gone, offs, strict=True))


def _counted(read: _Readings, kept: Sequence[int]) -> tuple[float, ...]:
    """Full weight for what is kept, and for the rest as much less as it is off."""
    return tuple(
        1.0 if i in kept else min(1.0, 1.0 / read.off(i, kept) ** 2) for i in range(len(read.offs))
    )


def _without_slips(read: _Readings, some: Sequence[int]) -> list[int] | None:
    """Those that agree without a few that stand alone; None where that is not all.

    The newest is never a slip: something may have changed since the others.
    """
    if len(some) < _FEWEST:
        return None
    kept = list(some)
    for _ in range(max(1, len(some) // SLIPS)):
        _, worst = read.worst(kept)
        if worst == some[-1]:
            return None
        kept.remove(worst)
        if read.agree(kept):
            return kept
    return None


def _latest(read: _Readings, some: Sequence[int]) -> list[int] | None:
    """The latest that agree, where those before agree with one another too."""
    for start in range(1, len(some) - 1):
        if read.agree(some[start:]) and read.agree(some[:start]):
            return list(some[start:])
    return None
