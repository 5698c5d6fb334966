"""Volume of what is drawn: shapes, slopes, shelves, several basins, and what was measured."""

from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.answers.water.volume import basin_levels, found_basin, outline_points, water_volume
from pondapp.core.base.errors import PondError
from pondapp.core.volume.outline import area_set_back
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
)


def pool(outline: Outline, depth: float = 0.5, **more: object) -> Basin:
    return Basin(id="b", name="Pool", outline=outline, depth_m=depth, **more)


@pytest.mark.parametrize(
    ("outline", "area"),
    [
        (Rectangle(length_m=2, width_m=1.5), 3.0),
        (Circle(diameter_m=2), pi),
        (Ellipse(length_m=4, width_m=2), 2 * pi),
        (LShape(length_m=4, width_m=3, cut_length_m=2, cut_width_m=1), 10.0),
        (Offsets(spacing_m=1, widths_m=(0, 2, 2, 2, 0)), 20 / 3),
        (Corners(points_m=((0, 0), (4, 0), (0, 3))), 6.0),
    ],
)
def test_straight_sides(outline: Outline, area: float) -> None:
    assert found_basin(pool(outline)).volume == pytest.approx(area * 0.5)
    assert len(outline_points(outline)) >= 3


def test_sloping_sides_as_in_the_published_pond() -> None:
    """100 x 70 ft, 12 ft deep, 2 to 1: 44256 ft3 (University of Regina, Math Central; row 6)."""
    drawn = pool(Rectangle(length_m=30.48, width_m=21.336), 3.6576, side_slope=2.0)
    assert found_basin(drawn).volume / 0.3048**3 == pytest.approx(44256, rel=1e-6)


def test_a_free_outline_slopes_like_the_shape_it_is() -> None:
    square = Rectangle(length_m=4, width_m=4)
    as_corners = Corners(points_m=((0, 0), (4, 0), (4, 4), (0, 4)))
    expected = found_basin(pool(square, 1.0, side_slope=0.5)).volume
    assert found_basin(pool(as_corners, 1.0, side_slope=0.5)).volume == pytest.approx(expected)


def test_shelves_take_water_away() -> None:
    drawn = pool(Rectangle(length_m=4, width_m=3), 1.0, shelves=(Shelf(depth_m=0.3, width_m=0.5),))
    assert found_basin(drawn).volume == pytest.approx(4 * 3 * 0.3 + 3 * 2 * 0.7)
    assert basin_levels(drawn) == [(0, 0), (0.3, 0), (0.3, 0.5), (1.0, 0.5)]


@given(st.floats(0, 0.9), st.floats(0.05, 0.5))
def test_a_wider_shelf_never_adds_water(width: float, more: float) -> None:
    def volume(shelf: float) -> float:
        shelves = (Shelf(depth_m=0.3, width_m=shelf + 0.01),)
        return found_basin(pool(Ellipse(length_m=5, width_m=4), 1.0, shelves=shelves)).volume

    assert volume(width + more) < volume(width)


@pytest.mark.parametrize(
    "wrong",
    [
        pool(Rectangle(length_m=1, width_m=1), 1.0, side_slope=1.0),
        pool(Circle(diameter_m=1), 1.0, shelves=(Shelf(depth_m=0.3, width_m=0.6),)),
        pool(Circle(diameter_m=1), 1.0, shelves=(Shelf(depth_m=1.3, width_m=0.1),)),
        pool(Corners(points_m=((0, 0), (1, 1), (1, 0), (0, 1)))),
        pool(LShape(length_m=2, width_m=2, cut_length_m=3, cut_width_m=1)),
    ],
)
def test_shapes_that_cannot_be_say_why(wrong: Basin) -> None:
    with pytest.raises(PondError):
        found_basin(wrong)


def test_basins_add_and_a_measured_volume_takes_precedence() -> None:
    one = pool(Rectangle(length_m=2, width_m=1))
    pond = Pond(id="p", name="Invented", water=Drawn(basins=(one, one)))
    assert water_volume(pond) == pytest.approx(2.0)
    measured = MeasuredVolume(volume_m3=1.8, how="salt")
    assert water_volume(pond.model_copy(update={"measured_volume": measured})) == 1.8


def test_corners_are_refused_where_the_same_rectangle_is() -> None:
    """8 x 1.5 m, 0.8 m deep, sides that run in 1 for 1: they meet at 0.75 m."""
    corners = Corners(points_m=((0, 0), (8, 0), (8, 1.5), (0, 1.5)))
    for outline in (corners, Rectangle(length_m=8, width_m=1.5)):
        with pytest.raises(PondError, match="meet"):
            found_basin(pool(outline, 0.8, side_slope=1.0))
    shallow = [
        found_basin(pool(outline, 0.7, side_slope=1.0)).volume
        for outline in (corners, Rectangle(length_m=8, width_m=1.5))
    ]
    assert shallow[0] == pytest.approx(shallow[1], rel=1e-3)


def test_a_long_steep_outline_is_set_back_and_not_shrunk() -> None:
    """A long kite by corners, against its levels one by one."""
    points = ((0.0, 0.0), (3.0, -1.0), (9.0, 0.0), (3.0, 1.0))
    found = found_basin(pool(Corners(points_m=points), 0.6, side_slope=1.0)).volume
    levels = [area_set_back(points, 0.6 * (n + 0.5) / 60) for n in range(60)]
    assert found == pytest.approx(sum(levels) * 0.6 / 60, rel=5e-3)


def test_widths_of_nothing_are_refused_and_not_divided_by() -> None:
    flat = Offsets(spacing_m=1.0, widths_m=(0.0, 0.0, 0.0))
    for slope in (0.0, 0.5):
        with pytest.raises(PondError, match="every width is 0"):
            found_basin(pool(flat, 0.8, side_slope=slope))
    pointed = Offsets(spacing_m=1.0, widths_m=(0.0, 2.0, 2.0, 0.0))
    upright = found_basin(pool(pointed, 0.8)).volume
    assert 0.0 < found_basin(pool(pointed, 0.8, side_slope=0.5)).volume < upright
