"""Fish, filter and oxygen of a whole pond."""

from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from pondapp import units
from pondapp.answers.fish.stock import WORST, Stock, stock, toxic_shares
from pondapp.answers.planning.plan import PondPlan
from pondapp.answers.pond import WorkedPond
from pondapp.core.base.messages import Amount, Message
from pondapp.core.stock.ammonia import unionised_share
from pondapp.models.circuit import BogFilter, Branch, HighFlowFilter, Line, Lip, Pump
from pondapp.models.fish import FishGroup
from pondapp.models.pond import Pond
from pondapp.models.water import Basin, Drawn, Rectangle, TypedVolume

POOL = Basin(id="b", name="Pool", outline=Rectangle(length_m=4, width_m=3), depth_m=1)
BOG = BogFilter(id="bog", name="Bog", bed_volume_m3=1.2)
LIP = Lip(id="lip", name="Fall", width_m=0.3, fall_m=0.5)
FEW = FishGroup(id="g", name="Goldfish", count=6, length_m=0.15, grown_length_m=0.25)


def pond(**more: Any) -> Pond:
    known: dict[str, Any] = {
        "id": "p", "name": "Invented", "water": Drawn(basins=(POOL,)), "fish": (FEW,),
        "fed": (BOG, LIP), "water_temperature_c": 22,
    }  # fmt: skip
    return Pond(**{**known, **more})


def many(count: int) -> tuple[FishGroup, ...]:
    return (FEW.model_copy(update={"count": count}),)


def usual(of: Pond, **more: Any) -> Stock:
    """The answer in the water as it is entered."""
    return stock(WorkedPond(of), grown=more.pop("grown", False), **more).usual


def told(message: Message) -> str:
    return units.tell(message, "metric")


def test_a_few_goldfish_and_a_bog_go_together() -> None:
    found = stock(WorkedPond(pond()), grown=False)
    assert found.good
    assert told(found.verdict) == (
        "In the warmest week, at an assumed 26 °C and with the planned flows: "
        "Filter, oxygen and fish go together."
    )
    for one in (found.usual, found.warmest):
        assert one.balance.levers == ()
        assert one.left_out == ()
        assert len(one.counted) == 4
        assert told(one.counted[2]).startswith("The bog is 10 % of the pond's volume")


def test_no_tick_rests_on_an_assumed_warmth_or_a_planned_flow() -> None:
    warm = pond().model_copy(update={"warmest_temperature_c": 26.0})
    flows = {one.id: 3000.0 / 3.6e6 for line in warm.lines for one in line.branches}
    flows |= {one.id: 3000.0 / 3.6e6 for one in warm.fed}
    seen = {
        name: stock(WorkedPond(of), grown=False, flows=read).severity
        for name, of, read in (
            ("all", warm, flows), ("assumed", pond(), flows), ("planned", warm, {}),
        )
    }  # fmt: skip
    assert seen == {"all": "right", "assumed": "unknown", "planned": "unknown"}


def test_too_many_fish_are_said_and_each_lever_settles_it() -> None:
    small = BOG.model_copy(update={"bed_volume_m3": 0.2})
    crowded = pond(fish=many(400), fed=(small, LIP))
    found = usual(crowded, grown=True)
    assert not found.good
    levers = {lever.kind: lever for lever in found.balance.levers}
    assert {"more media", "fewer fish", "less feed"} <= set(levers)
    bigger = BOG.model_copy(update={"bed_volume_m3": 0.2001 + levers["more media"].amount.value})
    mended = usual(crowded.model_copy(update={"fed": (bigger, LIP)}), grown=True)
    assert mended.balance.filter_fit == "likely enough"
    fewer = 400 - int(levers["fewer fish"].amount.value)
    assert usual(pond(fish=many(fewer), fed=(small, LIP)), grown=True).good


@given(st.integers(1, 300), st.integers(1, 300))
@settings(max_examples=15, deadline=None)
def test_more_fish_never_ask_for_less_and_never_make_it_enough(count: int, more: int) -> None:
    few, lots = (stock(WorkedPond(pond(fish=many(n))), grown=False) for n in (count, count + more))
    for less, most in ((few.usual, lots.usual), (few.warmest, lots.warmest)):
        assert most.ammonia.likely > less.ammonia.likely
        assert most.oxygen_use.likely > less.oxygen_use.likely
        assert most.capacity == less.capacity
    assert WORST.index(lots.worse.state) <= WORST.index(few.worse.state)


def test_grown_fish_weigh_by_the_cube_of_their_length() -> None:
    now, grown = (usual(pond(), grown=grown).fish.likely for grown in (False, True))
    assert grown / now == pytest.approx((0.25 / 0.15) ** 3)


def test_feed_by_hand_counts_instead_of_the_charts() -> None:
    found = usual(pond(feed_kg_day=0.02))
    assert found.feed.low == found.feed.high == pytest.approx(0.02)
    # 35 % protein and 9.2 % of it as ammonia nitrogen: Timmons and Ebeling.
    assert found.ammonia.likely == pytest.approx(0.02 * 0.35 * 0.092)


def test_a_measured_flow_counts_before_the_planned_one() -> None:
    plan = WorkedPond(pond()).plan
    assert isinstance(plan, PondPlan)
    planned, measured = (
        usual(pond(), flows=flows).balance.oxygen.by_fall.likely
        for flows in ({}, {"lip": plan.through["lip"] / 2})
    )
    assert measured == pytest.approx(planned / 2)


KOI = FishGroup(id="k", name="Koi", count=20, length_m=0.35)
KOI_POND = {
    "water": Drawn(basins=(Basin(id="b", name="Pool", outline=Rectangle(length_m=2.5, width_m=2),
                                 depth_m=0.6),)),
    "fish": (KOI,), "water_temperature_c": 20,
    "fed": (BogFilter(id="bog", name="Bog", bed_volume_m3=0.3),
            Lip(id="lip", name="Fall", width_m=0.6, fall_m=0.5)),
}  # fmt: skip


def test_the_fall_has_the_flow_of_the_plan_and_not_the_rule_s_best() -> None:
    crowded = pond(**KOI_POND)
    plan = WorkedPond(crowded).plan
    assert isinstance(plan, PondPlan)
    flow = plan.through["lip"]
    found = usual(crowded)
    shown = units.show(flow, "flow", "metric")
    assert any(f"with the planned {shown}" in told(line) for line in found.counted)
    assert found.balance == usual(crowded, flows={"lip": flow}).balance
    # 4000 L/h over this lip leave the fish short of oxygen at night, 8000 do not.
    little, much = (usual(crowded, flows={"lip": lph / 3.6e6}) for lph in (4000, 8000))
    assert told(little.verdict) == "At night there is likely too little oxygen for these fish."
    assert much.good


def test_a_pump_that_brings_nothing_brings_no_oxygen_and_feeds_no_filter() -> None:
    def line(**pump: float) -> Pond:
        weak = Pump(id="w", name="Weak", max_flow_m3_s=20000 / 3.6e6, **pump)
        branches = tuple(
            Branch(id=f"to-{key}", name=key, feeds=(key,), lift_m=1.5, valve="ball")
            for key in ("bog", "lip")
        )
        path = Line(id="line", name="Pump", pump_id="w", branches=branches)
        return pond(**KOI_POND, pumps=(weak,), lines=(path,))

    strong, none = usual(line(max_head_m=8.0)), usual(line(max_head_m=1.0))
    assert strong.balance.oxygen.by_fall.likely > 0
    assert none.balance.oxygen.by_fall.likely == 0
    assert none.capacity.high == 0
    assert none.state == "too little"
    assert any("its pump brings no" in told(line) for line in (*none.left_out, *none.counted))


def test_a_filter_that_stood_dry_when_measured_counts_for_nothing() -> None:
    found = usual(pond(), flows={"bog": 0.0})
    assert found.capacity.high == 0
    assert any("no water came" in told(line) for line in found.left_out)


GOLDFISH = FishGroup(id="g", name="Goldfish", count=3, length_m=0.10)
BOX = HighFlowFilter(id="box", name="Box")


def test_missing_media_and_surface_are_not_known_and_give_no_levers() -> None:
    bare = pond(water=TypedVolume(volume_m3=5), fish=(GOLDFISH,), fed=(BOX,))
    found = stock(WorkedPond(bare), grown=False)
    assert not found.good
    for one in (found.usual, found.warmest):
        assert (one.state, one.balance.levers) == ("unknown", ())
        assert one.balance.filter_fit == one.balance.oxygen_fit == "unknown"
        assert told(one.verdict) == (
            "Whether filter and oxygen are enough for these fish is not known yet."
        )
        said = " ".join(map(told, one.left_out))
        assert "volume of its media" in said
        assert "draw the pond's shape" in said
    whole = BOX.model_copy(update={"media_volume_m3": 0.03})
    assert stock(WorkedPond(pond(fish=(GOLDFISH,), fed=(whole,))), grown=False).good


def test_what_is_known_to_be_enough_is_so_whatever_is_missing_besides() -> None:
    more = usual(pond(fish=(GOLDFISH,), fed=(BOG, LIP, BOX)))
    assert more.balance.filter_fit == "enough"
    assert more.left_out


def test_only_the_side_that_is_known_is_judged_and_has_levers() -> None:
    crowded = pond(fish=many(400), fed=(BOX, LIP))
    found = usual(crowded, grown=True)
    assert found.balance.filter_fit == "unknown"
    assert "whether the filter is enough is not known yet" in told(found.verdict)
    assert found.balance.levers
    assert all(lever.settles == ("oxygen",) for lever in found.balance.levers)


@pytest.mark.parametrize("warmth", [28.0, 28.1, 9.9, 4.0, 30.0])
def test_thirty_koi_without_a_filter_are_too_many_at_any_temperature(warmth: float) -> None:
    koi = (KOI.model_copy(update={"count": 30}),)
    found = usual(pond(fish=koi, fed=(LIP,), water_temperature_c=warmth))
    assert found.balance.filter_fit == "too little"
    assert found.ammonia.low > 0


def test_the_warmest_week_is_judged_too_and_said_to_be_assumed() -> None:
    koi = (KOI.model_copy(update={"count": 10, "length_m": 0.40}),)
    pool = Basin(id="b", name="Pool", outline=Rectangle(length_m=4, width_m=2), depth_m=1)
    bog, lip = (BogFilter(id="bog", name="Bog", bed_volume_m3=0.8),
                Lip(id="lip", name="Fall", width_m=0.4, fall_m=0.4))  # fmt: skip
    eight = pond(water=Drawn(basins=(pool,)), fish=koi, fed=(bog, lip), water_temperature_c=18)
    flows = {"lip": 4000 / 3.6e6}
    found = stock(WorkedPond(eight), grown=False, flows=flows)
    assert found.usual.good
    assert not found.good
    assert found.assumed
    assert told(found.verdict) == (
        "In the warmest week, at 26 °C: At night there is likely too little oxygen for these fish."
    )
    cool = stock(
        WorkedPond(eight.model_copy(update={"warmest_temperature_c": 19.0})),
        grown=False,
        flows=flows,
    )
    assert cool.good
    assert not cool.assumed
    assert told(cool.verdict).startswith("In the warmest week, at 19 °C")


def test_how_much_must_pass_the_filters_is_said() -> None:
    found = usual(pond(**KOI_POND), flows={"bog": 1000 / 3.6e6})
    assert found.through_filters is not None
    assert told(found.through_filters).startswith(
        "Only 1,000 L/h flows through the filters; about "
    )
    # The mass balance: what is given off over what a pass takes out of the allowed total.
    need = found.through_filters.values["need"]
    assert isinstance(need, Amount)
    allowed = 2e-5 / unionised_share(293.15, 8.0)
    assert need.value == pytest.approx(found.ammonia.likely / 86400 / (0.25 * allowed))
    easy = usual(pond(fish=(GOLDFISH,))).through_filters
    assert easy is not None
    assert "Only" not in told(easy)
    assert usual(pond(fed=(LIP,))).through_filters is None


def test_a_pump_on_a_timer_counts_for_nothing_at_night() -> None:
    branches = (
        Branch(id="one", name="One", feeds=("bog",)),
        Branch(id="two", name="Two", feeds=("lip",)),
    )
    line = Line(id="line", name="Pump", branches=branches)
    by_day = line.model_copy(update={"hours_per_day": 12.0})
    assert usual(pond(lines=(line,))).balance.oxygen.by_fall.likely > 0
    found = usual(pond(lines=(by_day,)))
    assert found.capacity.high == 0
    assert found.balance.oxygen.by_fall.likely == 0
    assert len(found.left_out) == 2
    only_bog = line.model_copy(update={"branches": branches[:1]})
    assert "no branch" in str(usual(pond(lines=(only_bog,))).left_out[0])


def test_toxic_ammonia_grows_with_ph() -> None:
    shares = [share for _, share in toxic_shares(pond())]
    assert shares == sorted(shares)
