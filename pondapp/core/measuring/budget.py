"""What limits a result: the shares of its uncertainty, and what would halve it."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.errors import NotEnoughReadings
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.uncertainty import combined

SHARES = Source("JCGM 100:2008, 5.1.2 (each part's share of the variance)", "published")


@dataclass(frozen=True, slots=True)
class Part:
    """One source of doubt.

    Attributes:
        name: What it is.
        uncertainty: Its part of the relative standard uncertainty [-].
        share: Its share of the variance [-].
    """

    name: str
    uncertainty: float
    share: float


@dataclass(frozen=True, slots=True)
class Budget:
    """All sources of doubt, the largest first.

    Attributes:
        parts: The sources; none of them is nothing.
        total: Relative standard uncertainty of the result [-].
        shrink: By what factor the largest must shrink for the total to halve [-]; none if it
            cannot be done by that one alone.
    """

    parts: tuple[Part, ...]
    total: float
    shrink: float | None

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        total = Term("u", "relative standard uncertainty", self.total, "-")
        return tuple(
            Step(
                Term("share", phrase("share of {name}", name=part.name), part.share, "-"),
                "share = u(part)² / u²",
                (Term("u(part)", part.name, part.uncertainty, "-"), total),
                SHARES,
            )
            for part in self.parts
        )


def budget(parts: Mapping[str, float]) -> Budget:
    """What limits a result, and how far that must shrink to halve its uncertainty.

    Args:
        parts: Relative standard uncertainty [-] by name of its source, each 0 to 1e12.

    Returns:
        The parts in order of size, without those that are nothing, and the shrink factor [-].

    Raises:
        NotEnoughReadings: There is no part above nothing.
        OutOfRange: A part is outside its range.

    Source:
        u² = Σ u_i² and shares u_i² / u²: JCGM 100:2008, Guide to the expression of uncertainty in
        measurement, 5.1.2, equation 10, solved for the largest part.

    Example:
        Timing by 2 %, container by 1 %: timing makes four fifths of the doubt.

        >>> found = budget({"timing": 0.02, "container": 0.01})
        >>> round(found.total, 4), round(found.parts[0].share, 2)
        (0.0224, 0.8)
    """
    real = {name: value for name, value in parts.items() if value != 0.0}
    if not real:
        raise NotEnoughReadings("there is no uncertainty to look at")
    total = combined(list(real.values()))
    listed = sorted(
        (Part(name, value, (value / total) ** 2) for name, value in real.items()),
        key=lambda part: -part.uncertainty,
    )
    largest = listed[0].share
    left = 0.25 - (1.0 - largest)  # share of the old variance that the largest may still have
    # A hair's breadth above nothing would ask for a million fills.
    shrink = sqrt(left / largest) if left > 1e-3 else None
    return Budget(tuple(listed), total, shrink)
