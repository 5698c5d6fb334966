"""A waterfall's flow against its width."""

from dataclasses import dataclass

from pondapp.core.assumptions import Assumptions
from pondapp.core.assumptions.waterfalls import WaterfallAssumptions
from pondapp.core.filters.bands import FlowBand


def lip_band(width: float, rules: WaterfallAssumptions) -> FlowBand:
    """The flow [m3/s] that a lip of this width [m] wants, by the rule per width."""
    target = width * rules.sheet_flow_per_width
    return FlowBand(
        low=target * rules.sheet_low_factor, target=target, high=target * rules.sheet_high_factor
    )


@dataclass(frozen=True, slots=True)
class SheetCheck:
    """A lip and the water at hand."""

    band: FlowBand
    share: float
    """The flow over the flow that the rule wants [-]."""
    width_fed: float
    """Width [m] that this flow feeds by the rule."""


def check_sheet(width: float, flow: float) -> SheetCheck:
    """Compare the water at hand with what the lip wants."""
    rules = Assumptions().waterfalls
    band = lip_band(width, rules)
    return SheetCheck(band, flow / band.target, flow / rules.sheet_flow_per_width)


def lip_wants(width: float) -> FlowBand:
    """The flow that a lip of this width [m] wants, by the default rule."""
    return lip_band(width, Assumptions().waterfalls)
