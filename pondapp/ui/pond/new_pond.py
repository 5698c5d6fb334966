"""The texts of the form that adds a pond, and the pond that they describe."""

from dataclasses import dataclass

from pondapp.answers.features.kinds import KINDS
from pondapp.answers.plumbing.typed_hose import TypedHose, with_hose
from pondapp.answers.water.volume import found_basin
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.circuit import BogFilter, HighFlowFilter, Lip, Pump, WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Shelf, TypedVolume, Water
from pondapp.ui.parts import fields
from pondapp.ui.parts.form import Amounts, Form, QuantityField
from pondapp.ui.parts.names import Texts
from pondapp.ui.plumbing.hose_fields import BORE, HOSE, HOSE_LENGTH, LIFT, half_a_hose
from pondapp.ui.pumps.label_fields import PUMP_FLOW, PUMP_HEAD, PUMP_WATTS
from pondapp.ui.water import water_form
from pondapp.words import t

NEW_POND = "pond-new"
SHAPES = (
    ("ellipse", "Oval"),
    ("circle", "Circle"),
    ("rectangle", "Rectangle"),
    ("l_shape", "L-shape"),
    ("typed", "I know the volume"),
)
SIDES = (
    ("upright", "Straight down"),
    ("sloping", "Sloping"),
    ("shelf", "With a shelf"),
    ("shelf_sloping", "Shelf and slope"),
)
"""How the sides of a pond go down, each with what is asked about it below."""
SHELF, SLOPE = ("shelf_depth", "shelf_width"), ("slope",)
PARTS: dict[str, tuple[str, ...]] = {
    "upright": (), "sloping": SLOPE, "shelf": SHELF, "shelf_sloping": (*SHELF, *SLOPE),
}  # fmt: skip
USUAL_SLOPE = 0.3
USUAL_SHELF = {"metric": 0.3}  # m, as deep as wide; a foot elsewhere
FOOT = 0.3048  # m
LIFTS = {"bog": "bog_lift", "high_flow": "high_flow_lift", "lip": "lip_lift"}
"""The key of the lift of each feature, by the feature's kind."""
FORM = Form(
    (
        water_form.FORM["volume"],
        *(
            one.reworded("Deepest") if one.key == "depth" else one
            for one in water_form.BASIN.fields
            if one.key != "spacing"
        ),
        *water_form.LISTS["shelves"].fields,
        QuantityField(
            "bog", "Bog filter, outside volume", "volume", limits_of(BogFilter, "bed_volume_m3"),
            "Slow planted gravel bed; leave empty if there is none",
        ),
        QuantityField(
            "lip", "Waterfall lip width", "width", limits_of(Lip, "width_m"),
            "Leave empty if there is no waterfall",
        ),
        QuantityField("bog_lift", "Outlet of the bog above the water", "head", LIFT.limits),
        QuantityField("high_flow_lift", "Outlet of the box above the water", "head", LIFT.limits),
        QuantityField("lip_lift", "Lip above the water", "head", LIFT.limits),
        PUMP_FLOW.reworded(helper="From the box; leave empty if not known"),
        PUMP_HEAD,
        PUMP_WATTS,
        *HOSE,
    )
)  # fmt: skip
PUMP = (PUMP_FLOW.key, PUMP_HEAD.key, PUMP_WATTS.key)


def asked_of_water(texts: Texts) -> tuple[str, ...]:
    """The fields of the outline, or of the volume that is known."""
    shape = texts.get("shape", "typed")
    return ("volume",) if shape == "typed" else (*water_form.SIDES[shape], "depth")


def asked_of_sides(texts: Texts) -> tuple[str, ...]:
    """The fields of shelf and slope; none while nobody said how the sides go down."""
    drawn = texts.get("shape", "typed") != "typed"
    return PARTS.get(texts.get("sides", ""), ()) if drawn else ()


def asked_of_lifts(texts: Texts) -> tuple[str, ...]:
    """The lifts of what is there: a fall's box stands at its lip, so one of both is asked."""
    there = [kind for kind in ("bog", "lip") if texts.get(kind, "").strip()]
    if texts.get("high_flow") == "yes" and "lip" not in there:
        there.append("high_flow")
    return tuple(LIFTS[kind] for kind in there) or (LIFT.key,)


def lift_text(texts: Texts, key: str) -> str:
    """The lift of a feature; where one lift was typed for all of them, it is that."""
    return texts.get(key, texts.get(LIFT.key, ""))


def with_sides(texts: Texts, sides: str, system: str) -> Texts:
    """The texts with this choice of sides; usual amounts, to be seen, stand where none were."""
    shelf = USUAL_SHELF.get(system, FOOT)
    usual = FORM.write({"shelf_depth": shelf, "shelf_width": shelf, "slope": USUAL_SLOPE}, system)
    fresh = {key: usual[key] for key in PARTS[sides] if not texts.get(key, "").strip()}
    return {**texts, **fresh, "sides": sides}


@dataclass(frozen=True, slots=True)
class NewPond:
    """A new pond as typed."""

    pond: Pond | None
    errors: dict[str, str]
    """What is wrong, by field."""
    missing: tuple[str, ...] = ()
    """What is still to be said, as the screen calls it."""
    basin: Basin | None = None
    """What can be drawn already; with upright sides while nobody said how they go down."""
    trouble: PondError | None = None
    """Why there can't be such a basin."""


def _basin(texts: Texts, read: Amounts) -> tuple[Basin | None, PondError | None]:
    values, parts = read.values, asked_of_sides(texts)
    if any(key not in values for key in (*asked_of_water(texts), *parts)):
        return None, None
    shelf = Shelf(depth_m=values["shelf_depth"], width_m=values["shelf_width"]) if (
        SHELF[0] in parts
    ) else None  # fmt: skip
    shape = texts["shape"]
    sides = {f"{key}_m": values[key] for key in water_form.SIDES[shape]}
    basin = Basin(
        id="basin",
        name=t("Pond"),
        outline=water_form.WHOLE[shape].model_validate(sides),
        depth_m=values["depth"],
        side_slope=values["slope"] if SLOPE[0] in parts else 0.0,
        shelves=(shelf,) if shelf else (),
    )
    try:
        found_basin(basin)
    except PondError as trouble:
        return None, trouble
    return basin, None


def _features(texts: Texts, values: dict[str, float]) -> tuple[WaterFeature, ...]:
    made: list[WaterFeature] = []
    if "bog" in values:
        made.append(BogFilter(id="bog", name=t(KINDS["bog"].title), bed_volume_m3=values["bog"]))
    if texts.get("high_flow") == "yes":
        made.append(HighFlowFilter(id="high_flow", name=t(KINDS["high_flow"].title)))
    if "lip" in values:
        made.append(Lip(id="lip", name=t(KINDS["lip"].title), width_m=values["lip"]))
    return tuple(made)


def _pumps(texts: Texts, values: dict[str, float]) -> tuple[Pump, ...]:
    name = texts.get("pump_name", "").strip()[:80]
    if not name and PUMP_FLOW.key not in values:
        return ()
    flow, head, watts = (values.get(key) for key in PUMP)
    return (
        Pump(id="pump", name=name or t("Pump"), max_flow_m3_s=flow, max_head_m=head, power_w=watts),
    )


def _plumbed(pond: Pond, texts: Texts, values: dict[str, float]) -> Pond:
    """The pond with one hose to everything, and the lift of each feature where it was typed."""
    ribbed = texts.get("hose") == "ribbed"
    lift, bore, length = (values.get(key) for key in (LIFT.key, BORE.key, HOSE_LENGTH.key))
    pond = with_hose(pond, TypedHose(lift, bore, length, ribbed))
    for kind, key in LIFTS.items():
        if key in values:
            pond = with_hose(pond, TypedHose(values[key], None, None, ribbed), kind)
    return pond


def _missing(name: str, texts: Texts, read: Amounts) -> tuple[str, ...]:
    """What is still to be said, from the top of the screen down."""
    of_sides = [key for key in read.missing if key in asked_of_sides(texts)]
    found = [] if name else [t("Name of the pond")]
    found += [t(FORM[key].label) for key in read.missing if key not in of_sides]
    if texts.get("shape", "typed") != "typed" and texts.get("sides") not in PARTS:
        found.append(t("How its sides go down"))
    return (*found, *(t(FORM[key].label) for key in of_sides))


def read_new_pond(texts: Texts, system: str, pond_id: str) -> NewPond:
    """The pond that the texts describe, as far as they do."""
    lifts = asked_of_lifts(texts)
    texts = {**texts, **{key: lift_text(texts, key) for key in lifts}}
    hose = (HOSE_LENGTH.key, BORE.key)
    asked = (*asked_of_water(texts), *asked_of_sides(texts), "bog", "lip", *lifts, *PUMP, *hose)
    read = FORM.read(texts, system, only=asked)
    name = texts.get("name", "").strip()
    errors = {**read.errors, **half_a_hose(read)}
    if wrong := fields.name_error(name):
        errors["name"] = wrong
    typed = texts.get("shape", "typed") == "typed"
    basin, trouble = (None, None) if typed else _basin(texts, read)
    missing = _missing(name, texts, read)
    if errors or missing or trouble:
        return NewPond(None, errors, missing, basin, trouble)
    water: Water = TypedVolume(volume_m3=read.values["volume"])  if basin is None else (
        Drawn(basins=(basin,))
    )  # fmt: skip
    fed, pumps = _features(texts, read.values), _pumps(texts, read.values)
    pond = Pond(id=pond_id, name=name, water=water, fed=fed, pumps=pumps)
    return NewPond(_plumbed(pond, texts, read.values), {}, basin=basin)
