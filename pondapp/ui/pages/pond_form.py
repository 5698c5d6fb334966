"""Add or change a pond."""

from typing import Any

import flet as ft

from pondapp import units
from pondapp.core.errors import PondError
from pondapp.models.pond import (
    BogFilter,
    BoxShape,
    Fed,
    HighFlowFilter,
    Lip,
    Pond,
    Pump,
    TypedVolume,
    Water,
)
from pondapp.models.preferences import Draft
from pondapp.sizing.targets import targets, water_volume
from pondapp.ui.current import session_now
from pondapp.ui.parts import fields, layout
from pondapp.ui.parts.answers import target_card
from pondapp.ui.session import new_id

SHAPES = (
    ("typed", "I know the volume"),
    ("rectangle", "Rectangle"),
    ("ellipse", "Ellipse or circle"),
)
NEW_POND = "pond-new"
YES_NO = (("yes", "Yes"), ("no", "No"))
QUANTITIES = {
    "volume": ("Volume", "volume"),
    "length": ("Length", "length"),
    "width": ("Width", "length"),
    "depth": ("Mean depth", "length"),
    "bog": ("Bog filter, outside volume", "volume"),
    "lip": ("Waterfall lip width", "width"),
    "pump_flow": ("Largest flow on the label", "flow"),
    "pump_head": ("Largest head on the label", "head"),
    "pump_watts": ("Power", "power"),
}
LIMITS = {
    "volume": (1e-3, 1e5),
    "length": (0.05, 500),
    "width": (0.05, 500),
    "depth": (0.05, 20),
    "bog": (1e-3, 1e4),
    "lip": (0.01, 50),
    "pump_flow": (1e-6, 1),
    "pump_head": (0.05, 100),
    "pump_watts": (0.1, 20_000),
}


def texts_of(pond: Pond, system: str) -> dict[str, str]:
    """The texts that this form would hold for a saved pond."""
    texts = {"name": pond.name, "shape": pond.water.kind, "high_flow": "no"}

    def put(key: str, value: float | None) -> None:
        if value is not None:
            texts[key] = units.edit_text(value, QUANTITIES[key][1], system)

    if isinstance(pond.water, TypedVolume):
        put("volume", pond.water.volume_m3)
    else:
        put("length", pond.water.length_m)
        put("width", pond.water.width_m)
        put("depth", pond.water.depth_m)
    for thing in pond.fed:
        if isinstance(thing, BogFilter):
            put("bog", thing.bed_volume_m3)
        elif isinstance(thing, Lip):
            put("lip", thing.width_m)
        else:
            texts["high_flow"] = "yes"
    if pond.pump:
        texts["pump_name"] = pond.pump.name
        put("pump_flow", pond.pump.max_flow_m3_s)
        put("pump_head", pond.pump.max_head_m)
        put("pump_watts", pond.pump.power_w)
    return texts


def read_form(
    texts: dict[str, str], system: str, pond_id: str
) -> tuple[Pond | None, dict[str, str]]:
    """The pond that the texts describe, or none and what is wrong, by field."""
    values: dict[str, float] = {}
    errors: dict[str, str] = {}
    for key, (_, kind) in QUANTITIES.items():
        low, high = LIMITS[key]
        value, error = fields.read_quantity(texts.get(key, ""), kind, system, low, high)
        if error:
            errors[key] = error
        elif value is not None:
            values[key] = value
    shape = texts.get("shape", "typed")
    needed = ("volume",) if shape == "typed" else ("length", "width", "depth")
    unused = {"volume", "length", "width", "depth"} - set(needed)
    for key in unused:
        errors.pop(key, None)
    name = texts.get("name", "").strip()
    if len(name) > 80:
        errors["name"] = "Write a name of at most 80 letters"
    if errors or not name or any(key not in values for key in needed):
        return None, errors
    water: Water
    if shape == "typed":
        water = TypedVolume(volume_m3=values["volume"])
    else:
        water = BoxShape(
            kind="rectangle" if shape == "rectangle" else "ellipse",
            length_m=values["length"],
            width_m=values["width"],
            depth_m=values["depth"],
        )
    fed: list[Fed] = []
    if "bog" in values:
        fed.append(BogFilter(id="bog", name="Bog filter", bed_volume_m3=values["bog"]))
    if texts.get("high_flow") == "yes":
        fed.append(HighFlowFilter(id="high_flow", name="High-flow filter"))
    if "lip" in values:
        fed.append(Lip(id="lip", name="Waterfall lip", width_m=values["lip"]))
    pump = Pump(
        name=texts.get("pump_name", "").strip()[:80] or "Pump",
        max_flow_m3_s=values.get("pump_flow"),
        max_head_m=values.get("pump_head"),
        power_w=values.get("pump_watts"),
    )
    return Pond(id=pond_id, name=name, water=water, fed=tuple(fed), pump=pump), {}


@ft.component
def PondFormPage() -> Any:
    """Every keystroke is kept as a draft; results follow while typing."""
    session = session_now()
    system = session.system
    pond = session.ponds.get(ft.use_route_params().get("pond_id", ""))
    draft_id = f"pond-{pond.id}" if pond else NEW_POND
    route = f"/pond/{pond.id}/edit" if pond else "/new"

    def begin() -> dict[str, str]:
        draft = session.drafts.get(draft_id)
        if draft:
            return draft.texts
        return texts_of(pond, system) if pond else {"shape": "typed", "high_flow": "no"}

    texts, set_texts = ft.use_state(begin())
    made, errors = read_form(texts, system, pond.id if pond else "new")

    def note(key: str) -> Any:
        def handler(text: str) -> None:
            changed = {**texts, key: text}
            set_texts(changed)
            ft.context.page.run_task(session.keep_draft, Draft(id=draft_id, texts=changed))

        return handler

    def amount(key: str, helper: str = "") -> ft.Control:
        label, kind = QUANTITIES[key]
        return fields.quantity_field(
            label, texts.get(key, ""), note(key), unit=units.unit_for(kind, system),
            error=errors.get(key), helper=helper,
        )  # fmt: skip

    async def keep(_: Any) -> None:
        if made is None:
            return
        kept = made if pond else made.model_copy(update={"id": new_id()})
        if pond:
            kept = kept.model_copy(update={"assumptions": pond.assumptions})
        await session.keep_pond(kept)
        await session.drop_draft(draft_id)
        ft.context.page.navigate(f"/pond/{kept.id}")

    shape = texts.get("shape", "typed")
    sizes = ["volume"] if shape == "typed" else ["length", "width", "depth"]
    controls: list[ft.Control] = [
        fields.text_field("Name of the pond", texts.get("name", ""), note("name"),
                          error=errors.get("name")),
        layout.choice("How much water", SHAPES, shape, note("shape")),
        *[amount(key) for key in sizes],
        layout.heading("What the pump feeds"),
        amount("bog", "Slow planted gravel bed; leave empty if there is none"),
        layout.choice("A high-flow filter (foam and loose media)?", YES_NO,
                      texts.get("high_flow", "no"), note("high_flow")),
        amount("lip", "Leave empty if there is no waterfall"),
        layout.heading("Pump"),
        fields.text_field("Name of the pump", texts.get("pump_name", ""), note("pump_name")),
        amount("pump_flow", "From the box; leave empty if not known"),
        amount("pump_head"),
        amount("pump_watts"),
        layout.caution(
            "mains and water kill. Use an RCD/GFCI-protected outdoor supply, unplug before hands "
            "go in, and leave mains work to a licensed electrician under your local rules."
        ),
    ]  # fmt: skip
    if made:
        try:
            found = targets(made)
            volume = units.show(water_volume(made.water), "volume", system)
            controls.append(layout.card([layout.fact("The pond holds", volume)], strong=True))
            controls += [target_card(target, system) for target in found.places]
        except PondError as problem:
            controls.append(layout.caution(units.tell(problem.message, system)))
    missing = "" if made or errors else "A name and the amount of water are enough to begin."
    if missing:
        controls.append(layout.small(missing))
    if errors:
        controls.append(layout.small("Mend what is marked above, then save."))
    controls.append(layout.main_button("Save the pond", keep, disabled=made is None))
    return layout.screen(route, "Change the pond" if pond else "Add a pond", controls)
