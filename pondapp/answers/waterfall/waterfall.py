"""A waterfall's flow against its width."""

from pondapp.core.assumptions.waterfalls import WaterfallAssumptions
from pondapp.core.base.messages import phrase
from pondapp.core.base.working import COMMON_PRACTICE, Step, Term
from pondapp.core.filters.bands import FlowBand


def lip_band(width: float, rules: WaterfallAssumptions) -> FlowBand:
    """The flow [m3/s] that a lip of this width [m] wants, by the rule per width."""
    target = width * rules.sheet_flow_per_width
    return FlowBand(
        low=target * rules.sheet_low_factor, target=target, high=target * rules.sheet_high_factor
    )


def lip_steps(width: float, rules: WaterfallAssumptions) -> tuple[Step, ...]:
    """The working of lip_band."""
    band = lip_band(width, rules)
    per_width = Term("q", "flow per width of lip", rules.sheet_flow_per_width, "m2/s")
    wide = Term("b", "width of the lip", width, "width")
    best = Term("Q", "flow for a full sheet", band.target, "m3/s")
    found = [Step(best, "Q = q b", (per_width, wide), COMMON_PRACTICE)]
    for name, flow, factor in (
        ("thinnest sheet", band.low, rules.sheet_low_factor),
        ("heaviest fall", band.high, rules.sheet_high_factor),
    ):
        if flow is not None:
            part = Term("k", phrase("{name}, times the rule", name=name), factor, "-")
            found.append(Step(Term("Qk", name, flow, "m3/s"), "Qk = k Q", (part, best),
                              COMMON_PRACTICE))  # fmt: skip
    return tuple(found)
