"""From timed fills to a flow, a verdict, and what to do next."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal

from pondapp import units
from pondapp.answers.care.severity import Severity
from pondapp.answers.measuring.accuracy import Accuracy, of_timed
from pondapp.answers.measuring.aims import CONTAINERS, ENOUGH_FILLS, guarded
from pondapp.answers.measuring.certainty import certainty, expected_scatter
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.messages import Amount, counted
from pondapp.core.base.messages import Message as Message
from pondapp.core.base.working import ARITHMETIC, Step, Term
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.hydraulics.water import density
from pondapp.core.measuring.estimate import Factor, FlowEstimate
from pondapp.core.measuring.no_flow import NoFlow
from pondapp.core.measuring.outliers import likely_outlier
from pondapp.core.measuring.pooling import Pooled
from pondapp.core.measuring.runs_needed import more_runs_to_decide, volume_to_decide
from pondapp.core.measuring.spread import Spread
from pondapp.core.measuring.timed_flow import TimedFlow, timed_flow
from pondapp.core.measuring.verdict import Decision, decide
from pondapp.models.reading import Container, Fill, Steadiness

MANY_FILLS = 5  # more than that, and turning the valve is the quicker way
COOL_WATER = 288.15  # K; a few degrees either way change a weighed volume by under 0.1 %

Kind = Literal["within", "below", "above", "undecided", "no target"]
AnyFlow = TimedFlow | FlowEstimate | NoFlow
SEVERITY: dict[Kind, Severity] = {
    "within": "right",
    "below": "wrong",
    "above": "wrong",
    "undecided": "unknown",
    "no target": "unknown",
}
"""How bad each verdict is."""
PLAIN_SHARE = 50.0  # per cent; beyond it, a share of the mean says less than how many times


@dataclass(frozen=True, slots=True)
class Measured:
    """What a measurement says, whatever the method."""

    flow: AnyFlow
    counted: int
    kind: Kind
    verdict: Message
    advice: tuple[Message, ...]
    accuracy: Accuracy | None
    """What limits it, and what would halve the doubt."""
    limits: tuple[Message, ...] = ()
    """Where its formula is stretched beyond what it was tested for, or how it was seen."""
    decision: Decision | None = None
    """How sure the verdict is; none without a band."""
    coverage: float = 0.95
    """Share of cases that the flow's interval holds."""
    rough: bool = False
    """Whether the flow is known too poorly for any verdict: then it is told as about so much."""

    @property
    def severity(self) -> Severity:
        """How bad it is."""
        return SEVERITY[self.kind]

    @property
    def enough(self) -> bool:
        """Whether nothing more has to be timed: three fills agree, or fewer show what is wrong."""
        if self.kind in ("below", "above") or not isinstance(self.flow, TimedFlow):
            return self.kind != "undecided"
        known = self.kind == "within" or not (self.flow.timing.beyond or self.rough)
        return self.kind != "undecided" and known and self.counted >= ENOUGH_FILLS

    @property
    def open_why(self) -> tuple[Message, ...]:
        """Why nothing is decided yet, and what would decide, in a few words each."""
        if self.kind != "undecided" or self.decision is None or not self.advice:
            return ()
        why = Message("close to a limit")
        if isinstance(self.flow, TimedFlow) and self.flow.timing.beyond:
            why = Message("the fills differ")
        elif self.decision.wide:
            share = units.fixed(100.0 * self.decision.share, 0)
            why = Message("known to {share} %", {"share": share})
        cure = self.advice[-1]
        if cure.template in BRIEF:
            return why, Message(BRIEF[cure.template], cure.values)
        return why, counted("time one more", "time {count} more", _fills_in(cure))

    @property
    def dry(self) -> bool:
        """Whether no water came at all."""
        return isinstance(self.flow, NoFlow)

    def steps(self) -> tuple[Step, ...]:
        """The working, from what was read to how sure the verdict is."""
        return (*self.flow.steps(), *(self.decision.steps() if self.decision else ()))


def counted_times(fills: Sequence[Fill]) -> list[float]:
    """The fill times that were not excluded."""
    return [fill.seconds for fill in fills if not fill.excluded]


def fill_time(container: Container, found: Measured) -> float:
    """How long a fill of this container takes [s] at a measured flow."""
    return container.volume_m3 / found.flow.flow


def volume_of_water(mass: float) -> float:
    """Volume of so much cool water [m3] for a mass [kg]."""
    return mass / density(COOL_WATER)


def measured(
    container: Container,
    fills: Sequence[Fill],
    band: FlowBand | None,
    rules: MeasuringAssumptions | None = None,
    steadiness: Steadiness | None = None,
) -> Measured | None:
    """The flow and the verdict, or nothing while no fill counts."""
    rules = rules or Assumptions().measuring
    flow = fills_flow(container, fills, rules, steadiness)
    return judged_fills(flow, fills, band, rules, weighed=False) if flow else None


def fills_flow(
    container: Container,
    fills: Sequence[Fill],
    rules: MeasuringAssumptions,
    steadiness: Steadiness | None = None,
) -> TimedFlow | None:
    """The flow of fills, not judged yet; nothing while none counts."""
    times = counted_times(fills)
    if not times:
        return None
    expected = expected_scatter(rules, steadiness)
    volume, tolerance = container.volume_m3, container.tolerance_m3
    return timed_flow(times, volume, tolerance, expected, rules.coverage)


def judged_fills(
    flow: TimedFlow,
    fills: Sequence[Fill],
    band: FlowBand | None,
    rules: MeasuringAssumptions,
    *,
    weighed: bool,
) -> Measured:
    """The verdict on a flow from repeated fills, and what to do next."""
    advice: list[Message] = []
    if flow.mean_time < rules.shortest_fill:
        advice.append(
            Message(
                "A fill takes only {time}: use a bigger container.",
                {"time": Amount(flow.mean_time, "s")},
            )
        )
    outlier = _outlier_among(fills, flow, rules)
    if outlier is not None:
        advice.append(
            Message(
                "Fill {number} looks like a slip: strike it out if something went wrong with it.",
                {"number": str(outlier + 1)},
            )
        )
    decision = decision_of(flow, band, rules)
    kind: Kind = decision.kind if decision else "no target"
    missing = ENOUGH_FILLS - len(flow.times)
    if flow.timing.beyond and kind in ("undecided", "no target"):
        if outlier is None:
            advice.append(_differing(flow))
    elif kind == "undecided" and band is not None:
        advice.append(_what_decides(flow, band, rules, weighed=weighed))
    elif missing > 0 and kind in ("within", "no target"):
        advice.append(_more_fills(missing))
    elif kind == "no target" and is_rough(flow, rules):
        advice.append(_what_narrows(flow, rules, weighed=weighed))
    elif kind != "no target":
        advice.append(VALVE[kind])
    return Measured(
        flow=flow,
        counted=len(flow.times),
        kind=kind,
        verdict=verdict_words(flow, band, decision),
        advice=tuple(advice),
        accuracy=of_timed(flow, rules.most_runs, weighed=weighed),
        decision=decision,
        coverage=rules.coverage,
        rough=is_rough(flow, rules),
    )


def judged_sum(
    parts: Mapping[str, Spread], whole: Spread, band: FlowBand | None, rules: MeasuringAssumptions
) -> Measured:
    """The verdict on a flow that is the sum of others.

    Args:
        parts: The flow at each place.
        whole: What is known of their sum.
        band: What is wanted of it.
        rules: Those in force.
    """
    scale = whole.normal_scale(rules.coverage)
    low, high = whole.interval(rules.coverage)
    factors = tuple(
        Factor(Term(f"Q{number}", name, one.centre, "m3/s"), 1.0, one.normal_scale(rules.coverage))
        for number, (name, one) in enumerate(parts.items(), start=1)
    )
    flow = FlowEstimate(
        whole.centre, scale, low, high, (), "Q = Σ Qi", factors, ARITHMETIC,
        rules.coverage,
    )  # fmt: skip
    decision = decision_of(flow, band, rules)
    return Measured(
        flow=flow,
        counted=len(parts),
        kind=decision.kind if decision else "no target",
        verdict=verdict_words(flow, band, decision),
        advice=(),
        accuracy=None,
        decision=decision,
        coverage=rules.coverage,
        rough=is_rough(flow, rules),
    )


def is_rough(flow: AnyFlow, rules: MeasuringAssumptions) -> bool:
    """Whether the interval of a flow is wider than any verdict may rest on."""
    return flow.spread.half_width(rules.coverage) > rules.widest_interval * flow.spread.centre


def decision_of(
    flow: AnyFlow | Pooled, band: FlowBand | None, rules: MeasuringAssumptions
) -> Decision | None:
    """Where a flow lies against the band, by the one rule for all; nothing without a band."""
    if band is None:
        return None
    return decide(flow.spread, band.low, band.high, certainty(rules))


def _outlier_among(
    fills: Sequence[Fill], flow: TimedFlow, rules: MeasuringAssumptions
) -> int | None:
    counted = [index for index, fill in enumerate(fills) if not fill.excluded]
    if len(counted) < ENOUGH_FILLS:
        return None
    outlier = likely_outlier(flow.times, flow.timing.expected, rules.outlier_chance)
    return None if outlier is None else counted[outlier.index]


def _more_fills(count: int) -> Message:
    return counted("Time one more fill.", "Time {count} more fills.", count)


def _differing(flow: TimedFlow) -> Message:
    """What to do where the fills scatter by more than they should."""
    longest, shortest = max(flow.times), min(flow.times)
    percent = 100.0 * (longest - shortest) / flow.mean_time
    if percent > PLAIN_SHARE:
        return Message(
            "One fill shows {factor} times the flow of another: strike out the one that went "
            "wrong, or time one more.",
            {"factor": units.fixed(longest / shortest, 1)},
        )
    share = units.fixed(percent, 0)
    if len(flow.times) == 2:
        return Message("These two differ by {share} %: time one more.", {"share": share})
    return Message(
        "The fills differ by up to {share} %, more than timing explains: time one more, and see "
        "that the pump draws no air.",
        {"share": share},
    )


def verdict_words(
    flow: AnyFlow | Pooled, band: FlowBand | None, decision: Decision | None
) -> Message:
    """The verdict in a sentence; empty without a band."""
    if band is None or decision is None:
        return Message("")
    if decision.kind == "within":
        return Message("Right: within what is wanted here.")
    if decision.kind == "below":
        return Message(
            "Too little by {gap}.",
            {"gap": Amount(band.low - flow.flow, "m3/s")},
        )
    if decision.kind == "above" and band.high is not None:
        return Message(
            "Too much by {gap}.",
            {"gap": Amount(flow.flow - band.high, "m3/s")},
        )
    if isinstance(flow, TimedFlow) and flow.timing.beyond:
        return Message("Not decided yet: the fills differ by more than they should.")
    if decision.wide:
        return Message(WIDE[decision.likely], {"share": units.fixed(100.0 * decision.share, 0)})
    return Message("Not decided yet: the true flow may lie on either side of the limit.")


WIDE: dict[str, str] = {
    "below": "Most likely too little, but not decided yet: the flow is only known to {share} % "
    "either way.",
    "above": "Most likely too much, but not decided yet: the flow is only known to {share} % "
    "either way.",
    "within": "Not decided yet: the flow is only known to {share} % either way.",
    "undecided": "Not decided yet: the flow is only known to {share} % either way.",
}
"""What is said of a flow that is not known well enough, by where it lies most likely."""


def _what_narrows(flow: TimedFlow, rules: MeasuringAssumptions, *, weighed: bool) -> Message:
    """What makes a flow known well enough to go by, where nothing is wanted."""
    rule = certainty(rules)
    runs = more_runs_to_decide(flow, 0.0, None, rule, rules.most_runs)
    larger = volume_to_decide(flow, 0.0, None, rule, ENOUGH_FILLS, _larger_than(flow.volume))
    if runs is not None and (runs <= MANY_FILLS or larger is None or weighed):
        return _more_fills(runs)
    if larger is None or weighed:
        return Message("What the container holds is not known well enough: weigh its water.")
    return _larger(runs, larger, rules)


def _larger_than(volume: float) -> list[float]:
    """Usual containers [m3] that hold more than one of this volume [m3]."""
    return [one for one in CONTAINERS if 1.2 <= one / volume <= 100.0]


def _larger(runs: int | None, volume: float, rules: MeasuringAssumptions) -> Message:
    """Another container, or many more fills if so many would do."""
    amount = Amount(volume, "m3")
    if runs is not None:
        return Message(
            "Time {count} more fills, or use a container of {volume} or more.",
            {"count": str(runs), "volume": amount},
        )
    return Message(
        "Use a container of {volume} or more: {count} fills of this one would not settle it.",
        {"volume": amount, "count": f"{rules.most_runs:.0f}"},
    )


def _what_decides(
    flow: TimedFlow, band: FlowBand, rules: MeasuringAssumptions, *, weighed: bool
) -> Message:
    """So many more fills, a larger container, a better known one, or another flow."""
    rule = certainty(rules)
    runs = more_runs_to_decide(flow, band.low, band.high, rule, rules.most_runs)
    missing = max(1, ENOUGH_FILLS - len(flow.times))
    larger = volume_to_decide(
        flow, band.low, band.high, rule, ENOUGH_FILLS, _larger_than(flow.volume)
    )
    tolerance = flow.volume_half_width / flow.volume
    nearest = replace(band, target=flow.flow)
    aim = guarded(nearest, flow.volume, tolerance, flow.timing.expected, rules).flow
    if runs is not None and (runs <= missing or larger is None or weighed):
        if runs > MANY_FILLS:
            return Message(
                "Time {count} more fills, or turn it to about {aim} and measure again.",
                {"count": str(runs), "aim": Amount(aim, "m3/s")},
            )
        return _more_fills(max(runs, missing))
    if len(flow.times) < ENOUGH_FILLS and runs is None:
        return _more_fills(missing)
    if larger is not None and (runs is not None or not weighed):
        return _larger(runs, larger, rules)
    exact = replace(flow, volume_half_width=0.0)
    if more_runs_to_decide(exact, band.low, band.high, rule, rules.most_runs) is not None:
        return Message(
            "More fills will not settle it: what the container holds is not known well enough. "
            "Weigh its water, or turn the flow to about {aim} and measure again.",
            {"aim": Amount(aim, "m3/s")},
        )
    return Message(
        "More fills will not settle it: the flow lies right at a limit. Turn it to about {aim}, "
        "then measure again.",
        {"aim": Amount(aim, "m3/s")},
    )


BRIEF: dict[str, str] = {
    "Time {count} more fills, or use a container of {volume} or more.": "time {count} more, or "
    "fill {volume}",
    "Use a container of {volume} or more: {count} fills of this one would not settle it.": "fill "
    "{volume} or more",
    "More fills will not settle it: what the container holds is not known well enough. Weigh its "
    "water, or turn the flow to about {aim} and measure again.": "weigh its water",
    "More fills will not settle it: the flow lies right at a limit. Turn it to about {aim}, then "
    "measure again.": "turn it to {aim}",
}
"""What would decide other than fills alone, where there is room for a few words only."""


def _fills_in(advice: Message) -> int:
    """How many more fills an advice asks for."""
    count = advice.values.get("count")
    return int(count) if isinstance(count, str) else advice.count


VALVE: dict[Kind, Message] = {
    "within": Message("Leave the valve as it is and save this reading."),
    "below": Message(
        "Open this branch's valve, or close another one a little. If it is open already, "
        "unplug the pump and clean it and its foam first."
    ),
    "above": Message("Close this branch's valve a little, then time it again."),
}
