"""The water of a stream."""

from dataclasses import replace

import pytest

from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.filters.bed import porosity_of
from pondapp.core.spillway.channel import BEDS, channel_flow
from pondapp.core.spillway.run_back import Pools, stream_water
from pondapp.core.spillway.weirs import weir_flow_rehbock

FLOW = 4.0 / 3600.0
SMOOTH = channel_flow(FLOW, 0.5, 0.05, BEDS["liner"])
STONY = channel_flow(FLOW, 0.5, 0.05, BEDS["cobbles"])
POOLS = Pools(2, 1.0, 1.5, 0.3, 0.4)


def test_a_smooth_stream_lets_all_its_water_go() -> None:
    found = stream_water(SMOOTH, 6.0, 0.0, None)
    assert found.returning == found.running == found.filling
    assert found.running.likely == pytest.approx(6.0 * 0.5 * SMOOTH.depth.likely)
    assert found.time.likely == pytest.approx(6.0 / (FLOW / 0.5 / SMOOTH.depth.likely))


def test_pools_keep_their_water_and_let_go_what_stands_over_the_weir() -> None:
    found = stream_water(SMOOTH, 6.0, 0.0, POOLS)
    assert found.kept == pytest.approx(2 * 1.0 * 1.5 * 0.3)
    head = found.over_weirs.likely / POOLS.area
    assert weir_flow_rehbock(head, 0.4, 0.3).flow == pytest.approx(FLOW, rel=1e-9)
    assert found.running.likely == pytest.approx(4.0 * 0.5 * SMOOTH.depth.likely)
    more = found.filling.likely - found.returning.likely
    assert more == pytest.approx(found.kept)
    assert found.time.likely > stream_water(SMOOTH, 6.0, 0.0, None).time.likely


def test_stones_let_go_some_of_what_they_soaked_up() -> None:
    found = stream_water(STONY, 6.0, 0.1, None)
    assert found.soaked == pytest.approx(6.0 * 0.5 * 0.1 * porosity_of(0.1))
    assert (found.gaps.low, found.gaps.high) == (0.0, found.soaked)
    assert found.returning.high <= found.filling.high
    assert found.returning.low < found.returning.likely < found.returning.high
    assert len(found.steps()) == 3


def test_what_does_not_go_together_is_refused() -> None:
    with pytest.raises(OutOfRange, match="longer than the stream"):
        stream_water(SMOOTH, 1.5, 0.0, POOLS)
    with pytest.raises(NoSolution, match="film"):
        stream_water(SMOOTH, 6.0, 0.0, replace(POOLS, weir=60.0))
    for length, layer in ((0.0, 0.0), (1001.0, 0.0), (6.0, -0.1)):
        with pytest.raises(OutOfRange):
            stream_water(SMOOTH, length, layer, None)
