"""From a measurement by any method to a flow, a verdict, and what to do next."""

from collections.abc import Sequence
from dataclasses import replace

from pondapp.answers.features.targets import band_of
from pondapp.answers.measuring.accuracy import of_estimate
from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.measuring.dry import found_dry
from pondapp.answers.measuring.flow import (
    COOL_WATER,
    VALVE,
    Kind,
    Measured,
    counted_times,
    decision_of,
    is_rough,
    judged_fills,
    measured,
    verdict_words,
)
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions as MeasuringAssumptions
from pondapp.core.base.messages import Message
from pondapp.core.base.working import ENTERED, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.core.hydraulics.water import density
from pondapp.core.measuring.estimate import Factor, FlowEstimate, flow_estimate
from pondapp.core.measuring.other_methods import (
    flow_by_filling,
    flow_by_level_drop,
    flow_over_lip,
)
from pondapp.core.measuring.repeats import MeanTime, mean_time
from pondapp.core.measuring.uncertainty import rectangular
from pondapp.core.measuring.weighed_fills import weighed_fills_flow
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Bucket,
    Fill,
    FilledSpace,
    LevelDrop,
    LipDepth,
    MeterReading,
    Method,
    NothingComes,
    Reading,
    Steadiness,
    WeighedBucket,
)

NAMES = {
    "bucket": "Bucket and stopwatch",
    "weighed": "Weighed bucket",
    "level_drop": "Falling level",
    "filling": "Filling a box or bog",
    "lip_depth": "Ruler over a lip",
    "meter": "Flow meter",
    "nothing": "Nothing comes out",
}


def rules_for(pond: Pond | None) -> Assumptions:
    """All assumptions, as the owner of the pond changed them.

    Raises:
        OutOfRange: A changed assumption is unknown or outside its range.
    """
    return Assumptions().with_overrides(pond.assumptions) if pond else Assumptions()


def measured_by(
    method: Method,
    band: FlowBand | None,
    rules: MeasuringAssumptions | None = None,
    steadiness: Steadiness | None = None,
) -> Measured | None:
    """What a measurement says, or nothing while nothing counts.

    Args:
        method: What was read.
        band: What is wanted there.
        rules: The rules of the pond; else the app's own.
        steadiness: What earlier fills there had taught about their scatter.

    Raises:
        PondError: The numbers cannot be; the message says why.
    """
    rules = rules or Assumptions().measuring
    if isinstance(method, Bucket):
        return measured(method.container, method.fills, band, rules, steadiness)
    if isinstance(method, WeighedBucket):
        return _weighed(method, band, rules, steadiness)
    if isinstance(method, NothingComes):
        return found_dry(method, band, rules)
    runs = 1
    if isinstance(method, LevelDrop | FilledSpace):
        time = _mean(method.fills, rules)
        if time is None:
            return None
        runs = len(time.times)
        flow = _timed_once(method, time, rules)
    elif isinstance(method, LipDepth):
        flow = _over_lip(method, rules)
    else:
        flow = _metered(method, rules)
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
        outlier=None,
        accuracy=accuracy,
        limits=flow.warnings,
        decision=decision,
        coverage=rules.coverage,
        rough=is_rough(flow, rules),
    )


def measured_reading(
    reading: Reading, rules: MeasuringAssumptions | None = None, band: FlowBand | None = None
) -> Measured | None:
    """What a reading says, against the band that was wanted when it was taken, or another one.

    Args:
        reading: The reading.
        rules: The rules of its pond; else the app's own.
        band: What is wanted there now, in place of what was wanted then.

    Raises:
        PondError: Its numbers cannot be; the message says why.
    """
    then = band_of(reading.band) if reading.band else None
    return measured_by(reading.method, band or then, rules, reading.steadiness)


def _weighed(
    method: WeighedBucket,
    band: FlowBand | None,
    rules: MeasuringAssumptions,
    steadiness: Steadiness | None,
) -> Measured | None:
    counted = [fill for fill in method.fills if not fill.excluded]
    if not counted:
        return None
    flow = weighed_fills_flow(
        [fill.seconds for fill in counted],
        [fill.full_kg for fill in counted],
        method.empty_kg,
        method.scale_tolerance_kg,
        density(COOL_WATER),
        expected_scatter(rules, steadiness),
        rules.coverage,
    )
    return judged_fills(flow, method.fills, band, rules, weighed=True)


def _mean(fills: Sequence[Fill], rules: MeasuringAssumptions) -> MeanTime | None:
    times = counted_times(fills)
    # A level that falls for minutes evens out what differs from one bucket to the next.
    by_hand = replace(expected_scatter(rules), variation=0.0)
    return mean_time(times, by_hand, rules.coverage) if times else None


def _timed_once(
    method: LevelDrop | FilledSpace, time: MeanTime, rules: MeasuringAssumptions
) -> FlowEstimate:
    if isinstance(method, LevelDrop):
        return flow_by_level_drop(
            method.area_m2,
            method.area_tolerance_m2,
            method.drop_m,
            method.level_tolerance_m,
            time.mean,
            time.uncertainty,
            rules.coverage,
        )
    return flow_by_filling(
        method.volume_m3,
        method.volume_tolerance_m3,
        method.porosity,
        method.porosity_tolerance,
        time.mean,
        time.uncertainty,
        rules.coverage,
    )


def _over_lip(method: LipDepth, rules: MeasuringAssumptions) -> FlowEstimate:
    return flow_over_lip(
        method.head_m,
        min(method.head_tolerance_m, method.head_m),
        method.width_m,
        min(method.width_tolerance_m, method.width_m),
        method.crest_height_m,
        rules.weir_uncertainty,
        rules.small_sheet_uncertainty,
        rules.coverage,
    )


def _metered(method: MeterReading, rules: MeasuringAssumptions) -> FlowEstimate:
    shown = Factor(
        Term("Q", "flow on the meter", method.flow_m3_s, "m3/s"),
        1.0,
        rectangular(method.tolerance * method.flow_m3_s),
    )
    return flow_estimate(method.flow_m3_s, (shown,), rules.coverage, "Q as shown", ENTERED)
