"""Two readings of one flow by different methods: do they agree, and what do they say together."""

from dataclasses import dataclass
from datetime import datetime

from pondapp.answers.measuring.flow import AnyFlow, Kind, Measured, decision_of, verdict_words
from pondapp.answers.measuring.methods import measured_reading
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.messages import Message
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.pooling import Pooled, differ, pooled
from pondapp.models.reading import Reading


@dataclass(frozen=True, slots=True)
class MethodComparison:
    """A flow beside an earlier one at the same place."""

    reading: Reading
    other: Measured
    together: Pooled | None
    """Both as one; only where they agree."""
    kind: Kind
    """The verdict on both together; "no target" where they disagree or nothing is wanted."""
    sentence: Message
    verdict: Message
    """The verdict on both together in words; empty where there is none."""


def beside(
    flow: AnyFlow,
    method_kind: str,
    log: list[Reading],
    place_id: str,
    now: datetime,
    band: FlowBand | None,
    rules: MeasuringAssumptions,
) -> MethodComparison | None:
    """The newest reading at this place by another method, if it is fresh enough to compare.

    No water at all is compared with nothing: it is a fault of the pond, not of a method.

    Raises:
        PondError: That reading's numbers cannot be; the message says why.
    """
    for reading in log:
        age = (now - reading.taken_at).total_seconds()
        fresh = -60.0 <= age <= rules.same_setting
        if not fresh or reading.place_id != place_id or reading.method.kind == method_kind:
            continue
        other = measured_reading(reading, rules)
        if other is not None and not other.dry and flow.flow > 0.0:
            return _compared(flow, reading, other, band, rules)
    return None


def _compared(
    flow: AnyFlow, reading: Reading, other: Measured, band: FlowBand | None,
    rules: MeasuringAssumptions,
) -> MethodComparison:  # fmt: skip
    first, second = (one.spread.normal_scale(rules.coverage) for one in (flow, other.flow))
    if differ(flow.flow, first, other.flow.flow, second, rules.coverage):
        return MethodComparison(
            reading, other, together=None, kind="no target",
            sentence=Message(
                "They differ by more than measuring explains: one of them is wrong, or the flow "
                "changed in between. Measure again, either way."
            ),
            verdict=Message(""),
        )  # fmt: skip
    together = pooled((flow.flow, other.flow.flow), (first, second), rules.coverage)
    decision = decision_of(together, band, rules)
    kind: Kind = decision.kind if decision else "no target"
    return MethodComparison(
        reading, other, together=together, kind=kind,
        sentence=Message("They agree, so they count together."),
        verdict=verdict_words(together, band, decision),
    )  # fmt: skip
