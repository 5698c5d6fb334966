"""Straight sides that all move in: against rectangles, triangles, an L and clipped outlines."""

from itertools import pairwise
from math import cos, hypot, pi, sin

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.volume.outline import area_by_corners, area_set_back

Corners = tuple[tuple[float, float], ...]


@given(st.floats(0.5, 20), st.floats(0.5, 20), st.floats(0, 3), st.floats(0, 2 * pi))
@settings(max_examples=60)
def test_a_rectangle_loses_twice_the_distance_each_way(
    length: float, width: float, distance: float, turn: float
) -> None:
    plain = ((0.0, 0.0), (length, 0.0), (length, width), (0.0, width))
    turned = tuple((x * cos(turn) - y * sin(turn), x * sin(turn) + y * cos(turn)) for x, y in plain)
    expected = max(0.0, length - 2 * distance) * max(0.0, width - 2 * distance)
    found = area_set_back(turned, distance)
    assert found == pytest.approx(expected, abs=1e-9 * length * width)


def test_sides_that_lie_almost_level_are_no_less_exact() -> None:
    """A square turned by a sixth of a degree is still one, not 3 in a thousand more."""
    c, s = cos(0.003), sin(0.003)
    assert area_set_back(((0.0, 0.0), (c, s), (c - s, s + c), (-s, c)), 0.0) == pytest.approx(1.0)


@pytest.mark.parametrize("distance", [0.0, 0.3, 0.9, 1.0, 1.5])
def test_a_triangle_shrinks_about_its_inner_circle(distance: float) -> None:
    """Sides 3, 4 and 5 m: area 6 m2, inner circle of 1 m."""
    triangle = ((0.0, 0.0), (4.0, 0.0), (0.0, 3.0))
    expected = 6.0 * max(0.0, 1.0 - distance) ** 2
    assert area_set_back(triangle, distance) == pytest.approx(expected, rel=1e-4, abs=1e-9)


def test_an_inner_corner_leaves_an_arc() -> None:
    """An L of 4 x 4 m without 2 x 2 m, moved in by 0.4 m: 6.24 m2 with a sharp inner corner."""
    outline = ((0.0, 0.0), (4.0, 0.0), (4.0, 2.0), (2.0, 2.0), (2.0, 4.0), (0.0, 4.0))
    arc = (1 - pi / 4) * 0.4**2
    assert area_set_back(outline, 0.4) == pytest.approx(6.24 + arc, rel=2e-4)


def clipped(corners: Corners, distance: float) -> float:
    """Area of a convex outline, given anticlockwise, whose sides have been moved in one by one."""
    left = list(corners)
    for (ax, ay), (bx, by) in pairwise([*corners, corners[0]]):
        long = hypot(bx - ax, by - ay)

        def depth(p: tuple[float, float]) -> float:
            return ((bx - ax) * (p[1] - ay) - (by - ay) * (p[0] - ax)) / long - distance  # noqa: B023

        kept: list[tuple[float, float]] = []
        for p, q in pairwise([*left, left[0]] if left else []):
            if depth(p) >= 0:
                kept.append(p)
            if (depth(p) >= 0) != (depth(q) >= 0):
                share = depth(p) / (depth(p) - depth(q))
                kept.append((p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])))
        left = kept
    area = sum(a[0] * b[1] - b[0] * a[1] for a, b in pairwise([*left, left[0]] if left else []))
    return 0.5 * area


@given(st.lists(st.floats(0, 2 * pi), min_size=3, max_size=12, unique=True), st.floats(0, 2),
       st.floats(1, 3))  # fmt: skip
@settings(max_examples=80)
def test_convex_outlines_agree_with_clipping(
    turns: list[float], distance: float, wide: float
) -> None:
    corners = tuple((wide * cos(turn), sin(turn)) for turn in sorted(turns))
    if min(hypot(a[0] - b[0], a[1] - b[1]) for a, b in pairwise([*corners, corners[0]])) < 1e-3:
        return
    whole = clipped(corners, 0.0)
    found = area_set_back(corners, distance)
    assert found == pytest.approx(clipped(corners, distance), abs=2e-3 * max(whole, 0.1))


def test_no_distance_is_the_area_itself() -> None:
    outline = ((0.0, 0.0), (5.0, 1.0), (4.0, 3.0), (2.0, 2.0), (0.0, 4.0))
    assert area_set_back(outline, 0.0) == pytest.approx(area_by_corners(outline), rel=1e-3)


@pytest.mark.parametrize("bad", [-1.0, float("nan"), 1e9])
def test_numbers_out_of_range_are_refused(bad: float) -> None:
    with pytest.raises(OutOfRange):
        area_set_back(((0.0, 0.0), (1.0, 0.0), (0.0, 1.0)), bad)
    with pytest.raises(NotEnoughReadings):
        area_set_back(((0.0, 0.0), (1.0, 0.0)), 0.1)
