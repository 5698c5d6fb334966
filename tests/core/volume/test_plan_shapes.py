"""Outlines seen from above."""

from math import cos, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.volume.outline import area_by_corners, area_by_simpson
from pondapp.core.volume.plan_shapes import (
    ellipse_area,
    l_shape_area,
    rectangle_area,
)

side = st.floats(0.01, 500.0)


@settings(max_examples=50)
@given(side, side)
def test_ellipse_lies_inside_its_rectangle(length: float, width: float) -> None:
    assert 0 < ellipse_area(length, width) < rectangle_area(length, width)


@settings(max_examples=50)
@given(side, side, st.floats(0.01, 0.99), st.floats(0.01, 0.99))
def test_l_shape_by_sides_and_by_corners(length: float, width: float, a: float, b: float) -> None:
    x, y = length * (1 - a), width * (1 - b)
    corners = [(0.0, 0.0), (length, 0.0), (length, y), (x, y), (x, width), (0.0, width)]
    by_sides = l_shape_area(length, width, a * length, b * width)
    assert by_sides == pytest.approx(area_by_corners(corners))
    assert by_sides < rectangle_area(length, width)


@pytest.mark.parametrize("bad", [0.0, -1.0, 501.0, float("nan"), float("inf")])
def test_sides_out_of_range_are_refused(bad: float) -> None:
    for call in (
        lambda: rectangle_area(bad, 1.0),
        lambda: ellipse_area(1.0, bad),
        lambda: l_shape_area(2.0, 2.0, bad, 1.0),
        lambda: area_by_simpson([1.0, 1.0, 1.0], bad),
    ):
        with pytest.raises(OutOfRange):
            call()


def test_missing_corner_must_be_smaller() -> None:
    with pytest.raises(OutOfRange):
        l_shape_area(3.0, 2.0, 3.0, 1.0)
    with pytest.raises(OutOfRange):
        l_shape_area(3.0, 2.0, 1.0, 2.5)


@settings(max_examples=50)
@given(
    st.lists(st.floats(0.0, 10.0), min_size=4, max_size=4),
    st.integers(1, 8),
    st.floats(0.1, 5.0),
)
def test_simpson_is_exact_for_cubics(cubic: list[float], pairs: int, spacing: float) -> None:
    def width(x: float) -> float:
        return sum(c * (x / 10) ** k for k, c in enumerate(cubic)) / 1000

    def whole(x: float) -> float:
        return sum(c * 10 * (x / 10) ** (k + 1) / (k + 1) for k, c in enumerate(cubic)) / 1000

    offsets = [width(i * spacing) for i in range(2 * pairs + 1)]
    found = area_by_simpson(offsets, spacing)
    assert found == pytest.approx(whole(2 * pairs * spacing), rel=1e-9, abs=1e-12)


def test_a_straight_edge_is_exact_whatever_the_number_of_widths() -> None:
    for count in (3, 4, 7, 8):
        offsets = [0.5 + 0.25 * i for i in range(count)]
        mean = 0.5 * (offsets[0] + offsets[-1])
        assert area_by_simpson(offsets, 0.5) == pytest.approx(mean * 0.5 * (count - 1))


def test_too_few_or_negative_widths_are_refused() -> None:
    with pytest.raises(NotEnoughReadings):
        area_by_simpson([1.0, 2.0], 1.0)
    with pytest.raises(OutOfRange):
        area_by_simpson([1.0, -0.1, 1.0], 1.0)


@settings(max_examples=40)
@given(
    st.lists(st.floats(0.5, 20.0), min_size=3, max_size=12),
    st.floats(-500.0, 500.0),
    st.floats(-500.0, 500.0),
    st.floats(0.0, 6.0),
    st.integers(0, 11),
)
def test_corners_may_be_moved_turned_reversed_and_begun_anywhere(
    radii: list[float], x: float, y: float, angle: float, first: int
) -> None:
    step = 2 * pi / len(radii)
    # Wedges round a centre that sees every corner.
    expected = sum(
        0.5 * sin(step) * r * s for r, s in zip(radii, radii[1:] + radii[:1], strict=True)
    )
    placed = [
        (x + r * cos(angle + i * step), y + r * sin(angle + i * step)) for i, r in enumerate(radii)
    ]
    begun = placed[first % len(placed) :] + placed[: first % len(placed)]
    assert area_by_corners(begun) == pytest.approx(expected, rel=1e-9)
    assert area_by_corners(begun[::-1]) == pytest.approx(expected, rel=1e-9)


@pytest.mark.parametrize(
    "corners",
    [
        [(0, 0), (2, 2), (2, 0), (0, 2)],  # a bow tie
        [(0, 0), (4, 0), (4, 4), (2, 0), (0, 4)],  # a corner on another side
        [(0, 0), (4, 0), (4, 4), (4, 4), (0, 4)],  # a corner twice in a row
        [(0, 0), (4, 0), (0, 4), (0, 0), (-4, 0), (0, -4)],  # a corner twice
        [(0, 0), (4, 0), (2, 0), (2, 3)],  # back along its own side
        [(2, 0), (2, 3), (0, 0), (4, 0)],  # the same, begun elsewhere
        [(0, 0), (1, 1), (2, 2)],  # nothing inside
        [(0, 0), (4, 0), (4, float("nan"))],
        [(0, 0), (4, 0), (4, 2000)],
    ],
)
def test_outlines_that_meet_themselves_are_refused(corners: list[tuple[float, float]]) -> None:
    with pytest.raises(OutOfRange):
        area_by_corners([(float(a), float(b)) for a, b in corners])


def test_outline_needs_three_corners_and_not_too_many() -> None:
    with pytest.raises(NotEnoughReadings):
        area_by_corners([(0.0, 0.0), (1.0, 0.0)])
    with pytest.raises(OutOfRange):
        area_by_corners([(float(i), float(i * i % 7)) for i in range(501)])


def test_corner_on_a_straight_side_is_allowed() -> None:
    assert area_by_corners([(0, 0), (1, 0), (2, 0), (2, 2), (0, 2)]) == pytest.approx(4.0)


def test_the_same_corner_twice_and_a_line_are_no_outline() -> None:
    with pytest.raises(OutOfRange, match="corner 2 and the next one are the same point"):
        area_by_corners([(0.0, 0.0), (2.0, 0.0), (2.0, 0.0), (0.0, 3.0)])
    with pytest.raises(OutOfRange, match="the outline"):
        area_by_corners([(0.0, 0.0), (2.0, 0.0), (4.0, 0.0)])
