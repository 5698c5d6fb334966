"""Fish, feed, filter and the balance: limits, properties, refusals, and levers that hold."""

import math
from collections.abc import Callable
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp.core.assumptions.stock import StockAssumptions
from pondapp.core.base.errors import OutOfRange
from pondapp.core.stock.ammonia import unfed_excretion
from pondapp.core.stock.balance import StockBalance, StockedPond, fit, stock_balance
from pondapp.core.stock.biomass import FishGroup, biomass, fish_mass
from pondapp.core.stock.feed import feed_at_ration, feeding
from pondapp.core.stock.nitrification import (
    MEDIA,
    MediaBed,
    alkalinity_for_nitrification,
    filter_capacity,
    nitrification_rate,
    oxygen_for_nitrification,
)
from pondapp.core.stock.respiration import respiration
from pondapp.core.stock.span import NOTHING, Span, exactly

RULES = StockAssumptions()
NAN = math.nan
DAY = 86400.0
KELVIN = 273.15
water = st.floats(273.15, 313.15)

POND = StockedPond(
    groups=(FishGroup(200, 0.20),),
    temperature=KELVIN + 22.0,
    altitude=100.0,
    beds=(MediaBed(0.3, MEDIA["limestone"].surface),),
    spare_surface=MEDIA["plastic"].surface,
    water_area=12.0,
    flow=1e-3,
    fall_height=0.4,
    feed=None,
)


def test_a_koi_of_forty_centimetres_weighs_about_a_kilogram() -> None:
    fish = biomass([FishGroup(1, 0.40)], RULES)
    assert fish.total.low < 1.0 < fish.total.high
    assert fish.total.likely == pytest.approx(1.0, rel=0.15)


@settings(max_examples=40)
@given(st.integers(0, 500), st.integers(0, 500), st.floats(0.03, 0.7), st.floats(0.03, 0.7))
def test_groups_add_and_twice_as_long_is_eight_times_as_heavy(
    some: int, more: int, one: float, other: float
) -> None:
    both = biomass([FishGroup(some, one), FishGroup(more, other)], RULES)
    alone = [biomass([FishGroup(some, one)], RULES), biomass([FishGroup(more, other)], RULES)]
    assert both.total == alone[0].total.plus(alone[1].total)
    assert fish_mass(2.0 * one, 17.0) == pytest.approx(8.0 * fish_mass(one, 17.0))
    assert both.steps()[-1].result.value == both.total.likely


def test_an_empty_pond_asks_for_nothing() -> None:
    found = stock_balance(replace(POND, groups=()), RULES)
    assert found.ammonia == found.oxygen_use == NOTHING
    assert (found.filter_fit, found.oxygen_fit, found.levers) == ("enough", "enough", ())


@settings(max_examples=60)
@given(water)
def test_no_feed_in_cold_and_in_hot_water(heat: float) -> None:
    found = feeding(exactly(10.0), heat, RULES)
    fed = RULES.feed_from <= heat <= RULES.feed_until
    assert (found.feed.high > 0.0) == (fed and heat > RULES.feed_from)
    assert fed == (found.meals[1] > 0)
    assert str(found.advice).startswith("do not feed") == (not fed)
    assert found.steps()[-1].result.value == found.appetite.likely


@settings(max_examples=40)
@given(water, water)
def test_fish_eat_no_less_in_warmer_water(one: float, other: float) -> None:
    cool, warm = sorted((one, other))
    less, more = (feeding(exactly(5.0), heat, RULES).appetite for heat in (cool, warm))
    assert less.low <= more.low
    assert less.likely <= more.likely
    assert less.high <= more.high


@settings(max_examples=60)
@given(water, water)
def test_fish_give_off_ammonia_fed_or_not_and_no_less_in_warmer_water(
    one: float, other: float
) -> None:
    cool, warm = sorted((one, other))
    for feed in (None, 0.0):
        less, more = (
            stock_balance(replace(POND, temperature=heat, feed=feed), RULES).ammonia
            for heat in (cool, warm)
        )
        assert less.low > 0.0
        assert less.low <= more.low
        assert less.likely <= more.likely
        assert less.high <= more.high


@settings(max_examples=60)
@given(st.floats(273.15, 313.1))
def test_a_breath_of_warmth_changes_no_balance_much(heat: float) -> None:
    # No step of the feeding chart, and no limit of it, makes a cliff.
    colder, warmer = (
        stock_balance(replace(POND, temperature=degrees), RULES) for degrees in (heat, heat + 0.01)
    )
    for name in ("ammonia", "oxygen_use"):
        before, after = getattr(colder, name), getattr(warmer, name)
        for end in ("low", "likely", "high"):
            assert getattr(after, end) == pytest.approx(getattr(before, end), rel=0.02, abs=1e-12)


def test_unfed_fish_give_off_what_was_printed() -> None:
    # Brett and Zala 1975: 8.2 mg of nitrogen a kg and hour, starved sockeye of 29 g at 15 °C.
    found = unfed_excretion(exactly(1.0), KELVIN + 15.0, RULES)
    printed = 8.2e-6 / 3600.0
    assert found.low < found.likely < found.high
    assert found.high == pytest.approx(printed)


@settings(max_examples=40)
@given(water, st.floats(0.0, 10.0))
def test_breath_doubles_in_ten_degrees(heat: float, mass: float) -> None:
    cool = respiration(exactly(mass), min(heat, 303.15), RULES)
    warm = respiration(exactly(mass), min(heat, 303.15) + 10.0, RULES)
    assert warm.likely == pytest.approx(RULES.respiration_q10 * cool.likely)
    assert respiration(exactly(mass), 293.15, RULES).high == pytest.approx(
        mass * RULES.respiration_high
    )


@settings(max_examples=40)
@given(water, water)
def test_a_colder_filter_does_less(one: float, other: float) -> None:
    cold, warm = sorted((one, other))
    less, more = nitrification_rate(cold, RULES), nitrification_rate(warm, RULES)
    assert less.low <= more.low
    assert less.likely <= more.likely
    assert less.high <= more.high


def test_the_filter_s_rates_are_those_of_the_rules_at_their_temperatures() -> None:
    cold = nitrification_rate(RULES.nitrification_cold_at, RULES)
    warm = nitrification_rate(RULES.nitrification_warm_at, RULES)
    assert cold.likely == pytest.approx(RULES.nitrification_cold_likely)
    assert (warm.low, warm.high) == pytest.approx(
        (RULES.nitrification_warm_low, RULES.nitrification_warm_high)
    )
    assert nitrification_rate(KELVIN + 35.0, RULES) == warm


def test_a_filter_near_freezing_is_warned_of() -> None:
    assert not filter_capacity(POND.beds, KELVIN + 4.0, RULES).warnings
    assert filter_capacity(POND.beds, KELVIN + 3.9, RULES).warnings
    assert filter_capacity((), KELVIN + 20.0, RULES).capacity == NOTHING


@pytest.mark.parametrize(
    ("need", "have", "verdict"),
    [
        (Span(1, 2, 3), Span(3, 4, 5), "enough"),
        (Span(1, 2, 3), Span(2, 2, 5), "likely enough"),
        (Span(1, 3, 4), Span(1, 2, 5), "likely too little"),
        (Span(5, 6, 7), Span(1, 2, 5), "likely too little"),
        (Span(6, 6, 7), Span(1, 2, 5), "too little"),
    ],
)
def test_verdict_of_ranges(need: Span, have: Span, verdict: str) -> None:
    assert fit(need, have) == verdict
    unsure = fit(need, have, counted_all=False)
    assert unsure == ("unknown" if "too little" in verdict else verdict)


def assert_settled(found: StockBalance, sides: tuple[str, ...]) -> None:
    if "filter" in sides:
        assert found.ammonia.likely <= found.capacity.capacity.likely * (1.0 + 1e-9)
    if "oxygen" in sides:
        assert found.oxygen_use.likely <= found.oxygen.supply.likely * (1.0 + 1e-9)


@settings(max_examples=80)
@given(
    count=st.integers(1, 3000),
    length=st.floats(0.05, 0.6),
    heat=st.floats(KELVIN + 4.0, KELVIN + 30.0),
    media=st.floats(0.0, 2.0),
    flow=st.floats(0.0, 0.01),
    feed=st.none() | st.floats(0.0, 1e-5),
)
def test_every_lever_settles_what_it_says(
    count: int, length: float, heat: float, media: float, flow: float, feed: float | None
) -> None:
    pond = replace(
        POND,
        groups=(FishGroup(count, length),),
        temperature=heat,
        beds=(MediaBed(media, MEDIA["limestone"].surface),),
        flow=flow,
        feed=feed,
    )
    found = stock_balance(pond, RULES)
    both_likely = not {found.filter_fit, found.oxygen_fit} & {"likely too little", "too little"}
    if both_likely:
        assert found.levers == ()
    for lever in found.levers:
        amount = lever.amount.value
        assert amount >= 0.0
        match lever.kind:
            case "more media":
                beds = (*pond.beds, MediaBed(amount, pond.spare_surface))
                changed = replace(pond, beds=beds)
            case "fewer fish":
                left = count - int(amount)
                assert left >= 0
                less = None if feed is None else feed * left / count
                changed = replace(pond, groups=(FishGroup(left, length),), feed=less)
            case "less feed":
                changed = replace(pond, feed=amount)
            case "more flow":
                changed = replace(pond, flow=flow + amount)
            case "air pump":
                extra = found.oxygen.supply.likely + amount
                assert extra == pytest.approx(found.oxygen_use.likely)
                continue
        assert_settled(stock_balance(changed, RULES), lever.settles)


def test_an_overstocked_pond_gets_every_lever_and_an_understocked_none() -> None:
    crowded = stock_balance(replace(POND, groups=(FishGroup(400, 0.25),)), RULES)
    kinds = {lever.kind for lever in crowded.levers}
    assert {"more media", "fewer fish", "less feed", "more flow", "air pump"} >= kinds
    assert {"more media", "fewer fish", "more flow", "air pump"} <= kinds
    roomy = stock_balance(replace(POND, groups=(FishGroup(3, 0.15),)), RULES)
    assert roomy.levers == ()
    assert (roomy.filter_fit, roomy.oxygen_fit) == ("enough", "enough")


def test_water_that_cannot_hold_the_oxygen_is_said_to_and_no_flow_is_offered() -> None:
    hot = stock_balance(replace(POND, temperature=KELVIN + 38.0, altitude=2500.0), RULES)
    assert hot.oxygen.supply == NOTHING
    assert any("shade" in str(warning) for warning in hot.warnings)
    assert not {"more flow", "air pump"} & {lever.kind for lever in hot.levers}


def test_media_without_surface_and_a_fall_without_height_are_no_levers() -> None:
    crowded = replace(
        POND, groups=(FishGroup(400, 0.25),), spare_surface=exactly(1e-320), fall_height=1e-320
    )
    kinds = {lever.kind for lever in stock_balance(crowded, RULES).levers}
    assert not kinds & {"more media", "more flow"}


def test_without_any_filter_no_diet_settles_it() -> None:
    bare = stock_balance(replace(POND, beds=()), RULES)
    assert bare.filter_fit == "too little"
    settles = [lever.settles for lever in bare.levers if lever.kind == "less feed"]
    assert ("filter",) not in settles


def test_what_is_not_known_has_no_levers() -> None:
    crowded = replace(POND, groups=(FishGroup(400, 0.25),), all_beds=False, all_air=False)
    found = stock_balance(crowded, RULES)
    assert (found.filter_fit, found.oxygen_fit) == ("unknown", "unknown")
    assert found.levers == ()
    only_air = stock_balance(replace(crowded, all_air=True), RULES)
    assert only_air.filter_fit == "unknown"
    assert all(lever.settles == ("oxygen",) for lever in only_air.levers)


ORDER = ("enough", "likely enough", "unknown", "likely too little", "too little")


@settings(max_examples=60)
@given(st.integers(0, 300), st.integers(1, 300), water, st.booleans())
def test_more_fish_never_make_a_filter_or_the_air_enough(
    count: int, more: int, heat: float, all_counted: bool
) -> None:
    few, lots = (
        stock_balance(
            replace(
                POND, groups=(FishGroup(n, 0.2),), temperature=heat, all_beds=all_counted,
                all_air=all_counted,
            ),
            RULES,
        )
        for n in (count, count + more)
    )  # fmt: skip
    assert ORDER.index(lots.filter_fit) >= ORDER.index(few.filter_fit)
    assert ORDER.index(lots.oxygen_fit) >= ORDER.index(few.oxygen_fit)


def test_near_freezing_no_filter_is_surely_enough() -> None:
    rate = nitrification_rate(RULES.nitrification_rest - 0.1, RULES)
    assert rate.low == 0.0 < rate.likely
    cold = replace(POND, groups=(FishGroup(1, 0.05),), temperature=KELVIN + 3.0)
    assert stock_balance(cold, RULES).filter_fit == "likely enough"


def test_feed_beyond_appetite_is_warned_of() -> None:
    eaten = stock_balance(POND, RULES).feeding.feed.high
    assert not stock_balance(replace(POND, feed=eaten), RULES).warnings
    assert stock_balance(replace(POND, feed=1.01 * eaten), RULES).warnings


def test_working_holds_the_numbers_of_the_balance() -> None:
    found = stock_balance(POND, RULES)
    values = {step.result.symbol: step.result.value for step in found.steps()}
    assert values["B"] == found.biomass.total.likely
    assert values["P"] == found.ammonia.likely
    assert values["N"] == found.capacity.capacity.likely
    assert values["O"] == pytest.approx(values["Of"] + values["Ob"])
    assert values["M"] == found.oxygen.supply.likely
    assert values["K"] == found.alkalinity_use.likely


BACKWARDS = replace(RULES, feed_from=KELVIN + 20.0)


@pytest.mark.parametrize(
    "refused",
    [
        lambda: fish_mass(0.0, 17.0),
        lambda: fish_mass(NAN, 17.0),
        lambda: fish_mass(0.2, 1.0),
        lambda: biomass([FishGroup(-1, 0.2)], RULES),
        lambda: biomass([FishGroup(1, 2.0)], RULES),
        lambda: biomass([FishGroup(1, 0.2)], replace(RULES, condition_low=30.0)),
        lambda: feed_at_ration(-1.0, 1e-7),
        lambda: feed_at_ration(1.0, 1.0),
        lambda: feeding(exactly(1.0), 250.0, RULES),
        lambda: feeding(exactly(1e7), 290.0, RULES),
        lambda: feeding(exactly(1.0), 290.0, BACKWARDS),
        lambda: respiration(exactly(1e7), 290.0, RULES),
        lambda: respiration(exactly(1.0), NAN, RULES),
        lambda: nitrification_rate(320.0, RULES),
        lambda: nitrification_rate(290.0, replace(RULES, nitrification_cold_low=1e-6)),
        lambda: nitrification_rate(
            290.0, replace(RULES, nitrification_warm_at=RULES.nitrification_cold_at)
        ),
        lambda: filter_capacity([MediaBed(-1.0, exactly(100.0))], 290.0, RULES),
        lambda: filter_capacity([MediaBed(1.0, exactly(1e6))], 290.0, RULES),
        lambda: oxygen_for_nitrification(-1.0),
        lambda: alkalinity_for_nitrification(NAN),
        lambda: stock_balance(replace(POND, feed=-1.0), RULES),
        lambda: stock_balance(replace(POND, feed=NAN), RULES),
        lambda: stock_balance(replace(POND, temperature=NAN), RULES),
        lambda: stock_balance(replace(POND, flow=-1.0), RULES),
        lambda: stock_balance(replace(POND, fall_height=5.0), RULES),
    ],
)
def test_refused(refused: Callable[[], object]) -> None:
    with pytest.raises(OutOfRange):
        refused()


def test_media_by_the_lorry_are_no_advice() -> None:
    # A hundred thousand fish over a square metre of media per cubic metre: no bed is so large.
    crowded = replace(POND, groups=(FishGroup(100_000, 0.60),), spare_surface=exactly(1.0))
    kinds = {lever.kind for lever in stock_balance(crowded, RULES).levers}
    assert "more media" not in kinds
