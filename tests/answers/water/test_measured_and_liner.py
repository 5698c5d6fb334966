"""Measured volumes, sheets of liner and the lines of a drawing."""

from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.answers.water.basin_outline import basin_picture
from pondapp.answers.water.fill import filled_by_clock, likely_range, metered, salted
from pondapp.answers.water.liner import basin_liner
from pondapp.answers.water.volume import basin_levels, found_basin
from pondapp.core.assumptions import Assumptions
from pondapp.core.base.errors import PondError
from pondapp.models.water import (
    Basin,
    Circle,
    Corners,
    Ellipse,
    LShape,
    Offsets,
    Outline,
    Rectangle,
    Shelf,
)

RULES = Assumptions()
OUTLINES: list[Outline] = [
    Rectangle(length_m=4, width_m=3),
    Circle(diameter_m=3),
    Ellipse(length_m=4, width_m=3),
    LShape(length_m=5, width_m=4, cut_length_m=2, cut_width_m=1.5),
    Offsets(spacing_m=1, widths_m=(0, 2.4, 3, 2.2, 0)),
    Corners(points_m=((0, 0), (4, 0), (5, 3), (1, 4))),
]


def pool(outline: Outline, depth: float = 0.8, **more: object) -> Basin:
    return Basin(id="b", name="Pool", outline=outline, depth_m=depth, **more)


def test_a_hose_of_1000_litres_an_hour_fills_three_cubic_metres_in_three_hours() -> None:
    flow = 1 / 3600
    found = filled_by_clock(flow, None, 3 * 3600, RULES)
    assert found.volume == pytest.approx(3.0)
    # 5 % either way is 5 / sqrt 3 as a standard uncertainty; two timings of the hose halve its
    # square.
    assert found.standard_uncertainty / found.volume == pytest.approx(0.05 / 3**0.5 / 2**0.5)


def test_a_flow_that_strayed_counts_with_its_mean_and_more_doubt() -> None:
    steady = filled_by_clock(3e-4, 3e-4, 1e4, RULES)
    strayed = filled_by_clock(3.5e-4, 2.5e-4, 1e4, RULES)
    assert strayed.volume == pytest.approx(steady.volume)
    assert strayed.standard_uncertainty > steady.standard_uncertainty


def test_two_kilos_of_salt_and_a_rise_of_one_gram_a_litre_are_two_cubic_metres() -> None:
    found = salted(2.0, 0.1, 1.1, None, RULES)
    assert found.volume == pytest.approx(2.0)
    coarse = salted(2.0, 0.1, 1.1, 0.2, RULES)
    assert coarse.standard_uncertainty > 3 * found.standard_uncertainty
    with pytest.raises(PondError):
        salted(2.0, 0.1, 0.15, 0.2, RULES)


def test_a_meter_counts_what_ran_through() -> None:
    assert metered(120.5, 123.0, RULES).volume == pytest.approx(2.5)
    with pytest.raises(PondError, match="more after"):
        metered(3.0, 3.0, RULES)


def test_liner_goes_down_up_and_over_the_rim() -> None:
    sheet = basin_liner(pool(OUTLINES[0]), RULES)
    assert sheet.length == pytest.approx(4 + 2 * 0.8 + 2 * 0.3)
    assert sheet.width == pytest.approx(3 + 2 * 0.8 + 2 * 0.3)
    wider = RULES.with_overrides({"materials.liner_overlap": 0.5})
    assert basin_liner(pool(OUTLINES[0]), wider).length == pytest.approx(sheet.length + 0.4)


def test_sloping_sides_save_liner_and_shelves_do_not() -> None:
    def length(**more: object) -> float:
        return basin_liner(pool(OUTLINES[0], **more), RULES).length

    assert length(side_slope=0.5) < length()
    shelf = (Shelf(depth_m=0.3, width_m=0.3),)
    assert length(side_slope=0.5, shelves=shelf) == pytest.approx(length())


@pytest.mark.parametrize("outline", OUTLINES, ids=lambda outline: outline.kind)
@given(slope=st.floats(0, 0.4), width=st.floats(0.05, 0.3))
@settings(max_examples=12, deadline=None)
def test_the_drawing_shows_what_is_reckoned(outline: Outline, slope: float, width: float) -> None:
    drawn = pool(outline, side_slope=slope, shelves=(Shelf(depth_m=0.3, width_m=width),))
    picture = basin_picture(drawn)
    areas = [shoelace(ring) for ring in picture.rings]
    assert all(outer >= inner * (1 - 1e-12) for outer, inner in pairwise(areas))
    assert len(picture.rings) == len({inset for _, inset in basin_levels(drawn)})
    assert min(x for ring in picture.rings for x, _ in ring) == pytest.approx(0)
    assert picture.cut[0] == pytest.approx((0, 0), abs=1e-9)
    assert picture.cut[-1] == pytest.approx((picture.length, 0))
    assert max(depth for _, depth in picture.cut) == drawn.depth_m
    if outline.kind in ("rectangle", "l_shape", "corners"):  # straight sides: no steps to lose in
        layers = found_basin(drawn).layers
        assert areas[0] == pytest.approx(layers[0].area_top)
        close = 5e-3 if outline.kind == "corners" else 1e-6  # drawn smaller, not set back
        assert areas[-1] == pytest.approx(layers[-1].area_bottom, rel=close)


def shoelace(ring: tuple[tuple[float, float], ...]) -> float:
    pairs = zip(ring, ring[1:] + ring[:1], strict=True)
    return abs(sum(a[0] * b[1] - b[0] * a[1] for a, b in pairs)) / 2


def test_an_l_slopes_like_the_two_rectangles_it_is_made_of() -> None:
    drawn = pool(OUTLINES[3], 1.0, side_slope=0.5)
    # At 0.5 m in: 4 x 3 less a corner of 2 x 1.5; half way: 4.5 x 3.5 less the same corner.
    top, middle, bottom = 20 - 3, 15.75 - 3, 12 - 3
    assert found_basin(drawn).volume == pytest.approx((top + 4 * middle + bottom) / 6)
    with pytest.raises(PondError):
        found_basin(pool(OUTLINES[3], 1.0, side_slope=1.3))


def test_the_range_of_a_measured_volume_is_two_uncertainties_and_never_below_nothing() -> None:
    assert likely_range(1.0, 0.1) == pytest.approx((0.8, 1.2))
    assert likely_range(0.1, 0.1) == pytest.approx((0.0, 0.3))
