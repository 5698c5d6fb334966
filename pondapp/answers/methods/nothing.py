"""No water at all: the verdict, how it was seen, and where to look."""

from pondapp.answers.measuring.flow import Measured, decision_of
from pondapp.answers.methods.method import Entered, Known, MethodKind
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.core.base.messages import Amount, Message
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.no_flow import NoFlow
from pondapp.models.reading import NothingComes, Steadiness

SEEN = {
    "outlet": "Seen at the open end, not measured: so there is no interval.",
    "meter": "A meter stands still at a trickle too: look at the open end to be sure.",
}
WHERE_TO_LOOK = Message(
    "See that the pump runs and that the valves on the way are open. Then look for a kink, a clog "
    "or air in the hose."
)


class _Nothing(MethodKind[NothingComes]):
    stored = NothingComes
    name = "Nothing comes out"

    def measured(
        self, method: NothingComes, band: FlowBand | None, rules: MeasuringAssumptions,
        _steadiness: Steadiness | None, /,
    ) -> Measured:  # fmt: skip
        flow = NoFlow()
        verdict, decision = Message(""), decision_of(flow, band, rules)
        if band is not None:
            verdict = Message(
                "Nothing comes; {least} or more is wanted here.",
                {"least": Amount(band.low, "m3/s")},
            )
        return Measured(
            flow=flow,
            counted=1,
            kind=decision.kind if decision else "no target",
            verdict=verdict,
            advice=(WHERE_TO_LOOK,),
            accuracy=None,
            limits=(Message(SEEN[method.seen]),),
            decision=decision,
            coverage=rules.coverage,
        )

    def made(self, _entered: Entered, _known: Known, /) -> NothingComes:
        return NothingComes()


KIND = _Nothing()
