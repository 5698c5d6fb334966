"""The texts of one water feature, and the feature that they describe."""

from pondapp import units
from pondapp.answers.features.kinds import KINDS
from pondapp.answers.plumbing.typed_hose import TypedHose
from pondapp.models.base import limits_of
from pondapp.models.circuit import Branch, Jet, WaterFeature
from pondapp.models.reading import Band
from pondapp.ui.features.looks import LOOKS
from pondapp.ui.parts import fields
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.plumbing.hose_fields import BORE, HOSE, HOSE_LENGTH, LIFT, half_a_hose
from pondapp.words import t

USUAL = "usual"  # no aim of its own
FLOW = limits_of(Jet, "flow_m3_s")  # of a band as of every flow on the water path
OWN_BAND = (
    QuantityField("band_low", "Least", "flow", FLOW, needed=True),
    QuantityField("band_best", "Good", "flow", FLOW, "Leave empty if the least is also good"),
    QuantityField("band_high", "Most", "flow", FLOW, "Leave empty where more does no harm"),
)
BAND_AND_HOSE = Form((*OWN_BAND, *HOSE))


def form_of(kind: str) -> Form:
    """All amounts of the screen of a feature of this kind."""
    return Form((*LOOKS[kind].form.fields, *BAND_AND_HOSE.fields))


def texts_of(feature: WaterFeature, system: str) -> dict[str, str]:
    """A feature as it would be typed."""
    band = feature.band
    own = (
        BAND_AND_HOSE.write(
            {
                "band_low": band.low_m3_s,
                "band_best": band.target_m3_s,
                "band_high": band.high_m3_s,
            },
            system,
        )
        if band
        else {}
    )
    return {
        "name": feature.name,
        "whose": "own" if band else "rule",
        "aim": feature.aim or USUAL,
        **LOOKS[feature.kind].texts_of(feature, system),
        **own,
    }


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


def _asked(texts: dict[str, str], kind: str) -> Form:
    """The amounts that are asked for."""
    own = OWN_BAND if texts.get("whose") == "own" else ()
    return Form((*LOOKS[kind].asked(texts), *own))


def read_feature(
    texts: dict[str, str], kind: str, feature_id: str, system: str
) -> tuple[WaterFeature | None, dict[str, str]]:
    """The feature that the texts describe, or none and what is wrong, by field."""
    own, look = texts.get("whose") == "own", LOOKS[kind]
    read = _asked(texts, kind).read(texts, system)
    values, errors = read.values, read.errors
    name = texts.get("name", "").strip() or t(KINDS[kind].title)
    if wrong := fields.name_error(name):
        errors["name"] = wrong
    band = _own_band(values, errors, system) if own else None
    if errors or read.missing or look.missing(texts):
        return None, errors
    aim = texts.get("aim", USUAL)
    made: WaterFeature = KINDS[kind].stored(
        id=feature_id, name=name, band=band, aim=None if aim == USUAL else aim,
        **look.to_store(values), **look.picked(texts),
    )  # fmt: skip
    return made, {}


def missing_of(texts: dict[str, str], kind: str, system: str) -> list[str]:
    """The labels of what is needed and empty, from the top of the screen down."""
    asked = _asked(texts, kind)
    amounts = [asked[key].label for key in asked.read(texts, system).missing]
    return [t(label) for label in (*LOOKS[kind].missing(texts), *amounts)]


def hose_texts(branch: Branch | None, system: str) -> dict[str, str]:
    """The lift of a feature's branch as it would be typed; empty while nobody entered it."""
    if branch is None or branch.lift_m is None:
        return {}
    return BAND_AND_HOSE.write({LIFT.key: branch.lift_m}, system)


def read_hose(
    texts: dict[str, str], branch: Branch | None, system: str
) -> tuple[TypedHose, dict[str, str]]:
    """Lift and hose as typed, and what is wrong, by field; an entered hose has its own form."""
    asked = (LIFT,) if branch and branch.pipe else HOSE
    read = BAND_AND_HOSE.read(texts, system, only=[one.key for one in asked])
    errors = {**read.errors, **half_a_hose(read)}
    lift, bore, length = (read.values.get(one.key) for one in (LIFT, BORE, HOSE_LENGTH))
    return TypedHose(lift, bore, length, ribbed=False), errors
