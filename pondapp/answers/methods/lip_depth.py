"""Depth of the water over a lip, read on a ruler behind it."""

from pondapp.answers.measuring.flow import Measured
from pondapp.answers.methods.estimates import judged
from pondapp.answers.methods.method import Entered, Known, MethodKind, Place
from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.other_methods import flow_over_lip
from pondapp.models.reading import LipDepth, Steadiness


class _LipDepth(MethodKind[LipDepth]):
    stored = LipDepth
    name = "Ruler over a lip"

    def measured(
        self, method: LipDepth, band: FlowBand | None, rules: MeasuringAssumptions,
        _steadiness: Steadiness | None, /,
    ) -> Measured:  # fmt: skip
        flow = flow_over_lip(
            method.head_m,
            min(method.head_tolerance_m, method.head_m),
            method.width_m,
            min(method.width_tolerance_m, method.width_m),
            method.crest_height_m,
            rules.weir_uncertainty,
            rules.small_sheet_uncertainty,
            rules.coverage,
        )
        return judged(flow, band, rules)

    def usual(self, rules: Assumptions, /) -> Known:
        return {
            "depth_tolerance": rules.measuring.level_tolerance,
            "lip_tolerance": rules.measuring.lip_width_tolerance,
            "crest": rules.waterfalls.crest_height,
        }

    def begins(self, place: Place, _rules: Assumptions, /) -> Known:
        return place.size("lip_width")

    def made(self, _entered: Entered, known: Known, /) -> LipDepth | None:
        if not {"depth_over_lip", "lip_width", "crest"} <= known.keys():
            return None
        return LipDepth(
            head_m=known["depth_over_lip"],
            head_tolerance_m=known["depth_tolerance"],
            width_m=known["lip_width"],
            width_tolerance_m=known["lip_tolerance"],
            crest_height_m=known["crest"],
        )


KIND = _LipDepth()
