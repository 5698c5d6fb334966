"""What the fills of earlier readings teach about the next ones."""

from collections.abc import Sequence

from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.methods.kinds import METHODS
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.measuring.scatter import learned
from pondapp.models.reading import Reading, Steadiness

MOST_SETS = 20
"""Earlier readings that are asked: more would change nothing, as their weight is bounded."""


def steadiness_at(
    newest_first: Sequence[Reading], place_id: str, rules: MeasuringAssumptions
) -> Steadiness | None:
    """What the fills of earlier readings at a place teach about the next ones; none for none."""
    sets: list[list[float]] = []
    for reading in newest_first:
        if reading.place_id == place_id and len(sets) < MOST_SETS:
            times = METHODS[reading.method.kind].even_times(reading.method)
            if len(times) > 1:
                sets.append(times)
    by_rule = expected_scatter(rules)
    found = learned(by_rule, sets[::-1])
    if found == by_rule:
        return None
    return Steadiness(earlier=found.earlier, weight=found.weight)
