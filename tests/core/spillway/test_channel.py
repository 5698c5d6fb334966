"""Water that runs down a bed."""

import pytest
from fluids.open_flow import V_Manning, n_closed_conduit, n_excavated_dredged, n_natural
from hypothesis import given
from hypothesis import strategies as st

from pondapp.core.base.errors import OutOfRange
from pondapp.core.spillway.channel import (
    BEDS,
    Bed,
    channel_flow,
    depth_over_stones,
    manning_speed,
    normal_depth,
    speed_over_stones,
)

flows = st.floats(1e-5, 0.05)
widths = st.floats(0.1, 5.0)
slopes = st.floats(1e-3, 0.9)
beds = st.sampled_from(list(BEDS.values()))


@given(st.floats(0.001, 2.0), widths, slopes, st.floats(0.01, 0.1))
def test_speed_is_that_of_a_library(depth: float, width: float, slope: float, n: float) -> None:
    radius = width * depth / (width + 2 * depth)
    assert manning_speed(depth, width, slope, n) == pytest.approx(
        V_Manning(radius, slope, n), rel=1e-12
    )


def test_roughness_is_that_of_chows_tables() -> None:
    streams = n_natural["Minor streams"]
    rows = {
        "gravel": n_excavated_dredged["Earth, straight, and uniform"][
            "Gravel, uniform section, clean"
        ],
        "cobbles": next(n for name, n in streams.items() if "few boulders" in name),
        "boulders": next(n for name, n in streams.items() if "large boulders" in name),
        "liner": n_closed_conduit["Cement"]["Mortar"],
    }
    for name, printed in rows.items():
        found = BEDS[name].roughness
        assert (found.low, found.likely, found.high) == printed


@given(flows, widths, slopes, st.floats(0.01, 0.1))
def test_the_flow_comes_back_from_its_depth(q: float, b: float, slope: float, n: float) -> None:
    depth = normal_depth(q, b, slope, n)
    assert b * depth * manning_speed(depth, b, slope, n) == pytest.approx(q, rel=1e-9)


@given(flows, widths, slopes, st.floats(0.02, 0.4))
def test_so_does_that_among_stones(q: float, b: float, slope: float, stone: float) -> None:
    depth = depth_over_stones(q, b, slope, stone)
    assert b * depth * speed_over_stones(depth, slope, stone) == pytest.approx(q, rel=1e-9)


@given(flows, widths, slopes, beds)
def test_more_water_is_deeper_and_a_steeper_bed_shallower(
    q: float, b: float, slope: float, bed: Bed
) -> None:
    found = channel_flow(q, b, slope, bed)
    more, steeper = channel_flow(2 * q, b, slope, bed), channel_flow(q, b, 1.1 * slope, bed)
    for end in ("low", "likely", "high"):
        depth = getattr(found.depth, end)
        assert getattr(more.depth, end) > depth > getattr(steeper.depth, end)
    assert found.speed.low <= q / b / found.depth.likely <= found.speed.high
    assert found.steps()[0].result.value == found.by_manning


def test_a_wide_stream_is_as_deep_as_by_hand() -> None:
    """Without sides: y = (q n / √S)^(3/5)."""
    by_hand = (0.01 * 0.025 / 0.02**0.5) ** 0.6
    assert normal_depth(1.0, 100.0, 0.02, 0.025) == pytest.approx(by_hand, rel=1e-3)


def test_deep_water_over_stones_agrees_with_manning_and_shallow_water_does_not() -> None:
    """Strickler's n of stones: D^(1/6) / 21.1 for D of 50 of 100, which 84 of 100 exceed."""
    n = 0.1 ** (1 / 6) / 21.1
    deep = speed_over_stones(1.0, 0.01, 0.1) / manning_speed(1.0, 100.0, 0.01, n)
    assert deep == pytest.approx(1.0, abs=0.25)
    thin = speed_over_stones(0.02, 0.01, 0.1) / manning_speed(0.02, 100.0, 0.01, n)
    assert thin < 0.4


def test_where_stones_stand_out_of_the_water_it_is_said() -> None:
    shallow = channel_flow(1e-3, 0.5, 0.05, BEDS["cobbles"])
    assert not shallow.covered
    assert shallow.warning is not None
    assert shallow.depth.high > 2 * shallow.by_manning
    assert len(shallow.steps()) == 3
    smooth = channel_flow(1e-3, 0.5, 0.05, BEDS["liner"])
    assert smooth.covered
    assert smooth.warning is None
    assert channel_flow(0.5, 0.5, 0.01, BEDS["gravel"]).warning is None


@pytest.mark.parametrize(
    ("flow", "width", "slope", "n"),
    [
        (0.0, 1, 0.1, 0.03), (2e3, 1, 0.1, 0.03), (1, 0, 0.1, 0.03), (1, 1, 0, 0.03),
        (1, 1, 1.01, 0.03), (1, 1, 0.1, 0.001), (float("nan"), 1, 0.1, 0.03),
        (1000.0, 0.001, 1e-9, 0.03),
    ],
)  # fmt: skip
def test_what_is_no_stream_is_refused(flow: float, width: float, slope: float, n: float) -> None:
    with pytest.raises(OutOfRange):
        normal_depth(flow, width, slope, n)


def test_stones_of_no_size_are_refused() -> None:
    with pytest.raises(OutOfRange):
        depth_over_stones(1e-3, 1.0, 0.1, 0.0)
