"""What is known of a flow, as a distribution: the same for every way of measuring."""

from dataclasses import dataclass

from pondapp.core.measuring.student_t import (
    MOST_DOF,
    interval_half_width,
    normal_factor,
    share_below,
)


@dataclass(frozen=True, slots=True)
class Spread:
    """A flow, with Student's t distribution and a rectangular one about it.

    Attributes:
        centre: The flow itself [m3/s]; 0 with no spread for a place without water.
        scale: Standard uncertainty of the t part [m3/s], 0 and up.
        freedom: Its degrees of freedom [-]; 1000 and more count as normal.
        tolerance: Half width of the rectangular part [m3/s], 0 and up.
    """

    centre: float
    scale: float = 0.0
    freedom: int = MOST_DOF
    tolerance: float = 0.0

    def _relative(self) -> tuple[float, float]:
        """Both parts over the flow, which keeps tiny flows from the edge of the floats."""
        return self.scale / self.centre, self.tolerance / self.centre

    def less_than(self, limit: float) -> float:
        """Chance that the true flow is less than a limit [m3/s]."""
        if self.centre <= 0.0 or self.scale == self.tolerance == 0.0:
            return float(self.centre < limit)
        return share_below(limit / self.centre - 1.0, *self._in_order())

    def more_than(self, limit: float) -> float:
        """Chance that the true flow is more than a limit [m3/s]."""
        if self.centre <= 0.0 or self.scale == self.tolerance == 0.0:
            return float(self.centre > limit)
        return share_below(1.0 - limit / self.centre, *self._in_order())

    def _in_order(self) -> tuple[float, int, float]:
        scale, tolerance = self._relative()
        return scale, self.freedom, tolerance

    def half_width(self, coverage: float) -> float:
        """Half width of the interval [m3/s] that holds such a share of cases."""
        if self.centre <= 0.0 or self.scale == self.tolerance == 0.0:
            return 0.0
        return self.centre * interval_half_width(*self._in_order(), coverage)

    def normal_scale(self, coverage: float) -> float:
        """Standard uncertainty [m3/s] of the normal distribution that has the same interval.

        What is worked out from several flows takes them as normal; so the few degrees of freedom
        of a few fills are not lost on the way.
        """
        return self.half_width(coverage) / normal_factor(coverage)

    def interval(self, coverage: float) -> tuple[float, float]:
        """The interval [m3/s]; its lower end is never negative."""
        half = self.half_width(coverage)
        return max(0.0, self.centre - half), self.centre + half


def spread_of_half_width(flow: float, half_width: float, coverage: float) -> Spread:
    """A flow of which only its interval is known, taken as normal.

    Args:
        flow: The flow [m3/s], 0 to 1e6.
        half_width: Half of its interval [m3/s], 0 to 1e6.
        coverage: Share of cases that the interval holds [-], 0.5 to 0.999.

    Returns:
        What is known of it [m3/s].

    Raises:
        OutOfRange: The coverage is outside its range.

    Source:
        u = U / k: JCGM 100:2008, Guide to the expression of uncertainty in measurement, 4.3.3 (an
        expanded uncertainty, divided by its factor).

    Example:
        A flow of 1 L/s, known to 0.05 L/s in 95 of 100 cases:

        >>> round(1e3 * spread_of_half_width(1e-3, 5e-5, 0.95).scale, 4)  # L/s
        0.0255
    """
    return Spread(flow, half_width / normal_factor(coverage))
