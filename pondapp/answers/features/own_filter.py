"""A filter of one's own making, of which little is known: fed, watched, never counted on."""

from collections.abc import Iterator

from pondapp.answers.features.kind import FeatureKind, Site, Told
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand
from pondapp.models.circuit import OwnFilter

EITHER_WAY = 0.25  # nobody knows its range: what its owner wants, give or take a quarter


class _OwnFilter(FeatureKind[OwnFilter]):
    stored = OwnFilter
    title = "Own filter"
    outlet = "outlet of the own filter"
    aim = "good"
    symbol = "jars"
    alive = True
    known = False

    def band(self, own: OwnFilter, _volume: float, _rules: Assumptions, /) -> FlowBand:
        flow = own.flow_m3_s
        return FlowBand(flow * (1 - EITHER_WAY), flow, flow * (1 + EITHER_WAY))

    def rule(self, _own: OwnFilter, _volume: float, _rules: Assumptions, /) -> Message:
        return Message("The flow that you chose for it, give or take a quarter.")

    def steps(self, own: OwnFilter, _volume: float, _rules: Assumptions, /) -> tuple[Step, ...]:
        chosen = Term("Qo", "flow that its owner chose", own.flow_m3_s, "m3/s")
        give = Term("g", "either way", EITHER_WAY, "-")
        return tuple(
            Step(Term("Q", name, flow, "m3/s"), formula, (chosen, give), COMMON_PRACTICE)
            for name, flow, formula in (
                ("least flow", own.flow_m3_s * (1 - EITHER_WAY), "Q = Qo (1 - g)"),
                ("most flow", own.flow_m3_s * (1 + EITHER_WAY), "Q = Qo (1 + g)"),
            )
        )

    def told(self, _own: OwnFilter, _site: Site, _rules: Assumptions, /) -> Iterator[Told]:
        yield Told(
            "What it does for the water",
            Message("Not known: it counts for nothing where fish and filters are added up."),
            Message(
                "Test ammonia and nitrite each week while it is new, and keep a filter beside it "
                "that is known. If its water smells of rotten eggs, shut it off before it reaches "
                "the fish."
            ),
        )


KIND = _OwnFilter()
