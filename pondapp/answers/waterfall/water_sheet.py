"""A waterfall's sheet of water: how thick it is, and whether the flow suits the width."""

from dataclasses import dataclass
from typing import Literal

from pondapp.answers.measuring.certainty import certainty
from pondapp.answers.waterfall.waterfall import lip_band, lip_steps
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import NoSolution
from pondapp.core.base.messages import Amount, Message
from pondapp.core.base.working import COMMON_PRACTICE, Source, Step, Term
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.measuring.spread import Spread as Spread
from pondapp.core.measuring.verdict import decide
from pondapp.core.spillway.sheet import (
    BRINK_SHARE,
    brink_depth,
    critical_depth,
    head_over_lip,
    width_fed,
)
from pondapp.core.spillway.weirs import WeirFlow

SheetKind = Literal["within", "below", "above", "undecided"]
FREE_FALL = Source("free overfall from a level floor: Rouse", "from memory")
CRITICAL = Source("critical depth, any hydraulics textbook", "published")


@dataclass(frozen=True, slots=True)
class Sheet:
    """A lip and the water that goes over it.

    Attributes:
        width: Width of the lip [m].
        flow: Flow over it [m3/s].
        own: What the lip alone wants [m3/s].
        band: What everything that its water passes is content with [m3/s].
        kind: Where the flow lies against that band.
        verdict: The same in words, with how much is missing or too much.
        alone: How the lip alone has it, in words; none where nothing else is on its water.
        thickness: Of the sheet at the edge [m].
        behind: The water behind the lip; none where it is a film.
        best_width: Width [m] on which this flow is a full sheet.
        widest: Width [m] on which it just closes.
        narrowest: Width [m] on which it is the heaviest fall.
        rules: The rules in force.
    """

    width: float
    flow: float
    own: FlowBand
    band: FlowBand
    kind: SheetKind
    verdict: Message
    alone: Message | None
    thickness: float
    behind: WeirFlow | None
    best_width: float
    widest: float
    narrowest: float
    rules: Assumptions

    def steps(self) -> tuple[Step, ...]:
        """The working."""
        flow = Term("Q", "flow over the lip", self.flow, "m3/s")
        wide = Term("b", "width of the lip", self.width, "width")
        critical = critical_depth(self.flow / self.width)
        depth = Term("yc", "critical depth", critical, "m")
        share = Term("k", "share of it at the edge", BRINK_SHARE, "-")
        per_width = Term(
            "q", "flow per width of lip", self.rules.waterfalls.sheet_flow_per_width, "m2/s"
        )
        fed = Term("b_fed", "width of a full sheet", self.best_width, "width")
        return (
            *lip_steps(self.width, self.rules.waterfalls),
            Step(fed, "b_fed = Q / q", (flow, per_width), COMMON_PRACTICE),
            Step(depth, "yc = ((Q / b)² / g)^(1/3)", (flow, wide), CRITICAL),
            Step(Term("y", "thickness at the edge", self.thickness, "m"), "y = k yc",
                 (depth, share), FREE_FALL),
            *(self.behind.steps() if self.behind else ()),
        )  # fmt: skip


def _verdict(kind: SheetKind, flow: float, band: FlowBand, best_width: float) -> Message:
    full = Amount(band.target - flow, "m3/s")
    if kind == "below":
        return Message(
            "Too thin: {gap} more closes the sheet, {full} more makes it full.",
            {"gap": Amount(band.low - flow, "m3/s"), "full": full},
        )
    if kind == "above" and band.high is not None:
        return Message(
            "A heavy fall that splashes: {gap} less would calm it, or a lip of {width}.",
            {"gap": Amount(flow - band.high, "m3/s"), "width": Amount(best_width, "width")},
        )
    if kind == "undecided":
        return Message("Not decided yet: measure the flow more closely.")
    if flow < band.target:
        return Message("A closed sheet. {full} more makes it full.", {"full": full})
    return Message("A full sheet.")


def _verdict_on_water(kind: SheetKind, flow: float, band: FlowBand) -> Message:
    if kind == "below":
        return Message("Too little by {gap}.", {"gap": Amount(band.low - flow, "m3/s")})
    if kind == "above" and band.high is not None:
        return Message("Too much by {gap}.", {"gap": Amount(flow - band.high, "m3/s")})
    if kind == "undecided":
        return Message("Not decided yet: measure the flow more closely.")
    return Message("Right: within what is wanted here.")


def _behind(width: float, flow: float, crest: float, thickness: float) -> WeirFlow | None:
    """The water behind the lip; none for a film, of which no weir formula knows anything."""
    try:
        found = head_over_lip(flow, width, crest)
    except NoSolution:
        return None
    return found if found.head > thickness else None


def sheet_of(
    width: float,
    flow: float,
    rules: Assumptions,
    spread: Spread | None = None,
    band: FlowBand | None = None,
    of_water: FlowBand | None = None,
) -> Sheet:
    """What a flow [m3/s] does on a lip of a width [m].

    Args:
        width: Width of the lip.
        flow: Flow over it.
        rules: The rules in force.
        spread: What is known of it, if it was measured; else it counts as exact.
        band: The owner's own band, in place of the rule's.
        of_water: What everything that its water passes is content with, where it is more than a
            lip.

    Raises:
        PondError: A number is out of range; the message says which.
    """
    falls = rules.waterfalls
    per_width = falls.sheet_flow_per_width
    own = band or lip_band(width, falls)
    whole = of_water or own
    known, rule = spread or Spread(flow), certainty(rules.measuring)
    kind = decide(known, own.low, own.high, rule).kind
    verdict, alone = _verdict(kind, flow, own, width_fed(flow, per_width)), None
    if (whole.low, whole.high) != (own.low, own.high):
        kind = decide(known, whole.low, whole.high, rule).kind
        verdict, alone = _verdict_on_water(kind, flow, whole), verdict
    best_width = width_fed(flow, per_width)
    thickness = brink_depth(flow / width)
    return Sheet(
        width=width,
        flow=flow,
        own=own,
        band=whole,
        kind=kind,
        verdict=verdict,
        alone=alone,
        thickness=thickness,
        behind=_behind(width, flow, falls.crest_height, thickness),
        best_width=best_width,
        widest=width_fed(flow, per_width * falls.sheet_low_factor),
        narrowest=width_fed(flow, per_width * falls.sheet_high_factor),
        rules=rules,
    )
