"""A range with its likely value: nobody knows a fish's appetite to three digits."""

from dataclasses import dataclass

from pondapp.core.base.errors import OutOfRange
from pondapp.core.base.messages import Amount

HUGE = 1e15  # far above anything a pond holds in SI; keeps inf out


@dataclass(frozen=True, slots=True)
class Span:
    """Least, likely and most of a quantity that is never negative, in one SI unit.

    Raises:
        OutOfRange: The three are not numbers from 0 up, in rising order.
    """

    low: float
    likely: float
    high: float

    def __post_init__(self) -> None:
        if not 0.0 <= self.low <= self.likely <= self.high <= HUGE:
            raise OutOfRange(
                "a range must rise from least to most and start at 0 or above, not {low}, "
                "{likely}, {high}",
                low=Amount(self.low, "-"),
                likely=Amount(self.likely, "-"),
                high=Amount(self.high, "-"),
            )

    def times(self, other: "Span | float") -> "Span":
        """Product, end by end: both may be low together."""
        if isinstance(other, Span):
            return Span(self.low * other.low, self.likely * other.likely, self.high * other.high)
        return Span(self.low * other, self.likely * other, self.high * other)

    def plus(self, other: "Span") -> "Span":
        """Sum, end by end."""
        return Span(self.low + other.low, self.likely + other.likely, self.high + other.high)

    def over(self, other: "Span") -> "Span":
        """Quotient; the least goes with the other's most.

        Raises:
            OutOfRange: The other range reaches down to 0.
        """
        if other.low <= 0.0:
            raise OutOfRange("a range that reaches down to 0 cannot divide")
        return Span(self.low / other.high, self.likely / other.likely, self.high / other.low)


NOTHING = Span(0.0, 0.0, 0.0)


def exactly(value: float) -> Span:
    """The range of a number that is known.

    Args:
        value: The number, 0 to 1e15.

    Returns:
        The number as least, likely and most.

    Raises:
        OutOfRange: It is negative, no number, or beyond any pond.

    Source:
        Definition.

    Example:
        >>> exactly(2.0)
        Span(low=2.0, likely=2.0, high=2.0)
    """
    return Span(value, value, value)
