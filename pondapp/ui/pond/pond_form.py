"""Add a pond: the few numbers that give it targets; everything else can follow."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.answers.planning.planned import Planned
from pondapp.answers.plumbing.path import USUAL_LIFT
from pondapp.answers.plumbing.typed_hose import TypedHose, with_hose
from pondapp.answers.water.volume import found_basin
from pondapp.core.base.errors import PondError
from pondapp.models.base import limits_of
from pondapp.models.circuit import BogFilter, HighFlowFilter, Lip, Pump, WaterFeature
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Ellipse, Rectangle, Shelf, TypedVolume, Water
from pondapp.state.ids import new_id
from pondapp.ui.parts import cautions, fields, layout, severity
from pondapp.ui.parts.answers import target_card
from pondapp.ui.parts.draft import use_draft
from pondapp.ui.parts.form import Form, QuantityField
from pondapp.ui.plumbing.hose_fields import HOSE, half_a_hose
from pondapp.ui.pumps.label_fields import PUMP_FLOW, PUMP_HEAD, PUMP_WATTS
from pondapp.ui.shell.session_context import session_now
from pondapp.ui.shell.worked import worked_now
from pondapp.words import t

SHAPES = (
    ("typed", "I know the volume"),
    ("rectangle", "Rectangle"),
    ("ellipse", "Oval or circle"),
)
NEW_POND = "pond-new"
YES_NO = (("yes", "Yes"), ("no", "No"))
FORM = Form(
    (
        QuantityField("volume", "Volume", "volume", limits_of(TypedVolume, "volume_m3")),
        QuantityField("length", "Length", "length", limits_of(Rectangle, "length_m")),
        QuantityField("width", "Width", "length", limits_of(Rectangle, "width_m")),
        QuantityField("depth", "Mean depth", "length", limits_of(Basin, "depth_m")),
        QuantityField(
            "bog", "Bog filter, outside volume", "volume", limits_of(BogFilter, "bed_volume_m3"),
            "Slow planted gravel bed; leave empty if there is none",
        ),
        QuantityField(
            "lip", "Waterfall lip width", "width", limits_of(Lip, "width_m"),
            "Leave empty if there is no waterfall",
        ),
        PUMP_FLOW.reworded(helper="From the box; leave empty if not known"),
        PUMP_HEAD,
        PUMP_WATTS,
        *HOSE,
    )
)  # fmt: skip
BY_VOLUME, BY_SIDES = ("volume",), ("length", "width", "depth")
# What a usual pond has below its edge: a shelf of so much, so deep, and sides that slope.
SHELF, SLOPE = Shelf(depth_m=0.3, width_m=0.3), 0.3


def read_form(
    texts: dict[str, str], system: str, pond_id: str
) -> tuple[Pond | None, dict[str, str]]:
    """The pond that the texts describe, or none and what is wrong, by field."""
    shape = texts.get("shape", "typed")
    needed, unused = (BY_VOLUME, BY_SIDES) if shape == "typed" else (BY_SIDES, BY_VOLUME)
    asked = [one.key for one in FORM.fields if one.key not in unused]
    read = FORM.read(texts, system, only=asked)
    values, errors = read.values, {**read.errors, **half_a_hose(read)}
    name = texts.get("name", "").strip()
    if wrong := fields.name_error(name):
        errors["name"] = wrong
    if errors or not name or any(key not in values for key in needed):
        return None, errors
    water: Water
    if shape == "typed":
        water = TypedVolume(volume_m3=values["volume"])
    else:
        outline = Rectangle if shape == "rectangle" else Ellipse
        pool = Basin(
            id="basin",
            name=t("Pond"),
            outline=outline(length_m=values["length"], width_m=values["width"]),
            depth_m=values["depth"],
        )
        water = Drawn(basins=(pool,))
    fed: list[WaterFeature] = []
    if "bog" in values:
        fed.append(BogFilter(id="bog", name=t("Bog filter"), bed_volume_m3=values["bog"]))
    if texts.get("high_flow") == "yes":
        fed.append(HighFlowFilter(id="high_flow", name=t("High-flow filter")))
    if "lip" in values:
        fed.append(Lip(id="lip", name=t("Waterfall lip"), width_m=values["lip"]))
    pumps: tuple[Pump, ...] = ()
    if "pump_flow" in values or texts.get("pump_name", "").strip():
        pumps = (
            Pump(
                id="pump",
                name=texts.get("pump_name", "").strip()[:80] or t("Pump"),
                max_flow_m3_s=values.get("pump_flow"),
                max_head_m=values.get("pump_head"),
                power_w=values.get("pump_watts"),
            ),
        )
    pond = Pond(id=pond_id, name=name, water=water, fed=tuple(fed), pumps=pumps)
    lift, length, bore = (values.get(one.key) for one in HOSE)
    hose = TypedHose(lift, bore, length, ribbed=texts.get("hose") == "ribbed")
    return with_hose(pond, hose), {}


def shelved_volume(pond: Pond) -> float | None:
    """Water [m3] if the depth typed is the deepest: with a usual shelf and sloping sides.

    None where the volume was typed, or the pond is too small for a shelf.
    """
    if not isinstance(pond.water, Drawn):
        return None
    basin = pond.water.basins[0]
    update = {"shelves": (SHELF,), "side_slope": SLOPE}
    try:
        return found_basin(basin.model_copy(update=update)).volume
    except PondError:
        return None


def _pump_fact(planned: Planned, system: str) -> ft.Control:
    """What the pump is to deliver: the flow of the plan that the saved pond will have."""
    flow = sum(planned.flows.values())
    return layout.fact(
        t("The pump must give"),
        units.show(flow, "flow", system),
        t("Each filter and fall on its usual branch: change that on the water path."),
    )


@ft.component
def PondFormPage() -> Any:
    """Every keystroke is kept as a draft; results follow while typing."""
    session = session_now()
    system = session.system
    typed = use_draft(NEW_POND, {"shape": "typed", "high_flow": "no"}, FORM)
    texts, note = typed.texts, typed.note
    made, errors = read_form(texts, system, NEW_POND)

    def amount(key: str, helper: str | None = None) -> ft.Control:
        return FORM.draw(typed, key, errors, helper=helper)

    async def save_and_open(screen: str) -> None:
        if made is None:
            return
        kept = made.model_copy(update={"id": new_id()})
        await session.ponds.save(kept)
        await typed.drop()
        ft.context.page.navigate(f"/pond/{kept.id}{screen}")

    async def keep(_: Any) -> None:
        await save_and_open("")

    async def draw(_: Any) -> None:
        await save_and_open("/water")

    def mean_depth() -> ft.Control:
        """What a mean depth is, and what there would be if it is not one.

        One control, whatever is in it: fields that move while one types would lose the focus.
        """
        told = t("Mean depth is volume over area, not the deepest place.")
        less = shelved_volume(made) if made else None
        if less is not None:
            told += " " + t(
                "If this is the deepest, it holds about {volume} with a usual shelf and sloping "
                "sides: then draw it.",
                volume=units.show(less, "volume", system, 2),
            )
        drawn = layout.quiet_button(t("Save, and draw shelves and slopes"), draw)
        return layout.column([layout.small(told), *([drawn] if made else [])])

    usual = units.show(USUAL_LIFT, "head", system)
    shape = texts.get("shape", "typed")
    sizes = BY_VOLUME if shape == "typed" else BY_SIDES
    controls: list[ft.Control] = [
        fields.text_field(t("Name of the pond"), texts.get("name", ""), note("name"),
                          error=errors.get("name")),
        layout.choice(t("How much water"), layout.worded(SHAPES), shape, note("shape")),
        *[amount(key) for key in sizes],
        *([mean_depth()] if shape != "typed" else []),
        layout.heading(t("What the pump feeds")),
        amount("bog"),
        layout.choice(t("A high-flow filter (foam and loose media)?"), layout.worded(YES_NO),
                      texts.get("high_flow", "no"), note("high_flow")),
        amount("lip"),
        layout.heading(t("Pump")),
        fields.text_field(t("Name of the pump"), texts.get("pump_name", ""), note("pump_name")),
        amount("pump_flow"),
        amount("pump_head"),
        amount("pump_watts"),
        layout.heading(t("Lift and hose")),
        amount("lift", t("Outlet above the water; empty: {lift} assumed", lift=usual)),
        layout.pairs([amount("hose_length"), amount("bore")]),
        layout.small(t("Hose empty: a short one, wide enough, is assumed.")),
        cautions.mains(),
    ]  # fmt: skip
    if made:
        try:
            worked = worked_now(made)
            found, planned = worked.targets, worked.planned
            volume = units.show(found.volume, "volume", system)
            controls.append(layout.card([layout.fact(t("The pond holds"), volume)], strong=True))
            *places, pump = found.places
            controls += [target_card(place, system) for place in places]
            if planned.conflict:
                told = layout.sentence(units.tell(planned.conflict, system))
                conflict = severity.card("wrong", t("This can't all work"), [layout.body(told)])
                controls += [target_card(pump, system), conflict]
            else:
                controls.append(layout.card([_pump_fact(planned, system)]))
        except PondError as problem:
            controls.append(layout.caution(units.explain(problem, system)))
    missing = "" if made or errors else t("A name and the amount of water are enough to begin.")
    if missing:
        controls.append(layout.small(missing))
    if errors:
        controls.append(layout.small(t("Correct what is marked above, then save.")))
    controls.append(layout.main_button(t("Save the pond"), keep, disabled=made is None))
    return layout.screen("/new", t("Add a pond"), controls)
