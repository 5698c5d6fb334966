"""The flow to set a valve to, so far inside the band that a measurement can tell it is right."""

from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.constants import DAY
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.measuring.scatter import ExpectedScatter
from pondapp.core.measuring.student_t import interval_half_width
from pondapp.core.measuring.timed_flow import timed_spread
from pondapp.core.measuring.verdict import Certainty, decide

_PASSES = 6  # each shrinks the error by the guard itself, which is a few per cent


@dataclass(frozen=True, slots=True)
class PlannedFills:
    """How a flow is going to be measured.

    Attributes:
        volume: What the container holds [m3], above 0 to 100.
        tolerance: Half width of the range its volume lies in, over the volume [-], 0 to 1.
        fills: Number of fills [-], 1 to 1000.
        expected: The scatter of one fill that is expected.
        rule: What it takes to decide.
    """

    volume: float
    tolerance: float
    fills: int
    expected: ExpectedScatter
    rule: Certainty

    def decided(self, flow: float, low: float, high: float | None) -> bool:
        """Whether these fills would find a flow right, if their mean shows just that flow."""
        time, scatter, freedom = self._mean(flow)
        spread = timed_spread(self.volume, self.tolerance * self.volume, time, scatter, freedom)
        return decide(spread, low, high, self.rule).kind == "within"

    def guard(self, flow: float) -> float:
        """By how much, over the flow [-], it must lie from a limit to be sure of its side."""
        time, scatter, freedom = self._mean(flow)
        both_sides = 2.0 * self.rule.sure - 1.0
        return interval_half_width(scatter / time, freedom, self.tolerance, both_sides)

    def _mean(self, flow: float) -> tuple[float, float, int]:
        time = min(self.volume / flow, DAY)
        scatter = self.expected.of(time) / sqrt(self.fills)
        return time, scatter, self.expected.weight + self.fills - 1


@dataclass(frozen=True, slots=True)
class Aim:
    """Where to set a flow.

    Attributes:
        flow: The flow to aim for [m3/s].
        least: Least flow that these fills would find right [m3/s].
        most: Most flow that they would find right [m3/s]; none without an upper end.
        sure: Whether these fills can find any flow right; if not, the band is too narrow or the
            fills too few or too short, and least and most are the band's own.
    """

    flow: float
    least: float
    most: float | None
    sure: bool


def aim_within(low: float, target: float, high: float | None, planned: PlannedFills) -> Aim:
    """The aim nearest to the best flow that the planned fills would find right.

    A measured flow is found right from a guard inside the limits. The aim lies another guard
    further in, as far as the band allows, so that a flow set there is found right in spite of
    what the fills scatter.

    Args:
        low: Least wanted flow [m3/s], above 0 to 1e6.
        target: Best flow [m3/s], above 0 to 1e6.
        high: Most wanted flow [m3/s], from the least to 1e6, or none.
        planned: How it will be measured.

    Returns:
        The aim, and the flows that would be found right [m3/s].

    Raises:
        OutOfRange: A flow is outside its range.

    Source:
        JCGM 106:2012, The role of measurement uncertainty in conformity assessment, 8.3.2 (guarded
        acceptance); the aim as far again inside, as a detection limit lies beyond a decision
        threshold: ISO 11929-1, from memory.

    Example:
        Between 900 and 1500 L/h, best 1200, timed three times with a bucket of 10 L:

        >>> from pondapp.core.measuring.scatter import ExpectedScatter
        >>> rule = Certainty(0.95, 0.10, 0.95)
        >>> expected = ExpectedScatter(0.14, 0.01, 3, 0.01)
        >>> fills = PlannedFills(0.010, 0.01, 3, expected, rule)
        >>> aim = aim_within(0.25e-3, 0.333e-3, 0.417e-3, fills)
        >>> round(3.6e6 * aim.flow), round(3.6e6 * aim.least), aim.sure
        (1199, 914, True)
    """
    require_above("least wanted flow", low, 0.0, 1e6, "m3/s")
    require_above("best flow", target, 0.0, 1e6, "m3/s")
    if high is not None:
        require_within("most wanted flow", high, low, 1e6, "m3/s")
    best = max(low, target if high is None else min(target, high))
    unsure = Aim(best if high is None else sqrt(low * high), low, high, sure=False)
    least = _inside(low, -1.0, planned)
    most = None if high is None else _inside(high, 1.0, planned)
    if least is None or (most is not None and least >= most):
        return unsure
    inner = _inside(least, -1.0, planned) or least
    if most is None:
        aim = max(best, inner)
    else:
        outer = _inside(most, 1.0, planned) or most
        aim = min(max(best, inner), outer) if inner <= outer else sqrt(least * most)
    if not planned.decided(aim, low, high):
        return unsure
    return Aim(
        aim,
        _decided_from(least, aim, low, high, planned),
        None if most is None else _decided_from(most, aim, low, high, planned),
        sure=True,
    )


def _inside(limit: float, sign: float, planned: PlannedFills) -> float | None:
    """The flow that lies a guard inside a limit; none where the guard is as large as the flow."""
    flow = limit
    for _ in range(_PASSES):
        by = 1.0 + sign * planned.guard(flow)
        if by <= 0.0:
            return None
        flow = limit / by
    return flow * (1.0 - sign * 1e-9)  # so that rounding does not leave it outside


def _decided_from(
    end: float, aim: float, low: float, high: float | None, planned: PlannedFills
) -> float:
    """The flow nearest to an end that is found right; the end itself where the band is wide."""
    if planned.decided(end, low, high):
        return end
    right, wrong = aim, end
    for _ in range(20):
        middle = 0.5 * (right + wrong)
        if planned.decided(middle, low, high):
            right = middle
        else:
            wrong = middle
    return right
