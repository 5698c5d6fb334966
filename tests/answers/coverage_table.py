"""How often the interval of timed fills holds the true flow, by simulation."""

import random

from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.measuring.scatter import ExpectedScatter, learned
from pondapp.core.measuring.timed_flow import timed_flow

RULES = MeasuringAssumptions()
FILLS = (1, 2, 3, 4, 5, 7, 10)
SECONDS = (4.0, 8.0, 12.0, 30.0, 60.0)
VARIATIONS = (0.0, 0.01, 0.02, 0.03)
REACTIONS = (0.05, 0.10, 0.20)
VOLUME = 0.010  # m3
TOLERANCE = 0.01  # of the volume, drawn anew for each reading


def holds(
    dice: random.Random, fills: int, seconds: float, variation: float, reaction: float,
    expected: ExpectedScatter,
) -> bool:  # fmt: skip
    """Whether one simulated reading holds the true flow."""
    flow = VOLUME / seconds
    volume = VOLUME * (1.0 + dice.uniform(-TOLERANCE, TOLERANCE))
    times = times_of(dice, fills, volume / flow, variation, reaction)
    found = timed_flow(times, VOLUME, TOLERANCE * VOLUME, expected, RULES.coverage)
    return found.low <= flow <= found.high


def times_of(
    dice: random.Random, fills: int, seconds: float, variation: float, reaction: float
) -> list[float]:
    """Fill times of a flow that varies, taken by a hand that varies."""
    return [
        max(1e-3, seconds * (1.0 + dice.gauss(0.0, variation)) + dice.gauss(0.0, reaction))
        for _ in range(fills)
    ]


def cell(fills: int, seconds: float, variation: float, reaction: float, trials: int) -> float:
    """Share of readings of one flow and one hand that hold the true flow."""
    dice = random.Random(f"{fills} {seconds} {variation} {reaction}")
    expected = expected_scatter(RULES)
    hits = sum(
        holds(dice, fills, seconds, variation, reaction, expected) for _ in range(trials)
    )  # fmt: skip
    return hits / trials


def population(fills: int, seconds: float, trials: int) -> float:
    """The same over flows that vary by 0 to 3 % and reactions of 0.05 to 0.2 s, all as likely."""
    dice = random.Random(f"{fills} {seconds}")
    expected = expected_scatter(RULES)
    hits = sum(
        holds(
            dice, fills, seconds, dice.uniform(0.0, VARIATIONS[-1]),
            dice.uniform(REACTIONS[0], REACTIONS[-1]), expected,
        )
        for _ in range(trials)
    )  # fmt: skip
    return hits / trials


def after_earlier(sets: int, fills: int, seconds: float, trials: int) -> tuple[float, float]:
    """The same at places with earlier readings of three fills; and the mean half width over it."""
    dice = random.Random(f"{sets} {fills} {seconds}")
    hits, widths = 0, 0.0
    for _ in range(trials):
        variation = dice.uniform(0.0, VARIATIONS[-1])
        reaction = dice.uniform(REACTIONS[0], REACTIONS[-1])
        earlier = [times_of(dice, 3, seconds, variation, reaction) for _ in range(sets)]
        expected = learned(expected_scatter(RULES), earlier)
        flow = VOLUME / seconds
        times = times_of(dice, fills, seconds, variation, reaction)
        found = timed_flow(times, VOLUME, 0.0, expected, RULES.coverage)
        hits += found.low <= flow <= found.high
        widths += found.expanded / found.flow
    return hits / trials, widths / trials
