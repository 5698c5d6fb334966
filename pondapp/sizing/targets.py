"""What flow each part of a pond wants, by the rules in force."""

from dataclasses import dataclass
from typing import Literal

from pondapp.core.assumptions import Assumptions
from pondapp.core.filters.bands import FlowBand as FlowBand
from pondapp.core.filters.bands import bog_band, high_flow_band, whole_pond_band
from pondapp.core.messages import Amount, Message
from pondapp.core.volume.plan_shapes import ellipse_area, rectangle_area
from pondapp.models.pond import BogFilter, HighFlowFilter, Pond, TypedVolume, Water
from pondapp.sizing.waterfall import lip_band

PlaceKind = Literal["bog", "high_flow", "lip", "pump"]


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
        pump = self.places[-1].band.target
        return max(0.0, pump - sum(most)) if most else 0.0


def _times(rate: float) -> str:
    """Turnovers an hour, in words."""
    an_hour = rate * 3600.0
    return "once" if abs(an_hour - 1.0) < 1e-9 else f"{an_hour:.2g} times"


def water_volume(water: Water) -> float:
    """The pond's water [m3]: as typed, or from its outline and mean depth."""
    if isinstance(water, TypedVolume):
        return water.volume_m3
    area = rectangle_area if water.kind == "rectangle" else ellipse_area
    return area(water.length_m, water.width_m) * water.depth_m


def targets(pond: Pond) -> Targets:
    """The flow band of each thing the pump feeds, and what the pump must deliver."""
    rules = Assumptions().changed(pond.assumptions)
    volume = water_volume(pond.water)
    places: list[Target] = []
    for thing in pond.fed:
        if isinstance(thing, BogFilter):
            f = rules.filters
            band = bog_band(
                thing.bed_volume_m3,
                f.bog_retention_min,
                f.bog_retention_target,
                f.bog_retention_max,
            )
            rule = Message(
                "Water takes {short} to {long} through the bed; slower is better.",
                {
                    "short": Amount(f.bog_retention_min, "s"),
                    "long": Amount(f.bog_retention_max, "s"),
                },
            )
        elif isinstance(thing, HighFlowFilter):
            f = rules.filters
            band = high_flow_band(volume, f.high_flow_turnover_min, f.high_flow_turnover_target)
            rule = Message(
                "The pond's water {low} to {high} an hour.",
                {
                    "low": _times(f.high_flow_turnover_min),
                    "high": _times(f.high_flow_turnover_target),
                },
            )
        else:
            band = lip_band(thing.width_m, rules.waterfalls)
            per_width = rules.waterfalls.sheet_flow_per_width
            rule = Message(
                "About {flow} for each {width} of lip.",
                {"flow": Amount(per_width * 0.30, "m3/s"), "width": Amount(0.30, "m")},
            )
        places.append(Target(thing.id, thing.name, thing.kind, band, rule))
    whole = whole_pond_band(volume, rules.filters.turnover_whole)
    least = max([whole.low, *(place.band.low for place in places)])
    wanted = max([whole.target, *(place.band.low for place in places)])
    pump = FlowBand(low=least, target=wanted, high=None)
    rule = Message(
        "The pond's water {turns} an hour, and enough for the hungriest part.",
        {"turns": _times(rules.filters.turnover_whole)},
    )
    places.append(Target("pump", pond.pump.name if pond.pump else "Pump", "pump", pump, rule))
    return Targets(volume, tuple(places))
