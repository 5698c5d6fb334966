"""The water's texts become basins and volumes, and the other way round."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.water.basin_outline import basin_picture
from pondapp.core.assumptions import Assumptions
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
from pondapp.ui.water import water_form as form
from pondapp.ui.water.basin_drawing import ABOVE, BELOW, RIGHT, frame, said

RULES = Assumptions()
OUTLINES: list[Outline] = [
    Rectangle(length_m=4, width_m=3),
    Circle(diameter_m=3),
    Ellipse(length_m=4, width_m=3),
    LShape(length_m=5, width_m=4, cut_length_m=2, cut_width_m=1.5),
    Offsets(spacing_m=1, widths_m=(0, 2.4, 3, 2.2, 0)),
    Corners(points_m=((0, 0), (4, 0), (1, 4))),
]
RECTANGLE = {
    "how": "drawn", "basins": "b0", "b0.name": "Pool", "b0.shape": "rectangle",
    "b0.length": "4", "b0.width": "3", "b0.depth": "0,8", "b0.slope": "0",
}  # fmt: skip


def pond(water: Water, measured: MeasuredVolume | None = None) -> Pond:
    return Pond(id="p", name="Invented", water=water, measured_volume=measured)


@pytest.mark.parametrize("outline", OUTLINES, ids=lambda outline: outline.kind)
@pytest.mark.parametrize("system", ["metric", "us"])
def test_what_is_saved_comes_back_as_it_was(outline: Outline, system: str) -> None:
    shelf = Shelf(depth_m=0.3, width_m=0.25)
    one = Basin(
        id="b0", name="Pool", outline=outline, depth_m=0.9, side_slope=0.1, shelves=(shelf,)
    )
    two = Basin(id="abc", name="Stream", outline=Rectangle(length_m=2, width_m=1), depth_m=0.2)
    texts = form.water_texts(pond(Drawn(basins=(one, two))), system, "b0")
    read = form.read_water(texts, system)
    assert read.errors == {}
    assert isinstance(read.water, Drawn)
    for before, after in zip((one, two), read.water.basins, strict=True):
        assert after.model_dump(exclude={"outline", "shelves", "depth_m"}) == before.model_dump(
            exclude={"outline", "shelves", "depth_m"}
        )
        assert flat(after) == pytest.approx(flat(before), rel=1e-5)


def flat(basin: Basin) -> list[float]:
    picture = basin_picture(basin)
    return [value for point in (*picture.cut, *picture.rings[-1]) for value in point]


def test_a_known_volume_comes_back_and_has_a_basin_to_begin_with() -> None:
    texts = form.water_texts(pond(TypedVolume(volume_m3=2.5)), "metric", "b0")
    assert form.read_water(texts, "metric").water == TypedVolume(volume_m3=2.5)
    drawn = form.read_water({**texts, "how": "drawn"}, "metric")
    assert drawn.water is None
    assert drawn.errors == {}


def test_a_wrong_field_is_named_and_its_basin_steps_aside() -> None:
    texts = form.new_basin(RECTANGLE, "b1")
    read = form.read_water({**texts, "b1.length": "wet"}, "metric")
    assert set(read.errors) == {"b1.length"}
    assert read.water is None
    assert read.basins["b0"].basin
    assert read.basins["b1"].basin is None


def test_shelves_that_meet_are_said() -> None:
    texts = {**RECTANGLE, "b0.slope": "3"}
    read = form.read_water(texts, "metric").basins["b0"]
    assert read.basin is None
    assert "meet" in str(read.trouble)


def test_a_width_that_was_removed_comes_back() -> None:
    rows = form.without_row(form.new_basin({}, "b0"), "b0.widths")
    assert rows["b0.widths"] == "r0 r1 r2"
    assert form.with_row(rows, "b0.widths")["b0.widths"] == "r0 r1 r2 r3"


def test_hours_of_a_hose_are_a_volume_with_its_doubt() -> None:
    texts = {"measured": "filling", "fill_flow_before": "1000", "fill_time": "3"}
    read = form.read_measured(texts, "metric", None, RULES)
    assert read.ready
    assert read.volume is not None
    assert read.volume.volume_m3 == pytest.approx(3)
    assert read.volume.how == "timed filling"
    assert read.volume.standard_uncertainty_m3


def test_salt_lost_in_the_meters_doubt_is_said_and_not_ready() -> None:
    texts = {"measured": "salt", "salt_mass": "2", "salt_before": "0.1", "salt_after": "1.1"}
    assert form.read_measured(texts, "metric", None, RULES).volume
    lost = form.read_measured({**texts, "salt_after": "0.11"}, "metric", None, RULES)
    assert not lost.ready
    assert lost.trouble
    empty = form.read_measured({**texts, "salt_mass": ""}, "metric", None, RULES)
    assert not empty.ready
    assert empty.trouble is None


def test_readings_beyond_any_pond_are_said() -> None:
    texts = {"measured": "salt", "salt_mass": "90000", "salt_before": "0", "salt_after": "0.5"}
    read = form.read_measured(texts, "metric", None, RULES)
    assert not read.ready
    assert "more than any pond" in str(read.trouble)


def test_a_kept_measure_stays_unless_it_was_taken_back() -> None:
    kept = MeasuredVolume(volume_m3=3, how="salt")
    texts = form.water_texts(pond(TypedVolume(volume_m3=2), kept), "metric", "b0")
    assert form.read_measured(texts, "metric", kept, RULES).volume == kept
    assert form.measured_choice(texts, None) == "none"


@given(
    length=st.floats(0.3, 400),
    across=st.floats(0.02, 1),
    depth=st.floats(0.05, 20),
    wide=st.floats(200, 900),
)
@settings(max_examples=60, deadline=None)
def test_the_drawing_stays_inside_its_frame(
    length: float, across: float, depth: float, wide: float
) -> None:
    outline = Rectangle(length_m=length, width_m=length * across)
    picture = basin_picture(Basin(id="b", name="B", outline=outline, depth_m=depth))
    at = frame(picture, wide, 250)
    left, top = at.in_plan((0, picture.width))
    right, foot = at.in_plan((picture.length, 0))
    assert left >= 0
    assert right <= wide - RIGHT + 1e-6
    assert top >= ABOVE - 1e-6
    assert foot < at.in_cut((0, 0))[1]
    assert at.in_cut((0, depth))[1] <= 250 - BELOW + 1e-6
    assert (right - left) / picture.length == pytest.approx((foot - top) / picture.width)


def test_the_drawing_is_told_in_words() -> None:
    shelf = Shelf(depth_m=0.3, width_m=0.25)
    drawn = Basin(id="b", name="B", outline=OUTLINES[0], depth_m=0.9, shelves=(shelf,))
    told = said(basin_picture(drawn), "metric")
    for words in ("4 m long", "3 m wide", "0.9 m deep", "30 cm"):
        assert words in told


@pytest.mark.parametrize(
    ("texts", "missing"),
    [
        ({"b0.depth": ""}, "Depth"),
        ({"b0.length": "", "b0.depth": ""}, "Length, Depth"),
        ({"b0.shelves": "s0", "b0.s0.shelf_width": "30"}, "Shelf 1: below water"),
        ({"b0.shelves": "s4 s0", "b0.s4.shelf_depth": "30", "b0.s4.shelf_width": "30",
          "b0.s0.shelf_depth": "30"}, "Shelf 2: reaches in"),
        ({"b0.shape": "offsets", "b0.spacing": "1", "b0.widths": "r0 r1 r2",
          "b0.r0.tape_width": "0", "b0.r2.tape_width": "1"}, "Width 2"),
        ({}, ""),
    ],
)  # fmt: skip
def test_the_fields_that_are_empty_are_named(texts: dict[str, str], missing: str) -> None:
    read = form.read_water({**RECTANGLE, **texts}, "metric")
    assert ", ".join(read.basins["b0"].missing) == missing


def test_widths_of_nothing_are_told_at_the_first_of_them() -> None:
    rows = {f"b0.r{number}.tape_width": "0" for number in range(3)}
    texts = {**RECTANGLE, "b0.shape": "offsets", "b0.spacing": "1", "b0.widths": "r0 r1 r2", **rows}
    read = form.read_water(texts, "metric")
    assert read.water is None
    assert list(read.errors) == ["b0.r0.tape_width"]
