"""Salt, water changes, chlorine and evaporation: limits, properties and refusals."""

import math
from collections.abc import Callable

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.base.working import ENTERED
from pondapp.core.dosing.dechlorinator import (
    ammonia_from_chloramine,
    dechlorinate,
    dose_by_label,
    thiosulfate_ratio,
)
from pondapp.core.dosing.evaporation import (
    check_for_leak,
    evaporation_in_month,
    evaporation_linacre,
    pond_evaporation_from_pan,
    water_loss,
)
from pondapp.core.dosing.mixing import mixed_temperature, share_by_warmth
from pondapp.core.dosing.salt import salt_dose
from pondapp.core.dosing.water_change import (
    changes_needed,
    concentration_after,
    remaining_batch,
    remaining_continuous,
)
from pondapp.core.stock.span import NOTHING, Span, exactly

RULES = StockAssumptions()
NAN = math.nan
DAY = 86400.0
share = st.floats(0.01, 0.9)


@settings(max_examples=40)
@given(st.floats(0.05, 1e3), st.floats(0.0, 10.0), st.floats(0.0, 20.0))
def test_salt_is_kept(volume: float, before: float, rise: float) -> None:
    dose = salt_dose(volume, before, before + rise, RULES.salt_caution, RULES.salt_most)
    assert (before * volume + dose.mass) / volume == pytest.approx(before + rise)
    assert dose.steps()[0].result.value == dose.mass


def test_salt_warns_for_plants_then_for_fish() -> None:
    warned = [
        len(salt_dose(1.0, 0.0, wanted, 1.0, 5.0).warnings) for wanted in (1.0, 1.1, 5.0, 5.1)
    ]
    assert warned == [0, 1, 1, 1]
    assert "bath" in str(salt_dose(1.0, 0.0, 5.1, 1.0, 5.0).warnings[0])


def test_salt_leaves_only_with_the_water_and_the_refusal_says_how_much() -> None:
    with pytest.raises(NoSolution) as refused:
        salt_dose(1.0, 4.0, 1.0, 1.0, 5.0)
    left = 1.0 - refused.value.message.values["share"].value  # type: ignore[union-attr]
    assert 4.0 * left == pytest.approx(1.0)


@settings(max_examples=40)
@given(share, st.integers(0, 50), st.integers(0, 50))
def test_changes_multiply(fraction: float, some: int, more: int) -> None:
    product = remaining_batch(fraction, some) * remaining_batch(fraction, more)
    assert remaining_batch(fraction, some + more) == pytest.approx(product)


@settings(max_examples=40)
@given(st.floats(0.0, 3.0))
def test_many_small_changes_are_a_steady_flow(volumes: float) -> None:
    in_steps = remaining_batch(volumes / 1000.0, 1000)
    assert in_steps == pytest.approx(remaining_continuous(10.0, 1e-3, volumes * 1e4), rel=6e-3)


@settings(max_examples=80)
@given(st.floats(0.0, 1.0), st.floats(0.001, 1.0), st.floats(0.01, 0.95), share)
def test_the_number_of_changes_is_the_least_that_does(
    fresh: float, above: float, where: float, fraction: float
) -> None:
    start, goal = fresh + above, fresh + above * where
    found = changes_needed(2.0, start, fresh, goal, fraction, 0.3)
    assert found.end <= goal * (1.0 + 1e-7)
    assert found.end == concentration_after(start, fresh, fraction, found.times)
    one_less = concentration_after(start, fresh, fraction, found.times - 1)
    assert one_less > goal * (1.0 - 1e-7)
    assert concentration_after(start, fresh, found.at_once, 1) == pytest.approx(goal)
    assert bool(found.warnings) == (fraction > 0.3)
    assert found.total == pytest.approx(found.times * fraction * 2.0)
    ends = [step.result.value for step in found.steps()]
    assert ends == [found.times, found.end, found.total]


def test_no_change_where_the_goal_is_met_and_one_that_takes_all() -> None:
    assert changes_needed(2.0, 1.0, 0.0, 1.0, 0.2, 0.3).times == 0
    assert changes_needed(2.0, 1.0, 0.5, 0.5, 1.0, 1.0).times == 1


@settings(max_examples=60)
@given(st.floats(274.0, 313.0), st.floats(274.0, 313.0), share, st.floats(0.5, 10.0))
def test_the_share_by_warmth_changes_it_by_no_more(
    pond: float, fresh: float, part: float, most: float
) -> None:
    assert min(pond, fresh) <= mixed_temperature(pond, fresh, part) <= max(pond, fresh)
    allowed = share_by_warmth(pond, fresh, most)
    assert abs(mixed_temperature(pond, fresh, allowed) - pond) <= most * (1.0 + 1e-9)
    assert allowed == 1.0 or abs(fresh - pond) > most


@settings(max_examples=40)
@given(st.floats(0.0, 1.0), st.floats(0.0, 1e-2), st.booleans())
def test_dechlorinator_binds_all_the_chlorine(water: float, chlorine: float, bound: bool) -> None:
    dose = dechlorinate(water, chlorine, RULES.thiosulfate_ratio, 1.0, bound)
    assert dose.mass == pytest.approx(7.0 * chlorine * water)
    assert dose.ammonia_rise * 1.0 == pytest.approx(dose.ammonia)
    assert dose.steps()[0].result.value == dose.mass
    assert (dose.ammonia > 0.0) == (len(dose.warnings) == 2) == (len(dose.steps()) == 3)
    assert dose.ammonia == 0.0 or bound


def test_the_careful_route_is_eight_times_the_other_and_water_of_crystals_weighs() -> None:
    for crystals in (True, False):
        careful = thiosulfate_ratio(crystals, "tetrathionate")
        assert careful == pytest.approx(8.0 * thiosulfate_ratio(crystals, "sulfate"))
    # The five waters are 90.08 of the crystals' 248.2 g.
    dry = thiosulfate_ratio(False, "sulfate") / thiosulfate_ratio(True, "sulfate")
    assert dry == pytest.approx(1.0 - 90.08 / 248.2, abs=5e-4)


@settings(max_examples=40)
@given(st.floats(273.15, 313.15), st.floats(0.0, 30.0), st.floats(0, 65), st.floats(-500, 5000))
def test_dry_air_takes_more(heat: float, below: float, latitude: float, altitude: float) -> None:
    dew = max(243.15, heat - below)
    moist = evaporation_linacre(heat, heat, latitude, altitude)
    dry = evaporation_linacre(heat, dew, latitude, altitude)
    assert 0.0 <= moist <= dry < 1e-6


def test_loss_is_rate_times_area_and_splash_is_said_to_be_left_out() -> None:
    rate = Span(4e-8, 5e-8, 6e-8)
    loss = water_loss(rate, 20.0, True, ENTERED)
    assert loss.flow == rate.times(20.0)
    assert loss.steps()[-1].result.value == loss.flow.likely
    assert len(loss.warnings) == 1
    assert not water_loss(rate, 20.0, False, ENTERED).warnings


@settings(max_examples=40)
@given(st.floats(0.0, 0.5), st.floats(3600.0, 1e6), st.floats(0.0, 1e-7))
def test_a_leak_is_what_the_air_does_not_explain(drop: float, time: float, most: float) -> None:
    assume(abs(drop / time - most) > 1e-15)
    found = check_for_leak(drop, time, 10.0, Span(0.0, 0.0, most))
    assert (found.unexplained > 0.0) == (drop / time > most)
    assert found.unexplained == pytest.approx(max(0.0, 10.0 * (drop / time - most)))
    assert found.steps()[0].result.value == found.unexplained
    assert ("liner" in str(found.verdict)) == (found.unexplained > 0.0)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: salt_dose(0.0, 0.0, 1.0, 1.0, 5.0),
        lambda: salt_dose(1.0, -1.0, 1.0, 1.0, 5.0),
        lambda: salt_dose(1.0, 0.0, NAN, 1.0, 5.0),
        lambda: salt_dose(1.0, 0.0, 1.0, -1.0, 5.0),
        lambda: salt_dose(1.0, 0.0, 1.0, 3.0, 2.0),
        lambda: remaining_batch(1.1, 1),
        lambda: remaining_batch(0.1, 1001),
        lambda: remaining_continuous(0.0, 0.0, 0.0),
        lambda: remaining_continuous(1.0, 11.0, 0.0),
        lambda: remaining_continuous(1.0, 0.0, NAN),
        lambda: concentration_after(-1.0, 0.0, 0.1, 1),
        lambda: concentration_after(1.0, 101.0, 0.1, 1),
        lambda: changes_needed(0.0, 1.0, 0.0, 0.5, 0.1, 0.3),
        lambda: changes_needed(1.0, NAN, 0.0, 0.5, 0.1, 0.3),
        lambda: changes_needed(1.0, 1.0, -1.0, 0.5, 0.1, 0.3),
        lambda: changes_needed(1.0, 1.0, 0.0, -0.5, 0.1, 0.3),
        lambda: changes_needed(1.0, 1.0, 0.0, 0.5, 0.0, 0.3),
        lambda: changes_needed(1.0, 1.0, 0.0, 0.5, 0.1, 0.0),
        lambda: ammonia_from_chloramine(0.2),
        lambda: dechlorinate(2.0, 1e-3, 7.0, 1.0, False),
        lambda: dechlorinate(0.5, 0.2, 7.0, 1.0, False),
        lambda: dechlorinate(0.5, 1e-3, 0.0, 1.0, False),
        lambda: dechlorinate(0.0, 1e-3, 7.0, 0.0, False),
        lambda: dose_by_label(-1.0, 1.0, 1.0),
        lambda: dose_by_label(1.0, 0.0, 1.0),
        lambda: dose_by_label(1.0, 1.0, 0.0),
        lambda: mixed_temperature(270.0, 290.0, 0.2),
        lambda: mixed_temperature(290.0, NAN, 0.2),
        lambda: mixed_temperature(290.0, 280.0, 1.1),
        lambda: share_by_warmth(400.0, 290.0, 3.0),
        lambda: share_by_warmth(290.0, 280.0, 0.0),
        lambda: pond_evaporation_from_pan(1e-5, 0.7),
        lambda: pond_evaporation_from_pan(1e-8, 2.0),
        lambda: evaporation_linacre(320.0, 290.0, 50.0, 0.0),
        lambda: evaporation_linacre(290.0, 291.0, 50.0, 0.0),
        lambda: evaporation_linacre(290.0, 280.0, -1.0, 0.0),
        lambda: evaporation_linacre(290.0, 280.0, 50.0, 1e4),
        lambda: evaporation_in_month(6.0, 0.1),
        lambda: evaporation_in_month(1.0, 1.1),
        lambda: water_loss(exactly(1e-5), 1.0, False, ENTERED),
        lambda: water_loss(NOTHING, -1.0, False, ENTERED),
        lambda: check_for_leak(3.0, DAY, 1.0, NOTHING),
        lambda: check_for_leak(0.1, 1.0, 1.0, NOTHING),
        lambda: check_for_leak(0.1, DAY, NAN, NOTHING),
        lambda: check_for_leak(0.1, DAY, 1.0, exactly(1.0)),
    ],
)
def test_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        refused()


@pytest.mark.parametrize(
    "without_answer",
    [
        lambda: changes_needed(1.0, 1.0, 0.6, 0.5, 0.1, 0.3),
        lambda: changes_needed(1.0, 1.0, 0.5, 0.5, 0.1, 0.3),
        lambda: changes_needed(1.0, 1.0, 0.0, 0.5, 1e-6, 0.3),
        lambda: changes_needed(1.0, 1.0, 0.0, 0.0, 0.9, 1.0),
    ],
)
def test_no_way_to_the_goal(without_answer: Callable[[], object]) -> None:
    with pytest.raises(NoSolution):
        without_answer()


def test_a_label_is_scaled_to_the_water() -> None:
    # 5 mL for 40 L make 12.5 mL for 100 L.
    assert dose_by_label(0.100, 5.0, 0.040) == pytest.approx(12.5)
    assert dose_by_label(0.0, 5.0, 0.040) == 0.0
    with pytest.raises(OutOfRange, match="water on the label"):
        dose_by_label(0.1, 5.0, 0.0)


def test_a_goal_next_to_the_fresh_water_takes_too_many_changes() -> None:
    with pytest.raises(NoSolution, match="more than 1000 changes"):
        changes_needed(1.0, 100.0, 0.0, 5e-324, 0.5, 0.6)
