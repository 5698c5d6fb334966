"""What flow each part of a pond wants, by the rules in force or by the user's own band."""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.assumptions import Assumptions
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.filters.bands import bog_band, high_flow_band, whole_pond_band
from pondapp.core.filters.skimmer import skimmer_flow
from pondapp.core.messages import Amount, Message
from pondapp.models.circuit import BogFilter, Fed, HighFlowFilter, Jet, Lip
from pondapp.models.pond import Pond
from pondapp.models.reading import Band
from pondapp.sizing.volume import water_volume
from pondapp.sizing.waterfall import lip_band

PlaceKind = Literal["bog", "high_flow", "lip", "jet", "skimmer", "pump"]
JET_SPAN = 0.10  # a jet is content within a tenth of what its maker prints
PUMP = "pump"


@dataclass(frozen=True, slots=True)
class Target:
    """A place where water comes out, and the flow wanted there."""

    place_id: str
    name: str
    kind: PlaceKind
    band: FlowBand
    rule: Message


@dataclass(frozen=True, slots=True)
class Targets:
    """A pond's volume and all its targets; the last one is the pump's."""

    volume: float
    places: tuple[Target, ...]

    def place(self, place_id: str) -> Target | None:
        """The target of one place."""
        return next((place for place in self.places if place.place_id == place_id), None)

    def over_the_top(self) -> float:
        """Least flow [m3/s] that must go past the bogs when the pump gives its target."""
        most = [p.band.high for p in self.places if p.kind == "bog" and p.band.high is not None]
        return max(0.0, self.places[-1].band.target - sum(most)) if most else 0.0


def band_of(stored: Band) -> FlowBand:
    """A stored band as one to count with."""
    return FlowBand(low=stored.low_m3_s, target=stored.target_m3_s, high=stored.high_m3_s)


def _times(rate: float) -> str:
    """Turnovers an hour, in words."""
    an_hour = rate * 3600.0
    return "once" if abs(an_hour - 1.0) < 1e-9 else f"{an_hour:.2g} times"


def rule_band(thing: Fed, volume: float, rules: Assumptions) -> tuple[FlowBand, Message]:
    """The band that the rules give a thing in a pond of this volume [m3], and the rule."""
    f = rules.filters
    if isinstance(thing, BogFilter):
        band = bog_band(
            thing.bed_volume_m3, f.bog_retention_min, f.bog_retention_target, f.bog_retention_max
        )
        return band, Message(
            "Water takes {short} to {long} through the bed; slower is better.",
            {"short": Amount(f.bog_retention_min, "s"), "long": Amount(f.bog_retention_max, "s")},
        )
    if isinstance(thing, HighFlowFilter):
        band = high_flow_band(volume, f.high_flow_turnover_min, f.high_flow_turnover_target)
        return band, Message(
            "The pond's water {low} to {high} an hour.",
            {"low": _times(f.high_flow_turnover_min), "high": _times(f.high_flow_turnover_target)},
        )
    if isinstance(thing, Lip):
        per_width = rules.waterfalls.sheet_flow_per_width
        return lip_band(thing.width_m, rules.waterfalls), Message(
            "About {flow} for each {width} of lip.",
            {"flow": Amount(per_width * 0.30, "m3/s"), "width": Amount(0.30, "m")},
        )
    if isinstance(thing, Jet):
        flow = thing.flow_m3_s
        return FlowBand(flow * (1 - JET_SPAN), flow, flow * (1 + JET_SPAN)), Message(
            "What its maker prints, give or take a tenth."
        )
    found = skimmer_flow(
        thing.opening_m, f.skimmer_flow_min, f.skimmer_flow_target, f.skimmer_flow_max
    )
    return found.band, Message("By the width of its opening.")


def targets(pond: Pond) -> Targets:
    """The flow band of each thing the pump feeds, and what the pump must deliver.

    Raises:
        PondError: The pond's shape or a changed rule cannot be; the message says why.
    """
    rules = Assumptions().changed(pond.assumptions)
    volume = water_volume(pond)
    places: list[Target] = []
    for thing in pond.fed:
        band, rule = rule_band(thing, volume, rules)
        if thing.band:
            band, rule = band_of(thing.band), Message("Your own band.")
        places.append(Target(thing.id, thing.name, thing.kind, band, rule))
    whole = whole_pond_band(volume, rules.filters.turnover_whole)
    wanted = max([whole.target, *(place.band.low for place in places)])
    rule = Message(
        "The pond's water {turns} an hour, and enough for the hungriest part.",
        {"turns": _times(rules.filters.turnover_whole)},
    )
    name = pond.pumps[0].name if len(pond.pumps) == 1 else "Pump"
    places.append(Target(PUMP, name, "pump", FlowBand(wanted, wanted, None), rule))
    return Targets(volume, tuple(places))
