"""What is expected of fills, and what it takes to decide, by the rules in force."""

from collections.abc import Sequence

from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.constants import DAY
from pondapp.core.measuring.scatter import ExpectedScatter, learned
from pondapp.core.measuring.verdict import Certainty
from pondapp.models.reading import Bucket, Reading, Steadiness, WeighedBucket

MOST_SETS = 20
"""Earlier readings that are asked: more would change nothing, as their weight is bounded."""


def certainty(rules: MeasuringAssumptions) -> Certainty:
    """What it takes to call a flow right or wrong."""
    return Certainty(rules.sure, rules.widest_interval, rules.coverage)


def expected_scatter(
    rules: MeasuringAssumptions, steadiness: Steadiness | None = None
) -> ExpectedScatter:
    """The scatter of one fill, before any is timed."""
    by_rule = ExpectedScatter(
        reaction=rules.reaction_sd,
        variation=rules.flow_variation,
        weight=int(rules.scatter_weight),
        surprise=rules.outlier_chance,
    )
    if steadiness is None:
        return by_rule
    return ExpectedScatter(
        by_rule.reaction, by_rule.variation, steadiness.weight, by_rule.surprise,
        steadiness.earlier,
    )  # fmt: skip


def steadiness_at(
    newest_first: Sequence[Reading], place_id: str, rules: MeasuringAssumptions
) -> Steadiness | None:
    """What the fills of earlier readings at a place teach about the next ones; none for none."""
    sets: list[list[float]] = []
    for reading in newest_first:
        if reading.place_id == place_id and len(sets) < MOST_SETS:
            times = _even_times(reading)
            if len(times) > 1:
                sets.append(times)
    by_rule = expected_scatter(rules)
    found = learned(by_rule, sets[::-1])
    if found == by_rule:
        return None
    return Steadiness(earlier=found.earlier, weight=found.weight)


def _even_times(reading: Reading) -> list[float]:
    """Times that can be held against each other: for the same amount of water."""
    method = reading.method
    if isinstance(method, Bucket):
        return [fill.seconds for fill in method.fills if not fill.excluded]
    if isinstance(method, WeighedBucket):
        fills = [fill for fill in method.fills if not fill.excluded]
        waters = [fill.full_kg - method.empty_kg for fill in fills]
        if len(fills) < 2 or min(waters) <= 0.0:
            return []
        mean = sum(waters) / len(waters)
        times = (f.seconds * mean / water for f, water in zip(fills, waters, strict=True))
        return [time for time in times if time <= DAY]
    return []
