"""A jet, spitter or fountain: it takes what its maker prints."""

from pondapp.answers.features.kind import FeatureKind
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.models.circuit import Jet

JET_SPAN = 0.10  # a jet is content within a tenth of what its maker prints


class _Jet(FeatureKind[Jet]):
    stored = Jet
    title = "Jet"
    outlet = "jet"
    aim = "good"
    symbol = "spray"

    def band(self, jet: Jet, _volume: float, _rules: Assumptions, /) -> FlowBand:
        flow = jet.flow_m3_s
        return FlowBand(flow * (1 - JET_SPAN), flow, flow * (1 + JET_SPAN))

    def rule(self, _jet: Jet, _volume: float, _rules: Assumptions, /) -> Message:
        return Message("What its maker prints, give or take a tenth.")

    def steps(self, jet: Jet, _volume: float, _rules: Assumptions, /) -> tuple[Step, ...]:
        printed = Term("Qj", "flow that its maker prints", jet.flow_m3_s, "m3/s")
        give = Term("g", "either way", JET_SPAN, "-")
        return tuple(
            Step(Term("Q", name, flow, "m3/s"), formula, (printed, give), COMMON_PRACTICE)
            for name, flow, formula in (
                ("least flow", jet.flow_m3_s * (1 - JET_SPAN), "Q = Qj (1 - g)"),
                ("most flow", jet.flow_m3_s * (1 + JET_SPAN), "Q = Qj (1 + g)"),
            )
        )


KIND = _Jet()
