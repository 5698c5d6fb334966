"""Fills of any container, each weighed."""

from pondapp.answers.measuring.aims import ENOUGH_FILLS
from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.measuring.flow import COOL_WATER, Measured, judged_fills
from pondapp.answers.methods.method import Entered, Known, MethodKind
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.constants import DAY
from pondapp.core.filters.bands import FlowBand
from pondapp.core.hydraulics.water import density
from pondapp.core.measuring.weighed_fills import weighed_fills_flow
from pondapp.models.reading import Steadiness, WeighedBucket, WeighedFill


class _Weighed(MethodKind[WeighedBucket]):
    stored = WeighedBucket
    name = "Weighed bucket"
    timed = True
    runs = ENOUGH_FILLS

    def measured(
        self, method: WeighedBucket, band: FlowBand | None, rules: MeasuringAssumptions,
        steadiness: Steadiness | None, /,
    ) -> Measured | None:  # fmt: skip
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

    def usual(self, rules: Assumptions, /) -> Known:
        return {"scale_tolerance": rules.measuring.scale_tolerance}

    def made(self, entered: Entered, known: Known, /) -> WeighedBucket | None:
        empty, full = known.get("empty_weight"), entered.full_kg or {}
        waiting = any(i not in full for i, fill in enumerate(entered.fills) if not fill.excluded)
        if empty is None or waiting:
            return None
        return WeighedBucket(
            empty_kg=empty,
            scale_tolerance_kg=known["scale_tolerance"],
            fills=tuple(
                WeighedFill(
                    seconds=fill.seconds, typed=fill.typed, excluded=fill.excluded, full_kg=full[i]
                )
                for i, fill in enumerate(entered.fills)
                if i in full
            ),
        )

    def even_times(self, method: WeighedBucket, /) -> list[float]:
        fills = [fill for fill in method.fills if not fill.excluded]
        waters = [fill.full_kg - method.empty_kg for fill in fills]
        if len(fills) < 2 or min(waters) <= 0.0:
            return []
        mean = sum(waters) / len(waters)
        times = (f.seconds * mean / water for f, water in zip(fills, waters, strict=True))
        return [time for time in times if time <= DAY]


KIND = _Weighed()
