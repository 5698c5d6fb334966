"""Layers, shelves, basins and ponds."""

from math import pi

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.base.errors import NotEnoughReadings, OutOfRange
from pondapp.core.volume.basin import basin, pond_volume
from pondapp.core.volume.layers import (
    Layer,
    ellipse_layer,
    prismoidal_volume,
    rectangle_layer,
)

side = st.floats(0.5, 50.0)
depth = st.floats(0.05, 5.0)


def straight_layer(area: float, thickness: float) -> Layer:
    return Layer(area, area, area, thickness)


def water(layer: Layer) -> float:
    return basin([layer]).volume


@settings(max_examples=60)
@given(side, side, depth, st.floats(0.0, 0.999))
def test_sloping_sides_by_integrating_slices(
    length: float, width: float, deep: float, share: float
) -> None:
    set_back = share * min(length, width) / (2 * deep) if share > 0 else 0.0
    if set_back > 10:
        set_back = 10.0
    for make in (rectangle_layer, ellipse_layer):
        whole = water(make(length, width, deep, set_back))
        # Cut half way down: the two halves are the whole, and less than upright sides hold.
        upper = make(length, width, deep / 2, set_back)
        lost = set_back * deep
        lower = make(length - lost, width - lost, deep / 2, set_back)
        assert basin([upper, lower]).volume == pytest.approx(whole, rel=1e-9)
        assert basin([upper, lower]).warnings == ()
        assert whole <= water(make(length, width, deep, 0.0)) * (1 + 1e-12)


@settings(max_examples=40)
@given(side, depth, st.floats(0.0, 0.99))
def test_cone_frustum_in_two_ways(diameter: float, deep: float, share: float) -> None:
    big, small = diameter / 2, diameter / 2 * (1 - share)
    exact = pi * deep / 3 * (big**2 + big * small + small**2)
    set_back = (big - small) / deep
    if set_back <= 10:
        assert water(ellipse_layer(diameter, diameter, deep, set_back)) == pytest.approx(exact)


def test_sides_that_meet_above_the_floor_are_refused() -> None:
    for make in (rectangle_layer, ellipse_layer):
        with pytest.raises(OutOfRange, match="meet at 1 m"):
            make(3.0, 2.0, 1.0, 1.0)


@pytest.mark.parametrize("bad", [-1.0, float("nan"), float("inf"), 1e9])
def test_numbers_out_of_range_are_refused(bad: float) -> None:
    for call in (
        lambda: rectangle_layer(3.0, 2.0, 1.0, bad),
        lambda: ellipse_layer(3.0, 2.0, bad, 0.1),
        lambda: prismoidal_volume(2.0, 1.0, bad, 1.0),
        lambda: basin([Layer(1.0, bad, 1.0, 1.0)]),
        lambda: pond_volume([], bad, 0.1),
        lambda: pond_volume([], 1.0, bad),
    ):
        with pytest.raises(OutOfRange):
            call()


def test_shelves_add_and_an_undercut_is_asked_about() -> None:
    shelf = basin([straight_layer(12.0, 0.3), straight_layer(5.0, 0.7)])
    assert shelf.volume == pytest.approx(7.1)
    assert (shelf.area, shelf.depth) == pytest.approx((12.0, 1.0))
    assert shelf.warnings == ()
    odd = basin([straight_layer(5.0, 0.3), straight_layer(12.0, 0.7)])
    assert odd.volume == pytest.approx(9.9)
    assert "undercut" in str(odd.warnings[0])
    with pytest.raises(NotEnoughReadings):
        basin([])


def test_steps_of_a_pond_end_at_its_volume() -> None:
    parts = [basin([straight_layer(4.0, 0.5)]), basin([ellipse_layer(3.0, 2.0, 0.8, 0.5)])]
    pond = pond_volume(parts, None, 0.15)
    assert pond.volume == pond.computed == pytest.approx(sum(part.volume for part in parts))
    assert pond.area == pytest.approx(sum(part.area for part in parts))
    assert pond.steps()[-1].result.value == pond.volume
    assert [s.result.value for s in parts[0].steps()] == pytest.approx([2.0, 2.0])


@pytest.mark.parametrize(("measured", "words"), [(2.0, 0), (2.2, 0), (1.6, 1), (2.6, 1)])
def test_a_measured_volume_overrides(measured: float, words: int) -> None:
    pond = pond_volume([basin([straight_layer(4.0, 0.5)])], measured, 0.15)
    assert pond.volume == measured
    assert pond.computed == pytest.approx(2.0)
    assert len(pond.warnings) == words
    assert pond.steps()[-1].result.value == measured


def test_a_measured_volume_needs_no_basin_but_something_is_needed() -> None:
    pond = pond_volume([], 3.0, 0.15)
    assert (pond.volume, pond.computed, pond.area) == (3.0, None, None)
    with pytest.raises(NotEnoughReadings):
        pond_volume([], None, 0.15)
