"""Whether a pond leaks, by a bucket of its water that stands in the same air."""

from dataclasses import dataclass
from math import sqrt

from pondapp.core.base.constants import DAY, HOUR
from pondapp.core.base.errors import require_above, require_within
from pondapp.core.base.working import Source, Step, Term
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.student_t import normal_factor
from pondapp.core.measuring.uncertainty import rectangular
from pondapp.core.measuring.verdict import Certainty, Decision, decide
from pondapp.core.stock.span import Span

BUCKET = Source("a bucket in the same air loses what the air takes", "common practice")
DOUBT = Source("JCGM 100:2008, 4.3.7 and 5.1.2 (levels, ratio, combination)", "published")
FROM_MARK = 1.0  # m: falls count from so far above, since a Spread knows nothing below zero


@dataclass(frozen=True, slots=True)
class LeakTest:
    """What a test by level and bucket says.

    Attributes:
        decision: Whether the fall is what the air takes, and how sure that is.
        seen: Fall of the pond's level [m].
        expected: What the air takes of it by the bucket [m].
        limit: Fall from which it is a leak [m].
        doubt: Standard uncertainty of the fall less what is expected [m].
        time: How long it went on [s].
        enough: How long a test takes that finds nothing to be sure of it [s]; none if no time is
            enough, because the bucket does not tell the pond's loss that well.
        bucket: Fall of the bucket's level [m].
        ratio: Loss of the pond over that of the bucket [-].
        least: Fall by a leak that is worth looking for [m/s].
        added: Chance that it fell by less than the air takes, so that water was added [-].
    """

    decision: Decision
    seen: float
    expected: float
    limit: float
    doubt: float
    time: float
    enough: float | None
    bucket: float
    ratio: Span
    least: float
    added: float

    @property
    def leak(self) -> Span:
        """What goes beside what the air takes [m/s], in about 95 of 100 cases."""
        half = self.doubt * normal_factor(self.decision.rule.coverage)
        middle = max(0.0, self.seen - self.expected)
        rates = (max(0.0, middle - half), middle, middle + half)
        return Span(*(one / self.time for one in rates))

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        seen = Term("h", "fall of the pond's level", self.seen, "small")
        bucket = Term("b", "fall in the bucket", self.bucket, "small")
        ratio = Term("k", "loss of the pond over that of the bucket", self.ratio.likely, "-")
        expected = Term("e", "what the air took of the pond", self.expected, "small")
        doubt = Term("u", "standard uncertainty of the difference", self.doubt, "small")
        limit = Term("L", "fall from which it is a leak", self.limit, "small")
        least = Term("m", "least leak", self.least, "m/s")
        time = Term("t", "time", self.time, "s")
        chance = Step(
            Term("P", "chance that the air explains it", self.decision.inside, "share"),
            "P of h below L", (seen, limit, doubt), self.decision.steps()[0].source,
        )  # fmt: skip
        if self.added >= 0.5:
            chance = Step(
                Term("P", "chance that water was added", self.added, "share"),
                "P of h below e - m t", (seen, expected, least, time, doubt), chance.source,
            )  # fmt: skip
        return (
            Step(expected, "e = k b", (ratio, bucket), BUCKET),
            Step(doubt, "u² = 2 a² (1 + k²) / 3 + (b Δk)² / 3", (bucket, ratio), DOUBT),
            Step(limit, "L = e + m t", (expected, least, time), BUCKET),
            chance,
        )  # fmt: skip


def leak_test(
    drop: float, bucket: float, time: float, level: float, ratio: Span, least: float,
    rule: Certainty,
) -> LeakTest:  # fmt: skip
    """Say whether a pond leaks, from its level and a bucket's.

    Args:
        drop: Fall of the pond's level without rain or topping up [m], 0 to 0.5.
        bucket: Fall in the bucket meanwhile [m], 0 to 0.5.
        time: How long it went on [s], 3600 to 2592000.
        level: How far one reading of a level may be off [m], above 0 to 0.05.
        ratio: Loss of the pond over that of the bucket [-], 0 to 2.
        least: Fall by a leak that is worth looking for [m/s], above 0 to 1e-6.
        rule: The chance that is asked for [-].

    Returns:
        The decision, with what is seen and expected [m].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        h against L = k b + least t, by the chance of conformity (JCGM 106:2012, 7.2 to 7.5); its
        uncertainty after JCGM 100:2008, 4.3.7 (half widths over √3) and 5.1.2. That a bucket loses
        as a pond does is common practice.

    Example:
        A pond falls 12 mm in a night of ten hours, a bucket in it 2 mm, each read to 1 mm:

        >>> rule = Certainty(sure=0.95, widest=0.5, coverage=0.95)
        >>> span = Span(0.85, 1.0, 1.15)
        >>> found = leak_test(0.012, 0.002, 36000.0, 0.001, span, 0.002 / DAY, rule)
        >>> found.decision.likely
        'above'
    """
    require_within("fall of the level", drop, 0.0, 0.5, "small")
    require_within("fall in the bucket", bucket, 0.0, 0.5, "small")
    require_within("time", time, HOUR, 30.0 * DAY, "s")
    require_above("how far a level may be off", level, 0.0, 0.05, "small")
    require_within("loss of the pond over that of the bucket", ratio.high, 0.0, 2.0, "-")
    require_above("least leak", least, 0.0, 1e-6, "m/s")
    levels = sqrt(2.0 * (1.0 + ratio.likely**2)) * rectangular(level)
    spread = rectangular(0.5 * (ratio.high - ratio.low))
    doubt = sqrt(levels**2 + (bucket * spread) ** 2)
    expected = ratio.likely * bucket
    limit = expected + least * time
    fall = Spread(FROM_MARK + drop, doubt)
    decision = decide(fall, 0.0, FROM_MARK + limit, rule)
    added = fall.less_than(FROM_MARK + expected - least * time)
    # Of a pond that falls as the bucket does: least t = z u, where a part of u² grows with t².
    sure = normal_factor(2.0 * rule.sure - 1.0)
    growing = sure * spread * bucket / time
    enough = sure * levels / sqrt(least**2 - growing**2) if least > growing else None
    return LeakTest(
        decision, drop, expected, limit, doubt, time, enough, bucket, ratio, least, added
    )
