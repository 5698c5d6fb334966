"""Volume by the clock and by salt."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.filters import FilterAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.volume.fill_methods import volume_by_salt, volume_by_timed_filling

RISE = FilterAssumptions().salt_rise_min


def test_a_steady_hose_needs_no_allowance() -> None:
    found = volume_by_timed_filling(3e-4, 0.0, 3e-4, 0.0, 14400.0, 0.0)
    assert found.volume == pytest.approx(4.32)
    assert found.standard_uncertainty == 0.0
    assert found.warnings == ()


@settings(max_examples=40)
@given(st.floats(1e-5, 1e-2), st.floats(0.3, 3.0), st.floats(10.0, 1e6), st.floats(0.0, 0.1))
def test_a_straying_hose_is_less_sure(
    flow: float, factor: float, time: float, share: float
) -> None:
    steady = volume_by_timed_filling(flow, share * flow, flow, share * flow, time, 0.0)
    after = factor * flow
    found = volume_by_timed_filling(flow, share * flow, after, share * after, time, 0.0)
    mean = 0.5 * (flow + after)
    assert found.volume == pytest.approx(mean * time)
    # The truth, if the flow went evenly from one to the other, is inside two uncertainties.
    assert found.standard_uncertainty / found.volume >= abs(flow - after) / mean / 2 / 2
    assert steady.standard_uncertainty <= share * steady.volume + 1e-12


@settings(max_examples=40)
@given(st.floats(0.1, 50.0), st.floats(0.0, 3.0), st.floats(0.3, 3.0))
def test_salt_finds_the_pond_it_was_dissolved_in(volume: float, before: float, rise: float) -> None:
    found = volume_by_salt(volume * rise, 0.0, before, before + rise, 0.05, RISE)
    assert found.volume == pytest.approx(volume)
    assert found.standard_uncertainty / found.volume == pytest.approx(2**0.5 * 0.05 / rise)
    assert found.steps()[0].result.value == found.volume


def test_salt_warns_of_a_small_rise_and_refuses_one_that_is_lost() -> None:
    half = volume_by_salt(5.0, 0.0, 0.30, 0.80, 0.05, RISE)
    assert half.standard_uncertainty / half.volume == pytest.approx(0.1414, rel=1e-3)
    assert "rose by 0.5 kg/m3 only" in str(half.warnings[0])
    assert volume_by_salt(10.0, 0.0, 0.3, 1.3, 0.05, RISE).warnings == ()
    assert len(volume_by_salt(1.0, 0.0, 0.3, 0.4, 0.05, RISE).warnings) == 2
    with pytest.raises(NoSolution):
        volume_by_salt(1.0, 0.0, 0.30, 0.35, 0.05, RISE)


@pytest.mark.parametrize(
    "numbers",
    [
        (0.0, 0.0, 0.3, 0.8, 0.05),
        (5.0, 6.0, 0.3, 0.8, 0.05),
        (5.0, 0.1, -0.1, 0.8, 0.05),
        (5.0, 0.1, 0.8, 0.8, 0.05),
        (5.0, 0.1, 0.9, 0.8, 0.05),
        (5.0, 0.1, 0.3, float("nan"), 0.05),
        (5.0, 0.1, 0.3, 0.8, -1.0),
    ],
)
def test_salt_refuses(numbers: tuple[float, ...]) -> None:
    with pytest.raises(OutOfRange):
        volume_by_salt(*numbers, RISE)


@pytest.mark.parametrize(
    "numbers",
    [
        (0.0, 0.0, 1e-4, 0.0, 60.0, 0.0),
        (1e-4, 0.0, 0.0, 0.0, 60.0, 0.0),
        (1e-4, 1e-3, 1e-4, 0.0, 60.0, 0.0),
        (1e-4, 0.0, 1e-4, 1e-3, 60.0, 0.0),
        (1e-4, 0.0, 1e-4, 0.0, 0.0, 0.0),
        (1e-4, 0.0, 1e-4, 0.0, 60.0, 61.0),
    ],
)
def test_timed_filling_refuses(numbers: tuple[float, ...]) -> None:
    with pytest.raises(OutOfRange):
        volume_by_timed_filling(*numbers)
