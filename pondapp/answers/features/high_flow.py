"""A high-flow filter: a fast box of foam and loose media, usually under a waterfall."""

from collections.abc import Iterator

from pondapp import units
from pondapp.answers.features.kind import FeatureKind, Site, Told
from pondapp.answers.shopping.needed import Needed, named
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.filters import PER_HOUR
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.core.filters.high_flow import HighFlow, high_flow, least_turnover
from pondapp.core.stock.nitrification import MEDIA
from pondapp.core.stock.span import Span
from pondapp.models.circuit import HighFlowFilter


def _number(rate: float) -> str:
    """Turnovers an hour."""
    return units.significant(rate / PER_HOUR, 2)


class _HighFlow(FeatureKind[HighFlowFilter]):
    stored = HighFlowFilter
    title = "High-flow filter"
    outlet = "outlet of the high-flow filter"
    aim = "least"
    rules = (
        "filters.high_flow_turnover_min",
        "filters.high_flow_turnover_target",
        "filters.high_flow_turnover_large",
        "filters.large_pond",
    )
    planner = "box"
    alive = True
    takes_falls = True

    def _flow(self, volume: float, rules: Assumptions) -> HighFlow:
        f = rules.filters
        least = least_turnover(
            volume, f.high_flow_turnover_min, f.high_flow_turnover_large, f.large_pond
        )
        return high_flow(volume, least, f.high_flow_turnover_target)

    def band(self, _box: HighFlowFilter, volume: float, rules: Assumptions, /) -> FlowBand:
        return self._flow(volume, rules).band

    def rule(self, _box: HighFlowFilter, volume: float, rules: Assumptions, /) -> Message:
        found = self._flow(volume, rules)
        return Message(
            "The pond's water {low} to {high} times an hour.",
            {"low": _number(found.min_rate), "high": _number(found.target_rate)},
        )

    def steps(self, _box: HighFlowFilter, volume: float, rules: Assumptions, /) -> tuple[Step, ...]:
        return self._flow(volume, rules).steps()

    def media_volume(self, box: HighFlowFilter, /) -> float | None:
        return box.media_volume_m3

    def media_surface(self, _rules: Assumptions, /) -> Span:
        return MEDIA["plastic"].surface

    def told(self, box: HighFlowFilter, site: Site, rules: Assumptions, /) -> Iterator[Told]:
        f, flow = rules.filters, site.flows[box.id]
        area = flow / f.foam_speed
        step = Step(
            Term("A", "area of foam across the water", area, "m2"),
            "A = Q / v",
            (Term("Q", "flow", flow, "m3/s"), Term("v", "speed through foam", f.foam_speed, "m/s")),
            COMMON_PRACTICE,
        )
        yield Told(
            "Foam across its water, at least",
            Message("{area}", {"area": Amount(area, "m2")}),
            Message(
                "Coarse first, then finer, {depth} deep in all: {volume} of foam. Loose media come "
                "after it.",
                {
                    "depth": Amount(f.foam_depth, "width"),
                    "volume": Amount(area * f.foam_depth, "m3"),
                },
            ),
            working=lambda: (step,),
        )
        if box.media_volume_m3:
            loose = max(0.0, box.media_volume_m3 - area * f.foam_depth)
            yield Told(
                "Left for loose media",
                Message("{volume}", {"volume": Amount(loose, "m3")}),
                Message("Of what was entered as foam and media."),
            )

    def to_buy(self, box: HighFlowFilter, _rules: Assumptions, /) -> Iterator[Needed]:
        yield Needed(f"box.{box.id}", "filters", named(box.name), 1.0)
        if box.media_volume_m3:
            name = Message("Media for {filter}", {"filter": box.name})
            yield Needed(
                f"media.{box.id}", "filters", name, box.media_volume_m3, "m3",
                remark=Message("Foam and loose media."),
            )  # fmt: skip


KIND = _HighFlow()
