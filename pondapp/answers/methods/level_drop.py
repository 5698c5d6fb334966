"""The level of a basin falls between two marks, with nothing running in."""

from functools import partial

from pondapp.answers.measuring.flow import Measured, counted_times
from pondapp.answers.methods.estimates import flow_by_mean, judged
from pondapp.answers.methods.method import Entered, Known, MethodKind, Place, Sides
from pondapp.answers.methods.sides import area_of
from pondapp.answers.water.volume import volume_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.estimate import FlowEstimate
from pondapp.core.measuring.other_methods import flow_by_level_drop
from pondapp.models.reading import LevelDrop, Steadiness
from pondapp.models.water import Drawn


class _LevelDrop(MethodKind[LevelDrop]):
    stored = LevelDrop
    name = "Falling level"
    timed = True

    def measured(
        self, method: LevelDrop, band: FlowBand | None, rules: MeasuringAssumptions,
        steadiness: Steadiness | None, /,
    ) -> Measured | None:  # fmt: skip
        flow = self.flow_by_times(method, rules, steadiness)
        return judged(flow, band, rules, len(counted_times(method.fills))) if flow else None

    def flow_by_times(
        self, method: LevelDrop, rules: MeasuringAssumptions, _steadiness: Steadiness | None, /
    ) -> FlowEstimate | None:
        flow_of = partial(
            flow_by_level_drop,
            method.area_m2,
            method.area_tolerance_m2,
            method.drop_m,
            method.level_tolerance_m,
        )
        return flow_by_mean(method.fills, rules, flow_of)

    def usual(self, rules: Assumptions, /) -> Known:
        m = rules.measuring
        return {"area_tolerance": m.area_tolerance, "level_tolerance": m.level_tolerance}

    def begins(self, place: Place, _rules: Assumptions, /) -> Known:
        if place.pond is None or place.feature is not None:
            return {}
        area = volume_of(place.pond.water).area
        return {"water_area": area} if area else {}

    def sides_at(self, place: Place, /) -> Sides:
        if place.pond is None or place.feature is not None:
            return "box"
        # At a pump it is the pond itself that falls.
        return "known" if isinstance(place.pond.water, Drawn) else "box"

    def made(self, entered: Entered, known: Known, /) -> LevelDrop | None:
        area, drop = area_of(known, entered.sides), known.get("drop")
        if area is None or drop is None:
            return None
        return LevelDrop(
            area_m2=area,
            area_tolerance_m2=known["area_tolerance"] * area,
            drop_m=drop,
            level_tolerance_m=known["level_tolerance"],
            fills=tuple(entered.fills),
        )

    def amount_timed(self, entered: Entered, /) -> float | None:
        area, drop = area_of(entered.known, entered.sides), entered.known.get("drop")
        return None if area is None or drop is None else area * drop

    def amount_tolerance(self, rules: MeasuringAssumptions, /) -> float:
        return rules.area_tolerance


KIND = _LevelDrop()
