"""The water of a pond as texts on a screen, and back again."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from pondapp import units
from pondapp.answers.water.fill import FoundVolume, filled_by_clock, metered, salted
from pondapp.answers.water.volume import Assumptions, found_basin
from pondapp.core.base.errors import PondError
from pondapp.models.base import Limits, limits_of
from pondapp.models.circuit import Jet
from pondapp.models.limits import (
    LAST_OF_METER,
    LONGEST_FILLING,
    MOST_SALT,
    SALTIEST,
    WORST_SALT_METER,
)
from pondapp.models.pond import Pond
from pondapp.models.water import (
    Basin,
    Circle,
    Corners,
    Drawn,
    Ellipse,
    LShape,
    MeasuredVolume,
    Offsets,
    Outline,
    Rectangle,
    Shelf,
    TypedVolume,
    Water,
)
from pondapp.ui.parts.form import Amounts, Form, QuantityField
from pondapp.ui.parts.names import Texts, added, listed
from pondapp.words import t

HOW = (("typed", "Known volume"), ("drawn", "From measurements"))
SHAPES = (
    ("rectangle", "Rectangle"),
    ("circle", "Circle"),
    ("ellipse", "Oval"),
    ("l_shape", "L-shape"),
    ("offsets", "By widths"),
    ("corners", "By corners"),
)
SHAPE_HINTS = {
    "l_shape": "Its whole length and width, and the corner that is missing.",
    "offsets": "Lay a tape along the pond and take its width at equal steps, both ends included.",
    "corners": "Go round the edge in order. Measure each point along and across a straight line "
    "outside the pond.",
}
SIDES = {
    "rectangle": ("length", "width"),
    "circle": ("diameter",),
    "ellipse": ("length", "width"),
    "l_shape": ("length", "width", "cut_length", "cut_width"),
    "offsets": ("spacing",),
    "corners": (),
}
SHELF_PARTS = {
    "shelf_depth": "Shelf {number}: below water",
    "shelf_width": "Shelf {number}: reaches in",
}
"""What stands under the heading of its shelf, in a sentence by itself."""
SIDE = limits_of(Rectangle, "length_m")
BASINS = "basins"
LISTS = {
    "shelves": Form(
        (
            QuantityField(
                "shelf_depth", "Below water", "width", limits_of(Shelf, "depth_m"), needed=True
            ),
            QuantityField(
                "shelf_width", "Reaches in", "width", limits_of(Shelf, "width_m"), needed=True
            ),
        )
    ),
    "widths": Form(
        (
            QuantityField(
                "tape_width",
                "Width {number}",
                "length",
                limits_of(Offsets, "widths_m"),
                needed=True,
            ),
        )
    ),
    "points": Form(
        (
            QuantityField(
                "along", "{number}: along", "length", limits_of(Corners, "points_m", 0), needed=True
            ),
            QuantityField(
                "across",
                "{number}: across",
                "length",
                limits_of(Corners, "points_m", 1),
                needed=True,
            ),
        )
    ),
}
BASIN = Form(
    (
        QuantityField("length", "Length", "length", SIDE, needed=True),
        QuantityField("width", "Width", "length", SIDE, needed=True),
        QuantityField(
            "diameter", "Diameter", "length", limits_of(Circle, "diameter_m"), needed=True
        ),
        QuantityField(
            "cut_length", "Missing length", "length", limits_of(LShape, "cut_length_m"), needed=True
        ),
        QuantityField(
            "cut_width", "Missing width", "length", limits_of(LShape, "cut_width_m"), needed=True
        ),
        QuantityField("spacing", "Step", "length", limits_of(Offsets, "spacing_m"), needed=True),
        QuantityField("depth", "Depth", "length", limits_of(Basin, "depth_m"), needed=True),
        QuantityField("slope", "Slope", "number", limits_of(Basin, "side_slope")),
    ),
    lists=LISTS,
)
MOST_MEASURED = limits_of(MeasuredVolume, "volume_m3")
HOSE_FLOW = limits_of(Jet, "flow_m3_s")
FORM = Form(
    (
        QuantityField("volume", "Volume", "volume", limits_of(TypedVolume, "volume_m3"),
                      needed=True),
        QuantityField("fill_flow_before", "Hose at the start", "flow", HOSE_FLOW, needed=True),
        QuantityField("fill_flow_after", "Hose at the end", "flow", HOSE_FLOW),
        QuantityField("fill_time", "Filling time", "hours",
                      Limits(0.0, LONGEST_FILLING, above=True), needed=True),
        QuantityField("salt_mass", "Salt put in", "mass", Limits(0.0, MOST_SALT, above=True),
                      needed=True),
        QuantityField("salt_tolerance", "Give or take", "salt",
                      Limits(0.0, WORST_SALT_METER, above=True)),
        QuantityField("salt_before", "Meter before", "salt", Limits(0.0, SALTIEST), needed=True),
        QuantityField("salt_after", "Meter after", "salt", Limits(0.0, SALTIEST, above=True),
                      needed=True),
        QuantityField("meter_first", "Meter before", "water_meter", Limits(0.0, LAST_OF_METER),
                      needed=True),
        QuantityField("meter_last", "Meter after", "water_meter",
                      Limits(0.0, LAST_OF_METER, above=True), needed=True),
    ),
    lists={BASINS: BASIN},
)  # fmt: skip
MEASURED_FIELDS = {
    "filling": ("fill_flow_before", "fill_flow_after", "fill_time"),
    "salt": ("salt_mass", "salt_tolerance", "salt_before", "salt_after"),
    "meter": ("meter_first", "meter_last"),
}
WHOLE: dict[str, type[Rectangle | Circle | Ellipse | LShape]] = {
    "rectangle": Rectangle,
    "circle": Circle,
    "ellipse": Ellipse,
    "l_shape": LShape,
}
MOST_BASINS, MOST_SHELVES, MOST_ROWS = 10, 6, 60
LEAST_ROWS = 3
ROWS = {"offsets": "widths", "corners": "points"}

MEASURED = (
    ("none", "Not measured"),
    ("filling", "Hose and clock"),
    ("salt", "With salt"),
    ("meter", "Water meter"),
)
MODEL_NAMES: dict[str, Literal["timed filling", "salt", "meter"]] = {
    "filling": "timed filling",
    "salt": "salt",
    "meter": "meter",
}


def with_row(texts: Texts, key: str) -> Texts:
    """One row more at the end of a list; one that was removed comes back as it was."""
    return added(texts, key, f"r{len(listed(texts, key))}")


def without_row(texts: Texts, key: str) -> Texts:
    """The texts without the last row of a list."""
    return {**texts, key: " ".join(listed(texts, key)[:-1])}


def new_basin(texts: Texts, basin_id: str) -> Texts:
    """The texts with an empty basin more."""
    number = len(listed(texts, BASINS)) + 1
    name = t("Pond") if number == 1 else t("Basin {number}", number=number)
    return added(texts, BASINS, basin_id, _empty_basin(basin_id, name))


def _empty_basin(basin: str, name: str) -> Texts:
    rows = " ".join(f"r{number}" for number in range(4))
    return {
        f"{basin}.name": name,
        f"{basin}.shape": "rectangle",
        f"{basin}.slope": "0",
        f"{basin}.widths": rows,
        f"{basin}.points": rows,
    }


def _outline_texts(outline: Outline, basin: str, system: str) -> Texts:
    plain = outline.model_dump()
    sides = {key: plain[f"{key}_m"] for key in SIDES[outline.kind]}
    texts = BASIN.write(sides, system, basin)
    rows: list[dict[str, float]] = []
    if isinstance(outline, Offsets):
        rows = [{"tape_width": width} for width in outline.widths_m]
    if isinstance(outline, Corners):
        rows = [{"along": along, "across": across} for along, across in outline.points_m]
    for number, row in enumerate(rows):
        kind, name = ROWS[outline.kind], f"r{number}"
        part = LISTS[kind].write(row, system, f"{basin}.{name}")
        texts = added(texts, f"{basin}.{kind}", name, part)
    return texts


def water_texts(pond: Pond, system: str, first_basin: str) -> Texts:
    """The texts that a pond's water begins with."""
    water = pond.water
    texts: Texts = {"how": water.kind, "measured": "kept" if pond.measured_volume else "none"}
    if isinstance(water, TypedVolume):
        texts |= FORM.write({"volume": water.volume_m3}, system)
        return new_basin(texts, first_basin)
    for basin in water.basins:
        key = basin.id
        texts = added(texts, BASINS, key, _empty_basin(key, basin.name))
        texts[f"{key}.shape"] = basin.outline.kind
        texts |= BASIN.write({"depth": basin.depth_m, "slope": basin.side_slope}, system, key)
        texts |= _outline_texts(basin.outline, key, system)
        for number, shelf in enumerate(basin.shelves):
            amounts = {"shelf_depth": shelf.depth_m, "shelf_width": shelf.width_m}
            part = LISTS["shelves"].write(amounts, system, f"{key}.s{number}")
            texts = added(texts, f"{key}.shelves", f"s{number}", part)
    return texts


@dataclass(frozen=True, slots=True)
class BasinRead:
    """One basin as typed: drawn if it can be, and what is wrong with it as a whole."""

    basin: Basin | None
    trouble: PondError | None = None
    missing: tuple[str, ...] = ()
    """The fields that are empty, as the screen calls them."""


def _rows(texts: Texts, system: str, basin: str, kind: str) -> dict[str, Amounts]:
    """The things in one of a basin's lists as typed, by name."""
    names = listed(texts, f"{basin}.{kind}")
    return {name: LISTS[kind].read(texts, system, f"{basin}.{name}") for name in names}


def _outline(shape: str, sides: dict[str, float], rows: list[dict[str, float]]) -> Outline:
    if shape == "offsets":
        widths = tuple(row["tape_width"] for row in rows)
        return Offsets(spacing_m=sides["spacing"], widths_m=widths)
    if shape == "corners":
        return Corners(points_m=tuple((row["along"], row["across"]) for row in rows))
    return WHOLE[shape].model_validate({f"{key}_m": sides[key] for key in SIDES[shape]})


def _called(texts: Texts, basin: str, key: str) -> str:
    """What the screen calls a field of a basin."""
    found = FORM.find(key)
    if found is None:
        return ""
    row = key.removeprefix(f"{basin}.").rpartition(".")[0]
    kind = next((kind for kind in LISTS if row in listed(texts, f"{basin}.{kind}")), None)
    if kind is None:
        return t(found.label)
    number = listed(texts, f"{basin}.{kind}").index(row) + 1
    return t(SHELF_PARTS.get(found.key, found.label), number=number)


def read_basin(texts: Texts, system: str, basin: str) -> tuple[BasinRead, dict[str, str]]:
    """One basin of the texts, and what is wrong by field."""
    shape = texts.get(f"{basin}.shape", "rectangle")
    own = BASIN.read(texts, system, basin, only=(*SIDES[shape], "depth", "slope"))
    rows = _rows(texts, system, basin, ROWS[shape]) if shape in ROWS else {}
    shelves = _rows(texts, system, basin, "shelves")
    parts = (own, *rows.values(), *shelves.values())
    errors = {key: error for part in parts for key, error in part.errors.items()}
    missing = [key for part in parts for key in part.missing]
    typed = rows and not (missing or errors)
    if shape == "offsets" and typed and not any(row.values["tape_width"] for row in rows.values()):
        errors[f"{basin}.{next(iter(rows))}.tape_width"] = t("One width must be more than 0")
    few = shape in ROWS and len(rows) < LEAST_ROWS
    if missing or errors or few:
        called = tuple(_called(texts, basin, key) for key in missing)
        return BasinRead(None, missing=called), errors
    made = Basin(
        id=basin,
        name=texts.get(f"{basin}.name", "").strip()[:80] or t("Basin"),
        outline=_outline(shape, own.values, [row.values for row in rows.values()]),
        depth_m=own.values["depth"],
        side_slope=own.values.get("slope", 0.0),
        shelves=tuple(
            Shelf(depth_m=one.values["shelf_depth"], width_m=one.values["shelf_width"])
            for one in shelves.values()
        ),
    )
    try:
        found_basin(made)
    except PondError as trouble:
        return BasinRead(None, trouble), errors
    return BasinRead(made), errors


@dataclass(frozen=True, slots=True)
class WaterRead:
    """The whole water as typed."""

    water: Water | None
    basins: dict[str, BasinRead]
    errors: dict[str, str]


def read_water(texts: Texts, system: str) -> WaterRead:
    """The water that the texts describe, or none and what is wrong, by field."""
    if texts.get("how") != "drawn":
        read = FORM.read(texts, system, only=("volume",))
        typed = TypedVolume(volume_m3=read.values["volume"]) if read.whole else None
        return WaterRead(typed, {}, read.errors)
    basins: dict[str, BasinRead] = {}
    errors: dict[str, str] = {}
    for basin in listed(texts, BASINS):
        basins[basin], wrong = read_basin(texts, system, basin)
        errors |= wrong
    drawn = [found.basin for found in basins.values() if found.basin]
    whole = bool(drawn) and len(drawn) == len(basins)
    return WaterRead(Drawn(basins=tuple(drawn)) if whole else None, basins, errors)


def measured_choice(texts: Texts, kept: MeasuredVolume | None) -> str:
    """How the volume was measured; what was kept may have been taken back since."""
    how = texts.get("measured", "none")
    return "none" if how == "kept" and kept is None else how


@dataclass(frozen=True, slots=True)
class MeasuredRead:
    """A measured volume as typed; ready says that nothing is missing for the choice made."""

    ready: bool
    volume: MeasuredVolume | None = None
    found: FoundVolume | None = None
    trouble: PondError | None = None
    errors: dict[str, str] = field(default_factory=dict)


def read_measured(
    texts: Texts, system: str, kept: MeasuredVolume | None, rules: Assumptions
) -> MeasuredRead:
    """The measured volume that the texts describe, if one is chosen and complete."""
    how = measured_choice(texts, kept)
    if how == "none":
        return MeasuredRead(ready=True)
    if how == "kept":
        return MeasuredRead(ready=True, volume=kept)
    read = FORM.read(texts, system, only=MEASURED_FIELDS[how])
    try:
        found = _found(read.values, how, rules) if read.whole else None
        if found and found.volume > MOST_MEASURED.high:
            raise PondError(
                "these readings give {volume}, more than any pond of a garden; check them",
                volume=units.show(found.volume, "volume", system),
            )
    except PondError as trouble:
        return MeasuredRead(ready=False, trouble=trouble, errors=read.errors)
    if found is None:
        return MeasuredRead(ready=False, errors=read.errors)
    volume = MeasuredVolume(
        volume_m3=found.volume,
        how=MODEL_NAMES[how],
        standard_uncertainty_m3=found.standard_uncertainty,
    )
    return MeasuredRead(ready=True, volume=volume, found=found)


def _found(values: Mapping[str, float], how: str, rules: Assumptions) -> FoundVolume:
    if how == "filling":
        before, after = values["fill_flow_before"], values.get("fill_flow_after")
        return filled_by_clock(before, after, values["fill_time"], rules)
    if how == "salt":
        first, last = values["salt_before"], values["salt_after"]
        return salted(values["salt_mass"], first, last, values.get("salt_tolerance"), rules)
    return metered(values["meter_first"], values["meter_last"], rules)
