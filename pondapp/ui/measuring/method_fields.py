"""What is typed for each way of measuring: the fields, and the amounts read from them."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import cast

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
from pondapp.models.base import Limits, limits_of
from pondapp.models.limits import LONGEST_RISE, LONGEST_SIDE
from pondapp.models.pond import Pond
from pondapp.models.reading import (
    Container,
    FilledSpace,
    LevelDrop,
    LipDepth,
    MeterReading,
    WeighedBucket,
    WeighedFill,
)
from pondapp.ui.measuring import fills
from pondapp.ui.measuring.fills import FillEntry
from pondapp.ui.parts import layout
from pondapp.ui.parts.form import Form, QuantityField, key_of
from pondapp.words import t

SIDE, RISING = Limits(0.0, LONGEST_SIDE, above=True), Limits(0.0, LONGEST_RISE, above=True)
SHARE = Limits(0.0, 1.0)
BOX_LENGTH = QuantityField("box_length", "Length of the water", "width", SIDE)
BOX_WIDTH = QuantityField("box_width", "Width of the water", "width", SIDE)
ACROSS = QuantityField("tub_across", "Across the water", "width", SIDE)
RISE = QuantityField("rise", "From mark to mark", "width", RISING)
AREA = QuantityField("water_area", "Water area", "area", limits_of(LevelDrop, "area_m2"))
SPACE = QuantityField(
    "space", "Space between the marks", "volume", limits_of(FilledSpace, "volume_m3"),
    "Outside, gravel and all",
)  # fmt: skip
BASINS = {"box": (BOX_LENGTH, BOX_WIDTH), "round": (ACROSS,), "known": (AREA,)}
SPACES = {"box": (BOX_LENGTH, BOX_WIDTH, RISE), "round": (ACROSS, RISE), "known": (SPACE,)}
DROP = QuantityField(
    "drop", "From mark to mark", "small", limits_of(LevelDrop, "drop_m"), "How far the level falls"
)
GAPS = QuantityField(
    "gaps", "Gaps in the gravel", "share", limits_of(FilledSpace, "porosity"),
    "The share of the bed that water fills",
)  # fmt: skip
EMPTY = QuantityField(
    "empty_weight", "Container, empty", "mass", limits_of(WeighedBucket, "empty_kg")
)
DEPTH = QuantityField(
    "depth_over_lip", "Depth over the lip", "small", limits_of(LipDepth, "head_m")
)
LIP_WIDTH = QuantityField(
    "lip_width", "Width that carries water", "width", limits_of(LipDepth, "width_m")
)
CREST = QuantityField(
    "crest", "Lip above the bottom behind it", "width", limits_of(LipDepth, "crest_height_m")
)
METER = QuantityField(
    "meter_flow", "The meter shows", "flow", limits_of(MeterReading, "flow_m3_s"), zero=True
)
NEEDED: Mapping[MethodKind, Sequence[QuantityField]] = {
    "weighed": (EMPTY,),
    "lip_depth": (DEPTH, LIP_WIDTH),
    "meter": (METER,),
}
TOLERANCES: Mapping[MethodKind, Sequence[QuantityField]] = {
    "weighed": (
        QuantityField(
            "scale_tolerance", "The scale may be off by", "mass",
            limits_of(WeighedBucket, "scale_tolerance_kg"),
        ),
    ),
    "level_drop": (
        QuantityField(
            "level_tolerance", "Each mark may be off by", "small",
            limits_of(LevelDrop, "level_tolerance_m"),
        ),
        QuantityField("area_tolerance", "The area may be off by", "share", SHARE),
    ),
    "filling": (
        QuantityField("space_tolerance", "The space may be off by", "share", SHARE),
        QuantityField(
            "gaps_tolerance", "The gaps may be off by", "share",
            limits_of(FilledSpace, "porosity_tolerance"),
        ),
    ),
    "lip_depth": (
        QuantityField(
            "depth_tolerance", "The depth may be off by", "small",
            limits_of(LipDepth, "head_tolerance_m"),
        ),
        QuantityField(
            "lip_tolerance", "The width may be off by", "width",
            limits_of(LipDepth, "width_tolerance_m"),
        ),
        CREST,
    ),
    "meter": (
        QuantityField(
            "meter_tolerance", "The meter may be off by", "share",
            limits_of(MeterReading, "tolerance"),
        ),
    ),
}  # fmt: skip
WEIGHT = QuantityField(
    "full_weight", "Weight of fill {number}, container and all", "mass",
    limits_of(WeighedFill, "full_kg"),
)  # fmt: skip
FILL = Form((WEIGHT,))
FORM = Form(
    (
        *fills.FORM.fields, BOX_LENGTH, BOX_WIDTH, ACROSS, RISE, AREA, SPACE, DROP, GAPS,
        *(one for group in (*NEEDED.values(), *TOLERANCES.values()) for one in group),
    ),
    lists={"fills": FILL, fills.BEFORE: Form(lists={"fills": FILL})},
)  # fmt: skip
SIDES: tuple[tuple[Sides, str], ...] = (
    ("box", "Box"),
    ("round", "Round"),
    ("known", "I know it"),
)


@dataclass(frozen=True, slots=True)
class MethodForm:
    """The fields of one measurement, and what they hold."""

    entered: Entered
    wrong: bool
    """Whether a field holds something that is no amount."""
    fields: Sequence[ft.Control]
    """What the method cannot do without."""
    tolerances: Sequence[ft.Control]
    """How far each amount may be off."""


def _needed(kind: MethodKind, sides: Sides, gravel: bool) -> Sequence[QuantityField]:
    if kind == "level_drop":
        return (*BASINS[sides], DROP)
    if kind == "filling":
        return (*SPACES[sides], GAPS) if gravel else SPACES[sides]
    return NEEDED.get(kind, ())


def method_form(
    kind: MethodKind, draft: FillEntry, pond: Pond | None, place_id: str, rules: Assumptions,
    system: str, container: Container | None,
) -> MethodForm:  # fmt: skip
    """Read everything that was typed for a measurement, and draw the fields for it."""
    begin = known_here(pond, place_id, kind, rules)
    usual = usual_amounts(kind, rules)
    sides = cast("Sides", draft.text("sides", sides_here(pond, place_id, kind)))
    begins_with_gravel = "yes" if gravel_here(pond, place_id) else "no"
    gravel = kind == "filling" and draft.text("gravel", begins_with_gravel) == "yes"
    needed = _needed(kind, sides, gravel)
    tolerances = [one for one in TOLERANCES.get(kind, ()) if gravel or one.key != "gaps_tolerance"]
    texts = {**FORM.write(begin, system), **draft.draft.texts}
    read = FORM.read(texts, system, only=[one.key for one in (*needed, *tolerances)])

    def field(one: QuantityField) -> ft.Control:
        helper = None
        if one.key in usual:
            amount = units.show(usual[one.key], one.kind, system)
            helper = t("{amount} if left empty", amount=amount)
        start = texts.get(one.key, "")
        return FORM.draw(draft, one.key, read.errors, begin=start, helper=helper)

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
    drawn += [field(one) for one in needed]
    full: dict[int, float] = {}
    wrong = bool(read.errors)
    for index, fill in enumerate(draft.fills if kind == "weighed" else ()):
        weight = FILL.read(draft.draft.texts, system, str(index))
        if WEIGHT.key in weight.values:
            full[index] = weight.values[WEIGHT.key]
        if not fill.excluded:  # else it is not in sight
            wrong = wrong or bool(weight.errors)
            key = key_of(str(index), WEIGHT.key)
            drawn.append(FORM.draw(draft, key, weight.errors, number=index + 1))
    entered = Entered(read.values, sides, gravel, draft.fills, full, container)
    return MethodForm(entered, wrong, drawn, [field(one) for one in tolerances])
