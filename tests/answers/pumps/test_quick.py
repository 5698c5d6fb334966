"""Sizing with no pond: bands, the conflict on one run, and what a pump really delivers."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from ponds import LPH

from pondapp import units
from pondapp.answers.pumps.quick import MOST_WATER, quick_pond, quick_pump, usual_tariff
from pondapp.answers.pumps.shop import Judge, box_numbers, hose_text, lift_steps, way
from pondapp.core.base.errors import NoSolution, OutOfRange

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


def test_slow_and_fast_on_one_run_conflict_and_each_resolution_has_its_flow() -> None:
    found = quick_pond(1.0, "bog", 0.30)
    assert found.conflict is not None
    assert "Bog filter" in str(found.conflict)
    assert "Waterfall lip" in str(found.conflict)
    assert found.resolutions
    assert found.pump == pytest.approx(2000 * LPH)  # over the bog's top, on to the lip


def test_a_lip_of_30_cm_has_its_least_and_its_good_flow() -> None:
    """Common practice: 4000 L/h for each 30 cm of lip make a good sheet, half of it the least."""
    found = quick_pond(1.0, "none", 0.30)
    assert (found.pump, found.good) == pytest.approx((2000 * LPH, 4000 * LPH))
    assert found.good_steps()
    plain = quick_pond(1.0, "bog", None)
    assert plain.good == plain.pump  # the pond's own turnover is more than a good bog's flow


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
    assert found.conflict is None or found.resolutions
    assert found.good >= found.pump


def pump(lift: float = 1.0, bore: float = 0.025, length: float = 5.0, watts: float | None = 45.0):
    here = way(lift, bore, length, True, 2000 * LPH, "metric")
    return quick_pump(here, 4000 * LPH, 2.5, watts, None)


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
    here = way(0.2, 0.016, 0.5, False, 2000 * LPH, "metric")
    fast = quick_pump(here, 8000 * LPH, 6.0, None, None)
    assert any("faster than" in str(remark) for remark in fast.remarks())
    assert [step.result.symbol for step in fast.steps()][-1] != "C"


def test_the_price_that_counts_where_none_is_entered_is_the_rules() -> None:
    # 0.30 a kilowatt-hour, and a kilowatt-hour is 3.6 million joules.
    assert usual_tariff() == pytest.approx(0.30 / 3.6e6)


def test_a_buyer_reads_two_numbers_for_each_flow() -> None:
    """4000 L/h at 1 m: the box must say twice as much, and well over the height."""
    here = way(1.0, None, None, True, 4000 * LPH, "metric")
    box = box_numbers(here, 4000 * LPH, "metric")
    assert (box.label_flow / LPH, box.probable_flow / LPH) == pytest.approx((8100, 6800))
    assert box.label_head == 3.5
    assert hose_text(here, "metric") == "4 m of 32 mm hose"
    assert "in hose" in hose_text(way(1.0, None, None, True, 4000 * LPH, "us"), "us")


@settings(max_examples=60)
@given(
    wanted=st.floats(300, 30000), lift=st.none() | st.floats(0.0, 6.0),
    bore=st.none() | st.floats(0.02, 0.08), system=st.sampled_from(["metric", "us"]),
)  # fmt: skip
def test_the_box_that_is_told_is_judged_enough_and_a_lesser_one_is_not(
    wanted: float, lift: float | None, bore: float | None, system: str
) -> None:
    flow = wanted * LPH
    here = way(lift, bore, None, True, flow, system)
    try:
        box = box_numbers(here, flow, system)
    except NoSolution:
        return  # a hose too thin for any pump, as the next test says
    sure = quick_pump(here, box.label_flow, box.label_head, None, None, (flow,))
    assert sure.verdicts[0].odds == "enough"
    assert sure.verdicts[0].low >= flow * (1 - 1e-6)
    assert here.odds(sure.verdicts[0]) == ("probably" if here.assumed else "enough")
    probable = quick_pump(here, box.probable_flow, box.label_head, None, None, (flow,))
    assert probable.verdicts[0].odds in ("probably", "enough")
    # Rounding up adds less than a tenth.
    assert Judge(here, flow).of(box.label_flow / 1.11, box.label_head).odds != "enough"
    assert Judge(here, flow).of(box.probable_flow / 1.11, box.label_head).odds in ("open", "weak")


def test_a_hose_too_thin_for_any_pump_is_said_to_be() -> None:
    with pytest.raises(NoSolution, match="take a wider or shorter hose"):
        box_numbers(way(1.0, 0.013, 20.0, True, 8000 * LPH, "metric"), 8000 * LPH, "metric")


@settings(max_examples=40)
@given(st.floats(500, 20000), st.floats(0.0, 4.0))
def test_more_lift_never_asks_for_less_of_a_box(wanted: float, lift: float) -> None:
    flow = wanted * LPH
    low, high = (
        Judge(way(up, 0.06, 5.0, False, flow, "metric"), flow) for up in (lift + 0.011, lift + 0.52)
    )
    assert high.label_flow(12.0, 0.95) >= low.label_flow(12.0, 0.95)


def test_lifts_to_choose_from_are_round_in_the_reader_s_units() -> None:
    told = [[units.show(step, "head", one) for step in lift_steps(one)] for one in ("metric", "us")]
    assert told[0][:4] == ["0 m", "0.5 m", "1 m", "1.5 m"]
    assert told[1][:4] == ["0 ft", "2 ft", "3 ft", "5 ft"]
