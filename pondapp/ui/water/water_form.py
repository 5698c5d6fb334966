"""The water of a pond as texts on a screen, and back again."""

from dataclasses import dataclass, field
from typing import Literal

from pondapp import units
from pondapp.answers.water.fill import FoundVolume, filled_by_clock, metered, salted
from pondapp.answers.water.volume import Assumptions, found_basin
from pondapp.core.base.errors import PondError
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
from pondapp.ui.parts import fields
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
NAMES = {
    "length": "Length",
    "width": "Width",
    "diameter": "Diameter",
    "cut_length": "Missing length",
    "cut_width": "Missing width",
    "spacing": "Step",
    "depth": "Depth",
    "slope": "Slope",
}
SHELF_PARTS = {
    "shelf_depth": "Shelf {number}: below water",
    "shelf_width": "Shelf {number}: reaches in",
}
WIDTH_PARTS = {"tape_width": "Width {number}"}
POINT_PARTS = {"along": "{number}: along", "across": "{number}: across"}
WHOLE: dict[str, type[Rectangle | Circle | Ellipse | LShape]] = {
    "rectangle": Rectangle,
    "circle": Circle,
    "ellipse": Ellipse,
    "l_shape": LShape,
}
LARGEST, DEEPEST, STEEPEST, MOST_WATER = 500.0, 20.0, 10.0, 1e5
MOST_BASINS, MOST_SHELVES, MOST_ROWS = 10, 6, 60
LEAST_ROWS = 3
ROWS = {"offsets": "widths", "corners": "points"}
ROW_PARTS = {"widths": ("tape_width",), "points": ("along", "across")}

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
    number = len(listed(texts, "basins")) + 1
    name = t("Pond") if number == 1 else t("Basin {number}", number=number)
    return added(texts, "basins", basin_id, _empty_basin(basin_id, name))


def _empty_basin(basin: str, name: str) -> Texts:
    rows = " ".join(f"r{number}" for number in range(4))
    return {
        f"{basin}.name": name,
        f"{basin}.shape": "rectangle",
        f"{basin}.slope": "0",
        f"{basin}.widths": rows,
        f"{basin}.points": rows,
    }


def _side_texts(outline: Outline, basin: str, system: str) -> Texts:
    plain = outline.model_dump()
    texts = {
        f"{basin}.{key}": units.edit_text(plain[f"{key}_m"], "length", system)
        for key in SIDES[outline.kind]
    }
    if isinstance(outline, Offsets):
        for number, width in enumerate(outline.widths_m):
            texts = added(texts, f"{basin}.widths", f"r{number}")
            text = units.edit_text(width, "length", system)
            texts[f"{basin}.r{number}.tape_width"] = text
    if isinstance(outline, Corners):
        for number, point in enumerate(outline.points_m):
            texts = added(texts, f"{basin}.points", f"r{number}")
            for part, value in zip(ROW_PARTS["points"], point, strict=True):
                text = units.edit_text(value, "length", system)
                texts[f"{basin}.r{number}.{part}"] = text
    return texts


def water_texts(pond: Pond, system: str, first_basin: str) -> Texts:
    """The texts that a pond's water begins with."""
    water = pond.water
    texts: Texts = {"how": water.kind, "measured": "kept" if pond.measured_volume else "none"}
    if isinstance(water, TypedVolume):
        texts["volume"] = units.edit_text(water.volume_m3, "volume", system)
        return new_basin(texts, first_basin)
    for basin in water.basins:
        key = basin.id
        texts = added(texts, "basins", key, _empty_basin(key, basin.name))
        texts[f"{key}.shape"] = basin.outline.kind
        texts[f"{key}.depth"] = units.edit_text(basin.depth_m, "length", system)
        texts[f"{key}.slope"] = units.edit_text(basin.side_slope, "number", system)
        texts |= _side_texts(basin.outline, key, system)
        for number, shelf in enumerate(basin.shelves):
            texts = added(texts, f"{key}.shelves", f"s{number}")
            depth, width = f"{key}.s{number}.shelf_depth", f"{key}.s{number}.shelf_width"
            texts[depth] = units.edit_text(shelf.depth_m, "width", system)
            texts[width] = units.edit_text(shelf.width_m, "width", system)
    return texts


@dataclass
class _Reader:
    """Reads amounts from texts and remembers what is wrong, and whether something is missing."""

    texts: Texts
    system: str
    errors: dict[str, str] = field(default_factory=dict)
    missing: str = ""
    """The first field that is empty, by its key."""

    def amount(
        self, key: str, kind: str, high: float, *, zero: bool = False, bare: str | None = None
    ) -> float:
        """The amount of a field, or 0 and a note that there is none."""
        value, error = fields.read_quantity(
            self.texts.get(key, ""), kind, self.system, 0.0, high, bare_unit=bare, zero=zero
        )
        if error:
            self.errors[key] = error
        if value is None and not error:
            self.missing = self.missing or key
        return value or 0.0


@dataclass(frozen=True, slots=True)
class BasinRead:
    """One basin as typed: drawn if it can be, and what is wrong with it as a whole."""

    basin: Basin | None
    trouble: PondError | None = None
    missing: str = ""
    """The first field that is empty, as the screen calls it."""


def _read_outline(read: _Reader, basin: str, shape: str) -> Outline | None:
    sides = {f"{key}_m": read.amount(f"{basin}.{key}", "length", LARGEST) for key in SIDES[shape]}
    rows: list[tuple[float, ...]] = []
    if shape in ROWS:
        kind = ROWS[shape]
        for row in listed(read.texts, f"{basin}.{kind}"):
            keys = [f"{basin}.{row}.{part}" for part in ROW_PARTS[kind]]
            rows.append(tuple(read.amount(key, "length", LARGEST, zero=True) for key in keys))
    if read.missing or read.errors or (shape in ROWS and len(rows) < LEAST_ROWS):
        return None
    if shape == "offsets" and not any(width for (width,) in rows):
        first = listed(read.texts, f"{basin}.widths")[0]
        read.errors[f"{basin}.{first}.tape_width"] = t("One width must be more than 0")
        return None
    if shape == "offsets":
        return Offsets(spacing_m=sides["spacing_m"], widths_m=tuple(row[0] for row in rows))
    if shape == "corners":
        return Corners(points_m=tuple((along, across) for along, across in rows))
    return WHOLE[shape].model_validate(sides)


def _called(texts: Texts, basin: str, key: str) -> str:
    """What the screen calls a field of a basin."""
    *_, row, part = ["", *key.split(".")]
    if part in NAMES:
        return t(NAMES[part])
    for kind, names in (("shelves", SHELF_PARTS), ("widths", WIDTH_PARTS), ("points", POINT_PARTS)):
        if part in names:
            number = listed(texts, f"{basin}.{kind}").index(row) + 1
            return t(names[part], number=number)
    return ""


def read_basin(texts: Texts, system: str, basin: str) -> tuple[BasinRead, dict[str, str]]:
    """One basin of the texts, and what is wrong by field."""
    read = _Reader(texts, system)
    outline = _read_outline(read, basin, texts.get(f"{basin}.shape", "rectangle"))
    depth = read.amount(f"{basin}.depth", "length", DEEPEST)
    slope = 0.0
    if texts.get(f"{basin}.slope", "").strip():
        slope = read.amount(f"{basin}.slope", "number", STEEPEST, zero=True)
    shelves = []
    for name in listed(texts, f"{basin}.shelves"):
        low = read.amount(f"{basin}.{name}.shelf_depth", "width", DEEPEST)
        width = read.amount(f"{basin}.{name}.shelf_width", "width", LARGEST)
        if low and width:
            shelves.append(Shelf(depth_m=low, width_m=width))
    if read.missing or read.errors or outline is None:
        return BasinRead(None, missing=_called(texts, basin, read.missing)), read.errors
    made = Basin(
        id=basin,
        name=texts.get(f"{basin}.name", "").strip()[:80] or t("Basin"),
        outline=outline,
        depth_m=depth,
        side_slope=slope,
        shelves=tuple(shelves),
    )
    try:
        found_basin(made)
    except PondError as trouble:
        return BasinRead(None, trouble), read.errors
    return BasinRead(made), read.errors


@dataclass(frozen=True, slots=True)
class WaterRead:
    """The whole water as typed."""

    water: Water | None
    basins: dict[str, BasinRead]
    errors: dict[str, str]


def read_water(texts: Texts, system: str) -> WaterRead:
    """The water that the texts describe, or none and what is wrong, by field."""
    if texts.get("how") != "drawn":
        read = _Reader(texts, system)
        volume = read.amount("volume", "volume", MOST_WATER)
        typed = None if read.missing or read.errors else TypedVolume(volume_m3=volume)
        return WaterRead(typed, {}, read.errors)
    basins: dict[str, BasinRead] = {}
    errors: dict[str, str] = {}
    for basin in listed(texts, "basins"):
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
    read = _Reader(texts, system)
    try:
        found = _found(read, how, rules)
        if found and found.volume > MOST_WATER:
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


def _optional(read: _Reader, key: str, kind: str, high: float) -> float | None:
    return read.amount(key, kind, high) if read.texts.get(key, "").strip() else None


def _found(read: _Reader, how: str, rules: Assumptions) -> FoundVolume | None:
    if how == "filling":
        before = read.amount("fill_flow_before", "flow", 1.0)
        after = _optional(read, "fill_flow_after", "flow", 1.0)
        time = read.amount("fill_time", "duration", 3e6, bare="h")
        if read.missing or read.errors:
            return None
        return filled_by_clock(before, after, time, rules)
    if how == "salt":
        mass = read.amount("salt_mass", "mass", 1e5)
        first = read.amount("salt_before", "salt", 40.0, zero=True)
        last = read.amount("salt_after", "salt", 40.0)
        give = _optional(read, "salt_give", "salt", 5.0)
        if read.missing or read.errors:
            return None
        return salted(mass, first, last, give, rules)
    first = read.amount("meter_first", "water_meter", 1e9, zero=True)
    last = read.amount("meter_last", "water_meter", 1e9)
    if read.missing or read.errors:
        return None
    return metered(first, last, rules)
