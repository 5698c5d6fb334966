"""What has to be known for each way of measuring, and the measurement that it makes.

Amounts go by short names, as they are typed on a screen: all in SI, each only if it was given.
Where nobody says how far an amount may be off, the rules in force say it.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from math import pi
from typing import Literal

from pondapp.answers.features.kinds import kind_of
from pondapp.answers.measuring.aims import guarded
from pondapp.answers.measuring.certainty import expected_scatter
from pondapp.answers.plumbing.path import feature_of
from pondapp.answers.water.volume import volume_of
from pondapp.core.assumptions import Assumptions as Assumptions
from pondapp.core.filters.bands import FlowBand
from pondapp.core.measuring.verdict import FillWindow, fill_time_window
from pondapp.models.circuit import WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Bucket,
    Container,
    Fill,
    FilledSpace,
    LevelDrop,
    LipDepth,
    MeterReading,
    Method,
    NothingComes,
    WeighedBucket,
    WeighedFill,
)
from pondapp.models.water import Drawn

MethodKind = Literal[
    "bucket", "weighed", "level_drop", "filling", "lip_depth", "meter", "nothing"
]  # fmt: skip
Sides = Literal["box", "round", "known"]
"""How the size of a basin or space is given: a box, a tub, or its area or volume itself."""
Known = Mapping[str, float]

TIMED: frozenset[MethodKind] = frozenset({"bucket", "weighed", "level_drop", "filling"})


@dataclass(frozen=True, slots=True)
class Entered:
    """Everything that was entered for one measurement, whatever the method."""

    known: Known
    sides: Sides = "box"
    gravel: bool = False
    fills: Sequence[Fill] = ()
    full_kg: Mapping[int, float] | None = None
    """What the scale showed for the full container, by the place of its fill."""
    container: Container | None = None


def usual_amounts(kind: MethodKind, rules: Assumptions) -> Known:
    """What the rules assume where nobody says otherwise, mostly how far an amount may be off."""
    m = rules.measuring
    return {
        "weighed": {"scale_tolerance": m.scale_tolerance},
        "level_drop": {"area_tolerance": m.area_tolerance, "level_tolerance": m.level_tolerance},
        "filling": {"space_tolerance": m.space_tolerance, "gaps_tolerance": m.porosity_tolerance},
        "lip_depth": {
            "depth_tolerance": m.level_tolerance,
            "lip_tolerance": m.lip_width_tolerance,
            "crest": rules.waterfalls.crest_height,
        },
        "meter": {"meter_tolerance": m.flow_meter_tolerance},
    }.get(kind, {})


def known_here(pond: Pond | None, place_id: str, kind: MethodKind, rules: Assumptions) -> Known:
    """What the pond's drawing and the rules already say, to begin with."""
    feature = feature_of(pond, place_id) if pond else None
    seen = kind_of(feature).measures(feature) if feature else {}
    if kind == "lip_depth":
        return {key: value for key, value in seen.items() if key == "lip_width"}
    if kind == "level_drop" and pond and feature is None:
        area = volume_of(pond.water).area
        return {"water_area": area} if area else {}
    if kind == "filling":
        gaps = {"gaps": rules.filters.porosity}
        return gaps | {key: value for key, value in seen.items() if key == "space"}
    return {}


def sides_here(pond: Pond | None, place_id: str, kind: MethodKind) -> Sides:
    """How the size is given to begin with."""
    feature = feature_of(pond, place_id) if pond else None
    if kind == "level_drop" and pond and feature is None and isinstance(pond.water, Drawn):
        return "known"  # at a pump it is the pond itself that falls
    return "known" if kind == "filling" and _gravel(feature) else "box"


def gravel_here(pond: Pond | None, place_id: str) -> bool:
    """Whether the place is a bed of gravel."""
    return _gravel(feature_of(pond, place_id) if pond else None)


def _gravel(feature: WaterFeature | None) -> bool:
    return feature is not None and kind_of(feature).gravel


def _area(known: Known, sides: Sides) -> float | None:
    """Water area [m2]."""
    if sides == "known":
        return known.get("water_area")
    if sides == "round":
        across = known.get("tub_across")
        return None if across is None else pi * across * across / 4.0
    length, width = known.get("box_length"), known.get("box_width")
    return None if length is None or width is None else length * width


def _space(known: Known, sides: Sides) -> float | None:
    """Space between the two marks [m3]."""
    if sides == "known":
        return known.get("space")
    area, rise = _area(known, sides), known.get("rise")
    return None if area is None or rise is None else area * rise


def _porosity(entered: Entered) -> float | None:
    return entered.known.get("gaps") if entered.gravel else 1.0


def amount_timed(kind: MethodKind, entered: Entered) -> float | None:
    """The water [m3] that passes while the time is taken, where that is known beforehand."""
    if kind == "bucket":
        return entered.container.volume_m3 if entered.container else None
    if kind == "level_drop":
        area, drop = _area(entered.known, entered.sides), entered.known.get("drop")
        return None if area is None or drop is None else area * drop
    if kind == "filling":
        space, gaps = _space(entered.known, entered.sides), _porosity(entered)
        return None if space is None or gaps is None else space * gaps
    return None


def window_of(
    kind: MethodKind, entered: Entered, band: FlowBand, rules: Assumptions
) -> FillWindow | None:
    """The time to aim for, where the water that passes in it is known beforehand.

    Raises:
        PondError: The amount or the band cannot be.
    """
    amount = amount_timed(kind, entered)
    if not amount:
        return None
    shares = {
        "level_drop": rules.measuring.area_tolerance,
        "filling": rules.measuring.space_tolerance,
    }
    tolerance = shares.get(kind, rules.measuring.container_tolerance)
    expected = expected_scatter(rules.measuring)
    aim = guarded(band, amount, tolerance, expected, rules.measuring, fills=1)
    return fill_time_window(amount, band.low, aim.flow, band.high)


def entered_method(kind: MethodKind, entered: Entered, rules: Assumptions) -> Method | None:
    """The measurement, or nothing while something that it needs is missing."""
    known = {**usual_amounts(kind, rules), **entered.known}
    fills = tuple(entered.fills)
    if kind in TIMED and not fills:
        return None
    if kind == "nothing":
        return NothingComes()
    if kind == "bucket":
        return Bucket(container=entered.container, fills=fills) if entered.container else None
    if kind == "weighed":
        return _weighed(entered, known)
    if kind == "level_drop":
        area, drop = _area(known, entered.sides), known.get("drop")
        if area is None or drop is None:
            return None
        return LevelDrop(
            area_m2=area,
            area_tolerance_m2=known["area_tolerance"] * area,
            drop_m=drop,
            level_tolerance_m=known["level_tolerance"],
            fills=fills,
        )
    if kind == "filling":
        space, gaps = _space(known, entered.sides), _porosity(entered)
        if space is None or gaps is None:
            return None
        return FilledSpace(
            volume_m3=space,
            volume_tolerance_m3=known["space_tolerance"] * space,
            porosity=gaps,
            porosity_tolerance=min(known["gaps_tolerance"], gaps) if entered.gravel else 0.0,
            fills=fills,
        )
    if kind == "lip_depth":
        if not {"depth_over_lip", "lip_width", "crest"} <= known.keys():
            return None
        return LipDepth(
            head_m=known["depth_over_lip"],
            head_tolerance_m=known["depth_tolerance"],
            width_m=known["lip_width"],
            width_tolerance_m=known["lip_tolerance"],
            crest_height_m=known["crest"],
        )
    shown = known.get("meter_flow")
    if shown is None:
        return None
    if shown == 0.0:
        return NothingComes(seen="meter")
    return MeterReading(flow_m3_s=shown, tolerance=known["meter_tolerance"])


def _weighed(entered: Entered, known: Known) -> WeighedBucket | None:
    empty, full = known.get("empty_weight"), entered.full_kg or {}
    waiting = any(i not in full for i, fill in enumerate(entered.fills) if not fill.excluded)
    if empty is None or waiting:
        return None
    return WeighedBucket(
        empty_kg=empty,
        scale_tolerance_kg=known["scale_tolerance"],
        fills=tuple(
            WeighedFill(
                seconds=fill.seconds, typed=fill.typed, excluded=fill.excluded, full_kg=full[i]
            )
            for i, fill in enumerate(entered.fills)
            if i in full
        ),
    )
