"""Water changes: what is left of something, and how many changes a goal takes."""

from dataclasses import dataclass
from math import ceil, exp, log, log1p

from pondapp.core.base.errors import NoSolution, require_above, require_within
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Source, Step, Term

MASS_BALANCE = Source("conservation of mass in a well mixed pond", "computed")
MOST_CHANGES = 1000  # beyond it nobody carries buckets


def remaining_batch(fraction: float, times: int) -> float:
    """What is left of a substance after changes of the same share of the water.

    Args:
        fraction: Share of the water changed each time [-], 0 to 1.
        times: How often [-], 0 to 1000.

    Returns:
        Concentration over that at the start [-]; the fresh water holds none.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Mass balance of a well mixed pond: (1 - x)^n.

    Example:
        A fifth changed, three times:

        >>> round(remaining_batch(0.20, 3), 3)
        0.512
    """
    require_within("share of the water changed", fraction, 0.0, 1.0, "-")
    require_within("number of changes", times, 0, MOST_CHANGES, "-")
    return float((1.0 - fraction) ** times)


def remaining_continuous(volume: float, flow: float, time: float) -> float:
    """What is left of a substance while fresh water runs in and pond water runs over.

    Args:
        volume: Water in the pond [m3], 1e-4 to 1e5.
        flow: Fresh water that runs in [m3/s], 0 to 10.
        time: How long [s], 0 to 1e9.

    Returns:
        Concentration over that at the start [-]; the fresh water holds none.

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Mass balance of a well mixed pond: exp(-Q t / V).

    Example:
        When as much has run through as the pond holds, 37 % of the old water is left:

        >>> round(remaining_continuous(5.0, 1e-3, 5000.0), 3)
        0.368
    """
    require_within("pond volume", volume, 1e-4, 1e5, "m3")
    require_within("fresh water", flow, 0.0, 10.0, "m3/s")
    require_within("time", time, 0.0, 1e9, "s")
    return exp(-flow * time / volume)


def concentration_after(start: float, fresh: float, fraction: float, times: int) -> float:
    """Concentration after changes with water that may hold some of the substance itself.

    Args:
        start: Concentration at the start [kg/m3], 0 to 100.
        fresh: Concentration in the fresh water [kg/m3], 0 to 100.
        fraction: Share of the water changed each time [-], 0 to 1.
        times: How often [-], 0 to 1000.

    Returns:
        Concentration at the end [kg/m3].

    Raises:
        OutOfRange: A number is outside its range.

    Source:
        Mass balance of a well mixed pond: C = Cf + (C0 - Cf) (1 - x)^n.

    Example:
        Nitrate of 80 mg/L, tap water with 10 mg/L, half of it changed once:

        >>> round(1000.0 * concentration_after(0.080, 0.010, 0.5, 1), 1)  # mg/L
        45.0
    """
    require_within("concentration at the start", start, 0.0, 100.0, "kg/m3")
    require_within("concentration in the fresh water", fresh, 0.0, 100.0, "kg/m3")
    return fresh + (start - fresh) * remaining_batch(fraction, times)


def too_much_at_once(fraction: float, most: float) -> tuple[Message, ...]:
    """What to mind of a change of a share of the water.

    Args:
        fraction: Share of the water changed [-], 0 to 1.
        most: Largest share to change at once with fish in the pond [-], 0 to 1.

    Returns:
        A warning where the share [-] is larger than that.

    Source:
        Common practice; the limit is a rule.

    Example:
        >>> len(too_much_at_once(0.5, 0.3)), len(too_much_at_once(0.2, 0.3))
        (1, 0)
    """
    if fraction <= most:
        return ()
    return (
        Message(
            "{share} at once is a shock for fish; keep to {most} and let days pass between",
            {"share": Amount(fraction, "share"), "most": Amount(most, "share")},
        ),
    )


@dataclass(frozen=True, slots=True)
class WaterChange:
    """Changes that bring a substance down to a goal.

    Attributes:
        times: How many changes [-].
        each: Water to change each time [m3].
        total: Water for all of them [m3].
        end: Concentration at the end [kg/m3], at or below the goal.
        at_once: Share of the water that would do it in a single change [-].
        volume: Water in the pond [m3].
        fraction: Share of the water changed each time [-].
        start: Concentration at the start [kg/m3].
        fresh: Concentration in the fresh water [kg/m3].
        goal: Concentration wanted [kg/m3].
        warnings: What to mind.
    """

    times: int
    each: float
    total: float
    end: float
    at_once: float
    volume: float
    fraction: float
    start: float
    fresh: float
    goal: float
    warnings: tuple[Message, ...]

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        start = Term("C0", "concentration at the start", self.start, "kg/m3")
        fresh = Term("Cf", "concentration in the fresh water", self.fresh, "kg/m3")
        goal = Term("Cg", "concentration wanted", self.goal, "kg/m3")
        share = Term("x", "share changed each time", self.fraction, "-")
        volume = Term("V", "water in the pond", self.volume, "m3")
        times = Term("n", "number of changes", float(self.times), "-")
        end = Term("C", "concentration at the end", self.end, "kg/m3")
        total = Term("Vn", "fresh water for all changes", self.total, "m3")
        return (
            Step(
                times,
                "n = ln((Cg - Cf) / (C0 - Cf)) / ln(1 - x), rounded up",
                (start, fresh, goal, share),
                MASS_BALANCE,
            ),
            Step(end, "C = Cf + (C0 - Cf) (1 - x)^n", (start, fresh, share, times), MASS_BALANCE),
            Step(total, "Vn = n x V", (times, share, volume), MASS_BALANCE),
        )


def changes_needed(
    volume: float, start: float, fresh: float, goal: float, fraction: float, most_at_once: float
) -> WaterChange:
    """How many changes of the same share bring a substance down to a goal.

    Args:
        volume: Water in the pond [m3], above 0 to 1e5.
        start: Concentration at the start [kg/m3], 0 to 100.
        fresh: Concentration in the fresh water [kg/m3], 0 to 100.
        goal: Concentration wanted [kg/m3], 0 to 100.
        fraction: Share of the water changed each time [-], above 0 to 1.
        most_at_once: Largest share to change at once with fish in the pond [-], above 0 to 1.

    Returns:
        Number of changes [-] and water for them [m3]; no change if the goal is met already.

    Raises:
        OutOfRange: A number is outside its range.
        NoSolution: The fresh water itself holds as much as the goal, or it would take more than
            1000 changes.

    Source:
        n = ln((Cg - Cf) / (C0 - Cf)) / ln(1 - x), rounded up: mass balance of a well mixed pond.

    Example:
        From 80 to 40 mg/L of nitrate in 5 m³, a fifth at a time:

        >>> plan = changes_needed(5.0, 0.080, 0.010, 0.040, 0.20, 0.3)
        >>> plan.times, round(plan.each, 2), round(1000.0 * plan.end, 1)
        (4, 1.0, 38.7)
    """
    require_above("pond volume", volume, 0.0, 1e5, "m3")
    require_within("concentration at the start", start, 0.0, 100.0, "kg/m3")
    require_within("concentration in the fresh water", fresh, 0.0, 100.0, "kg/m3")
    require_within("concentration wanted", goal, 0.0, 100.0, "kg/m3")
    require_above("share of the water changed", fraction, 0.0, 1.0, "-")
    require_above("largest share to change at once", most_at_once, 0.0, 1.0, "-")
    times, at_once = 0, 0.0
    if start > goal:
        # A single change of all the water reaches the fresh water's own content, no less.
        if fresh > goal or (fresh == goal and fraction < 1.0):
            words = (
                "changes bring the pond down towards {fresh}, which the fresh water itself holds, "
                "and not to the {goal} wanted"
                if fresh < start
                else "the fresh water itself holds {fresh}, no less than the pond: changing it "
                "does not bring the pond to {goal}"
            )
            raise NoSolution(words, fresh=Amount(fresh, "kg/m3"), goal=Amount(goal, "kg/m3"))
        left = (goal - fresh) / (start - fresh)
        at_once = 1.0 - left
        if fraction == 1.0:
            wanted = 1.0
        elif left <= 0.0:  # the goal is closer to the fresh water than a float can tell
            wanted = float(MOST_CHANGES + 1)
        else:
            wanted = log(left) / log1p(-fraction)  # log1p: a sliver of a share is not nothing
        if wanted > MOST_CHANGES:
            raise NoSolution(
                "at {share} a time it takes more than {most} changes; change more at a time",
                share=Amount(fraction, "share"),
                most=Amount(float(MOST_CHANGES), "-"),
            )
        times = max(1, ceil(wanted - 1e-9))  # a goal met to rounding is met
    warnings = too_much_at_once(fraction, most_at_once) if times else ()
    return WaterChange(
        times=times,
        each=fraction * volume,
        total=times * fraction * volume,
        end=concentration_after(start, fresh, fraction, times),
        at_once=at_once,
        volume=volume,
        fraction=fraction,
        start=start,
        fresh=fresh,
        goal=goal,
        warnings=warnings,
    )
