"""A skimmer: it draws in the surface, with leaves and dust."""

from pondapp.answers.features.kind import FeatureKind
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Message
from pondapp.core.base.working import Step
from pondapp.core.filters.bands import FlowBand
from pondapp.core.filters.skimmer import SkimmerFlow, skimmer_flow
from pondapp.models.circuit import Skimmer


class _Skimmer(FeatureKind[Skimmer]):
    stored = Skimmer
    title = "Skimmer"
    outlet = "skimmer return"
    aim = "least"
    symbol = "mouth"
    rules = (
        "filters.skimmer_flow_min",
        "filters.skimmer_flow_target",
        "filters.skimmer_flow_max",
    )
    cleaned_apart = True

    def _flow(self, skimmer: Skimmer, rules: Assumptions) -> SkimmerFlow:
        f = rules.filters
        rates = f.skimmer_flow_min, f.skimmer_flow_target, f.skimmer_flow_max
        return skimmer_flow(skimmer.opening_m, *rates)

    def band(self, skimmer: Skimmer, _volume: float, rules: Assumptions, /) -> FlowBand:
        return self._flow(skimmer, rules).band

    def rule(self, _skimmer: Skimmer, _volume: float, _rules: Assumptions, /) -> Message:
        return Message("By the width of its opening.")

    def steps(self, skimmer: Skimmer, _volume: float, rules: Assumptions, /) -> tuple[Step, ...]:
        return self._flow(skimmer, rules).steps()


KIND = _Skimmer()
