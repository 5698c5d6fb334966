"""The strip: every setting in its column, higher for more water, against what is wanted."""

from collections.abc import Sequence

import flet.canvas as cv
import pytest
from drawn import TUB
from hypothesis import given
from hypothesis import strategies as st

from pondapp.answers.measuring.flow import FlowBand, Measured, measured
from pondapp.models.reading import Fill
from pondapp.ui.shell import theme
from pondapp.ui.tuning import strip
from pondapp.ui.tuning.strip_layout import Interval, Room, laid_out

ROOM = Room(2.0, 20.0, 300.0, 90.0)
BAND = FlowBand(0.9e-3, 1.0e-3, 1.2e-3)
FLOWS = st.floats(1e-6, 1e-2)


@st.composite
def intervals(draw: st.DrawFn) -> Interval:
    low, flow, high = sorted(draw(st.tuples(FLOWS, FLOWS, FLOWS)))
    return low, flow, high


@given(st.lists(intervals(), max_size=7), FLOWS, st.floats(1.0, 3.0), st.none() | st.floats(1, 3))
def test_all_of_it_lies_in_its_room_and_more_water_lies_higher(
    flows: Sequence[Interval], low: float, aim: float, high: float | None
) -> None:
    target = low * aim
    band = FlowBand(low, target, None if high is None else target * high)
    found = laid_out(flows, band, ROOM)
    assert len(found.spots) == len(flows)
    slack = 1e-6
    for spot in found.spots:
        assert ROOM.top - slack <= spot.top <= spot.y <= spot.foot <= ROOM.foot + slack
        assert ROOM.left <= spot.x <= ROOM.right
    assert ROOM.top - slack <= found.band_top <= found.aim + slack
    assert found.aim - slack <= found.band_foot <= ROOM.foot + slack
    across = [spot.x for spot in found.spots]
    assert across == sorted(set(across))
    for one, spot in zip(flows, found.spots, strict=True):
        for other, place in zip(flows, found.spots, strict=True):
            if one[1] > other[1]:
                assert spot.y <= place.y
        if one[1] > 1.001 * target:
            assert spot.y <= found.aim


def settings(*ratios: float) -> list[Measured]:
    found = []
    for ratio in ratios:
        seconds = TUB.volume_m3 / (ratio * BAND.target)
        times = [Fill(seconds=seconds + d) for d in (0.0, 0.2, -0.2)]
        one = measured(TUB, times, BAND)
        assert one is not None
        found.append(one)
    return found


def words(shapes: Sequence[object]) -> list[str]:
    return [str(one.value) for one in shapes if isinstance(one, cv.Text)]


def test_each_setting_has_its_number_and_its_flow_and_the_newest_is_now() -> None:
    drawn = strip.shapes(settings(2.0, 0.6), BAND, 350.0, pending=False, system="metric")
    assert words(drawn) == ["aim", "3,600", "7,200", "1", "2,160", "now", "L/h"]
    waiting = strip.shapes(settings(2.0, 0.6), BAND, 350.0, pending=True, system="metric")
    assert words(waiting) == ["aim", "3,600", "7,200", "1", "2,160", "2", "L/h"]
    nothing = strip.shapes([], BAND, 350.0, pending=True, system="metric")
    assert words(nothing) == ["aim", "3,600", "Nothing timed yet", "L/h"]


@pytest.mark.parametrize("scale", [1.0, 2.0])
def test_of_many_settings_the_newest_are_drawn_and_no_number_covers_another(
    monkeypatch: pytest.MonkeyPatch, scale: float
) -> None:
    monkeypatch.setattr(theme, "text_scale", lambda: scale)
    many = settings(2.0, 0.5, 1.6, 0.7, 1.4, 0.8, 1.3, 0.9, 1.25)
    for width in (288.0, 800.0):
        drawn = strip.shapes(many, BAND, width, pending=False, system="metric")
        said = words(drawn)
        assert "3" in said
        assert "2" not in said
        numbers = [one for one in said[2:] if len(one) > 1 and one.replace(",", "").isdecimal()]
        assert len(numbers) == (0 if (width, scale) == (288.0, 2.0) else strip.MOST_SHOWN)


def test_what_is_drawn_is_told_in_a_sentence() -> None:
    def said(found: list[Measured], *, pending: bool = False) -> str:
        told = strip.said(found, BAND, pending=pending, system="metric")
        return told.replace("\u00a0", " ").replace("\ufeff", "")

    wanted = "Aim: 3,600 L/h. Fine: 3,240 to 4,320 L/h."
    assert said([], pending=True) == f"Nothing is timed yet. {wanted}"
    assert said(settings(2.0)) == f"Now: 7,200 L/h. {wanted}"
    assert said(settings(2.0, 0.6, 1.3)) == (
        f"Flow with each turn: 7,200 L/h; 2,160 L/h; now 4,680 L/h. {wanted}"
    )
    assert said(settings(2.0, 0.6), pending=True) == (
        f"Before the last turn: 7,200 L/h; 2,160 L/h. {wanted}"
    )
