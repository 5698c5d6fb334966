"""Flow bands from rules."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.filters import FilterAssumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.filters.bands import bog_band, high_flow_band, whole_pond_band

RULES = FilterAssumptions()


@pytest.mark.parametrize(("litres", "low", "target", "high"), [
    (100, 400, 600, 1200), (250, 1000, 1500, 3000),
])  # fmt: skip
def test_bog_of_the_trade(litres: float, low: float, target: float, high: float) -> None:
    band = bog_band(
        litres / 1000, RULES.bog_retention_min, RULES.bog_retention_target, RULES.bog_retention_max
    )
    assert (band.low * 3.6e6, band.target * 3.6e6) == pytest.approx((low, target))
    assert band.high is not None
    assert band.high * 3.6e6 == pytest.approx(high)


@settings(max_examples=50)
@given(st.floats(1e-3, 1e4), st.lists(st.floats(1.0, 1e6), min_size=3, max_size=3))
def test_bog_band_is_never_upside_down(volume: float, times: list[float]) -> None:
    band = bog_band(volume, *sorted(times))
    assert band.high is not None
    assert 0 < band.low <= band.target <= band.high


def test_contradicting_rules_are_refused() -> None:
    for times in ((600.0, 300.0, 900.0), (300.0, 900.0, 600.0)):
        with pytest.raises(OutOfRange, match="must not be more"):
            bog_band(0.1, *times)
    with pytest.raises(OutOfRange, match="must not be more"):
        high_flow_band(1.0, 4e-3, 2e-3)


@pytest.mark.parametrize("bad", [0.0, -1.0, float("nan"), float("inf")])
def test_numbers_out_of_range_are_refused(bad: float) -> None:
    for call in (
        lambda: bog_band(bad, 300.0, 600.0, 900.0),
        lambda: bog_band(0.1, bad, 600.0, 900.0),
        lambda: high_flow_band(bad, 1e-4, 1e-3),
        lambda: high_flow_band(1.0, bad, 1e-3),
        lambda: whole_pond_band(bad, 1e-3),
        lambda: whole_pond_band(1.0, bad),
    ):
        with pytest.raises(OutOfRange):
            call()


def test_pond_of_a_thousand_litres_wants_a_thousand_an_hour() -> None:
    band = whole_pond_band(1.0, RULES.turnover_whole)
    assert band.target * 3.6e6 == pytest.approx(1000.0)
    assert band.high is None
