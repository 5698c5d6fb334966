"""A flow that is estimated once, from one formula: its verdict, and what to do next."""

from collections.abc import Callable, Sequence
from dataclasses import replace

from pondapp.answers.measuring.accuracy import of_estimate
from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.measuring.flow import (
    VALVE,
    Kind,
    Measured,
    counted_times,
    decision_of,
    is_rough,
    verdict_words,
)
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.messages import Message
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.estimate import FlowEstimate
from pondapp.core.measuring.repeats import mean_time
from pondapp.models.reading import Fill


def judged(
    flow: FlowEstimate, band: FlowBand | None, rules: MeasuringAssumptions, runs: int = 1
) -> Measured:
    """What an estimate says, made from so many runs."""
    accuracy = of_estimate(flow, runs)
    decision = decision_of(flow, band, rules)
    kind: Kind = decision.kind if decision else "no target"
    advice: list[Message] = []
    if kind == "undecided" and accuracy is not None:
        advice.append(accuracy.halve)
    elif kind not in ("undecided", "no target"):
        advice.append(VALVE[kind])
    return Measured(
        flow=flow,
        counted=runs,
        kind=kind,
        verdict=verdict_words(flow, band, decision),
        advice=tuple(advice),
        accuracy=accuracy,
        limits=flow.warnings,
        decision=decision,
        coverage=rules.coverage,
        rough=is_rough(flow, rules),
    )


def flow_by_mean(
    fills: Sequence[Fill],
    rules: MeasuringAssumptions,
    flow_of: Callable[[float, float, float], FlowEstimate],
) -> FlowEstimate | None:
    """The flow by the mean of times of one volume; nothing while none counts.

    `flow_of` makes the flow of the mean, its uncertainty and the share of cases an interval holds.
    """
    times = counted_times(fills)
    if not times:
        return None
    # A level that falls for minutes evens out what differs from one bucket to the next.
    by_hand = replace(expected_scatter(rules), variation=0.0)
    time = mean_time(times, by_hand, rules.coverage)
    return flow_of(time.mean, time.uncertainty, rules.coverage)
