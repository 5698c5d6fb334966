"""A box or bed of known size fills between two marks, with or without gravel in it."""

from functools import partial

from pondapp.answers.measuring.flow import Measured, counted_times
from pondapp.answers.methods.estimates import flow_by_mean, judged
from pondapp.answers.methods.method import Entered, Known, MethodKind, Place, Sides
from pondapp.answers.methods.sides import space_of
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.estimate import FlowEstimate
from pondapp.core.measuring.other_methods import flow_by_filling
from pondapp.models.reading import FilledSpace, Steadiness


def _porosity(entered: Entered) -> float | None:
    return entered.known.get("gaps") if entered.gravel else 1.0


class _Filling(MethodKind[FilledSpace]):
    stored = FilledSpace
    name = "Filling a box or bog"
    timed = True

    def measured(
        self, method: FilledSpace, band: FlowBand | None, rules: MeasuringAssumptions,
        steadiness: Steadiness | None, /,
    ) -> Measured | None:  # fmt: skip
        flow = self.flow_by_times(method, rules, steadiness)
        return judged(flow, band, rules, len(counted_times(method.fills))) if flow else None

    def flow_by_times(
        self, method: FilledSpace, rules: MeasuringAssumptions, _steadiness: Steadiness | None, /
    ) -> FlowEstimate | None:
        flow_of = partial(
            flow_by_filling,
            method.volume_m3,
            method.volume_tolerance_m3,
            method.porosity,
            method.porosity_tolerance,
        )
        return flow_by_mean(method.fills, rules, flow_of)

    def usual(self, rules: Assumptions, /) -> Known:
        m = rules.measuring
        return {"space_tolerance": m.space_tolerance, "gaps_tolerance": m.porosity_tolerance}

    def begins(self, place: Place, rules: Assumptions, /) -> Known:
        return {"gaps": rules.filters.porosity, **place.size("space")}

    def sides_at(self, place: Place, /) -> Sides:
        return "known" if place.gravel else "box"

    def made(self, entered: Entered, known: Known, /) -> FilledSpace | None:
        space, gaps = space_of(known, entered.sides), _porosity(entered)
        if space is None or gaps is None:
            return None
        return FilledSpace(
            volume_m3=space,
            volume_tolerance_m3=known["space_tolerance"] * space,
            porosity=gaps,
            porosity_tolerance=min(known["gaps_tolerance"], gaps) if entered.gravel else 0.0,
            fills=tuple(entered.fills),
        )

    def amount_timed(self, entered: Entered, /) -> float | None:
        space, gaps = space_of(entered.known, entered.sides), _porosity(entered)
        return None if space is None or gaps is None else space * gaps

    def amount_tolerance(self, rules: MeasuringAssumptions, /) -> float:
        return rules.space_tolerance


KIND = _Filling()
