"""Salt, water changes, chlorine and evaporation: limits, properties and refusals."""

import math
from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.errors import NoSolution, OutOfRange
from pondapp.core.dosing.dechlorinator import (
    ammonia_from_chloramine,
    dechlorinate,
    dose_by_label,
    thiosulfate_ratio,
)
from pondapp.core.dosing.evaporation import (
    Weather,
    evaporation,
    heat_of_evaporation,
    vapour_pressure,
    water_loss,
)
from pondapp.core.dosing.leak import leak_test
from pondapp.core.dosing.mixing import mixed_temperature, share_by_warmth
from pondapp.core.dosing.salt import salt_dose
from pondapp.core.dosing.water_change import (
    changes_needed,
    concentration_after,
    remaining_batch,
    remaining_continuous,
)
from pondapp.core.measuring.verdict import Certainty
from pondapp.core.stock.span import Span, exactly

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
@given(st.floats(273.15, 313.15), st.floats(273.15, 313.15), st.floats(0, 0.9), st.floats(0, 14))
def test_dry_air_and_wind_take_more_and_damp_air_takes_nothing(
    water: float, air: float, humidity: float, wind: float
) -> None:
    rate = evaporation(water, air, humidity, wind, 0.9)
    assert 0.0 <= evaporation(water, air, humidity + 0.1, wind, 0.9) <= rate
    assert rate <= evaporation(water, air, humidity, wind + 1.0, 0.9) < 1e-5
    assert evaporation(water, water, 1.0, wind, 0.9) == pytest.approx(0.0, abs=1e-20)
    assert evaporation(water, air, humidity, wind, 0.0) == 0.0


def test_loss_is_rate_times_area_with_its_range_and_splash_is_said_to_be_left_out() -> None:
    still, wind = Span(0.74, 0.87, 1.0), Span(0.5, 1.5, 2.5)
    loss = water_loss(Weather(298.15, 297.15, (0.7, 0.6, 0.5), wind), still, 20.0, True)
    assert loss.flow == loss.rate.times(20.0)
    assert loss.steps()[-1].result.value == loss.flow.likely
    assert len(loss.warnings) == 1
    # Each alone, by hand: the squares of what it changes are added.
    alone = [
        evaporation(298.15, 297.15, 0.5, 1.5, 0.87), evaporation(298.15, 297.15, 0.6, 2.5, 0.87),
        evaporation(298.15, 297.15, 0.6, 1.5, 1.0),
    ]  # fmt: skip
    off = math.sqrt(sum((one - loss.rate.likely) ** 2 for one in alone))
    assert loss.rate.high == pytest.approx(loss.rate.likely + off)
    known = water_loss(Weather(298.15, 297.15, (0.6,) * 3, exactly(1.5)), exactly(0.87), 1.0, False)
    assert known.rate == exactly(known.rate.likely)
    assert not known.warnings


CERTAIN = Certainty(sure=0.95, widest=0.5, coverage=0.95)
IN_POND = Span(0.85, 1.0, 1.15)
LEAST = 0.002 / DAY
LEVEL = exactly(1.0)


@pytest.mark.parametrize(
    ("drop", "bucket", "days", "kind"),
    [
        (0.030, 0.003, 0.5, "above"),
        (0.003, 0.003, 0.5, "undecided"),
        (0.012, 0.012, 4.0, "within"),
        (0.0, 0.0, 2.0, "within"),
        (0.0, 0.0, 0.2, "undecided"),  # a ruler that is off by a millimetre sees no leak so soon
        (0.0, 0.010, 2.0, "within"),
    ],
)
def test_a_leak_is_what_the_bucket_does_not_explain(
    drop: float, bucket: float, days: float, kind: str
) -> None:
    found = leak_test(drop, bucket, days * DAY, 0.001, IN_POND, LEAST, CERTAIN)
    assert found.decision.likely == kind
    added = bucket > drop  # less than the air takes: the chance of that is told instead
    assert found.steps()[-1].result.value == (found.added if added else found.decision.inside)
    assert (found.added >= CERTAIN.sure) == added
    assert found.leak.low <= found.leak.likely <= found.leak.high


def test_a_test_that_finds_nothing_is_sure_after_the_time_it_says() -> None:
    first = leak_test(0.002, 0.002, 0.5 * DAY, 0.001, IN_POND, LEAST, CERTAIN)
    assert first.enough is not None
    for part, kind in ((1.02, "within"), (0.9, "undecided")):
        time = part * first.enough
        fall = 0.004 * time / DAY
        again = leak_test(fall, fall, time, 0.001, IN_POND, LEAST, CERTAIN)
        assert again.decision.likely == kind
    never = leak_test(0.05, 0.05, DAY, 0.001, IN_POND, LEAST, CERTAIN)
    assert never.enough is None


def test_doubt_of_a_leak_by_hand() -> None:
    # Four readings of a millimetre each way, and 6 mm by a ratio that is off by 0.15:
    # sqrt(4 / 3 + 0.9² / 3) mm.
    found = leak_test(0.006, 0.006, DAY, 0.001, IN_POND, LEAST, CERTAIN)
    assert 1e3 * found.doubt == pytest.approx(math.sqrt(4 / 3 + 0.81 / 3))
    assert found.limit == pytest.approx(0.008)


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
        lambda: vapour_pressure(330.0),
        lambda: heat_of_evaporation(270.0),
        lambda: evaporation(298.15, 298.15, 1.1, 1.0, 1.0),
        lambda: evaporation(298.15, 298.15, 0.5, 16.0, 1.0),
        lambda: evaporation(298.15, 298.15, 0.5, 1.0, NAN),
        lambda: water_loss(
            Weather(298.15, 298.15, (0.5,) * 3, exactly(1)), exactly(1), -1.0, False
        ),
        lambda: leak_test(0.6, 0.0, DAY, 0.001, IN_POND, LEAST, CERTAIN),
        lambda: leak_test(0.1, NAN, DAY, 0.001, IN_POND, LEAST, CERTAIN),
        lambda: leak_test(0.1, 0.0, 60.0, 0.001, IN_POND, LEAST, CERTAIN),
        lambda: leak_test(0.1, 0.0, DAY, 0.0, IN_POND, LEAST, CERTAIN),
        lambda: leak_test(0.1, 0.0, DAY, 0.001, exactly(3.0), LEAST, CERTAIN),
        lambda: leak_test(0.1, 0.0, DAY, 0.001, IN_POND, 0.0, CERTAIN),
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
