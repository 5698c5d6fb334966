"""What is typed for each way of measuring: the fields, and the amounts read from them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import NamedTuple, cast

import flet as ft

from pondapp import units
from pondapp.answers.measuring.method_entry import (
    Assumptions,
    Entered,
    MethodKind,
    Sides,
    gravel_here,
    known_here,
    sides_here,
    usual_amounts,
)
from pondapp.models.pond import Pond
from pondapp.models.reading import Container
from pondapp.ui.measuring.fills import FillEntry
from pondapp.ui.parts import fields, layout
from pondapp.words import t


class Entry(NamedTuple):
    """One field."""

    key: str
    label: str
    kind: str
    low: float
    high: float
    helper: str = ""


BOX_LENGTH = Entry("box_length", "Length of the water", "width", 0.01, 100.0)
BOX_WIDTH = Entry("box_width", "Width of the water", "width", 0.01, 100.0)
ACROSS = Entry("tub_across", "Across the water", "width", 0.01, 100.0)
RISE = Entry("rise", "From mark to mark", "width", 0.001, 10.0)
BASINS: Mapping[str, Sequence[Entry]] = {
    "box": (BOX_LENGTH, BOX_WIDTH),
    "round": (ACROSS,),
    "known": (Entry("water_area", "Water area", "area", 1e-4, 1e5),),
}
SPACES: Mapping[str, Sequence[Entry]] = {
    "box": (BOX_LENGTH, BOX_WIDTH, RISE),
    "round": (ACROSS, RISE),
    "known": (
        Entry("space", "Space between the marks", "volume", 1e-5, 1e4, "Outside, gravel and all"),
    ),
}
DROP = Entry("drop", "From mark to mark", "small", 0.001, 10.0, "How far the level falls")
GAPS = Entry(
    "gaps", "Gaps in the gravel", "share", 0.05, 1.0, "The share of the bed that water fills"
)
ENTRIES: Mapping[MethodKind, Sequence[Entry]] = {
    "weighed": (Entry("empty_weight", "Container, empty", "mass", 0.0, 1e4),),
    "lip_depth": (
        Entry("depth_over_lip", "Depth over the lip", "small", 0.0005, 2.0),
        Entry("lip_width", "Width that carries water", "width", 0.01, 100.0),
    ),
    "meter": (Entry("meter_flow", "The meter shows", "flow", 0.0, 10.0),),
}
GIVES: Mapping[MethodKind, Sequence[Entry]] = {
    "weighed": (Entry("scale_give", "The scale may be off by", "mass", 0.0, 100.0),),
    "level_drop": (
        Entry("level_give", "Each mark may be off by", "small", 0.0, 1.0),
        Entry("area_give", "The area may be off by", "share", 0.0, 1.0),
    ),
    "filling": (
        Entry("space_give", "The space may be off by", "share", 0.0, 1.0),
        Entry("gaps_give", "The gaps may be off by", "share", 0.0, 0.5),
    ),
    "lip_depth": (
        Entry("depth_give", "The depth may be off by", "small", 0.0, 0.5),
        Entry("lip_give", "The width may be off by", "width", 0.0, 1.0),
        Entry("crest", "Lip above the bottom behind it", "width", 0.005, 100.0),
    ),
    "meter": (Entry("meter_give", "The meter may be off by", "share", 0.001, 1.0),),
}
SIDES: tuple[tuple[Sides, str], ...] = (
    ("box", "Box"),
    ("round", "Round"),
    ("known", "I know it"),
)
MAY_BE_NOTHING = frozenset(
    {"empty_weight", "scale_give", "level_give", "area_give", "space_give", "gaps_give",
     "depth_give", "lip_give", "meter_flow"}
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class MethodForm:
    """The fields of one measurement, and what they hold."""

    entered: Entered
    wrong: bool
    """Whether a field holds something that is no amount."""
    fields: Sequence[ft.Control]
    """What the method cannot do without."""
    gives: Sequence[ft.Control]
    """How far each amount may be off."""


def _needed(kind: MethodKind, sides: Sides, gravel: bool) -> Sequence[Entry]:
    if kind == "level_drop":
        return (*BASINS[sides], DROP)
    if kind == "filling":
        return (*SPACES[sides], GAPS) if gravel else SPACES[sides]
    return ENTRIES.get(kind, ())


def method_form(
    kind: MethodKind, draft: FillEntry, pond: Pond | None, place_id: str, rules: Assumptions,
    system: str, container: Container | None,
) -> MethodForm:  # fmt: skip
    """Read everything that was typed for a measurement, and draw the fields for it."""
    begin = known_here(pond, place_id, kind, rules)
    usual = usual_amounts(kind, rules)
    known: dict[str, float] = {}
    wrong = False

    def field(entry: Entry, text: str, key: str, helper: str) -> tuple[float | None, ft.Control]:
        nonlocal wrong
        value, error = fields.read_quantity(
            text, entry.kind, system, entry.low, entry.high, zero=entry.key in MAY_BE_NOTHING
        )
        wrong = wrong or error is not None
        unit = units.unit_for(entry.kind, system)
        label = t(entry.label)
        shown = fields.quantity_field(
            label, text, draft.note(key), unit=unit, error=error, helper=helper
        )
        return value, shown

    def entry_field(entry: Entry) -> ft.Control:
        start = units.edit_text(begin[entry.key], entry.kind, system) if entry.key in begin else ""
        helper = t(entry.helper) if entry.helper else ""
        if entry.key in usual:
            amount = units.show(usual[entry.key], entry.kind, system)
            helper = t("{amount} if left empty", amount=amount)
        value, shown = field(entry, draft.text(entry.key, start), entry.key, helper)
        if value is not None:
            known[entry.key] = value
        return shown

    sides = cast("Sides", draft.text("sides", sides_here(pond, place_id, kind)))
    begins_with_gravel = "yes" if gravel_here(pond, place_id) else "no"
    gravel = kind == "filling" and draft.text("gravel", begins_with_gravel) == "yes"
    drawn: list[ft.Control] = []
    if kind in ("level_drop", "filling"):
        options = [(key, t(name)) for key, name in SIDES]
        question = t("The basin or box") if kind == "level_drop" else t("The box or bed")
        drawn.append(layout.choice(question, options, sides, draft.note("sides"), in_rows=True))
    if kind == "filling":
        yes_no = [("yes", t("Yes")), ("no", t("No"))]
        drawn.append(
            layout.choice(
                t("Gravel in it?"), yes_no, "yes" if gravel else "no", draft.note("gravel"),
                in_rows=True,
            )
        )  # fmt: skip
    drawn += [entry_field(entry) for entry in _needed(kind, sides, gravel)]
    full: dict[int, float] = {}
    if kind == "weighed":
        for index, fill in enumerate(draft.fills):
            key = f"{index}.full_weight"
            label = t("Weight of fill {number}, container and all", number=index + 1)
            entry = Entry("full_weight", label, "mass", 0.001, 1e4)
            value, shown = field(entry, draft.text(key), key, "")
            if value is not None:
                full[index] = value
            if not fill.excluded:
                drawn.append(shown)
    gives = [
        entry_field(entry)
        for entry in GIVES.get(kind, ())
        if gravel or entry.key != "gaps_give"
    ]  # fmt: skip
    entered = Entered(known, sides, gravel, draft.fills, full, container)
    return MethodForm(entered, wrong, drawn, gives)
