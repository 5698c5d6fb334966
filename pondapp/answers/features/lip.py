"""A lip: the edge that a waterfall runs over."""

from collections.abc import Iterator, Mapping

from pondapp.answers.features.kind import FeatureKind, Size
from pondapp.answers.shopping.needed import Needed
from pondapp.answers.water.volume import widest_lip
from pondapp.answers.waterfall.waterfall import lip_band, lip_steps
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import Step
from pondapp.core.filters.bands import FlowBand
from pondapp.models.circuit import Lip

NARROWEST_LIP = 0.05  # m; a narrower one nobody builds


class _Lip(FeatureKind[Lip]):
    stored = Lip
    title = "Waterfall lip"
    outlet = "waterfall lip"
    aim = "good"
    symbol = "edge"
    rules = (
        "waterfalls.sheet_flow_per_width",
        "waterfalls.sheet_low_factor",
        "waterfalls.sheet_high_factor",
    )
    planner = "lip"
    size = Size(
        field="width_m",
        label="width of {name}",
        unit="width",
        least=NARROWEST_LIP,
        most=widest_lip,
    )
    falls = True

    def band(self, lip: Lip, _volume: float, rules: Assumptions, /) -> FlowBand:
        return lip_band(lip.width_m, rules.waterfalls)

    def rule(self, _lip: Lip, _volume: float, rules: Assumptions, /) -> Message:
        per_width = rules.waterfalls.sheet_flow_per_width
        return Message("About {flow} of lip.", {"flow": Amount(per_width, "m2/s")})

    def steps(self, lip: Lip, _volume: float, rules: Assumptions, /) -> tuple[Step, ...]:
        return lip_steps(lip.width_m, rules.waterfalls)

    def fall(self, lip: Lip, /) -> float | None:
        return lip.fall_m

    def to_buy(self, _lip: Lip, _rules: Assumptions, /) -> Iterator[Needed]:
        yield from ()  # it is built of what is at hand

    def measures(self, lip: Lip, /) -> Mapping[str, float]:
        return {"lip_width": lip.width_m}


KIND = _Lip()
