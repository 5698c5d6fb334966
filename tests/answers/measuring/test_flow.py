"""Verdicts on timed fills."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pondapp.answers.measuring.aims import fill_aim
from pondapp.answers.measuring.flow import FlowBand, measured, volume_of_water
from pondapp.core.assumptions.measuring import MeasuringAssumptions
from pondapp.models.reading import Container, Fill

BUCKET = Container(id="b", name="Bucket", volume_m3=0.009, tolerance_m3=0.0001)
BAND = FlowBand(low=400 / 3.6e6, target=600 / 3.6e6, high=1200 / 3.6e6)
ORDER = {"below": 0, "undecided": 1, "within": 1, "above": 2}


def fills(*seconds: float) -> tuple[Fill, ...]:
    return tuple(Fill(seconds=value) for value in seconds)


@pytest.mark.parametrize(
    ("seconds", "kind"), [(54.0, "within"), (200.0, "below"), (10.0, "above"), (81.0, "undecided")]
)
def test_verdict(seconds: float, kind: str) -> None:
    found = measured(BUCKET, fills(seconds, seconds + 0.1, seconds - 0.1), BAND)
    assert found is not None
    assert found.kind == kind
    assert found.advice


@given(st.floats(2, 500), st.floats(1.01, 3))
def test_more_flow_never_moves_the_verdict_down(seconds: float, factor: float) -> None:
    slow = measured(BUCKET, fills(seconds * factor, seconds * factor), BAND)
    fast = measured(BUCKET, fills(seconds, seconds), BAND)
    assert slow is not None
    assert fast is not None
    assert ORDER[fast.kind] >= ORDER[slow.kind]


def test_struck_fills_do_not_count() -> None:
    struck = (*fills(54.0, 54.2), Fill(seconds=5.0, excluded=True))
    found = measured(BUCKET, struck, BAND)
    assert found is not None
    assert found.counted == 2
    assert found.flow.flow == pytest.approx(0.009 / 54.1)
    assert measured(BUCKET, (Fill(seconds=5.0, excluded=True),), BAND) is None


def test_a_slip_is_named_by_its_place_among_all_fills() -> None:
    with_outlier = (Fill(seconds=9.0, excluded=True), *fills(54.0, 54.1, 60.0, 53.9))
    found = measured(BUCKET, with_outlier, BAND)
    assert found is not None
    assert any("Fill 4 looks like a slip" in str(advice) for advice in found.advice)


def test_no_band_no_verdict() -> None:
    found = measured(BUCKET, fills(10.0), None)
    assert found is not None
    assert found.kind == "no target"


def test_time_to_aim_for() -> None:
    window = fill_aim(BUCKET, BAND, MeasuringAssumptions())
    assert window.shortest is not None
    assert window.sure
    # 27 to 81 s are the ends of the band, where half of all readings would lie outside it.
    assert 27.2 < window.shortest < 29.0
    assert window.aim == pytest.approx(54.0)
    assert 77.0 < window.longest < 80.5


def test_ten_kilograms_of_cool_water() -> None:
    # Density at 15 degrees C 999.1026 kg/m3: iapws 1.5.5, IAPWS-95 (check value 128).
    assert volume_of_water(10.0) == pytest.approx(10.0 / 999.1026, rel=1e-5)


def test_a_band_too_narrow_for_three_fills_says_what_helps() -> None:
    rules = MeasuringAssumptions()
    narrow = FlowBand(1000 / 3.6e6, 1010 / 3.6e6, 1045 / 3.6e6)
    exact = BUCKET.model_copy(update={"tolerance_m3": 0.00001})
    some = fill_aim(exact, narrow, rules)
    assert not some.sure
    assert some.fills is not None
    assert 3 < some.fills <= 20
    # Fills of a litre are over before a hand can stop them; of a bucket they are not.
    small = Container(id="s", name="Jug", volume_m3=0.001, tolerance_m3=0.00001)
    quick = fill_aim(small, FlowBand(6000 / 3.6e6, 6000 / 3.6e6, None), rules)
    assert not quick.sure
    assert quick.volume is not None
    assert quick.volume >= 0.005
    # And what is narrower than any container is known has no cure by fills.
    hopeless = fill_aim(BUCKET, FlowBand(1000 / 3.6e6, 1000 / 3.6e6, 1005 / 3.6e6), rules)
    assert (hopeless.sure, hopeless.fills, hopeless.volume) == (False, None, None)
    assert hopeless.shortest is not None
    assert hopeless.shortest < hopeless.aim < hopeless.longest


def test_a_flow_as_wide_as_nothing_is_never_right() -> None:
    found = measured(BUCKET, fills(9.52, 7.27), FlowBand(1 / 3.6e6, 2 / 3.6e6, None))
    assert found is not None
    assert (found.kind, found.flow.low) == ("undecided", 0.0)


@pytest.mark.parametrize(
    ("times", "band", "enough"),
    [
        ((54.0, 54.1), BAND, False),
        ((54.0, 54.1, 53.9), BAND, True),
        ((54.0, 54.1, 53.9), None, True),
        ((54.0, 75.0, 33.9), BAND, False),
        ((54.0, 75.0, 33.9), None, False),
        ((10.0,), BAND, True),  # far too much: more fills say nothing that is not known
    ],
)
def test_enough_is_said_where_more_fills_would_tell_nothing(
    times: tuple[float, ...], band: FlowBand | None, enough: bool
) -> None:
    found = measured(BUCKET, [Fill(seconds=time) for time in times], band)
    assert found is not None
    assert found.enough is enough


def test_three_fills_are_not_enough_of_a_flow_that_is_hardly_known() -> None:
    small = Container(id="s", name="Can", volume_m3=0.002, tolerance_m3=0.00002)
    found = measured(small, fills(0.7, 0.9, 0.8), None)
    assert found is not None
    assert found.rough
    assert not found.enough
    words = str(found.advice[-1])
    assert "use a container of" in words or "more fill" in words
    long = measured(BUCKET, fills(14.0, 14.2, 14.1), None)
    assert long is not None
    assert not long.rough
    assert long.enough
    unknown = Container(id="u", name="Tub", volume_m3=0.009, tolerance_m3=0.002)
    found = measured(unknown, fills(54.0, 54.1, 53.9), None)
    assert found is not None
    assert not found.enough
    assert "weigh its water" in str(found.advice[-1])


@pytest.mark.parametrize(
    ("seconds", "lean"), [(0.6, "too much"), (900.0, "too little"), (54.0, "")]
)
def test_what_is_hardly_known_says_where_it_leans_and_decides_nothing(
    seconds: float, lean: str
) -> None:
    unknown = Container(id="u", name="Tub", volume_m3=0.009, tolerance_m3=0.002)
    found = measured(unknown, fills(seconds, seconds, seconds), BAND)
    assert found is not None
    assert (found.kind, found.severity) == ("undecided", "unknown")
    words = str(found.verdict)
    assert words.startswith(f"Most likely {lean}, but not decided yet" if lean else "Not decided")
    assert "% either way" in words
    assert found.advice
