"""The texts of one filter, lip, jet or skimmer, and the feature that they describe."""

from dataclasses import dataclass

from pondapp import units
from pondapp.answers.plumbing.typed_hose import TypedHose
from pondapp.models.circuit import (
    BogFilter,
    Branch,
    HighFlowFilter,
    Jet,
    Lip,
    Skimmer,
    WaterFeature,
)
from pondapp.models.reading import Band
from pondapp.ui.features.kinds import TITLES
from pondapp.ui.parts import fields
from pondapp.words import t

USUAL = "usual"  # no aim of its own


@dataclass(frozen=True, slots=True)
class Asked:
    """An amount that is asked about a feature."""

    key: str
    label: str
    kind: str
    low: float
    high: float
    helper: str = ""
    needed: bool = True


ASKED = {
    "bog": (Asked("bog", "Outside volume of the bed", "volume", 1e-3, 1e4),),
    "high_flow": (
        Asked("media", "Volume of foam and media", "volume", 1e-3, 100,
              "Leave empty if you do not know it; the flow goes by the pond's volume", False),
    ),
    "lip": (
        Asked("lip", "Width of the lip", "width", 0.01, 50),
        Asked("fall_height", "Height of the fall", "width", 0.01, 4,
              "From the lip to the water below; leave empty if it does not matter", False),
    ),
    "jet": (Asked("jet", "Flow that its maker prints", "flow", 1e-6, 1),),
    "skimmer": (Asked("opening", "Width of its opening", "width", 0.01, 5),),
}  # fmt: skip
OWN_BAND = (
    Asked("band_low", "Least", "flow", 1e-7, 1),
    Asked("band_best", "Good", "flow", 1e-7, 1,
          "Leave empty if the least is also good", False),
    Asked("band_high", "Most", "flow", 1e-7, 1,
          "Leave empty where more does no harm", False),
)  # fmt: skip
HOSE = (
    Asked("lift", "Lift", "head", 0.0, 50, needed=False),
    Asked("hose_length", "Hose length", "length", 0.05, 1000, needed=False),
    Asked("bore", "Hose, inside", "bore", 0.003, 0.3, needed=False),
)


def asked_about(kind: str, whose: str) -> tuple[Asked, ...]:
    """The amounts on the form; the band's only where it is the user's own."""
    return ASKED[kind] + (OWN_BAND if whose == "own" else ())


def texts_of(feature: WaterFeature, system: str) -> dict[str, str]:
    """A feature as it would be typed."""
    values: dict[str, float | None] = {}
    if isinstance(feature, BogFilter):
        values["bog"] = feature.bed_volume_m3
    elif isinstance(feature, HighFlowFilter):
        values["media"] = feature.media_volume_m3
    elif isinstance(feature, Lip):
        values |= {"lip": feature.width_m, "fall_height": feature.fall_m}
    elif isinstance(feature, Jet):
        values["jet"] = feature.flow_m3_s
    else:
        values["opening"] = feature.opening_m
    if feature.band:
        values["band_low"] = feature.band.low_m3_s
        values["band_best"] = feature.band.target_m3_s
        values["band_high"] = feature.band.high_m3_s
    kinds = {asked.key: asked.kind for asked in asked_about(feature.kind, "own")}
    texts = {
        key: units.edit_text(value, kinds[key], system)
        for key, value in values.items()
        if value is not None
    }
    whose, aim = "own" if feature.band else "rule", feature.aim or USUAL
    return {"name": feature.name, "whose": whose, "aim": aim, **texts}


def _own_band(values: dict[str, float], errors: dict[str, str], system: str) -> Band | None:
    """The user's own band, where least, good and most are in order."""
    low = values.get("band_low")
    if low is None or errors:
        return None
    best = values.get("band_best", low)
    high = values.get("band_high")
    least = units.show(low, "flow", system)
    if best < low:
        errors["band_best"] = t("Write at least the least flow, {least}", least=least)
    elif high is not None and high < best:
        best_text = units.show(best, "flow", system)
        errors["band_high"] = t("Write at least the good flow, {good}", good=best_text)
    if errors:
        return None
    return Band(low_m3_s=low, target_m3_s=best, high_m3_s=high)


def _made(
    kind: str, feature_id: str, name: str, values: dict[str, float], band: Band | None
) -> WaterFeature:
    if kind == "bog":
        return BogFilter(id=feature_id, name=name, band=band, bed_volume_m3=values["bog"])
    if kind == "high_flow":
        media = values.get("media")
        return HighFlowFilter(id=feature_id, name=name, band=band, media_volume_m3=media)
    if kind == "lip":
        fall = values.get("fall_height")
        return Lip(id=feature_id, name=name, band=band, width_m=values["lip"], fall_m=fall)
    if kind == "jet":
        return Jet(id=feature_id, name=name, band=band, flow_m3_s=values["jet"])
    return Skimmer(id=feature_id, name=name, band=band, opening_m=values["opening"])


def read_feature(
    texts: dict[str, str], kind: str, feature_id: str, system: str
) -> tuple[WaterFeature | None, dict[str, str]]:
    """The feature that the texts describe, or none and what is wrong, by field."""
    own = texts.get("whose") == "own"
    asked = asked_about(kind, "own" if own else "rule")
    values, errors = fields.read_quantities(
        texts, {one.key: (one.kind, one.low, one.high) for one in asked}, system
    )
    name = texts.get("name", "").strip() or t(TITLES[kind])
    if wrong := fields.name_error(name):
        errors["name"] = wrong
    band = _own_band(values, errors, system) if own else None
    if errors or any(one.needed and one.key not in values for one in asked):
        return None, errors
    aim = texts.get("aim", USUAL)
    made = _made(kind, feature_id, name, values, band)
    return made.model_copy(update={"aim": None if aim == USUAL else aim}), {}


def hose_texts(branch: Branch | None, system: str) -> dict[str, str]:
    """The lift of a feature's branch as it would be typed; empty while nobody entered it."""
    if branch is None or branch.lift_m is None:
        return {}
    return {"lift": units.edit_text(branch.lift_m, "head", system)}


def read_hose(
    texts: dict[str, str], branch: Branch | None, system: str
) -> tuple[TypedHose, dict[str, str]]:
    """Lift and hose as typed, and what is wrong, by field; an entered hose has its own form."""
    asked = HOSE[:1] if branch and branch.pipe else HOSE
    kinds = {one.key: (one.kind, one.low, one.high) for one in asked}
    values, errors = fields.read_quantities(texts, kinds, system, zero=("lift",))
    for given, other in (("bore", "hose_length"), ("hose_length", "bore")):
        if given in values and other not in values and other not in errors:
            errors[other] = t("A hose needs both its length and its diameter")
    hose = TypedHose(
        values.get("lift"), values.get("bore"), values.get("hose_length"), ribbed=False
    )
    return hose, errors
