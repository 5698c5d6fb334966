"""Sizing with no pond: bands, the conflict on one run, and what a pump really delivers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.errors import NoSolution, OutOfRange
from pondapp.sizing.quick import MOST_WATER, quick_pond, quick_pump, usual_tariff

LPH = 1 / 3.6e6
choices = st.sampled_from(["bog", "high_flow", "both", "none"])


def test_a_pond_with_nothing_wants_its_water_once_an_hour() -> None:
    assert quick_pond(1.0, "none", None).pump == pytest.approx(1000 * LPH)


def test_rules_of_the_trade() -> None:
    """Common practice, no source: a tenth of the pond, 5 to 15 minutes."""
    found = quick_pond(1.0, "bog", None)
    assert found.bog is not None
    assert found.bog.volume == pytest.approx(0.1)
    assert found.bog_heavy is not None
    assert found.bog_heavy.volume == pytest.approx(0.25)
    (bog,) = found.places
    assert (bog.band.low, bog.band.high) == pytest.approx((400 * LPH, 1200 * LPH))
    assert found.conflict is None


def test_slow_and_fast_on_one_run_conflict_and_each_way_out_has_its_flow() -> None:
    found = quick_pond(1.0, "bog", 0.30)
    assert found.conflict is not None
    assert "Bog filter" in str(found.conflict)
    assert "Waterfall lip" in str(found.conflict)
    assert found.ways_out
    assert found.pump == pytest.approx(2000 * LPH)  # over the bog's top, on to the lip


def test_fast_filter_under_a_fall_do_not_conflict() -> None:
    assert quick_pond(1.0, "high_flow", 0.30).conflict is None


@settings(max_examples=60)
@given(st.floats(0.01, MOST_WATER), choices, st.none() | st.floats(0.01, 50))
def test_the_pump_turns_the_pond_over_whatever_hangs_on_it(
    volume: float, choice: str, lip: float | None
) -> None:
    found = quick_pond(volume, choice, lip)  # type: ignore[arg-type]
    assert found.pump >= volume / 3600 * (1 - 1e-9)
    assert all(step.result.value >= 0 for step in found.steps())
    assert found.conflict is None or found.ways_out


def pump(lift: float = 1.0, bore: float = 0.025, length: float = 5.0, watts: float | None = 45.0):
    return quick_pump(lift, bore, length, True, 4000 * LPH, 2.5, watts, None)


@settings(max_examples=40)
@given(st.floats(0.0, 2.0), st.floats(0.012, 0.1), st.floats(0.1, 50))
def test_more_lift_or_a_narrower_hose_never_gives_more(
    lift: float, bore: float, length: float
) -> None:
    flow = pump(lift, bore, length).point.flow
    assert pump(lift + 0.1, bore, length).point.flow <= flow
    assert pump(lift, bore * 0.9, length).point.flow <= flow
    assert pump(lift, bore, length * 1.1).point.flow <= flow
    assert flow < 4000 * LPH


def test_what_comes_out_is_on_the_curve_of_the_label() -> None:
    found = pump()
    flow, head = found.point.flow, found.point.head
    assert head == pytest.approx(2.5 * (1 - (flow / (4000 * LPH)) ** 1.5))
    assert head == pytest.approx(1.0 + found.hose.total)


def test_cost_is_watts_times_the_year_times_the_tariff() -> None:
    found = pump()
    assert found.costs is not None
    assert found.costs.per_year == pytest.approx(0.045 * 365 * 24 * 0.30)
    assert pump(watts=None).costs is None


def test_too_weak_a_pump_and_no_bore_are_refused() -> None:
    with pytest.raises(NoSolution, match="too weak"):
        pump(lift=3.0)
    with pytest.raises(OutOfRange):
        pump(bore=1e-5)


def test_what_a_long_thin_hose_makes_doubtful_is_remarked() -> None:
    fast = quick_pump(0.2, 0.016, 0.5, False, 8000 * LPH, 6.0, None, None)
    assert any("faster than" in str(remark) for remark in fast.remarks())
    assert [step.result.symbol for step in fast.steps()][-1] != "C"


def test_the_price_that_counts_where_none_is_entered_is_the_rules() -> None:
    # 0.30 a kilowatt-hour, and a kilowatt-hour is 3.6 million joules.
    assert usual_tariff() == pytest.approx(0.30 / 3.6e6)
