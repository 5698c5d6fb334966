"""How far to turn a valve next: what the turns that were made say of it.

No table knows a reader's valve, but each turn shows how its flow answers. The tables of valves.py
only bend the line between settings that were really measured, where it is known where the handle
stood; without that, turns are told as parts of the last one.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import exp, log, sqrt

from pondapp.core.base.errors import NoSolution, OutOfRange, require_above, require_within
from pondapp.core.hydraulics.valves import VALVES
from pondapp.core.measuring.spread import Spread

READ = 0.05  # half a tenth of the handle's way: nobody reads it better
_NEARLY_SHUT = 0.001  # of the handle's way; as far as valve_loss reaches
_LEAST = 0.01  # of the handle's way; a valve that is shut has no loss coefficient
# A turn over the straight guess from the last one, for valves as in the tables, each with another
# pipe behind it and open by any share before: the middle, and nine of ten.
_BETWEEN = (1.0, 0.45, 1.5)
_CLOSING = (0.33, 0.07, 0.95)
_OPENING = (1.0, 0.5, 2.2)
_CLOSED_BY, _OPENED_BY = 0.5, 1.0  # turns at most; nothing was seen of this valve beyond

Point = tuple[float, float]


@dataclass(frozen=True, slots=True)
class Setting:
    """A setting of a valve that was measured.

    Attributes:
        flow: What is known of the flow [m3/s]; what all settings have in common left out.
        opened: Where the handle stood, as a share of its way [-], above 0 to 1, if that is known.
    """

    flow: Spread
    opened: float | None = None


@dataclass(frozen=True, slots=True)
class TurnGuess:
    """A guess with its range.

    Attributes:
        best: The guess [-].
        low: The end of its range nearer to nothing [-].
        high: The other end [-].
    """

    best: float
    low: float
    high: float


def chance_of_more(before: Spread, after: Spread) -> float:
    """Chance that the flow after a turn is truly more than before it.

    Args:
        before: What is known of the flow before [m3/s].
        after: What is known of the flow after [m3/s].

    Returns:
        The chance [-].

    Source:
        Difference of two means, u² = u1² + u2², degrees of freedom after Welch and Satterthwaite:
        JCGM 100:2008, Guide to the expression of uncertainty in measurement, G.4.1 (G.2b).

    Example:
        1.00 and 1.05 L/s, each known to 0.02 L/s:

        >>> round(chance_of_more(Spread(1.00e-3, 2e-5, 8), Spread(1.05e-3, 2e-5, 8)), 3)
        0.951
    """
    scale = sqrt(before.scale**2 + after.scale**2)
    freedom = after.freedom
    if scale > 0.0:
        parts = (before.scale / scale) ** 4 / before.freedom + (
            after.scale / scale
        ) ** 4 / after.freedom
        freedom = max(1, int(1.0 / parts))
    both = Spread(after.centre, scale, freedom, before.tolerance + after.tolerance)
    return both.more_than(before.centre)


def next_share(before: Spread, after: Spread, aim: float, coverage: float) -> TurnGuess:
    """How far to turn next, as a share of the last turn.

    Between the two flows the guess is straight. Beyond them it is not: a valve that is closed takes
    more and more away, so a third of the straight guess is enough; and nobody is sent to close it
    by more than half as far again, or to open it by more than as far again.

    Args:
        before: Flow before the last turn [m3/s].
        after: Flow after it, another one beyond doubt [m3/s].
        aim: Wanted flow [m3/s], above 0 to 1e6.
        coverage: Share of cases that the interval of a flow holds [-], 0.5 to 0.999.

    Returns:
        Share of the last turn [-]; below 0 where it is to be turned back, -1 where it stood before.
        The end of the range called low is the smaller turn.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: Both flows are the same.

    Source:
        f = (Q_a - Q_2) / (Q_2 - Q_1), its interval by the law of propagation: JCGM 100:2008, 5.1.2.
        The factors on it are this project's own: from simulated valves as in the tables of
        valves.py with pipes of 5 to 80 times v²/2g.

    Example:
        A turn took the flow from 1.0 to 0.6 L/s; 0.7 L/s are wanted:

        >>> found = next_share(Spread(1.0e-3, 1e-5), Spread(0.6e-3, 1e-5), 0.7e-3, 0.95)
        >>> round(found.best, 2), round(found.low, 2), round(found.high, 2)
        (-0.25, -0.07, -0.41)
    """
    require_above("aim", aim, 0.0, 1e6, "m3/s")
    was, now = before.centre, after.centre
    moved, missing = now - was, aim - now
    if moved == 0.0:
        raise NoSolution("the last turn did not change the flow")
    straight = missing / moved
    doubt = sqrt(
        ((aim - was) / moved**2 * after.half_width(coverage)) ** 2
        + (missing / moved**2 * before.half_width(coverage)) ** 2
    )
    back, closing, size = straight < 0.0, missing < 0.0, abs(straight)
    if back and size < 1.0:  # the aim lies between two settings that were both seen
        best, least, most = (size * factor for factor in _BETWEEN)
        low, high = least - doubt, min(1.0, most + doubt)
    else:
        seen = 1.0 if back else 0.0
        factors = _CLOSING if closing else _OPENING
        best, least, most = (seen + (size - seen) * factor for factor in factors)
        best = min(best, seen + (_CLOSED_BY if closing else _OPENED_BY))
        low, high = least - doubt, most + doubt
    sign = -1.0 if back else 1.0
    return TurnGuess(sign * best, sign * min(max(0.0, low), best), sign * max(high, best))


def valve_loss(kind: str, opened: float) -> float:
    """Loss coefficient of a valve that is open so far, by its table.

    Args:
        kind: Kind of valve, a key of VALVES; "unknown" lies between a ball and a gate valve.
        opened: Share of the full travel [-], 0.001 to 1.

    Returns:
        Loss coefficient on the speed in the full bore [-]; below the table, by the slope of its
        first piece over the logarithm of the opening.

    Raises:
        OutOfRange: There is no such valve, or the opening is outside its range.

    Source:
        Tables named in VALVES; interpolation in log K is this project's own.

    Example:
        >>> round(valve_loss("gate", 0.5), 1), round(valve_loss("ball", 0.5), 1)
        (2.1, 33.2)
    """
    if kind == "unknown":
        return sqrt(valve_loss("ball", opened) * valve_loss("gate", opened))
    if kind not in VALVES:
        raise OutOfRange("there is no valve of the kind {kind}", kind=kind)
    require_within("opening", opened, _NEARLY_SHUT, 1.0, "-")
    points = VALVES[kind][0]
    (x0, k0), (x1, k1) = points[0], points[1]
    if opened < x0:
        return k0 * exp(log(k1 / k0) * log(opened / x0) / log(x1 / x0))
    at = next(i for i, (x, _) in enumerate(points) if x >= opened)
    (x0, k0), (x1, k1) = points[max(0, at - 1)], points[max(1, at)]
    return exp(log(k0) + (opened - x0) / (x1 - x0) * (log(k1) - log(k0)))


def opening_for(kind: str, loss: float) -> float:
    """How far open a valve stands that takes so much, by its table carried on below.

    Args:
        kind: Kind of valve, as in valve_loss.
        loss: Loss coefficient that it has beyond what it takes wide open [-], 0 to 1e12.

    Returns:
        Share of the full travel [-], 0.001 to 1.

    Raises:
        OutOfRange: There is no such valve, or the loss is outside its range.

    Source:
        valve_loss, turned round by halving.

    Example:
        >>> opening_for("gate", 0.0), round(opening_for("ball", 33.2), 2)
        (1.0, 0.5)
    """
    require_within("wanted loss coefficient", loss, 0.0, 1e12, "-")
    wanted = loss + valve_loss(kind, 1.0)
    if loss <= 0.0:
        return 1.0
    low, high = _NEARLY_SHUT, 1.0
    for _ in range(40):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if valve_loss(kind, middle) > wanted else (low, middle)
    return 0.5 * (low + high)


def next_opening(settings: Sequence[Setting], aim: float, coverage: float, kind: str) -> TurnGuess:
    """How far open the valve should stand next, by where it stood and what came then.

    Through the settings that were measured goes a line that rises from one to the next; settings
    that contradict each other count as their mean. Above the highest it is followed no further
    than the last piece is long, and never past wide open; below the lowest towards shut.

    Args:
        settings: Settings with their flows; those without a place of the handle do not count.
        aim: Wanted flow [m3/s], above 0 to 1e6.
        coverage: Share of cases that the interval of a flow holds [-], 0.5 to 0.999.
        kind: Kind of valve, as in valve_loss. Between settings of one of unknown kind the line is
            half bent and half straight.

    Returns:
        Share of the handle's way [-], above 0 to 1, and its range: what the flows' intervals, the
        reading of the handle and a straight line instead of a bent one would make of it.

    Raises:
        OutOfRange: A number is outside its range, or there is no such valve.
        NoSolution: Fewer than two places of the handle with two flows are known.

    Source:
        1 / Q² = a + b K(x) between neighbours, since the head that drives a branch is shared by
        its pipe and its valve, h = (f L / D + ΣK) v² / 2g (Darcy-Weisbach; any textbook of
        hydraulics); K(x) as in valve_loss. Pooling of what contradicts: R. E. Barlow et al.,
        Statistical Inference under Order Restrictions (1972), 1.2, from memory.

    Example:
        A gate valve gave 1.0 L/s wide open and 0.6 L/s when 30 % open; 0.8 L/s are wanted:

        >>> wide, nearly = Setting(Spread(1.0e-3, 5e-6), 1.0), Setting(Spread(0.6e-3, 5e-6), 0.3)
        >>> found = next_opening((wide, nearly), 0.8e-3, 0.95, "gate")
        >>> round(found.best, 2), round(found.low, 2), round(found.high, 2)
        (0.43, 0.38, 0.72)
    """
    require_above("aim", aim, 0.0, 1e6, "m3/s")
    loss = _losses(kind)
    known = [(one.opened, one.flow) for one in settings if one.opened and one.flow.centre > 0.0]
    ends = (
        [(x, flow.centre) for x, flow in known],
        [(x, flow.interval(coverage)[0]) for x, flow in known],
        [(x, flow.interval(coverage)[1]) for x, flow in known],
    )
    lines = [_rising(points) for points in ends]
    if len(lines[0]) < 2:
        raise NoSolution("the flow is not known at two places of the handle")
    best = _bent(lines[0], aim, loss)
    if kind == "unknown":
        best = 0.5 * (best + _straight(lines[0], aim))
    others = [
        found
        for line in lines
        if len(line) > 1
        for found in (_bent(line, aim, loss), _straight(line, aim))
    ]
    return TurnGuess(
        best,
        max(_LEAST, min(best, *others) - READ),
        min(1.0, max(best, *others) + READ),
    )


def _losses(kind: str) -> Callable[[float], float]:
    return lambda opened: valve_loss(kind, max(_LEAST, opened))


def _rising(points: Iterable[Point]) -> list[Point]:
    """The points in order, those that do not rise pooled with their neighbours."""
    pools: list[tuple[float, float, int]] = []
    for x, flow in sorted(points):
        pools.append((x, flow, 1))
        while len(pools) > 1 and (
            pools[-2][1] >= pools[-1][1] or pools[-1][0] - pools[-2][0] < READ
        ):
            (x1, q1, n1), (x0, q0, n0) = pools.pop(), pools.pop()
            total = n0 + n1
            pools.append(((n0 * x0 + n1 * x1) / total, (n0 * q0 + n1 * q1) / total, total))
    return [(x, flow) for x, flow, _ in pools if flow > 0.0]


def _piece(points: Sequence[Point], aim: float) -> tuple[Point, Point]:
    """The two neighbours between which an aim lies, or the two that are nearest to it."""
    pieces = list(pairwise(points))
    return next((piece for piece in pieces if aim <= piece[1][1]), pieces[-1])


def _bent(points: Sequence[Point], aim: float, loss: Callable[[float], float]) -> float:
    """The opening for an aim by 1/Q² over K."""
    (x0, q0), (x1, q1) = _piece(points, aim)
    k0, k1 = loss(x0), loss(x1)
    wanted = k0 + (aim**-2 - q0**-2) * (k1 - k0) / (q1**-2 - q0**-2)
    farthest = min(1.0, x1 + max(0.0, x1 - x0))
    if wanted <= loss(farthest):
        return farthest
    low, high = _LEAST, farthest
    for _ in range(40):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if loss(middle) > wanted else (low, middle)
    return 0.5 * (low + high)


def _straight(points: Sequence[Point], aim: float) -> float:
    """The opening for an aim by straight lines, the first of them from shut."""
    (x0, q0), (x1, q1) = _piece([(0.0, 0.0), *points], aim)
    found = x0 + (aim - q0) * (x1 - x0) / (q1 - q0)
    return min(found, 1.0, x1 + (x1 - x0))
